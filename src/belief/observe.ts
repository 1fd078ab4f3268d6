/** Evidence on a starting belief: the exact posterior over all sets of at most K faults. */
import type { Belief } from './belief.ts';
import { type AllConditions, type Conditions, enumerate } from './conditions.ts';
import { contradiction } from './contradiction.ts';
import {
  factor,
  likelihoods,
  likelihoodsOfAll,
  multiplyDown,
  multiplyMixed,
  multiplyTop,
  type Terms,
} from './likelihood.ts';
import type { Evidence, Network } from './network.ts';
import { totalOf } from './prior.ts';
import { divide, fromLogarithms, logWeights, multiply, sum, trusted } from './weights.ts';

/** Findings that every condition forbids together are an answer, not an error: a finding or the knowledge is wrong. */
export type Observed =
  | {
      readonly kind: 'belief';
      readonly belief: Belief;
      /** natural logarithm of P(all evidence), among sets of at most K faults */
      readonly logChance: number;
    }
  | {
      readonly kind: 'contradiction';
      /** the first finding, in the order of the evidence, that no condition allows after those before it */
      readonly finding: number;
      /** earlier findings that forbid it together, none of which can be left out; empty where it is impossible alone */
      readonly against: readonly number[];
    };

/**
 * The posterior P(h | e) over all sets h of at most `most` faults.
 *
 *     P(h | e) = P(h) product over findings of P(e_j | h) / P(e),   P(h) = product of o_f over h / sum of the same
 *     P(e_j | h) = sum over x of weight_x (C_x - C_(x-1)),          C_x = leak_x product over f in h of F_f(x)
 *
 * `empty` is the weight of the condition without any fault, 1 where it is left to the product (`solvePopulation`).
 * `odds`: one per fault, finite, 0 or more (`startingOdds`). `evidence`: at most one piece per finding; their order
 * matters only for which finding a contradiction names. Exact but for rounding: every term is positive.
 * `into`: may be used for the chances instead of a new array, by whoever runs this many times and keeps none of them.
 * Edges: no evidence gives the prior; evidence with equal weights on all states scales `logChance` and nothing else;
 * odds of 0 rule a fault out; products too small for a double are summed in logarithms. Throws on malformed evidence.
 * Cost: one multiplication per set for the odds and for all evidence on most normal states together, two for every
 * other crisp finding. 49 faults, 3, 20 findings: about a millisecond.
 * Source: F. J. Diez, UAI 1993 (noisy-MAX); J. Pearl, Probabilistic Reasoning in Intelligent Systems, 1988 (virtual evidence).
 */
export function posterior(
  network: Network,
  odds: ArrayLike<number>,
  evidence: readonly Evidence[],
  most: number,
  into?: Float64Array,
  empty = 1,
): Observed {
  const faults = network.faults.length;
  const terms = factorAll(network, odds, evidence);
  const all = enumerate(faults, most);
  if (into && into.length !== all.count) {
    throw new RangeError(`an array of ${into.length} cannot hold the chances of ${all.count} conditions`);
  }
  const weights = into ?? new Float64Array(all.count);
  const logScale = weigh(terms, odds, all, weights);
  weights[0]! *= empty;
  const total = sum(weights);
  if (trusted(total)) {
    divide(weights, total);
    return {
      kind: 'belief',
      belief: { conditions: all, chance: weights },
      logChance: Math.log(total) + logScale - Math.log(totalOf(odds, most, empty)),
    };
  }
  return inLogarithms(terms, odds, evidence, all, empty);
}

/**
 * The posterior over any list of conditions, dormant members included, with P(h) proportional to the product of the odds
 * of its members, `empty` for a condition without any. For lists that are not all sets: those a planner keeps. Returns the chances, or null where no
 * condition of the list allows the evidence. Cost: conditions times members times findings.
 */
export function posteriorOver(
  network: Network,
  odds: ArrayLike<number>,
  evidence: readonly Evidence[],
  conditions: Conditions,
  empty = 1,
): Float64Array | null {
  const each = factorAll(network, odds, evidence).map((terms) => likelihoods(terms, conditions));
  const weights = oddsOfEach(odds, conditions, empty);
  for (const likelihood of each) multiply(weights, likelihood);
  const total = sum(weights);
  if (trusted(total)) {
    divide(weights, total);
    return weights;
  }
  const logs = logWeights(odds, each, conditions, empty);
  return fromLogarithms(logs) === -Infinity ? null : logs;
}

/** Factors every piece of evidence, refusing what is malformed. */
export function factorAll(network: Network, odds: ArrayLike<number>, evidence: readonly Evidence[]): Terms[] {
  const faults = network.faults.length;
  if (odds.length !== faults) throw new RangeError(`${faults} faults and ${odds.length} odds: give one for each fault`);
  for (let fault = 0; fault < faults; fault++) {
    if (!(odds[fault]! >= 0 && odds[fault]! < Infinity)) {
      throw new RangeError(`odds of ${network.faults[fault]} are ${odds[fault]}: give a finite number, 0 or more`);
    }
  }
  const seen = new Set<number>();
  return evidence.map(({ finding, weights }) => {
    const node = network.findings[finding];
    if (!node) throw new RangeError(`there is no finding number ${finding}; there are ${network.findings.length}`);
    if (seen.has(finding))
      throw new RangeError(`${node.id} has two pieces of evidence: merge them, or keep the later one`);
    seen.add(finding);
    return factor(node, weights, faults);
  });
}

/**
 * Unnormalised weights of all sets, into `weights`; the plain products of all evidence are folded into the odds first.
 * Returns the logarithm of what was left out of them, the leaks.
 */
function weigh(terms: readonly Terms[], odds: ArrayLike<number>, all: AllConditions, weights: Float64Array): number {
  const folded = Float64Array.from(odds);
  let logScale = 0;
  for (const each of terms) logScale += Math.log(multiplyTop(each, folded));
  weights[0] = logScale === -Infinity ? 0 : 1;
  multiplyDown(weights, folded, all);
  multiplyMixed(weights, terms, all);
  return logScale;
}

/** The slow way, for evidence that is impossible or all but. */
function inLogarithms(
  terms: readonly Terms[],
  odds: ArrayLike<number>,
  evidence: readonly Evidence[],
  all: AllConditions,
  empty: number,
): Observed {
  const each = terms.map((one) => likelihoodsOfAll(one, all));
  const logs = logWeights(odds, each, all, empty);
  const logTotal = fromLogarithms(logs);
  if (logTotal === -Infinity) {
    const { finding, against } = contradiction(logWeights(odds, [], all, empty), each);
    return {
      kind: 'contradiction',
      finding: evidence[finding]!.finding,
      against: against.map((index) => evidence[index]!.finding),
    };
  }
  return {
    kind: 'belief',
    belief: { conditions: all, chance: logs },
    logChance: logTotal - Math.log(totalOf(odds, all.most, empty)),
  };
}

function oddsOfEach(odds: ArrayLike<number>, { most, count, size, members }: Conditions, empty: number): Float64Array {
  const product = new Float64Array(count).fill(1);
  for (let i = 0; i < count; i++) {
    if (size[i] === 0) product[i] = empty;
    for (let slot = 0; slot < size[i]!; slot++) product[i]! *= odds[members[i * most + slot]!]!;
  }
  return product;
}
