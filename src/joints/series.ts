/** One channel's readings as a curve between bounds, and what can be measured on a curve. */
import type { Quantity } from './graded-limit.ts';

/** Straight lines between points; times never fall. */
export interface Curve {
  readonly seconds: Float64Array;
  readonly celsius: Float64Array;
}

export interface BoundedCurve {
  readonly read: Curve;
  /** the truth lies between these, as half-widths of a rectangle */
  readonly lower: Curve;
  readonly upper: Curve;
  /** half-width of one reading in kelvin: the logger's step or its noise, and the couple's own tolerance if stated */
  readonly halfWidth: number;
  /** standard deviation of the noise from reading to reading, in kelvin */
  readonly noise: number;
  readonly stepSeconds: number;
  /** the step of a clock coarser than its readings, else 0: what a duration may be off by */
  readonly clockSeconds: number;
  readonly gaps: readonly { readonly from: number; readonly to: number }[];
  /** readings left out as spikes no board could follow */
  readonly spikes: number;
}

/** From reading to reading, a board under hot air does not move faster than this: a lone reading that does is a fault. */
export const SPIKE_KELVIN_PER_SECOND = 10;
const SPIKE_LEAST_KELVIN = 5;
/** A pause of more than five usual steps, and two seconds, is a gap: what happened within it is bounded, not known. */
const GAP_STEPS = 5;
const GAP_LEAST_SECONDS = 2;
const READINGS_FOR_NOISE = 20_000;

/**
 * A channel's readings with the bounds within which the truth lies. The half-width of one reading is one step of the
 * logger (half a step for the rounding, half for what changes beneath it) or sqrt 3 standard deviations of its noise,
 * whichever is larger, in quadrature with the couple's stated tolerance; to it comes, at each reading, an eighth of the
 * second difference (what a curve can do between two readings of a straight line), and in a gap the tent that the
 * fastest change seen in this channel could put up or let down. Noise is the median absolute second difference over
 * 0.6745 sqrt 6, which a ramp does not touch. Undefined with fewer than three readings. Cost: linear.
 */
export function boundCurve(
  seconds: Float64Array,
  celsius: Float64Array,
  resolution: number,
  sensorHalfWidth = 0,
): BoundedCurve | undefined {
  const { read, spikes } = withoutGaps(seconds, celsius);
  const { seconds: t, celsius: c } = read;
  const count = t.length;
  if (count < 3) return undefined;
  const stepSeconds = medianOf(stepsOf(t));
  const noise = noiseOf(c);
  const halfWidth = Math.hypot(Math.max(resolution, Math.sqrt(3) * noise), sensorHalfWidth);
  const pause = Math.max(GAP_STEPS * stepSeconds, GAP_LEAST_SECONDS);
  const gaps: { from: number; to: number }[] = [];
  let fastest = 0;
  for (let i = 1; i < count; i += 1) {
    const step = t[i]! - t[i - 1]!;
    if (step > pause) gaps.push({ from: t[i - 1]!, to: t[i]! });
    const back = firstAtLeast(t, t[i]! - 5, i);
    if (step <= pause && t[i]! - t[back]! >= 2.5)
      fastest = Math.max(fastest, Math.abs(c[i]! - c[back]!) / (t[i]! - t[back]!));
  }
  const size = count + gaps.length;
  const bound = () => ({ seconds: new Float64Array(size), celsius: new Float64Array(size) });
  const lower = bound();
  const upper = bound();
  let at = 0;
  let gap = 0;
  const put = (curve: Curve, when: number, value: number) => {
    curve.seconds[at] = when;
    curve.celsius[at] = value;
  };
  for (let i = 0; i < count; i += 1) {
    const inner = i > 0 && i < count - 1 && t[i + 1]! - t[i - 1]! <= 2 * pause;
    const bow = inner ? Math.abs(c[i - 1]! - 2 * c[i]! + c[i + 1]!) / 8 : 0;
    put(lower, t[i]!, c[i]! - halfWidth - bow);
    put(upper, t[i]!, c[i]! + halfWidth + bow);
    at += 1;
    if (gaps[gap]?.from !== t[i]! || i === count - 1 || t[i + 1]! !== gaps[gap]!.to) continue;
    const wide = t[i + 1]! - t[i]!;
    const rise = c[i + 1]! - c[i]!;
    const rate = Math.max(fastest, Math.abs(rise) / wide);
    // both sides of the tent run at the fastest rate; its top lies nearer to the hotter end
    const lean = rate === 0 ? 0 : rise / (2 * rate);
    const middle = (c[i]! + c[i + 1]!) / 2;
    put(upper, t[i]! + wide / 2 + lean, middle + (rate * wide) / 2 + halfWidth);
    put(lower, t[i]! + wide / 2 - lean, middle - (rate * wide) / 2 - halfWidth);
    at += 1;
    gap += 1;
  }
  return { read, lower, upper, halfWidth, noise, stepSeconds, clockSeconds: clockStep(t), gaps, spikes };
}

