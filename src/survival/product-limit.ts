/** Survival without a law behind it: the product-limit estimate, how uncertain it is, and what it says of a time. */

import type { Followed } from './followed.ts';

/** 97.5 % point of the standard normal distribution: what a two-sided 95 % interval reaches to. */
export const NORMAL_975 = 1.959963984540054;

/** Index = distinct time, rising. */
export interface SurvivalCurve {
  readonly time: Float64Array;
  readonly failed: Float64Array;
  readonly censored: Float64Array;
  /** how many were followed up to just before the time; who is lost at a time is at risk at it */
  readonly atRisk: Float64Array;
  /** chance to work longer than the time */
  readonly survival: Float64Array;
  /** Greenwood's variance of `survival`; NaN where all at risk failed */
  readonly variance: Float64Array;
}

export interface Limits {
  readonly low: number;
  readonly high: number;
}

/**
 * Kaplan-Meier product-limit estimate with Greenwood's variance:
 *
 *     S(t) = product over times t_i <= t of (1 - d_i / n_i)
 *     Var S(t) = S(t)^2  sum over t_i <= t of d_i / (n_i (n_i - d_i))
 *
 * d failed and n at risk at t_i; failures come before losses at the same time. Grouped data are taken at the times given. With
 * counts that are not whole the formulas are used as they are (weights, not a sample of that size). Where all at risk fail S is 0 and
 * the variance is unknown (NaN). Cost: one pass.
 *
 * Sources: Kaplan & Meier, J. Am. Stat. Assoc. 53 (1958) 457; Greenwood 1926; as in Kalbfleisch & Prentice, The Statistical Analysis of
 * Failure Time Data (2nd ed. 2002), section 1.4 (from memory).
 *
 * @example productLimit(follow([{ time: 2, failed: 1, censored: 0 }, { time: 5, failed: 0, censored: 3 }])).survival[0] // 0.75
 */
export function productLimit({ time, failed, censored }: Followed): SurvivalCurve {
  const atRisk = new Float64Array(time.length);
  let left = 0;
  // from the end, so that the last at risk are those seen then and no difference of large sums
  for (let i = time.length - 1; i >= 0; i--) {
    left += failed[i]! + censored[i]!;
    atRisk[i] = left;
  }
  const survival = new Float64Array(time.length);
  const variance = new Float64Array(time.length);
  let surviving = 1;
  let sum = 0;
  for (let i = 0; i < time.length; i++) {
    const d = failed[i]!;
    const n = atRisk[i]!;
    const all = i === time.length - 1 && censored[i] === 0;
    if (d > 0) {
      surviving *= all ? 0 : 1 - d / n;
      sum += all ? Number.NaN : d / (n * (n - d));
    }
    survival[i] = surviving;
    variance[i] = surviving * surviving * sum;
  }
  return { time, failed, censored, atRisk, survival, variance };
}

/** S +- 1.96 standard errors, cut to 0..1: the plain interval, poor near the ends. NaN where the variance is unknown. */
export function plainLimits({ survival, variance }: SurvivalCurve, at: number): Limits {
  const reach = NORMAL_975 * Math.sqrt(variance[at]!);
  return { low: Math.max(0, survival[at]! - reach), high: Math.min(1, survival[at]! + reach) };
}

/**
 * 95 % interval that is symmetric in log(-log S), so that it stays within 0..1:
 *
 *     S^exp(+-1.96 s),  s = sqrt(Var S) / (S |ln S|)
 *
 * Unknown (NaN) where S is 1 or 0: there is no standard error to speak of before anything failed. Pointwise: right for one time
 * chosen beforehand, not for the whole curve at once. Source: Kalbfleisch & Prentice, section 1.4 (from memory).
 *
 * @example logLogLimits(productLimit(follow([{ time: 2, failed: 1, censored: 0 }, { time: 5, failed: 0, censored: 3 }])), 0).low // 0.12794691759514583
 */
export function logLogLimits({ survival, variance }: SurvivalCurve, at: number): Limits {
  const s = survival[at]!;
  if (!(s > 0 && s < 1)) return { low: Number.NaN, high: Number.NaN };
  const reach = Math.exp((NORMAL_975 * Math.sqrt(variance[at]!)) / (s * -Math.log(s)));
  return { low: s ** reach, high: s ** (1 / reach) };
}

/** What is known of survival at one time. */
export interface SurvivalAt {
  readonly time: number;
  /** how many were followed at least so long */
  readonly atRisk: number;
  /** null: nobody was followed so long, and not all had failed */
  readonly survival: number | null;
  /** 95 % limits; null where nothing bounds them */
  readonly low: number | null;
  readonly high: number | null;
}

/**
 * Survival at a time, with the log(-log) interval. Beyond the last time followed it is unknown unless all had failed.
 *
 * Before the first failure that interval does not exist. The low limit is then 0.025^(1/n) with n at risk: n that all survive would
 * be seen with 2.5 % chance there (Clopper & Pearson, Biometrika 26 (1934) 404, no failures). It leaves out who was lost sooner, so
 * it errs towards too low; with 3 cards it is 29 %, and says how little 3 cards say.
 */
export function survivalAt(curve: SurvivalCurve, time: number): SurvivalAt {
  if (!(Number.isFinite(time) && time >= 0))
    throw new RangeError(`Survival is asked for at time ${time}: give a time of 0 or more.`);
  const { atRisk, survival } = curve;
  let last = -1;
  while (last + 1 < curve.time.length && curve.time[last + 1]! <= time) last++;
  const next = curve.time.findIndex((known) => known >= time);
  const followed = next < 0 ? 0 : atRisk[next]!;
  const value = last < 0 ? 1 : survival[last]!;
  const base = { time, atRisk: followed };
  if (value === 0) return { ...base, survival: 0, low: 0, high: null };
  if (followed === 0) return { ...base, survival: null, low: null, high: null };
  if (value === 1) return { ...base, survival: 1, low: TAIL ** (1 / followed), high: 1 };
  return { ...base, survival: value, ...logLogLimits(curve, last) };
}

/** What lies outside a two-sided 95 % interval on either side. */
const TAIL = 0.025;
