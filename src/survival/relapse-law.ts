/** What is known of a time to relapse: a book value that times in service nudge, and enough of them decide. */

import { logGamma } from '../decision/beta-distribution.ts';
import type { Followed } from './followed.ts';
import { gammaQuantile } from './gamma-distribution.ts';

/** A Weibull time to relapse stated by its median, and how many relapses that knowledge is worth. */
export interface RelapseLaw {
  readonly medianDays: number;
  readonly shape: number;
  /** equivalent sample size: relapses */
  readonly n: number;
}

export interface LearntLaw extends RelapseLaw {
  /** 95 % credible interval of the median, at this shape */
  readonly low: number;
  readonly high: number;
}

/**
 * The book's law after times in service, its shape held. With the rate r = scale^-shape, S(t) = exp(-r t^shape), and the Gamma is conjugate:
 *
 *     prior      r ~ Gamma(n, n / r0),  r0 = ln 2 / median^shape        mean r0: the book's own law
 *     posterior  r ~ Gamma(n + sum d, n / r0 + sum (d + c) t^shape)
 *
 * d relapsed and c still working at t. What comes out is again median, shape and n: the median of the law at the mean rate, and n + sum d. So
 * learning in two goes equals learning at once. Counts may be parts of cards. Losses add time and no relapse: they lengthen the median.
 * `n` above 0. Cost: one pass.
 *
 * Source: Soland, IEEE Trans. Reliability R-18 (1969) 181 (conjugate analysis given the shape); Gelman et al., Bayesian Data Analysis (3rd
 * ed. 2013), section 2.6, the exponential with t^shape for t (both from memory); prior as virtual sample: Bousquet, arXiv 1007.4740.
 *
 * @example learnRate({ medianDays: 10, shape: 1, n: 1 }, follow([{ time: 10, failed: 1, censored: 0 }])).medianDays // 8.465735902799727
 */
export function learnRate(book: RelapseLaw, followed: Followed): LearntLaw {
  const { size, exposure } = posterior(book, book.shape, followed);
  const median = (rate: number) => (Math.LN2 / rate) ** (1 / book.shape);
  return {
    medianDays: median(size / exposure),
    shape: book.shape,
    n: size,
    low: median(gammaQuantile(size, HIGH_TAIL) / exposure),
    high: median(gammaQuantile(size, LOW_TAIL) / exposure),
  };
}

/**
 * As `learnRate`, with the shape uncertain: shapes on a grid, each with its prior chance and its own Gamma for the rate (the same
 * median and n), weighed by the chance of the data under it:
 *
 *     p(data | k) = k^D product t^((k - 1) d)  Gamma(n + D) / Gamma(n)  b^n / (b + sum (d + c) t^k)^(n + D),  b = n median^k / ln 2
 *
 * D = sum d. The prior is log-normal about the book's shape with the spread a shape has when fitted to n failures, sqrt(6)/pi / sqrt n
 * (the large-sample error of a complete Weibull sample), cut at 2.5 spreads. What comes out has the mean shape, and the rate's
 * posterior at it. Source: Soland 1969 (discrete prior on the shape; from memory).
 *
 * Failures at time 0 are moved to half a day: nothing is noticed sooner than on the day. Cost: grid times rows.
 */
export function learnShapeAndRate(book: RelapseLaw, followed: Followed): LearntLaw {
  mustBeLaw(book);
  const spread = SHAPE_SPREAD / Math.sqrt(book.n);
  const shapes = new Float64Array(GRID);
  const logWeight = new Float64Array(GRID);
  const failed = followed.failed.reduce((sum, d) => sum + d, 0);
  const logTimes = followed.failed.reduce(
    (sum, d, i) => (d > 0 ? sum + d * Math.log(Math.max(HALF_A_DAY, followed.time[i]!)) : sum),
    0,
  );
  for (let j = 0; j < GRID; j++) {
    const deviate = WIDEST * ((2 * j) / (GRID - 1) - 1);
    const shape = book.shape * Math.exp(spread * deviate);
    const { size, exposure, prior } = posterior(book, shape, followed);
    shapes[j] = shape;
    logWeight[j] =
      -0.5 * deviate * deviate +
      failed * Math.log(shape) +
      (shape - 1) * logTimes +
      logGamma(size) -
      logGamma(book.n) +
      book.n * Math.log(prior) -
      size * Math.log(exposure);
  }
  const most = logWeight.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  let total = 0;
  let sum = 0;
  for (let j = 0; j < GRID; j++) {
    const weight = Math.exp(logWeight[j]! - most);
    total += weight;
    sum += weight * shapes[j]!;
  }
  const shape = sum / total;
  return learnRate({ ...book, shape }, followed);
}

/** Spread of the logarithm of a fitted shape times sqrt n: sqrt(6) / pi. */
const SHAPE_SPREAD = Math.sqrt(6) / Math.PI;
const GRID = 41;
const WIDEST = 2.5;
const HALF_A_DAY = 0.5;
const LOW_TAIL = 0.025;
const HIGH_TAIL = 0.975;

function posterior(
  { medianDays, n }: RelapseLaw,
  shape: number,
  { time, failed, censored }: Followed,
): { size: number; exposure: number; prior: number } {
  mustBeLaw({ medianDays, shape, n });
  const prior = (n * medianDays ** shape) / Math.LN2;
  let size = n;
  let exposure = prior;
  for (let i = 0; i < time.length; i++) {
    size += failed[i]!;
    const days = failed[i]! > 0 ? Math.max(HALF_A_DAY, time[i]!) : time[i]!;
    exposure += (failed[i]! + censored[i]!) * days ** shape;
  }
  return { size, exposure, prior };
}

function mustBeLaw({ medianDays, shape, n }: RelapseLaw): void {
  for (const [what, value] of Object.entries({ medianDays, shape, n }))
    if (!(value > 0 && Number.isFinite(value)))
      throw new RangeError(`A time to relapse has ${what} above 0, not ${value}.`);
}
