/** Where the points of a life stand along a real time axis: a day is as long as another, save where a long idle span is broken. */
import { scaleLinear } from 'd3-scale';

export interface LifeAxis {
  /** place of every point, from 0 */
  readonly places: readonly number[];
  readonly width: number;
  /** spans between neighbours; broken: drawn shorter than it was, longer: drawn longer so that the points can be told apart */
  readonly spans: readonly { readonly days: number; readonly drawn: 'true' | 'broken' | 'longer' }[];
  /** place of any moment between the first point and the last */
  at(moment: number): number;
}

const DAY = 86_400_000;

/**
 * Points at `moments` (milliseconds, not falling) over at least `wanted` units of width. Neighbours stand at least `least`
 * apart; a day is drawn as long as lets the shorter spans fill the width; a span that would take more than `most` is broken at
 * that length. One point stands at 0, and the axis still has its width, for what came after.
 */
export function lifeAxis(
  moments: readonly number[],
  { wanted, least, most, tail }: { wanted: number; least: number; most: number; tail: number },
): LifeAxis {
  const gaps = moments.slice(1).map((moment, at) => Math.max(0, moment - moments[at]!) / DAY);
  const room = Math.max(0, wanted - tail);
  const lengthsAt = (perDay: number) => gaps.map((days) => Math.min(most, Math.max(least, days * perDay)));
  const total = (perDay: number) => lengthsAt(perDay).reduce((sum, length) => sum + length, 0);
  // the longest day that fits; with none, or with spans that are all alike, the least or the most decides
  let [low, high] = [0, most * 24];
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (total(middle) <= room) low = middle;
    else high = middle;
  }
  const lengths = lengthsAt(low);
  const places = moments.slice(0, 1).map(() => 0);
  for (const length of lengths) places.push(places.at(-1)! + length);
  const scale = scaleLinear()
    .domain(moments.length > 1 ? moments : [moments[0] ?? 0, (moments[0] ?? 0) + DAY])
    .range(moments.length > 1 ? places : [0, tail])
    .clamp(true);
  return {
    places,
    width: Math.max(wanted, (places.at(-1) ?? 0) + tail),
    spans: gaps.map((days, at) => {
      const inScale = days * low;
      return {
        days,
        drawn: lengths[at]! < inScale - 1e-6 ? 'broken' : lengths[at]! > inScale + 1e-6 ? 'longer' : 'true',
      };
    }),
    at: (moment) => scale(moment),
  };
}
