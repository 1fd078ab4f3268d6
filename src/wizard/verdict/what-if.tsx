/** Figures tried otherwise: the verdict is formed anew on every movement of the hand. */
import { useEffect, useMemo, useState } from 'preact/hooks';
import { type Axis, type Reconsidered, thinkOtherwise, type VerdictRegion } from '../../assess/what-if.ts';
import type { Assessed, WhatIf } from '../../assessment.ts';
import type { Shop } from '../../shop/schema.ts';
import { InFigures } from '../charts/in-figures.tsx';
import { setMoney } from '../desk.ts';
import { Fold } from '../frame/fold.tsx';
import { messages } from '../language.ts';
import { useSession } from '../session.ts';
import { type Manner, sayFrequency, sayMinutesExactly, sayMoney, sayVerdict } from '../words.ts';
import { moneyTried, OF_THE_CARD } from './money-tried.ts';
import { PriceLine } from './price-line.tsx';
import { bandsOf, changesOf, type Slider, shareAlong, slidersFor } from './sliders.ts';
import { StampOf, toneOf } from './stamp.tsx';

interface Props {
  readonly whatIf: WhatIf;
  readonly verdict: Assessed['verdict'];
  readonly shop: Shop;
  readonly manner: Manner;
}

export function WhatIfOtherwise({ whatIf, verdict, shop, manner }: Props) {
  const { edit } = useSession();
  const words = messages.value.whatIf;
  const [figures, setFigures] = useState<ReadonlyMap<Axis, number>>(new Map());
  const sliders = useMemo(() => slidersFor(whatIf), [whatIf]);
  const changes = changesOf(sliders, figures);
  const { advised, subject } = thinkOtherwise(whatIf, changes);
  // the repair advised or, where none is, the one that might have been
  const priced = advised.stop === null ? advised : (subject ?? advised);
  const bands = sliders.map((slider) => bandsOf(whatIf, changes, slider));
  const put = (axis: Axis, figure: number) => setFigures(new Map(figures).set(axis, figure));
  const keepable = OF_THE_CARD.some((axis) => figures.has(axis));
  const keep = () => {
    edit((record) =>
      setMoney(record, { ...(record.money ?? shop.defaultMoney), ...moneyTried(whatIf, figures, record) }),
    );
    setFigures(new Map([...figures].filter(([axis]) => !OF_THE_CARD.includes(axis))));
  };
  return (
    <Fold heading={words.heading} kind="what-if">
      <p class="about">{subject === null ? words.aboutNone : words.about(subject.name)}</p>
      <div class="what-if-verdict" data-changed={figures.size > 0}>
        <p class="verdict-head">
          <StampOf verdict={advised.verdict} />
          <b>{advised.name}</b>
        </p>
        {priced.stop === null && (
          <p class="what-if-surplus">
            {priced === advised ? words.surplus : words.surplusOf(priced.name)}:{' '}
            <b>{sayMoney(priced.surplus, manner)}</b>, {words.needed(sayMoney(priced.margin, manner))}
          </p>
        )}
        <PriceLine
          option={priced}
          words={sayBand(priced, manner)}
          manner={manner}
          upTo={Math.max(whatIf.money.working, figures.get('working') ?? 0)}
        />
      </div>
      <div class="sliders">
        {sliders.map((slider, at) => (
          <Figure
            key={slider.axis}
            slider={slider}
            figure={figures.get(slider.axis) ?? slider.now}
            tried={figures.has(slider.axis)}
            bands={bands[at]!}
            verdict={sayVerdict(advised.verdict)}
            say={sayFigure(slider, manner)}
            onFigure={(figure) => put(slider.axis, figure)}
          />
        ))}
      </div>
      <p class="buttons">
        <button type="button" disabled={figures.size === 0} onClick={() => setFigures(new Map())}>
          {words.back}
        </button>
        {keepable && (
          <button type="button" class="quiet" onClick={keep}>
            {words.keep}
          </button>
        )}
      </p>
      {[...figures.keys()].some((axis) => !OF_THE_CARD.includes(axis)) && <p class="about">{words.notOfTheCard}</p>}
      <Settled
        words={
          figures.size === 0
            ? ''
            : (advised.verdict === verdict.kind ? words.same : words.becomes)(sayVerdict(advised.verdict))
        }
      />
      {verdict.breakEvens.length > 0 && (
        <>
          <h3>{messages.value.verdict.change}</h3>
          <ul class="break-evens">
            {verdict.breakEvens.map((breakEven) => (
              <li key={breakEven.what}>{breakEven.sentence}</li>
            ))}
          </ul>
        </>
      )}
      <InFigures
        title={words.inFigures}
        columns={[
          { name: words.figure },
          { name: words.from, number: true },
          { name: words.to, number: true },
          { name: words.verdict },
        ]}
        rows={sliders.flatMap((slider, at) => {
          const say = sayFigure(slider, manner);
          return bands[at]!.map(({ from, to, verdict: wins }) => [
            words.names[slider.axis],
            say(from),
            say(to),
            sayVerdict(wins),
          ]);
        })}
      />
    </Fold>
  );
}

