/** What a temperature profile was: rates, soak, time above the liquidus, peak, cooling, per channel and heat, with bounds. */
import type { Quantity } from './graded-limit.ts';
import {
  type BoundedCurve,
  boundCurve,
  firstAtLeast,
  firstAtOrBelow,
  type Hottest,
  hottest,
  lastAtOrBelow,
  secondsAbove,
  steepest,
} from './series.ts';

/** The temperatures a profile is measured at, in degC. */
export interface ProfileLevels {
  /** Ts,min and Ts,max */
  readonly soakFrom: number;
  readonly soakTo: number;
  readonly liquidus: number;
  /** Tc: the package's classification temperature, where there is one */
  readonly ceiling?: number;
}

export const MEASURES = [
  'soakSeconds',
  'averageRise',
  'steepestRise',
  'secondsAboveLiquidus',
  'peak',
  'secondsNearPeak',
  'secondsNearCeiling',
  'steepestFall',
  'secondsToPeak',
] as const;
/** Units: seconds; kelvin per second for rise and fall; degC for the peak. */
export type Measure = (typeof MEASURES)[number];

/** A quantity, or why the record does not hold it. */
export type Measured = (Quantity & { readonly kind: 'measured'; readonly note?: string }) | NotRecorded;
export interface NotRecorded {
  readonly kind: 'not-recorded';
  readonly because: string;
}

/** One heating up and cooling down of one channel. */
export interface Heat {
  readonly from: number;
  readonly to: number;
  readonly peakAt: number;
  /** false where, within its bounds, it may have stayed below the liquidus */
  readonly surelyMelted: boolean;
  readonly measures: Readonly<Record<Measure, Measured>>;
}

export interface ChannelProfile {
  readonly name: string;
  /** in order of time; the hottest one always, others where they reached the liquidus */
  readonly heats: readonly Heat[];
  /** which of them was hottest */
  readonly hottest: number;
  readonly halfWidth: number;
  readonly noise: number;
  readonly stepSeconds: number;
  readonly gaps: readonly { readonly from: number; readonly to: number }[];
  readonly spikes: number;
}

export interface Profile {
  readonly levels: ProfileLevels;
  /** the span that rates are taken over, in seconds */
  readonly rateSpanSeconds: number;
  readonly channels: readonly ChannelProfile[];
  readonly unusable: readonly { readonly name: string; readonly because: string }[];
  /** hottest peak less coolest peak over the channels, in kelvin; undefined with fewer than two */
  readonly spreadAtPeak: Quantity | undefined;
}

export interface ProfileSource {
  readonly seconds: Float64Array;
  readonly channels: readonly { readonly name: string; readonly celsius: Float64Array; readonly resolution: number }[];
}

export interface ProfileOptions {
  /** seconds that a rate is taken over (default 10) */
  readonly rateSpanSeconds?: number;
  /** half-width of the thermocouples' tolerance in kelvin, where it is to count (default 0: not counted) */
  readonly sensorHalfWidth?: number;
}

/**
 * How long a rate is taken over. A span of a few seconds follows the noise of a thermocouple, a minute hides a step of
 * the heater; ten seconds is this project's choice, stated with every rate.
 */
export const DEFAULT_RATE_SPAN_SECONDS = 10;
/** Time "within 5 C" of the peak and of Tc: J-STD-020 table 5-2. */
export const NEAR_KELVIN = 5;
/** Heating begins where the board has left its own start by this much, if that is above 25 degC. */
const LEFT_ROOM_KELVIN = 5;
const REFERENCE_START = 25;
/** A record that begins hotter than this does not show the way from 25 degC. */
const WARM_START = 50;
/** A heat is over once the board is this far below Ts,min. */
const HEAT_END_KELVIN = 10;

