import type { Sensitivity } from '../../assessment.ts';
import { InFigures } from '../charts/in-figures.tsx';
import { messages } from '../language.ts';
import { capital, type Manner, sayMinutes, sayMoney, sayNumber, sayPercent } from '../words.ts';
import { tornadoOf } from './tornado.ts';

interface Props {
  readonly tornado: Sensitivity['tornado'];
  /** surplus of the plan the bars are about, and what it needs */
  readonly now: number;
  readonly needed: number | null;
  readonly manner: Manner;
}

const SHOWN = 8;

export function Tornado({ tornado, now, needed, manner }: Props) {
  const { firmness: words } = messages.value;
  const shown = tornado.slice(0, SHOWN);
  const { scale, bars } = tornadoOf(shown, now, needed === null ? [] : [needed]);
  const say = (input: Sensitivity['tornado'][number], value: number) => sayInput(input, value, manner);
  return (
    <figure class="tornado">
      <figcaption>
        <h3>{words.tornado}</h3>
        <p class="about">{words.tornadoAbout}</p>
      </figcaption>
      <div class="tornado-chart" aria-hidden="true">
        {bars.map(({ input, low, high }) => (
          <div class="tornado-row" key={input.input}>
            <span class="tornado-name">
              {capital(input.name)}
              <small>
                {say(input, input.low)} – {say(input, input.high)}
              </small>
            </span>
            <span class="tornado-track">
              <span class="tornado-low" style={{ left: `${low.left}%`, width: `${low.width}%` }} />
              <span class="tornado-high" style={{ left: `${high.left}%`, width: `${high.width}%` }} />
              <Line at={scale.at(now)} name="now" />
              {needed !== null && <Line at={scale.at(needed)} name="needed" />}
            </span>
          </div>
        ))}
        <div class="tornado-row tornado-axis">
          <span class="tornado-key">
            <span>
              <i class="tornado-low" /> {words.low}
            </span>
            <span>
              <i class="tornado-high" /> {words.high}
            </span>
            <span>
              <i class="line-now" /> {words.surplusNow} {sayMoney(now, manner)}
            </span>
            {needed !== null && (
              <span>
                <i class="line-needed" /> {words.needed} {sayMoney(needed, manner)}
              </span>
            )}
          </span>
          <span class="tornado-track">
            {scale.ticks.map((tick) => (
              <span class="price-tick" style={{ left: `${scale.at(tick)}%` }} key={tick}>
                {sayMoney(tick, manner)}
              </span>
            ))}
          </span>
        </div>
      </div>
      <InFigures
        title={words.tornadoInFigures}
        columns={[
          { name: words.ifThisIs },
          { name: words.low, number: true },
          { name: words.atLow, number: true },
          { name: words.high, number: true },
          { name: words.atHigh, number: true },
        ]}
        rows={tornado.map((input) => [
          capital(input.name),
          say(input, input.low),
          sayMoney(input.atLow, manner),
          say(input, input.high),
          sayMoney(input.atHigh, manner),
        ])}
      />
    </figure>
  );
}

function Line({ at, name }: { at: number; name: string }) {
  return <span class={`tornado-line line-${name}`} style={{ left: `${at}%` }} />;
}

/** A figure without a unit is a chance, or a factor where it can pass one. */
function sayInput({ unit, high }: Sensitivity['tornado'][number], value: number, manner: Manner): string {
  if (unit === 'money') return sayMoney(value, manner);
  if (unit === 'min') return sayMinutes(value);
  if (unit === '1') return high <= 1 ? sayPercent(value) : `× ${sayNumber(value, { maximumSignificantDigits: 2 })}`;
  return `${sayNumber(value, { maximumSignificantDigits: 3 })} ${unit}`;
}
