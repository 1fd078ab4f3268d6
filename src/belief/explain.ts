/** Why the belief is what it is: the weight of each finding for each fault, and how much the findings disagree. */
import { addMarginals } from './belief.ts';
import { type AllConditions, enumerate } from './conditions.ts';
import { likelihoodsOfAll, multiplyDown, multiplyMixed, multiplyTop, type Terms } from './likelihood.ts';
import type { Evidence, Network } from './network.ts';
import { factorAll } from './observe.ts';
import { totalOf } from './prior.ts';
import { fromLogarithms, logWeights, multiply, sum, trusted } from './weights.ts';

export interface Explanation {
  /** decibels[j][f]: weight of piece j of the evidence for fault f; see `explain` for infinities */
  readonly decibels: readonly Float64Array[];
  /** Jensen's conflict of all evidence, in bits */
  readonly conflict: number;
  /** what each piece adds to the conflict, given all others, in bits */
  readonly conflictOf: Float64Array;
}

/**
 * Weights of evidence, by leaving out one piece at a time.
 *
 * For piece j and fault f, in decibels: 10 log10 of (odds of f given all evidence) / (odds of f given all but piece j);
 * 10 dB is a factor of ten in the odds. A piece that makes certain what was not is +Infinity, one that rules out what was
 * not ruled out is -Infinity, and one that leaves a certain or excluded fault as it was is 0.
 *
 * `conflict` is log2 of (product of the P(e_j)) / P(all e): above 0, the findings fit each other worse than if they had
 * nothing to do with one another. conflictOf[j] is log2 of P(e_j) P(all but j) / P(all e): what piece j adds to it.
 *
 * `empty`: weight of the condition without any fault, as for `posterior`.
 * The evidence must be possible (`posterior` gave a belief); throws otherwise.
 * Cost: for each piece four passes over all sets; no division by a likelihood, so that a 0 is no special case.
 * Source: I. J. Good, Probability and the Weighing of Evidence, 1950; F. V. Jensen, B. Chamberlain, T. Nordahl and
 * F. Jensen, "Analysis in HUGIN of data conflict", UAI 1990.
 */
export function explain(
  network: Network,
  odds: ArrayLike<number>,
  evidence: readonly Evidence[],
  most: number,
  empty = 1,
): Explanation {
  const terms = factorAll(network, odds, evidence);
  const all = enumerate(network.faults.length, most);
  const start: Start = { odds, all, empty };
  const logPrior = Math.log(totalOf(odds, most, empty));
  const { whole, without } = leaveOut(terms, start) ?? leaveOutInLogarithms(terms, start);
  const logAlone = terms.map((one) => logWeightAlone(one, start) - logPrior);
  return {
    decibels: without.map((rest) =>
      whole.odds.map((odd, fault) => 10 * Math.log10(odd === rest.odds[fault] ? 1 : odd / rest.odds[fault]!)),
    ),
    conflict: (logAlone.reduce((total, log) => total + log, 0) - (whole.log - logPrior)) / Math.LN2,
    conflictOf: Float64Array.from(without, (rest, j) => (logAlone[j]! + rest.log - whole.log) / Math.LN2),
  };
}

/** The starting belief, in the form that weights are made of. */
interface Start {
  readonly odds: ArrayLike<number>;
  readonly all: AllConditions;
  readonly empty: number;
}

/** What some of the evidence says together. */
interface Said {
  /** odds of each fault */
  readonly odds: Float64Array;
  /** logarithm of the sum of all weights */
  readonly log: number;
}

interface LeftOut {
  readonly whole: Said;
  /** given all but piece j */
  readonly without: readonly Said[];
}

/**
 * The plain products of the evidence go into the odds, for each piece left out anew; what is no plain product is multiplied up
 * once from the front and once from the back. Null where a sum is too small to be trusted.
 */