/**
 * Measures a profile. Each quantity is taken once on the readings and once on each of the curves that bound them
 * (`boundCurve`): durations above a level, the peak and the passing of a level only ever grow with the curve, so those
 * two answers bound the truth, with interpolated crossings, chatter about the level and gaps all included.
 *
 * - soakSeconds: between Ts,min and Ts,max on the way up (time above the one less time above the other, before the peak)
 * - averageRise: from the liquidus to the peak, (Tp - TL) / time; steepestRise: largest least-squares slope over the span
 *   on the way up; steepestFall: likewise after the peak, until 10 K below Ts,min
 * - secondsAboveLiquidus; peak; secondsNearPeak and secondsNearCeiling: above peak - 5 K and Tc - 5 K
 * - secondsToPeak: from 25 degC, or from 5 K above the coldest start where that is warmer, to the peak
 * - spreadAtPeak: each channel's own peak, hottest less coolest
 *
 * A record may hold several heats (parted by a fall 10 K below Ts,min); each is measured. What began before the record or
 * ended after it is "not recorded", or open on that side. A channel whose last reading is, within its bounds, its hottest
 * (a logger stopped, a couple come off while the board still heats) does not show its peak: all that hangs on it is open. Sources of the rows: J-STD-020D table 5-2. Cost: linear in
 * readings, times heats.
 */
export function measureProfile(source: ProfileSource, levels: ProfileLevels, options: ProfileOptions = {}): Profile {
  const rateSpanSeconds = options.rateSpanSeconds ?? DEFAULT_RATE_SPAN_SECONDS;
  const channels: ChannelProfile[] = [];
  const unusable: { name: string; because: string }[] = [];
  for (const { name, celsius, resolution } of source.channels) {
    const curve = boundCurve(source.seconds, celsius, resolution, options.sensorHalfWidth ?? 0);
    if (curve === undefined) {
      unusable.push({ name, because: 'it holds fewer than three readings' });
      continue;
    }
    const { halfWidth, noise, stepSeconds, gaps, spikes } = curve;
    const heats = findHeats(curve, levels).map((stretch) =>
      measureHeat(curve, stretch, levels, rateSpanSeconds, resolution),
    );
    const peaks = heats.map(({ measures }) => (measures.peak.kind === 'measured' ? measures.peak.value : Number.NaN));
    channels.push({
      name,
      heats,
      hottest: peaks.indexOf(Math.max(...peaks)),
      halfWidth,
      noise,
      stepSeconds,
      gaps,
      spikes,
    });
  }
  return { levels, rateSpanSeconds, channels, unusable, spreadAtPeak: spreadOf(channels) };
}

interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly first: boolean;
  readonly peak: Hottest;
}

/** Stretches parted by a fall well below Ts,min: the hottest, and every other one that may have reached the liquidus. */
function findHeats(curve: BoundedCurve, levels: ProfileLevels): Stretch[] {
  const { seconds, celsius } = curve.read;
  const end = seconds.at(-1)!;
  const parting = levels.soakFrom - Math.max(HEAT_END_KELVIN, 3 * curve.halfWidth);
  const whole = hottest(curve.read, seconds[0]!, end)!;
  const around = (peak: Hottest): Stretch => ({
    from: lastAtOrBelow(curve.read, parting, peak.at) ?? seconds[0]!,
    to: firstAtOrBelow(curve.read, parting, peak.at) ?? end,
    first: true,
    peak,
  });
  if (whole.celsius <= parting) return [{ from: seconds[0]!, to: end, first: true, peak: whole }];
  const found: Stretch[] = [];
  for (let i = 0; i < seconds.length; ) {
    if (celsius[i]! <= parting) {
      i += 1;
      continue;
    }
    let top = i;
    let next = i;
    while (next < seconds.length && celsius[next]! > parting) {
      if (celsius[next]! > celsius[top]!) top = next;
      next += 1;
    }
    const peak = { celsius: celsius[top]!, at: seconds[top]!, index: top };
    if (top === whole.index || celsius[top]! + curve.halfWidth >= levels.liquidus) found.push(around(peak));
    i = next;
  }
  return found.map((stretch, i) => ({ ...stretch, first: i === 0 }));
}

