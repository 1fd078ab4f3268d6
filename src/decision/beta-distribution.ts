/** The Beta distribution: its cumulative chance and its points. */

/** ln Gamma(x) for x > 0; Lanczos (SIAM J. Numer. Anal. B 1, 1964) with g = 7 and nine terms; relative error about 1e-15. */
export function logGamma(x: number): number {
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
  const z = x - 1;
  let series = 0.99999999999980993;
  LANCZOS.forEach((coefficient, i) => {
    series += coefficient / (z + i + 1);
  });
  const t = z + LANCZOS.length - 0.5;
  return 0.5 * Math.log(2 * Math.PI) + (z + 0.5) * Math.log(t) - t + Math.log(series);
}

/**
 * Regularised incomplete beta I_x(a, b) = P(Beta(a, b) <= x). a, b > 0; x is cut to 0..1.
 * Continued fraction by the modified Lentz method (Abramowitz & Stegun 26.5.8; Thompson & Barnett, J. Comput. Phys. 64, 1986).
 */
export function betaCumulative(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x));
  return x < (a + 1) / (a + b + 2) ? (front * fraction(x, a, b)) / a : 1 - (front * fraction(1 - x, b, a)) / b;
}

/**
 * The point that Beta(p n, (1 - p) n) stays below with chance q. p of 0 or 1 is a fixed value.
 *
 * Bracketed false position (Illinois variant: Dowell & Jarratt, BIT 11, 1971) on the logit of the chance against the logit
 * of the point, where both tails are straight lines, so that points near 0 and 1 keep their digits. About a dozen
 * evaluations; accuracy about 1e-12 of the logit.
 */
export function betaQuantile(q: number, p: number, n: number): number {
  if (p <= 0 || p >= 1) return p;
  const a = p * n;
  const b = (1 - p) * n;
  const miss = (x: number) => logit(betaCumulative(logistic(x), a, b)) - logit(q);
  let low = -WIDEST_LOGIT;
  let high = WIDEST_LOGIT;
  let missLow = Number.NEGATIVE_INFINITY;
  let missHigh = Number.POSITIVE_INFINITY;
  let side = 0;
  while (high - low > 1e-13 * Math.max(1, Math.abs(low))) {
    const straight = Number.isFinite(missLow) && Number.isFinite(missHigh);
    const x = straight ? (low * missHigh - high * missLow) / (missHigh - missLow) : (low + high) / 2;
    const here = miss(x);
    if (Math.abs(here) < 1e-13 || x === low || x === high) return logistic(x);
    if (here < 0) {
      low = x;
      missLow = here;
      if (side < 0) missHigh /= 2;
      side = -1;
    } else {
      high = x;
      missHigh = here;
      if (side > 0) missLow /= 2;
      side = 1;
    }
  }
  return logistic((low + high) / 2);
}

const LANCZOS = [
  676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059, 12.507343278686905,
  -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
];
/** beyond this a chance is 0 or 1 in a double */
const WIDEST_LOGIT = 700;
const TINY = 1e-300;
const MOST_TERMS = 500;

function logistic(x: number): number {
  return x < 0 ? Math.exp(x) / (1 + Math.exp(x)) : 1 / (1 + Math.exp(-x));
}

function logit(chance: number): number {
  return Math.log(chance) - Math.log1p(-chance);
}

function fraction(x: number, a: number, b: number): number {
  const awayFromZero = (value: number) => (Math.abs(value) < TINY ? TINY : value);
  let c = 1;
  let d = 1 / awayFromZero(1 - ((a + b) * x) / (a + 1));
  let h = d;
  for (let m = 1; m <= MOST_TERMS; m++) {
    const evenTerm = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / awayFromZero(1 + evenTerm * d);
    c = awayFromZero(1 + evenTerm / c);
    h *= d * c;
    const oddTerm = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / awayFromZero(1 + oddTerm * d);
    c = awayFromZero(1 + oddTerm / c);
    const step = d * c;
    h *= step;
    if (Math.abs(step - 1) < 1e-16) break;
  }
  return h;
}
