/** The Gamma distribution: its cumulative chance and its points. */

import { logGamma } from '../decision/beta-distribution.ts';

const MOST_TERMS = 100_000;
const TOLERANCE = 1e-15;
/** Smallest denominator that a continued fraction is carried on with. */
const TINY = 1e-300;

/**
 * P(a, x) = P(Gamma(a, 1) <= x), regularised. Series below a + 1, continued fraction above (Abramowitz & Stegun 6.5.29 and 6.5.31, the
 * latter by the modified Lentz method). a > 0; x below 0 counts as 0. Cost: about sqrt(a) terms near x = a.
 *
 * @example gammaCumulative(1, Math.LN2) // 0.5
 */
export function gammaCumulative(a: number, x: number): number {
  if (!(a > 0 && Number.isFinite(a))) throw new RangeError(`A Gamma distribution has a size above 0, not ${a}.`);
  if (!(x > 0)) return 0;
  if (x === Number.POSITIVE_INFINITY) return 1;
  const front = Math.exp(a * Math.log(x) - x - logGamma(a));
  if (x < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let n = 1; n < MOST_TERMS && term > TOLERANCE * sum; n++) {
      term *= x / (a + n);
      sum += term;
    }
    return front * sum;
  }
  let b = x + 1 - a;
  let c = 1 / TINY;
  let d = 1 / b;
  let fraction = d;
  for (let n = 1; n < MOST_TERMS; n++) {
    const numerator = -n * (n - a);
    b += 2;
    d = 1 / (Math.abs(numerator * d + b) < TINY ? TINY : numerator * d + b);
    c = Math.abs(b + numerator / c) < TINY ? TINY : b + numerator / c;
    const change = d * c;
    fraction *= change;
    if (Math.abs(change - 1) < TOLERANCE) break;
  }
  return 1 - front * fraction;
}

/**
 * The point that Gamma(a, 1) stays below with chance q, 0 < q < 1: bracketed by doubling and halved on the logarithm.
 * Relative accuracy 1e-12.
 *
 * @example Math.round(gammaQuantile(1, 0.5) * 1e9) / 1e9 // 0.693147181
 */
export function gammaQuantile(a: number, q: number): number {
  if (!(q > 0 && q < 1)) throw new RangeError(`A point of a distribution is asked for between 0 and 1, not at ${q}.`);
  let low = Math.log(a);
  let high = low;
  while (gammaCumulative(a, Math.exp(low)) > q) low -= 1;
  while (gammaCumulative(a, Math.exp(high)) < q) high += 1;
  while (high - low > QUANTILE_TOLERANCE) {
    const middle = (low + high) / 2;
    if (gammaCumulative(a, Math.exp(middle)) < q) low = middle;
    else high = middle;
  }
  return Math.exp((low + high) / 2);
}

const QUANTILE_TOLERANCE = 1e-12;