function measureHeat(
  curve: BoundedCurve,
  stretch: Stretch,
  levels: ProfileLevels,
  span: number,
  resolution: number,
): Heat {
  const { read, lower, upper } = curve;
  const { from, to, peak } = stretch;
  const begin = read.seconds[0]!;
  const end = read.seconds.at(-1)!;
  const highPeak = hottest(upper, from, to)!.celsius;
  const lowPeak = hottest(lower, from, to)!.celsius;
  // anywhere the readings reach within their bounds of the peak, the peak may have been
  const early = read.seconds[firstWithin(curve, peak, from, to, 1)]!;
  const late = read.seconds[firstWithin(curve, peak, from, to, -1)]!;
  // the hottest that was read need not be the hottest it was: readings stop before they turn
  const stopped = to >= end && late >= end;
  const stopsAt = `the readings stop at ${round(read.celsius.at(-1)!)} °C and had not begun to fall`;
  const duration = (value: number, low: number, high: number, note?: string): Measured => ({
    kind: 'measured',
    value,
    low: Math.max(0, low - curve.clockSeconds),
    high: high + curve.clockSeconds,
    ...(note === undefined ? {} : { note }),
  });
  const above = (level: number, lowLevel = level, highLevel = level): Measured => {
    const cutStart = from <= begin && read.celsius[0]! > lowLevel - curve.halfWidth;
    const cutEnd = to >= end && read.celsius.at(-1)! > lowLevel - curve.halfWidth;
    const ahead = stopped && !cutEnd;
    const value = secondsAbove(read, level, from, to);
    const low = secondsAbove(lower, highLevel, from, to);
    const high = secondsAbove(upper, lowLevel, from, to);
    if (ahead) return duration(value, low, Number.POSITIVE_INFINITY, stopsAt);
    if (!cutStart && !cutEnd) return duration(value, low, high);
    const note = `at least: the record ${cutStart ? 'begins' : 'ends'} above ${round(level)} °C`;
    return duration(value, low, Number.POSITIVE_INFINITY, note);
  };

  const soak = (): Measured => {
    if (from <= begin && read.celsius[0]! > levels.soakFrom)
      return missing(`the record begins at ${round(read.celsius[0]!)} °C, above ${levels.soakFrom} °C`);
    if (peak.celsius <= levels.soakFrom)
      return missing(stopped ? stopsAt : `the board stayed below ${levels.soakFrom} °C`);
    const between = (warm: typeof read, hot: typeof read, until: number) =>
      secondsAbove(warm, levels.soakFrom, from, until) - secondsAbove(hot, levels.soakTo, from, until);
    const value = between(read, read, peak.at);
    const open = stopped && lowPeak < levels.soakTo;
    return duration(
      value,
      between(lower, upper, early),
      open ? Number.POSITIVE_INFINITY : between(upper, lower, late),
      open ? stopsAt : undefined,
    );
  };

  const averageRise = (): Measured => {
    const rise = (curveOf: typeof read, top: number, at: number): number => {
      const passed = lastAtOrBelow(curveOf, levels.liquidus, at);
      return passed === undefined || at <= passed ? Number.NaN : (top - levels.liquidus) / (at - passed);
    };
    if (peak.celsius <= levels.liquidus)
      return missing(stopped ? stopsAt : `the board did not reach ${levels.liquidus} °C`);
    const value = rise(read, peak.celsius, peak.at);
    if (Number.isNaN(value)) return missing(`the record begins above ${levels.liquidus} °C`);
    // slowest: passed early, peaked late and low; fastest: passed late, peaked early and high
    const slow = rise(upper, lowPeak, late);
    const fast = rise(lower, highPeak, early);
    return {
      kind: 'measured',
      value,
      low: Number.isNaN(slow) ? 0 : Math.min(value, Math.max(0, slow)),
      high: Number.isNaN(fast) ? Number.POSITIVE_INFINITY : Math.max(value, fast),
    };
  };

  const rates = (start: number, stop: number, way: 'rise' | 'fall'): Measured => {
    const slopes = steepest(read, start, stop, span, resolution, curve.noise);
    if (slopes === undefined) return missing(`the record holds no ${way === 'rise' ? 'heating' : 'cooling'}`);
    const open = way === 'fall' && to >= end && read.celsius.at(-1)! > levels.liquidus;
    const at = way === 'rise' ? slopes.riseAt : slopes.fallAt;
    return {
      kind: 'measured',
      ...slopes[way],
      ...(open ? { high: Number.POSITIVE_INFINITY } : {}),
      note: open ? `at least: the record ends above ${levels.liquidus} °C` : `at ${round(at)} s`,
    };
  };

  const toPeak = (): Measured => {
    if (!stretch.first) return missing('the board was still warm from the heat before');
    const start = coldest(read, peak.index);
    if (start > WARM_START) return missing(`the record begins at ${round(start)} °C`);
    const left = Math.max(REFERENCE_START, start + LEFT_ROOM_KELVIN);
    const passed = lastAtOrBelow(read, left, peak.at) ?? begin;
    const latest = lastAtOrBelow(lower, left + curve.halfWidth, peak.at) ?? begin;
    const earliest = lastAtOrBelow(upper, left - curve.halfWidth, peak.at) ?? begin;
    const note = left > REFERENCE_START ? `from ${round(left)} °C, where the board left its start` : undefined;
    if (stopped) return duration(peak.at - passed, early - latest, Number.POSITIVE_INFINITY, stopsAt);
    return duration(peak.at - passed, early - latest, late - earliest, note);
  };

  return {
    from,
    to,
    peakAt: peak.at,
    surelyMelted: lowPeak >= levels.liquidus,
    measures: {
      soakSeconds: soak(),
      averageRise: averageRise(),
      steepestRise: rates(stretch.first ? begin : from, late, 'rise'),
      secondsAboveLiquidus: above(levels.liquidus),
      peak: stopped
        ? { kind: 'measured', value: peak.celsius, low: lowPeak, high: Number.POSITIVE_INFINITY, note: stopsAt }
        : { kind: 'measured', value: peak.celsius, low: lowPeak, high: highPeak },
      secondsNearPeak: above(peak.celsius - NEAR_KELVIN, lowPeak - NEAR_KELVIN, highPeak - NEAR_KELVIN),
      secondsNearCeiling:
        levels.ceiling === undefined ? missing('no ceiling was named') : above(levels.ceiling - NEAR_KELVIN),
      // a run that begins within the heat may end after it: a short fall has no shorter runs than a long one
      steepestFall: rates(early, to + span, 'fall'),
      secondsToPeak: toPeak(),
    },
  };
}

