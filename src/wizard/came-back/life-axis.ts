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

/** On a broken axis the shortest span of a day or more is drawn this many times as long as the least. */
const DAY_APART = 1.6;

/**
 * Points at `moments` (milliseconds, not falling) over at least `wanted` units of width, `tail` of it after the last point.
 * Neighbours stand at least `least` apart. As long as every span of a day or more is longer than that, the axis is true
 * throughout. Otherwise a day is drawn longer, spans that would then pass `most` are broken there, and take up what room is left.
 */
export function lifeAxis(
  moments: readonly number[],
  { wanted, least, most, tail }: { wanted: number; least: number; most: number; tail: number },
): LifeAxis {
  const gaps = moments.slice(1).map((moment, at) => Math.max(0, moment - moments[at]!) / DAY);
  const room = Math.max(0, wanted - tail);
  const lengthsAt = (perDay: number, cap: number) => gaps.map((days) => Math.max(least, Math.min(cap, days * perDay)));
  const longest = (upTo: number, cap: number) => {
    let [low, high] = [0, upTo];
    for (let step = 0; step < 60; step++) {
      const middle = (low + high) / 2;
      if (sum(lengthsAt(middle, cap)) <= room) low = middle;
      else high = middle;
    }
    return low;
  };
  const shortest = Math.min(...gaps.filter((days) => days >= 1));
  const whole = longest(wanted * 24, Number.POSITIVE_INFINITY);
  const isTrue = !(shortest * whole < least);
  const perDay = isTrue ? whole : longest((DAY_APART * least) / shortest, most);
  const lengths = lengthsAt(perDay, isTrue ? Number.POSITIVE_INFINITY : most);
  const broken = gaps.map((days, at) => lengths[at]! < days * perDay - CLOSE);
  const left = Math.max(0, room - sum(lengths)) / Math.max(1, broken.filter(Boolean).length);
  const drawn = lengths.map((length, at) => (broken[at] ? length + left : length));
  const places = moments.slice(0, 1).map(() => 0);
  for (const length of drawn) places.push(places.at(-1)! + length);
  const scale = scaleLinear()
    .domain(moments.length > 1 ? moments : [moments[0] ?? 0, (moments[0] ?? 0) + DAY])
    .range(moments.length > 1 ? places : [0, tail])
    .clamp(true);
  return {
    places,
    width: Math.max(wanted, (places.at(-1) ?? 0) + tail),
    spans: gaps.map((days, at) => ({
      days,
      drawn: broken[at] ? 'broken' : lengths[at]! > days * perDay + CLOSE ? 'longer' : 'true',
    })),
    at: (moment) => scale(moment),
  };
}

/** Less than this cannot be seen. */
const CLOSE = 1e-6;

const sum = (lengths: readonly number[]): number => lengths.reduce((all, length) => all + length, 0);