/** As the price line says it on the ticket, only shorter: this is not the offer. */
function sayBand({ floor, ceiling }: Reconsidered, manner: Manner): string | null {
  if (floor === null || ceiling === null) return null;
  const { band, noBand } = messages.value.whatIf;
  const [least, most] = [floor, ceiling].map((amount) => sayMoney(Math.max(0, amount), manner)) as [string, string];
  return ceiling >= floor ? band(least, most) : noBand(least, most);
}

function sayFigure({ unit }: Slider, manner: Manner): (figure: number) => string {
  if (unit === 'money') return (figure) => sayMoney(figure, manner);
  return unit === 'minutes' ? sayMinutesExactly : sayFrequency;
}

interface FigureProps {
  readonly slider: Slider;
  readonly figure: number;
  readonly tried: boolean;
  readonly bands: readonly VerdictRegion[];
  readonly verdict: string;
  readonly say: (figure: number) => string;
  readonly onFigure: (figure: number) => void;
}

function Figure({ slider, figure, tried, bands, verdict, say, onFigure }: FigureProps) {
  const words = messages.value.whatIf;
  const { axis, from, to, step, now } = slider;
  const id = `what-if-${axis}`;
  return (
    <div class="slider" data-tried={tried}>
      <label for={id}>
        <span>{words.names[axis]}</span> <b>{say(figure)}</b>
        <small>{tried ? words.wasValue(say(now)) : words.unchanged}</small>
      </label>
      <input
        id={id}
        type="range"
        min={from}
        max={to}
        step={step}
        value={figure}
        aria-valuetext={words.verdictAt(say(figure), verdict)}
        onInput={({ currentTarget }) => onFigure(currentTarget.valueAsNumber)}
      />
      <Bands slider={slider} bands={bands} />
      <span class="slider-ends" aria-hidden="true">
        <span>{say(from)}</span>
        <span>{say(to)}</span>
      </span>
    </div>
  );
}

/** Narrower than this there is no room for a word, in percent of the band. */
const LEAST_WIDTH_NAMED = 17;

function Bands({ slider, bands }: { slider: Slider; bands: readonly VerdictRegion[] }) {
  const { stamps } = messages.value.words;
  return (
    <span class="bands" aria-hidden="true">
      {bands.map(({ from, to, verdict }) => {
        const left = shareAlong(slider, from);
        const width = shareAlong(slider, to) - left;
        return (
          <span
            class="band"
            data-tone={toneOf(verdict)}
            style={{ left: `${left}%`, width: `${width}%` }}
            title={stamps[verdict]}
            key={left}
          >
            {width >= LEAST_WIDTH_NAMED && stamps[verdict]}
          </span>
        );
      })}
      <span class="band-now" style={{ left: `${shareAlong(slider, slider.now)}%` }} />
    </span>
  );
}

const SETTLE_MS = 700;

/** For a screen reader, when the hand rests. */
function Settled({ words }: { words: string }) {
  const [said, setSaid] = useState('');
  useEffect(() => {
    const timer = setTimeout(() => setSaid(words), SETTLE_MS);
    return () => clearTimeout(timer);
  }, [words]);
  return (
    <div class="visually-hidden" role="status" aria-live="polite">
      {said}
    </div>
  );
}
