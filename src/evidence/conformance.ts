/** Chances that a true value lies inside limits, after JCGM 106:2012. A limit left out is not there. */
import { normalCdf, normalDensity } from './normal.ts';

export interface Limits {
  readonly lower?: number;
  readonly upper?: number;
}

/**
 * Probability that a quantity measured as `value` with standard uncertainty `u` truly lies inside the limits:
 * Phi((upper - value)/u) - Phi((lower - value)/u) (JCGM 106 7.3 and 7.4). With u = 0 the value is exact and the answer
 * is 1 or 0, a limit itself counting as inside.
 *
 * @example conformance(13.6, 1.8, { lower: 12.5, upper: 16.3 }) // 0.66
 */
export function conformance(value: number, u: number, limits: Limits): number {
  const lower = limits.lower ?? Number.NEGATIVE_INFINITY;
  const upper = limits.upper ?? Number.POSITIVE_INFINITY;
  if (u === 0) return value >= lower && value <= upper ? 1 : 0;
  const below = (lower - value) / u;
  const above = (upper - value) / u;
  // Differences are taken in the tail the value leans to, where they keep their digits.
  return below > 0 ? normalCdf(-below) - normalCdf(-above) : normalCdf(above) - normalCdf(below);
}

export interface Inspection {
  /** what is made: normal around `mean` */
  readonly process: { readonly mean: number; readonly deviation: number };
  readonly measurement: { readonly uncertainty: number };
  readonly tolerance: Limits;
  readonly acceptance: Limits;
}

export interface InspectionRisks {
  /** share of what is made that conforms */
  readonly conforming: number;
  /** share accepted */
  readonly accepted: number;
  /** accepted and not conforming */
  readonly consumer: number;
  /** conforming and rejected */
  readonly producer: number;
}

/**
 * What inspection of a whole process lets through and throws away (JCGM 106 clause 9.5, equations 17 to 20): integrals
 * over the true value of its density times the chance that its measurement falls inside the acceptance limits.
 *
 * Composite Simpson over +-8 deviations, split at the tolerance limits where the integrand jumps: good to about 1e-10
 * while the measurement's uncertainty is above a thousandth of the process deviation. Cost: about 6000 densities.
 */
export function inspectionRisks({ process, measurement, tolerance, acceptance }: Inspection): InspectionRisks {
  const accepted = (truth: number): number =>
    normalDensity((truth - process.mean) / process.deviation) * conformance(truth, measurement.uncertainty, acceptance);
  const from = process.mean - 8 * process.deviation;
  const to = process.mean + 8 * process.deviation;
  const lower = clamp(tolerance.lower ?? from, from, to);
  const upper = clamp(tolerance.upper ?? to, from, to);
  const share = (a: number, b: number): number => integrate(accepted, a, b) / process.deviation;
  const good = share(lower, upper);
  const consumer = share(from, lower) + share(upper, to);
  const conforming = conformance(process.mean, process.deviation, tolerance);
  return { conforming, accepted: good + consumer, consumer, producer: conforming - good };
}

function clamp(value: number, low: number, high: number): number {
  return Math.min(Math.max(value, low), high);
}

function integrate(f: (x: number) => number, from: number, to: number): number {
  const intervals = 2000;
  const step = (to - from) / intervals;
  if (step === 0) return 0;
  let sum = f(from) + f(to);
  for (let k = 1; k < intervals; k += 1) sum += (k % 2 === 1 ? 4 : 2) * f(from + k * step);
  return (sum * step) / 3;
}