function leaveOut(terms: readonly Terms[], start: Start): LeftOut | null {
  const { all } = start;
  const mixed = [...terms.keys()].filter((j) => !isPlainProduct(terms[j]!));
  const before = [new Float64Array(all.count).fill(1)];
  for (const j of mixed) {
    const next = before.at(-1)!.slice();
    multiplyMixed(next, [terms[j]!], all);
    before.push(next);
  }
  const allMixed = before.at(-1)!;

  const weights = new Float64Array(all.count);
  const say = (left: number, mixture: Float64Array): Said | null => {
    const folded = Float64Array.from(start.odds);
    let logLeaks = 0;
    for (const [j, one] of terms.entries()) if (j !== left) logLeaks += Math.log(multiplyTop(one, folded));
    spread(weights, folded, start);
    multiply(weights, mixture);
    const total = sum(weights);
    return trusted(total) ? { odds: oddsOf(weights, total, all), log: logLeaks + Math.log(total) } : null;
  };
  const whole = say(-1, allMixed);
  if (!whole || whole.log === -Infinity) return null;

  const without: Said[] = [];
  const after = new Float64Array(all.count).fill(1);
  for (let j = terms.length - 1, m = mixed.length - 1; j >= 0; j--) {
    const plain = mixed[m] !== j;
    if (!plain) multiply(before[m]!, after);
    const said = say(j, plain ? allMixed : before[m]!);
    if (!said) return null;
    without[j] = said;
    if (!plain) {
      multiplyMixed(after, [terms[j]!], all);
      m--;
    }
  }
  return { whole, without };
}

/** The slow way, for evidence that is impossible or all but. */
function leaveOutInLogarithms(terms: readonly Terms[], { odds, all, empty }: Start): LeftOut {
  const each = terms.map((one) => likelihoodsOfAll(one, all));
  const say = (likelihoods: readonly Float64Array[]): Said => {
    const chances = logWeights(odds, likelihoods, all, empty);
    const log = fromLogarithms(chances);
    if (log === -Infinity) throw new RangeError('this evidence is impossible: there is no belief to explain');
    return { odds: oddsOf(chances, 1, all), log };
  };
  return { whole: say(each), without: each.map((_, j) => say(each.toSpliced(j, 1))) };
}

/** Logarithm of the sum of weights given one piece alone; in closed form where it is a plain product. */
function logWeightAlone(one: Terms, start: Start): number {
  const { all, empty } = start;
  const folded = Float64Array.from(start.odds);
  const logLeak = Math.log(multiplyTop(one, folded));
  if (isPlainProduct(one)) return logLeak + Math.log(totalOf(folded, all.most, empty));
  const weights = new Float64Array(all.count);
  spread(weights, folded, start);
  multiplyMixed(weights, [one], all);
  return logLeak + Math.log(sum(weights));
}

/** The product of odds of every set; `empty` for the set without any. */
function spread(weights: Float64Array, odds: Float64Array, { all, empty }: Start): void {
  weights[0] = 1;
  multiplyDown(weights, odds, all);
  weights[0] = empty;
}

const isPlainProduct = ({ changes, steps }: Terms): boolean => changes === 0 && steps[0] === 1;

/** Odds that each fault is active. Where that is not unlikely, the weight against is summed as such, to keep its digits. */
function oddsOf(weights: Float64Array, total: number, all: AllConditions): Float64Array {
  const active = new Float64Array(all.faults);
  addMarginals(all, weights, active);
  return active.map(
    (weight, fault) => weight / (weight < total / 2 ? total - weight : weightWithout(weights, all, fault)),
  );
}

function weightWithout(weights: Float64Array, all: AllConditions, fault: number): number {
  const { most, count, size, members } = all;
  let total = 0;
  for (let i = 0; i < count; i++) {
    const end = i * most + size[i]!;
    let m = i * most;
    while (m < end && members[m] !== fault) m++;
    if (m === end) total += weights[i]!;
  }
  return total;
}