/** Seconds that a curve spends above a level within [from, to], crossings interpolated. Cost: linear. */
export function secondsAbove(curve: Curve, level: number, from: number, to: number): number {
  const { seconds: t, celsius: c } = curve;
  let sum = 0;
  for (let i = Math.max(1, firstAtLeast(t, from)); i < t.length && t[i - 1]! < to; i += 1) {
    const start = Math.max(t[i - 1]!, from);
    const end = Math.min(t[i]!, to);
    if (end <= start) continue;
    const a = valueBetween(t, c, i, start);
    const b = valueBetween(t, c, i, end);
    if (a > level && b > level) sum += end - start;
    else if (a > level || b > level) sum += ((end - start) * (Math.max(a, b) - level)) / Math.abs(b - a);
  }
  return sum;
}

/** The last time before `before` at which the curve is at or below a level; undefined where it never is. */
export function lastAtOrBelow(curve: Curve, level: number, before: number): number | undefined {
  const { seconds: t, celsius: c } = curve;
  let i = Math.min(firstAtLeast(t, before), t.length - 1);
  while (i >= 0 && c[i]! > level) i -= 1;
  if (i < 0) return undefined;
  if (i === t.length - 1 || c[i + 1]! <= level) return t[i]!;
  return t[i]! + ((level - c[i]!) / (c[i + 1]! - c[i]!)) * (t[i + 1]! - t[i]!);
}

/** The first time after `after` at which the curve is at or below a level; undefined where it never is. */
export function firstAtOrBelow(curve: Curve, level: number, after: number): number | undefined {
  const { seconds: t, celsius: c } = curve;
  let i = firstAtLeast(t, after);
  while (i < t.length && c[i]! > level) i += 1;
  if (i >= t.length) return undefined;
  if (i === 0 || c[i - 1]! <= level) return t[i]!;
  return t[i - 1]! + ((c[i - 1]! - level) / (c[i - 1]! - c[i]!)) * (t[i]! - t[i - 1]!);
}

export interface Hottest {
  readonly celsius: number;
  readonly at: number;
  readonly index: number;
}

/** The hottest point of a curve within [from, to]; undefined where no point lies there. */
export function hottest(curve: Curve, from: number, to: number): Hottest | undefined {
  const { seconds: t, celsius: c } = curve;
  let best = -1;
  for (let i = firstAtLeast(t, from); i < t.length && t[i]! <= to; i += 1) if (best < 0 || c[i]! > c[best]!) best = i;
  return best < 0 ? undefined : { celsius: c[best]!, at: t[best]!, index: best };
}

export interface Slopes {
  /** the steepest rise, in kelvin per second; negative where the curve only falls */
  readonly rise: Quantity;
  /** the steepest fall as a positive number */
  readonly fall: Quantity;
  readonly riseAt: number;
  readonly fallAt: number;
}

/**
 * The steepest slopes within [from, to]: of every run of readings that spans at least `span` seconds, the least-squares
 * slope sum (t - mean t)(T - mean T) / sum (t - mean t)^2. Its bounds: what readings off by their step could do at worst
 * (at most step * sqrt(n / sum (t - mean t)^2), by Cauchy-Schwarz), in quadrature with what their noise does on average
 * (noise / sqrt(sum (t - mean t)^2)). A stretch shorter than the span is taken as one run. Undefined with fewer than two
 * different times. Cost: linear (running sums, begun anew every 4096 runs so that rounding does not build up).
 */
export function steepest(
  curve: Curve,
  from: number,
  to: number,
  span: number,
  step: number,
  noise: number,
): Slopes | undefined {
  const { seconds: t, celsius: c } = curve;
  const begin = firstAtLeast(t, from);
  let end = firstAtLeast(t, to);
  while (end < t.length && t[end]! <= to) end += 1;
  if (end - begin < 2 || t[end - 1]! <= t[begin]!) return undefined;
  const width = Math.min(span, t[end - 1]! - t[begin]!);
  let up = Number.NEGATIVE_INFINITY;
  let down = Number.POSITIVE_INFINITY;
  let riseAt = t[begin]!;
  let fallAt = t[begin]!;
  let widest = 0;
  let origin = 0;
  let [n, st, sc, stt, stc] = [0, 0, 0, 0, 0];
  let last = begin - 1;
  const add = (i: number, sign: number) => {
    const x = t[i]! - origin;
    n += sign;
    st += sign * x;
    sc += sign * c[i]!;
    stt += sign * x * x;
    stc += sign * x * c[i]!;
  };
  for (let first = begin; first < end; first += 1) {
    if ((first - begin) % 4096 === 0) {
      origin = t[first]!;
      [n, st, sc, stt, stc] = [0, 0, 0, 0, 0];
      for (let i = first; i <= last; i += 1) add(i, 1);
    }
    // a hair less than the span, so that steps of a tenth of a second add up to it
    while (last < end - 1 && (last < first || t[last]! - t[first]! < width * (1 - 1e-9))) {
      last += 1;
      add(last, 1);
    }
    if (t[last]! - t[first]! < width * (1 - 1e-9)) break;
    const spread = stt - (st * st) / n;
    if (spread > 0) {
      const slope = (stc - (st * sc) / n) / spread;
      const middle = (t[first]! + t[last]!) / 2;
      if (slope > up) [up, riseAt] = [slope, middle];
      if (slope < down) [down, fallAt] = [slope, middle];
      widest = Math.max(widest, Math.hypot(step * Math.sqrt(n / spread), noise * Math.sqrt(3 / spread)));
    }
    add(first, -1);
  }
  if (up === Number.NEGATIVE_INFINITY) return undefined;
  const around = (value: number): Quantity => ({ value, low: value - widest, high: value + widest });
  return { rise: around(up), fall: around(-down), riseAt, fallAt };
}

