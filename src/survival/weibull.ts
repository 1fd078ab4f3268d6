/** The Weibull law fitted to times in service, with those still working counted in. */

import type { Followed } from './followed.ts';

export interface WeibullFit {
  /** k: below 1 early failures, 1 no memory, above 1 wear-out */
  readonly shape: number;
  /** time by which 63.2 % have failed, in the unit of the times */
  readonly scale: number;
  readonly logLikelihood: number;
  readonly shapeError: number;
  readonly scaleError: number;
  /** covariance of shape and scale */
  readonly covariance: number;
  readonly failed: number;
}

/** What can be wrong with data that are themselves sound. */
export class NoWeibullFit extends RangeError {}

/** Bracketing doubles or halves the shape at most so often: 2^60 either way. */
const DOUBLINGS = 60;
/** Relative width of the bracket at which the shape is known. */
const SHAPE_TOLERANCE = 1e-14;

/**
 * Maximum likelihood of a Weibull law S(t) = exp(-(t / scale)^shape), with d failures and c losses at each time:
 *
 *     sum (d + c) t^k ln t / sum (d + c) t^k  -  1/k  -  sum d ln t / sum d  =  0        shape k
 *     scale^k = sum (d + c) t^k / sum d
 *     ln L = sum d (ln k + (k - 1) ln t - k ln scale) - sum (d + c) (t / scale)^k
 *
 * The left side of the first rises with k (a variance and 1/k^2), so there is one root at most; it is bracketed by doubling and then
 * halved, with Newton steps where they stay inside. Standard errors from the observed information, inverted: by the usual large-sample
 * argument, too narrow with few failures. Times are taken over the longest one, so that large powers do not overflow.
 *
 * Throws NoWeibullFit where nothing failed, where something failed at time 0 (no Weibull law allows it), and where all failed at one
 * time and nobody was followed longer (the shape grows without limit). Losses at time 0 say nothing. Cost: some 30 passes.
 *
 * Source: Cohen, Technometrics 7 (1965) 579; Kalbfleisch & Prentice, chapter 3 (from memory).
 */
export function fitWeibull({ time, failed, censored }: Followed): WeibullFit {
  const longest = time.at(-1)!;
  const total = failed.reduce((sum, d) => sum + d, 0);
  if (!(total > 0))
    throw new NoWeibullFit('Nothing failed: there is no time to failure to fit. Follow the cards longer.');
  if (time[0] === 0 && failed[0]! > 0)
    throw new NoWeibullFit(
      `${failed[0]} failed at time 0, which no Weibull law allows. Give the time they worked, or count them as not mended.`,
    );
  const logs = time.map((t) => Math.log(t / longest));
  const meanLog = failed.reduce((sum, d, i) => (d > 0 ? sum + d * logs[i]! : sum), 0) / total;
  if (!(meanLog < 0))
    throw new NoWeibullFit(
      'All failed at one time and nobody was followed longer: how the times spread cannot be told from that.',
    );

  /** sum, first and second moment of ln t under the weights (d + c) t^k */
  const moments = (k: number) => {
    let sum = 0;
    let first = 0;
    let second = 0;
    for (let i = 0; i < time.length; i++) {
      if (time[i] === 0) continue;
      const weight = (failed[i]! + censored[i]!) * Math.exp(k * logs[i]!);
      sum += weight;
      first += weight * logs[i]!;
      second += weight * logs[i]! * logs[i]!;
    }
    return { sum, first: first / sum, second: second / sum };
  };
  const score = (k: number) => moments(k).first - 1 / k - meanLog;

  let low = 1;
  let high = 1;
  for (let step = 0; step < DOUBLINGS && score(low) > 0; step++) low /= 2;
  for (let step = 0; step < DOUBLINGS && score(high) < 0; step++) high *= 2;
  if (score(low) > 0 || score(high) < 0)
    throw new NoWeibullFit('No shape fits these times: they differ too little, or by too many powers of ten.');
  let shape = Math.sqrt(low * high);
  while (high - low > SHAPE_TOLERANCE * high) {
    const { first, second } = moments(shape);
    const miss = first - 1 / shape - meanLog;
    if (miss > 0) high = shape;
    else low = shape;
    const newton = shape - miss / (second - first * first + 1 / (shape * shape));
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(next - shape) <= SHAPE_TOLERANCE * shape) break;
    shape = next;
  }

  const { sum } = moments(shape);
  const logScale = Math.log(sum / total) / shape;
  let logLikelihood = total * (Math.log(shape) - logScale - Math.log(longest));
  // second derivatives of ln L by shape and by m = ln scale
  let byShape = -total / (shape * shape);
  let byScale = 0;
  let byBoth = -total;
  for (let i = 0; i < time.length; i++) {
    if (time[i] === 0) continue;
    const u = logs[i]! - logScale;
    const hazard = (failed[i]! + censored[i]!) * Math.exp(shape * u);
    logLikelihood += failed[i]! * (shape - 1) * u - hazard;
    byShape -= hazard * u * u;
    byScale -= shape * shape * hazard;
    byBoth += hazard * (1 + shape * u);
  }
  const determinant = byShape * byScale - byBoth * byBoth;
  const scale = longest * Math.exp(logScale);
  return {
    shape,
    scale,
    logLikelihood,
    shapeError: Math.sqrt(-byScale / determinant),
    scaleError: scale * Math.sqrt(-byShape / determinant),
    covariance: (scale * byBoth) / determinant,
    failed: total,
  };
}
