import type { Option } from '../../assessment.ts';
import { InFigures } from '../charts/in-figures.tsx';
import { messages } from '../language.ts';
import { sayDays, sayPercent } from '../words.ts';
import { eachOf, hundredOf, KINDS, type Kind } from './hundred.ts';

const COLUMNS = 20;
const STEP = 15;
const ROW = 13;

/** Out of a hundred such cards: told apart by shape as well as by colour, so that it reads in print. */
export function HundredCards({ option, horizonDays }: { readonly option: Option; readonly horizonDays: number }) {
  const { hundred: words } = messages.value;
  const hundred = hundredOf(option.works, option.holds);
  const days = sayDays(horizonDays);
  const said: { readonly [kind in Kind]: string } = {
    holds: words.holds(days),
    relapses: words.relapses(days),
    fails: words.fails,
  };
  const range = (interval: Option['worksInterval']) =>
    interval === undefined ? '' : words.range(sayPercent(interval.low), sayPercent(interval.high));
  return (
    <figure class="hundred">
      <figcaption>
        <b>{words.heading}</b>
      </figcaption>
      <svg
        viewBox={`-1 -1 ${COLUMNS * STEP - 1} ${(100 / COLUMNS) * ROW - 1}`}
        role="img"
        aria-label={words.sentence(hundred.holds, hundred.relapses, hundred.fails, days)}
      >
        {eachOf(hundred).map((kind, at) => (
          <g key={at} transform={`translate(${(at % COLUMNS) * STEP} ${Math.floor(at / COLUMNS) * ROW})`}>
            <Figure kind={kind} />
          </g>
        ))}
      </svg>
      <ul class="hundred-legend">
        {KINDS.filter((kind) => hundred[kind] > 0).map((kind) => (
          <li key={kind}>
            <svg viewBox="-1 -1 14 12" aria-hidden="true">
              <Figure kind={kind} />
            </svg>
            <b>{hundred[kind]}</b> {said[kind]}
          </li>
        ))}
      </ul>
      <InFigures
        title={words.inFigures}
        columns={[
          { name: words.outcome },
          { name: words.cards, number: true },
          { name: words.range(sayPercent(0.05), sayPercent(0.95)), number: true },
        ]}
        rows={[
          [messages.value.options.works, sayPercent(option.works), range(option.worksInterval)],
          [messages.value.options.holds(days), sayPercent(option.holds), range(option.holdsInterval)],
          ...KINDS.map((kind) => [said[kind], String(hundred[kind]), '']),
        ]}
      />
    </figure>
  );
}

/** A small card: ticked, half full, or crossed out. */
function Figure({ kind }: { kind: Kind }) {
  return (
    <g class="hundred-card" data-kind={kind}>
      <rect width="12" height="10" rx="1.6" />
      {kind === 'holds' && <path class="tick" d="M3 5.2 5.2 7.4 9.2 2.9" />}
      {kind === 'relapses' && <path class="half" d="M0 1.6A1.6 1.6 0 0 1 1.6 0H6v10H1.6A1.6 1.6 0 0 1 0 8.4z" />}
      {kind === 'fails' && <path class="cross" d="M3.4 2.8 8.6 7.2M8.6 2.8 3.4 7.2" />}
    </g>
  );
}
