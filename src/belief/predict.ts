/** What a finding not yet made would show. */
import type { Belief } from './belief.ts';
import type { Conditions } from './conditions.ts';
import type { Network } from './network.ts';
import { dot } from './weights.ts';

/**
 * P(X = x | h) for every state x of a finding and every condition h: result[x][h], summing to one over x.
 *
 *     P(X = x | h) = C_x - C_(x-1),  C_x = leak_x product over active f in h of F_f(x)
 *
 * For lists a planner keeps; for all sets it is the same, only longer. Cost: conditions times members times states.
 */
export function stateLikelihoods(network: Network, finding: number, conditions: Conditions): Float64Array[] {
  const node = network.findings[finding];
  if (!node) throw new RangeError(`there is no finding number ${finding}; there are ${network.findings.length}`);
  const rows = new Map(node.given.map((row) => [row.fault, row.cumulative]));
  const rowOf = Array.from({ length: conditions.faults }, (_, fault) => rows.get(fault));
  const { most, count, size, members, dormant } = conditions;
  const states = node.states.length;
  const result = Array.from({ length: states }, () => new Float64Array(count));
  const product = new Float64Array(states);
  for (let i = 0; i < count; i++) {
    product.set(node.leak);
    const end = i * most + size[i]!;
    for (let m = i * most, asleep = dormant[i]!; m < end; m++, asleep >>= 1) {
      const row = (asleep & 1) === 0 ? rowOf[members[m]!] : undefined;
      if (row) for (let x = 0; x < states; x++) product[x]! *= row[x]!;
    }
    let below = 0;
    for (let x = 0; x < states; x++) {
      result[x]![i] = product[x]! - below;
      below = product[x]!;
    }
  }
  return result;
}

/**
 * P(X = x | everything so far) for every state of a finding: the states' likelihoods averaged over the belief.
 *
 * @example a finding with leak .9/.1 and no fault that influences it: Float64Array [0.9, 0.1], whatever is believed
 */
export function predict(network: Network, finding: number, belief: Belief): Float64Array {
  return Float64Array.from(stateLikelihoods(network, finding, belief.conditions), (likelihood) =>
    dot(likelihood, belief.chance),
  );
}
