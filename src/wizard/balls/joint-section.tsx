/** Two neighbouring joints in section, to scale: how high the package stands, how near the joints come. */
import type { JointShape } from '../../ball-grid/answer.ts';
import { InFigures } from '../charts/in-figures.tsx';
import { useWidth } from '../charts/use-width.ts';
import { sayNumber } from '../words.ts';
import { ballsWords } from './words.ts';

const MOST_HEIGHT = 300;
/** package and board, as far as they are shown, and the room for the pitch below them */
const SLAB = 30;
const BELOW = 30;
const PAD = 4;
/** beside the joints on either hand, where the height is written */
const BESIDE = 84;

const ARROW = 'joint-arrow';
const AT_ARROW = `url(#${ARROW})`;

const say = (value: number) => sayNumber(value, { maximumFractionDigits: 3, useGrouping: false });

export function JointSection({ shape }: { readonly shape: JointShape }) {
  const { section: words } = ballsWords.value;
  const [ref, width] = useWidth<HTMLDivElement>(560);
  const { standOffMillimetres: height, widestMillimetres: widest, neighbour, lands } = shape;
  const pitch = neighbour?.pitchMillimetres ?? 0;
  const touching = neighbour !== null && neighbour.gapMillimetres <= 0;
  const scale = Math.min((width - 2 * BESIDE) / (pitch + widest), (MOST_HEIGHT - 2 * SLAB - BELOW) / height);
  const middles = neighbour === null ? [width / 2] : [-1, 1].map((side) => width / 2 + (side * scale * pitch) / 2);
  const [top, bottom] = [SLAB, SLAB + scale * height];
  const whole = bottom + SLAB + BELOW;
  const widestAt = shape.outline.reduce((a, b) => (b.radiusMillimetres > a.radiusMillimetres ? b : a));
  const belly = bottom - scale * widestAt.heightMillimetres;
  const right = middles.at(-1)! + (scale * widest) / 2;
  const said =
    words.drawn(say(height), say(widest)) +
    (neighbour === null ? '' : touching ? words.drawnTouch : words.drawnGap(say(neighbour.gapMillimetres)));
  return (
    <figure class="joint-section" data-touching={touching}>
      <div ref={ref}>
        <svg viewBox={`0 0 ${width} ${whole}`} width={width} height={whole} role="img" aria-label={said}>
          <marker
            id={ARROW}
            viewBox="0 0 10 10"
            refX="10"
            refY="5"
            markerWidth="7"
            markerHeight="7"
            orient="auto-start-reverse"
          >
            <path d="M0 1.5L10 5L0 8.5Z" />
          </marker>
          <g class="joint-slab">
            <rect x={-2} y={-2} width={width + 4} height={top + 2} />
            <rect x={-2} y={bottom} width={width + 4} height={SLAB} />
          </g>
          <text class="joint-name" x={8} y={top - 10}>
            {words.package}
          </text>
          <text class="joint-name" x={8} y={bottom + 20}>
            {words.board}
          </text>
          {middles.map((middle) => (
            <g key={middle}>
              <path class="joint-solder" d={pathOf(shape, middle, bottom, scale)} />
              {lands.map(({ side, padMillimetres }) => (
                <rect
                  class="joint-pad"
                  key={side}
                  x={middle - (scale * padMillimetres) / 2}
                  y={side === 'package' ? top - PAD : bottom}
                  width={scale * padMillimetres}
                  height={PAD}
                />
              ))}
            </g>
          ))}
          <g class="joint-measure">
            <path d={`M${right + 8} ${top}H${right + 26}M${right + 8} ${bottom}H${right + 26}`} />
            <path d={`M${right + 18} ${top}V${bottom}`} marker-start={AT_ARROW} marker-end={AT_ARROW} />
            <text x={right + 25} y={(top + bottom) / 2 + 4}>
              {say(height)}
            </text>
          </g>
          {neighbour !== null && (
            <>
              {!touching && (
                <g class="joint-measure">
                  <path
                    d={`M${middles[0]! + (scale * widest) / 2} ${belly}H${middles[1]! - (scale * widest) / 2}`}
                    marker-start={AT_ARROW}
                    marker-end={AT_ARROW}
                  />
                </g>
              )}
              {/* on the package, where there is room for the words however narrow the gap is */}
              <text class="joint-gap" x={width / 2} y={top - 10} text-anchor="middle">
                {touching ? words.touch : say(neighbour.gapMillimetres)}
              </text>
              {!touching && <path class="joint-leader" d={`M${width / 2} ${top - 5}V${belly - 3}`} />}
              <g class="joint-measure">
                {middles.map((middle) => (
                  <path class="joint-axis" key={middle} d={`M${middle} ${bottom + PAD + 2}V${bottom + SLAB + 14}`} />
                ))}
                <path
                  d={`M${middles[0]} ${bottom + SLAB + 10}H${middles[1]}`}
                  marker-start={AT_ARROW}
                  marker-end={AT_ARROW}
                />
                <text x={width / 2} y={bottom + SLAB + 25} text-anchor="middle">
                  {say(pitch)}
                </text>
              </g>
            </>
          )}
        </svg>
      </div>
      <figcaption class="about">{neighbour === null ? words.one : words.caption}</figcaption>
      <InFigures
        title={words.table}
        columns={[{ name: words.what }, { name: words.millimetres, number: true }]}
        rows={rowsOf(shape)}
      />
    </figure>
  );
}

/** Up one side of the joint and down the other. */
function pathOf({ outline }: JointShape, middle: number, bottom: number, scale: number): string {
  const at = (side: number) =>
    outline.map(
      ({ heightMillimetres: z, radiusMillimetres: r }) =>
        `${(middle + side * scale * r).toFixed(2)} ${(bottom - scale * z).toFixed(2)}`,
    );
  return `M${at(1).join('L')}L${at(-1).reverse().join('L')}Z`;
}

function rowsOf({ standOffMillimetres, widestMillimetres, neighbour }: JointShape): readonly (readonly string[])[] {
  const { section: words } = ballsWords.value;
  return [
    [words.standOff, say(standOffMillimetres)],
    [words.widest, say(widestMillimetres)],
    ...(neighbour === null
      ? []
      : [
          [words.pitch, say(neighbour.pitchMillimetres)],
          [words.gap, say(neighbour.gapMillimetres)],
          [words.touchHeight, say(neighbour.touchHeightMillimetres)],
          [words.room, say(neighbour.roomToSinkMillimetres)],
        ]),
  ];
}
