import { thinkOtherwise } from '../../assess/what-if.ts';
import type { Assessed, Sensitivity } from '../../assessment.ts';
import { InFigures } from '../charts/in-figures.tsx';
import { messages } from '../language.ts';
import { useSession } from '../session.ts';
import { type Manner, sayMoney, sayPercent, sayStamp, sayVerdict } from '../words.ts';
import { firmnessOf, triesOf } from './firmness.ts';
import { toneOf } from './stamp.tsx';
import { Tornado } from './tornado.tsx';

interface Props {
  readonly assessed: Assessed;
  readonly manner: Manner;
}

/** How firm the verdict is: against the figures it rests on, and against a better plan. */
export function Firmness({ assessed, manner }: Props) {
  const drawn = useSession().adviser.advice.value.draws;
  const { firmness: words } = messages.value;
  const { sensitivity, whatIf, verdict } = assessed;
  const stands = whatIf === undefined ? null : thinkOtherwise(whatIf, {});
  const about = stands === null ? null : (stands.subject ?? stands.advised);
  return (
    <>
      {sensitivity === undefined && drawn === 0 && <p class="waiting">{words.shaking}</p>}
      {sensitivity !== undefined && <Shaken sensitivity={sensitivity} kind={verdict.kind} />}
      {sensitivity !== undefined && sensitivity.tornado.length > 0 && about !== null && (
        <Tornado
          tornado={sensitivity.tornado}
          now={about.surplus}
          needed={about.stop === null ? about.margin : null}
          manner={manner}
        />
      )}
      <Certificate assessed={assessed} manner={manner} />
    </>
  );
}

/** Narrower than this there is no room for a word, in tries of a hundred. */
const LEAST_TRIES_NAMED = 20;

function Shaken({ sensitivity, kind }: { sensitivity: Sensitivity; kind: Assessed['verdict']['kind'] }) {
  const { firmness: words } = messages.value;
  const others = sensitivity.winners.filter(({ verdict, share }) => verdict !== kind && share >= 0.01);
  const said = others.map(({ verdict, share }) => `${sayVerdict(verdict)} (${sayPercent(share)})`).join(', ');
  const tries = triesOf(sensitivity.winners, kind);
  return (
    <figure class="tries">
      <p>
        <b>{words.words[firmnessOf(sensitivity, kind)]}</b> {words.stands(Math.round(100 * sensitivity.stands))}
        {others.length > 0 && words.else(said)}.
      </p>
      <div class="tries-bar" role="img" aria-label={words.winners}>
        {tries.map(({ verdict, count }) => (
          <span
            class="tries-part"
            data-tone={toneOf(verdict)}
            data-kind={verdict}
            style={{ flexGrow: count }}
            key={verdict}
          >
            {count >= LEAST_TRIES_NAMED && (
              <span>
                {sayStamp(verdict)} <b>{count}</b>
              </span>
            )}
          </span>
        ))}
      </div>
      <InFigures
        title={words.winnersInFigures}
        columns={[{ name: words.verdict }, { name: words.share, number: true }]}
        rows={tries.map(({ verdict, count }) => [sayVerdict(verdict), String(count)])}
      />
    </figure>
  );
}

function Certificate({ assessed, manner }: Props) {
  const { firmness: words } = messages.value;
  const { method, now, value, upperBound, coverage } = assessed.certificate;
  const missed = Math.max(0, upperBound - value);
  return (
    <p class="certificate">
      {words.deciding(sayMoney(now, manner), sayMoney(value, manner))}{' '}
      {method === 'exact' ? words.exact : words.bounded(sayMoney(upperBound, manner), sayMoney(missed, manner))}{' '}
      {words.coverage(sayPercent(coverage))}
    </p>
  );
}