/** Index of the first time at or after `time`, at most `limit`; the length where there is none. */
export function firstAtLeast(times: Float64Array, time: number, limit: number = times.length): number {
  let low = 0;
  let high = limit;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (times[middle]! < time) low = middle + 1;
    else high = middle;
  }
  return low;
}

function valueBetween(t: Float64Array, c: Float64Array, i: number, when: number): number {
  const wide = t[i]! - t[i - 1]!;
  return wide === 0 ? c[i]! : c[i - 1]! + ((when - t[i - 1]!) / wide) * (c[i]! - c[i - 1]!);
}

/** Readings without the gaps, and without lone spikes that no board could follow. */
function withoutGaps(seconds: Float64Array, celsius: Float64Array): { read: Curve; spikes: number } {
  const t = new Float64Array(seconds.length);
  const c = new Float64Array(seconds.length);
  let count = 0;
  for (let i = 0; i < seconds.length; i += 1) {
    if (Number.isNaN(celsius[i]!)) continue;
    t[count] = seconds[i]!;
    c[count] = celsius[i]!;
    count += 1;
  }
  const keep: number[] = [];
  let spikes = 0;
  for (let i = 0; i < count; i += 1) {
    if (i > 0 && i < count - 1) {
      const before = c[i]! - c[i - 1]!;
      const after = c[i]! - c[i + 1]!;
      const allowed = (step: number) => Math.max(SPIKE_LEAST_KELVIN, SPIKE_KELVIN_PER_SECOND * step);
      const lone = before * after > 0 && Math.abs(before) > allowed(t[i]! - t[i - 1]!);
      if (lone && Math.abs(after) > allowed(t[i + 1]! - t[i]!)) spikes += 1;
      else keep.push(i);
    } else keep.push(i);
  }
  if (spikes === 0) return { read: { seconds: t.slice(0, count), celsius: c.slice(0, count) }, spikes };
  return {
    read: { seconds: Float64Array.from(keep, (i) => t[i]!), celsius: Float64Array.from(keep, (i) => c[i]!) },
    spikes,
  };
}

function stepsOf(t: Float64Array): number[] {
  const every = Math.max(1, Math.floor(t.length / READINGS_FOR_NOISE));
  const steps: number[] = [];
  // from a stretch, not from single steps, so that a clock coarser than its readings still has a step
  for (let i = 0; i + every < t.length; i += every) steps.push((t[i + every]! - t[i]!) / every);
  const positive = steps.filter((step) => step > 0);
  return positive.length > 0 ? positive : [t.at(-1)! - t[0]!];
}

/** The usual step between different times where a quarter of them or more repeat. */
function clockStep(t: Float64Array): number {
  const moved: number[] = [];
  for (let i = 1; i < t.length && moved.length < READINGS_FOR_NOISE; i += 1)
    if (t[i]! > t[i - 1]!) moved.push(t[i]! - t[i - 1]!);
  let repeats = 0;
  for (let i = 1; i < t.length; i += 1) if (t[i]! === t[i - 1]!) repeats += 1;
  return repeats * 4 >= t.length ? medianOf(moved) : 0;
}

function noiseOf(c: Float64Array): number {
  const every = Math.max(1, Math.floor(c.length / READINGS_FOR_NOISE));
  const bends: number[] = [];
  for (let i = 1; i < c.length - 1; i += every) bends.push(Math.abs(c[i - 1]! - 2 * c[i]! + c[i + 1]!));
  return medianOf(bends) / (0.6745 * Math.sqrt(6));
}

function medianOf(values: number[]): number {
  const sorted = Float64Array.from(values).sort();
  return sorted[Math.floor(sorted.length / 2)] ?? 0;
}
