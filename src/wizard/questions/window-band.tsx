import type { Quantity } from '../../evidence/quantity.ts';
import { messages } from '../language.ts';
import { sayQuantity } from '../say-reading.ts';
import { scaleOfWindow, type WindowShape } from '../window-scale.ts';

interface Props {
  readonly shape: WindowShape;
  readonly quantity: Quantity;
  /** states from normal to most abnormal */
  readonly states: readonly { readonly id: string; readonly name: string }[];
  /** null: not measured · value null: over range */
  readonly reading: { readonly value: number | null; readonly uncertainty: number | null } | null;
}

const WIDTH = 100;
const TOP = 6;
const HEIGHT = 8;
/** About 95 of 100 such readings lie within this many standard uncertainties (GUM 6.2.1). */
const COVERAGE = 2;

/** The window as a strip along a logarithmic axis, the normal band whole, the reading and its uncertainty on it. */
export function WindowBand({ shape, quantity, states, reading }: Props) {
  const normal = states[0]?.id ?? '';
  const scale = scaleOfWindow(shape, normal);
  const x = (share: number) => WIDTH * share;
  return (
    <span class="window">
      <svg class="window-band" viewBox={`0 0 ${WIDTH} 20`} preserveAspectRatio="none" aria-hidden="true">
        {scale.bands.map(({ band, from, to }) => (
          <rect
            key={band}
            x={x(from)}
            y={band === normal ? TOP - 2 : TOP}
            width={x(to - from)}
            height={band === normal ? HEIGHT + 4 : HEIGHT}
            data-rank={states.findIndex(({ id }) => id === band)}
          />
        ))}
        {reading !== null && <Mark scale={scale} reading={reading} />}
      </svg>
      <small>{sayWindow(shape, quantity, normal)}</small>
      {reading !== null && <span class="visually-hidden">{sayReading(reading, quantity)}</span>}
    </span>
  );
}

function Mark({ scale, reading }: { scale: ReturnType<typeof scaleOfWindow>; reading: NonNullable<Props['reading']> }) {
  const value = reading.value ?? Number.POSITIVE_INFINITY;
  const { at, beyond } = scale.place(value);
  const here = WIDTH * at;
  const spread = COVERAGE * (reading.uncertainty ?? 0);
  const [from, to] = [scale.place(value - spread).at * WIDTH, scale.place(value + spread).at * WIDTH];
  if (beyond !== null) {
    const [tip, back] = beyond === 'below' ? [0, 5] : [WIDTH, WIDTH - 5];
    return <path class="window-mark" d={`M${tip} 10 L${back} 4 L${back} 16 Z`} />;
  }
  return (
    <>
      <line class="window-spread" x1={from} x2={Math.max(to, from + 0.5)} y1="10" y2="10" />
      <rect class="window-mark" x={here - 0.9} y="1" width="1.8" height="18" />
    </>
  );
}

/** The normal band in figures: `normal 0.6 to 30 Ω`. */
function sayWindow({ edges, bands }: WindowShape, quantity: Quantity, normal: string): string {
  const { readings } = messages.value;
  const at = bands.indexOf(normal);
  const say = (edge: number | undefined) => (edge === undefined ? null : sayQuantity(edge, quantity));
  return readings.normalRange(say(edges[at - 1]), say(edges[at]));
}

function sayReading({ value, uncertainty }: NonNullable<Props['reading']>, quantity: Quantity): string {
  const { readings } = messages.value;
  if (value === null) return readings.overRange;
  const spread = uncertainty === null ? null : sayQuantity(COVERAGE * uncertainty, quantity, 2);
  return readings.readsWithin(sayQuantity(value, quantity), spread);
}
