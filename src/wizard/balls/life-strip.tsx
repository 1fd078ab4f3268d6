/** Leaded beside lead-free: a point and a range on a scale of powers of ten, the reference at one. */
import { scaleLog } from 'd3-scale';
import type { LifeAnswer } from '../../ball-grid/answer.ts';
import { InFigures } from '../charts/in-figures.tsx';
import { useWidth } from '../charts/use-width.ts';
import { sayNumber } from '../words.ts';
import { ballsWords, jointWords } from './words.ts';

const ROW = 34;
const TOP = 22;
const BOTTOM = 22;
const LEFT = 92;
const RIGHT = 18;
/** room for one figure of the scale */
const WORD = 40;

const say = (value: number) => sayNumber(value, { maximumSignificantDigits: 3 });

export function LifeStrip({ life }: { readonly life: LifeAnswer }) {
  const { life: words } = ballsWords.value;
  const { constants, seen } = jointWords.value;
  const [ref, width] = useWidth<HTMLDivElement>(560);
  const rows = [
    { name: words.leaded, lives: [life.leaded] },
    { name: words.leadFree, lives: life.leadFree },
  ];
  const ratios = rows.flatMap(({ lives }) => lives.map(({ timesAsManyCycles }) => timesAsManyCycles));
  const decade = (value: number, round: (x: number) => number) => 10 ** round(Math.log10(value));
  const across = scaleLog(
    [decade(Math.min(0.5, ...ratios), Math.floor), decade(Math.max(2, ...ratios), Math.ceil)],
    [LEFT, width - RIGHT],
  );
  const [least, most] = across.domain() as [number, number];
  const decades = Array.from({ length: Math.round(Math.log10(most / least)) + 1 }, (_, at) => least * 10 ** at);
  const between = decades.flatMap((value) => [2 * value, 5 * value]).filter((value) => value < most);
  // as many words as there is room for: all, the decades, or some of them
  const room = (width - LEFT - RIGHT) / WORD;
  const every = Math.max(1, Math.ceil(decades.length / room));
  const written = new Set([
    ...decades.filter((_, at) => at % every === 0),
    ...(4 * decades.length < room ? between : []),
  ]);
  const height = TOP + rows.length * ROW + BOTTOM;
  return (
    <figure class="life-strip">
      <div ref={ref}>
        <svg viewBox={`0 0 ${width} ${height}`} width={width} height={height} role="img" aria-label={words.drawn}>
          {[...decades, ...between].map((value) => (
            <g class="life-tick" key={value}>
              <path d={`M${across(value)} ${TOP}V${height - BOTTOM}`} />
              {written.has(value) && (
                <text x={across(value)} y={height - 6} text-anchor="middle">
                  {say(value)}
                </text>
              )}
            </g>
          ))}
          <path class="life-one" d={`M${across(1)} ${TOP - 6}V${height - BOTTOM}`} />
          <text
            class="life-one-name"
            x={across(1)}
            y={TOP - 9}
            text-anchor={across(1) > width - 110 ? 'end' : 'middle'}
          >
            {words.asReference}
          </text>
          {rows.map(({ name, lives }, row) => {
            const y = TOP + ROW * (row + 0.5);
            const at = lives.map(({ timesAsManyCycles }) => across(timesAsManyCycles));
            return (
              <g class="life-row" key={name}>
                <text x={LEFT - 12} y={y + 4} text-anchor="end">
                  {name}
                </text>
                {lives.length > 1 && <path class="life-range" d={`M${Math.min(...at)} ${y}H${Math.max(...at)}`} />}
                {at.map((x, place) => (
                  <circle cx={x} cy={y} r={5} key={lives[place]!.constants} />
                ))}
              </g>
            );
          })}
        </svg>
      </div>
      <InFigures
        title={words.table}
        columns={[
          { name: words.constants },
          { name: words.cycles, number: true },
          { name: words.days, number: true },
          { name: words.seen },
        ]}
        rows={rows.flatMap(({ name, lives }) =>
          lives.map(({ constants: id, timesAsManyCycles, timesAsManyDays, cited }) => [
            `${name}: ${constants[id] ?? id}`,
            say(timesAsManyCycles),
            say(timesAsManyDays),
            seen[cited.seen],
          ]),
        )}
      />
    </figure>
  );
}