function missing(because: string): NotRecorded {
  return { kind: 'not-recorded', because };
}

/** The first (way 1) or last (way -1) reading of a stretch that, within the bounds, may have been its peak. */
function firstWithin(curve: BoundedCurve, peak: Hottest, from: number, to: number, way: 1 | -1): number {
  const { seconds, celsius } = curve.read;
  const first = firstAtLeast(seconds, from);
  const last = Math.min(seconds.length, firstAtLeast(seconds, to) + 1) - 1;
  let i = way === 1 ? first : last;
  while (i !== peak.index && !(celsius[i]! >= peak.celsius - 2 * curve.halfWidth)) i += way;
  return i;
}

function coldest(read: { readonly celsius: Float64Array }, until: number): number {
  let cold = Number.POSITIVE_INFINITY;
  for (let i = 0; i <= until; i += 1) cold = Math.min(cold, read.celsius[i]!);
  return cold;
}

function spreadOf(channels: readonly ChannelProfile[]): Quantity | undefined {
  const peaks = channels.flatMap(({ heats, hottest: which }) => {
    const peak = heats[which]?.measures.peak;
    // a channel that stopped before it turned has no peak to compare
    return peak?.kind === 'measured' && peak.high !== Number.POSITIVE_INFINITY ? [peak] : [];
  });
  if (peaks.length < 2) return undefined;
  const most = (values: readonly number[]) => Math.max(...values);
  const least = (values: readonly number[]) => Math.min(...values);
  return {
    value: most(peaks.map(({ value }) => value)) - least(peaks.map(({ value }) => value)),
    low: Math.max(0, most(peaks.map(({ low }) => low)) - least(peaks.map(({ high }) => high))),
    high: most(peaks.map(({ high }) => high)) - least(peaks.map(({ low }) => low)),
  };
}

/** As shown in a note: one decimal. */
function round(value: number): number {
  return Math.round(value * 10) / 10;
}
