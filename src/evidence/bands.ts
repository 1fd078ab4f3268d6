/** How a value with its uncertainty spreads over bands whose edges are uncertain themselves. Pure numbers. */
import { normalCdf } from './normal.ts';

export interface UncertainEdge {
  readonly at: number;
  /** standard deviation of the logarithm of where the edge truly lies; 0: the edge is sharp */
  readonly tolerance: number;
  /** standard uncertainty of `at`, besides the tolerance: a re-centred edge has the reference's */
  readonly uncertainty?: number;
}

/**
 * How many standard deviations a value lies above an edge:
 *
 *     1 / z^2 = 1 / z_meter^2 + 1 / z_edge^2,  z_meter = (x - e) / u,  z_edge = ln(x / e) / tolerance,
 *
 * with the sign of x - e. Both distances are 0 at the edge, so that a value exactly on it splits evenly.
 *
 * It is first-order propagation of u through the logarithm (GUM 5.1.2), z = ln(x/e) / sqrt(tolerance^2 + (u/m)^2), with
 * the slope 1/m taken as the mean slope between e and x: m = (x - e) / ln(x / e), the logarithmic mean. That mean makes
 * the two ends exact: with a sharp edge it is JCGM 106's (x - e) / u, and with an exact reading the log-normal
 * tolerance alone. With the slope at the edge instead, a reading a thousand times above an edge would look doubtful
 * merely because one percent of it is ten edges wide. In between, with tolerances up to 0.5 and u up to 0.3 of the
 * edge, it differs from the full convolution by less than 0.03 in probability.
 *
 * A value at or below 0 is infinitely far below a positive edge on the logarithmic scale: the meter decides alone. An
 * edge at or below 0 must be sharp (thrown otherwise: its logarithm does not exist). With u and tolerance 0 the answer
 * is -Infinity, 0 or Infinity.
 *
 * @example deviationsAbove(12.6, 0.1, { at: 12.6, tolerance: 0 }) // 0
 */
export function deviationsAbove(value: number, u: number, edge: UncertainEdge): number {
  if (edge.tolerance > 0 && edge.at <= 0) {
    throw new RangeError(`an edge at ${edge.at} cannot have a logarithmic tolerance: make it sharp or move it above 0`);
  }
  const distance = value - edge.at;
  if (distance === 0) return 0;
  const meter = distance / Math.hypot(u, edge.uncertainty ?? 0);
  if (edge.tolerance === 0 || value <= 0) return meter;
  const tolerance = Math.log(value / edge.at) / edge.tolerance;
  return Math.sign(distance) / Math.hypot(1 / meter, 1 / tolerance);
}

/**
 * The probability that the true value lies in each band. Edges ascend; there is one band more than there are edges.
 *
 * P(above edge i) = Phi(z_i), and a band's weight is the difference of its two edges. Edges of unlike tolerance could
 * cross far out in a tail; z is kept from rising from one edge to the next, so that every weight is 0 or more, they sum
 * to 1, and a larger reading never adds to what lies below an edge. Cost: one normal distribution per edge.
 *
 * @example bandWeights(0.1, 0.004, [{ at: 0.1, tolerance: 0.2 }]) // [0.5, 0.5]
 */
export function bandWeights(value: number, u: number, edges: readonly UncertainEdge[]): number[] {
  const weights: number[] = [];
  let below = Number.POSITIVE_INFINITY;
  for (const edge of edges) {
    const above = Math.min(below, deviationsAbove(value, u, edge));
    weights.push(between(above, below));
    below = above;
  }
  weights.push(normalCdf(below));
  return weights;
}

/** Phi(high) - Phi(low), taken in the tail where it keeps its digits. */
function between(low: number, high: number): number {
  return low > 0 ? normalCdf(-low) - normalCdf(-high) : normalCdf(high) - normalCdf(low);
}
