/** Draws of uncertain inputs. The generator is passed in; the same generator state gives the same draw. */
import type { Random } from './random.ts';

/** 95 % point of the standard normal distribution. */
const NORMAL_95 = 1.6448536269514722;

/** Standard normal (polar method; Marsaglia & Bray, SIAM Review 6, 1964). Its twin is thrown away, so that no state hides here. */
export function drawNormal(random: Random): number {
  for (;;) {
    const x = 2 * random.next() - 1;
    const y = 2 * random.next() - 1;
    const square = x * x + y * y;
    if (square > 0 && square < 1) return x * Math.sqrt((-2 * Math.log(square)) / square);
  }
}

/** Logarithm of a Gamma(shape, 1) draw: small shapes would underflow without it. */
function drawLogGamma(random: Random, shape: number): number {
  if (!(shape > 0)) throw new RangeError(`The shape of a gamma distribution must be above 0, not ${shape}.`);
  // Gamma(a) = Gamma(a + 1) U^(1/a), with 1 - next() in (0, 1] so that the logarithm exists.
  if (shape < 1) return drawLogGamma(random, shape + 1) + Math.log(1 - random.next()) / shape;
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = drawNormal(random);
    const root = 1 + c * x;
    if (root <= 0) continue;
    const v = root * root * root;
    if (Math.log(1 - random.next()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return Math.log(d * v);
  }
}

/** Gamma with scale 1 (Marsaglia & Tsang, ACM Transactions on Mathematical Software 26, 2000). */
export function drawGamma(random: Random, shape: number): number {
  return Math.exp(drawLogGamma(random, shape));
}

/**
 * Beta with mean p and equivalent sample size n: Beta(p n, (1 - p) n). p of 0 or 1 is fixed and draws nothing.
 *
 * @example drawBeta(createRandom(1), 1, 5) // 1
 */
export function drawBeta(random: Random, p: number, n: number): number {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`A chance must be within 0..1, not ${p}.`);
  if (p === 0 || p === 1) return p;
  const yes = drawLogGamma(random, p * n);
  const no = drawLogGamma(random, (1 - p) * n);
  return 1 / (1 + Math.exp(no - yes));
}

/**
 * Dirichlet with the given means (they sum to one) and equivalent sample size n; written into `out`. Means of 0 stay 0.
 */
export function drawDirichlet(random: Random, mean: Float64Array, n: number, out: Float64Array): void {
  let highest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < mean.length; i++) {
    const logarithm = mean[i]! > 0 ? drawLogGamma(random, mean[i]! * n) : Number.NEGATIVE_INFINITY;
    out[i] = logarithm;
    if (logarithm > highest) highest = logarithm;
  }
  let total = 0;
  for (let i = 0; i < mean.length; i++) {
    out[i] = Math.exp(out[i]! - highest);
    total += out[i]!;
  }
  for (let i = 0; i < mean.length; i++) out[i] = out[i]! / total;
}

/** A factor around 1 whose logarithm is normal with standard deviation `spread`; median 1. */
export function drawLogNormalFactor(random: Random, spread: number): number {
  return spread === 0 ? 1 : Math.exp(spread * drawNormal(random));
}

/** An amount of money or minutes: `low` and `high` are its 5 % and 95 % points, `likely` its median. */
export interface Amount {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

/**
 * An amount from its 90 % range: a normal of its own on either side of the median (two-piece normal with half the mass
 * on each side, so that both points are met exactly however lopsided the range), never below zero.
 */
export function drawAmount(random: Random, amount: Amount): number {
  const z = drawNormal(random) / NORMAL_95;
  const side = z < 0 ? amount.likely - amount.low : amount.high - amount.likely;
  return Math.max(0, amount.likely + z * side);
}
