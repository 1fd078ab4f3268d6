/** Where the bands of a window and a reading stand on a small logarithmic axis. Pure numbers: 0 is its left end, 1 its right. */
import { scaleLinear, scaleLog } from 'd3-scale';

export interface WindowShape {
  /** between the bands, from below to above */
  readonly edges: readonly number[];
  /** one more than edges */
  readonly bands: readonly string[];
}

export interface BandPlace {
  readonly band: string;
  readonly from: number;
  readonly to: number;
}

export interface WindowScale {
  readonly bands: readonly BandPlace[];
  /** of a value: 0 to 1, and whether it lies beyond an end */
  place(value: number): { readonly at: number; readonly beyond: 'below' | 'above' | null };
}

/** The normal band takes at least this much of the axis; what lies far outside is cut off rather than squeezing it away. */
const LEAST_NORMAL_SHARE = 0.3;
/** Room beyond the outer edges, as a share of the logarithm's span between them. */
const ROOM = 0.35;
/** Room where a single edge gives no span: half a decade. */
const HALF_DECADE = Math.log(10) / 2;

/**
 * A logarithmic axis over all edges of the window, or as much of it as leaves the normal band a fair share. Edges that are not
 * above zero make it a straight one.
 */
export function scaleOfWindow({ edges, bands }: WindowShape, normal: string): WindowScale {
  const log = edges.every((edge) => edge > 0);
  const to = log ? Math.log : (value: number) => value;
  const from = log ? Math.exp : (value: number) => value;
  const index = bands.indexOf(normal);
  const [low, high] = domainOf(edges.map(to), index, log);
  const scale = log
    ? scaleLog()
        .domain([from(low), from(high)])
        .range([0, 1])
    : scaleLinear().domain([low, high]).range([0, 1]);
  const held = (at: number) => Math.min(1, Math.max(0, at));
  const place = (value: number) => {
    const at = log && value <= 0 ? Number.NEGATIVE_INFINITY : value === Number.POSITIVE_INFINITY ? value : scale(value);
    return { at: held(at), beyond: at < 0 ? ('below' as const) : at > 1 ? ('above' as const) : null };
  };
  return {
    bands: bands
      .map((band, i) => ({
        band,
        from: i === 0 ? 0 : held(scale(edges[i - 1]!)),
        to: i === edges.length ? 1 : held(scale(edges[i]!)),
      }))
      .filter((band) => band.to > band.from),
    place,
  };
}

function domainOf(edges: readonly number[], normal: number, log: boolean): readonly [number, number] {
  const [first, last] = [edges[0]!, edges.at(-1)!];
  const span = last - first;
  const room = span > 0 ? ROOM * span : log ? HALF_DECADE : Math.max(1, Math.abs(first));
  const [low, high] = [first - room, last + room];
  const [below, above] = [edges[normal - 1], edges[normal]];
  if (below === undefined || above === undefined) return [low, high];
  const most = (above - below) / LEAST_NORMAL_SHARE;
  if (high - low <= most) return [low, high];
  const side = (most - (above - below)) / 2;
  return [Math.max(low, below - side), Math.min(high, above + side)];
}
