/** How long half of them last, from the product-limit curve. */

import { logLogLimits, plainLimits, type SurvivalCurve } from './product-limit.ts';

export interface MedianTime {
  /** null: more than half were still working when last seen */
  readonly median: number | null;
  readonly low: number | null;
  /** null: the data set no upper limit */
  readonly high: number | null;
}

/**
 * The median time: the first at which no more than half survive, inf { t : S(t) <= 1/2 }. Its 95 % interval after Brookmeyer & Crowley holds
 * the times at which the pointwise interval of S contains 1/2: from the first time whose lower limit is at or below 1/2 to
 * the first whose upper limit is below it. `transform` says which pointwise interval: log(-log) keeps within 0..1 and is
 * better with few cards. A limit that the data do not reach is null, never the last time seen.
 *
 * Where S is exactly 1/2 for a while some programs give the middle of that time; this gives its start, as the formula does.
 * Source: Brookmeyer & Crowley, Biometrics 38 (1982) 29; Klein & Moeschberger, Survival Analysis, section 4.5 (from memory).
 *
 * @example medianTime(productLimit(follow([{ time: 2, failed: 1, censored: 0 }, { time: 5, failed: 0, censored: 3 }]))).median // null
 */
export function medianTime(curve: SurvivalCurve, transform: 'log-log' | 'plain' = 'log-log'): MedianTime {
  const limits = transform === 'plain' ? plainLimits : logLogLimits;
  const firstTime = (holds: (at: number) => boolean): number | null => {
    for (let at = 0; at < curve.time.length; at++) if (holds(at)) return curve.time[at]!;
    return null;
  };
  // where S has reached 0 its interval is unknown, but below 1/2 it certainly is
  const gone = (at: number) => curve.survival[at] === 0;
  return {
    median: firstTime((at) => curve.survival[at]! <= HALF * (1 + ROUNDING)),
    low: firstTime((at) => gone(at) || limits(curve, at).low <= HALF),
    high: firstTime((at) => limits(curve, at).high < HALF),
  };
}

const HALF = 0.5;
/** a product of fractions that is a half on paper may miss it by this much */
const ROUNDING = 1e-12;
