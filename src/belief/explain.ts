/** Why the belief is what it is: the weight of each finding for each fault, and how much the findings disagree. */
import { addMarginals } from './belief.ts';
import { type AllConditions, enumerate } from './conditions.ts';
import { likelihoodsOfAll, multiplyDown } from './likelihood.ts';
import type { Evidence, Network } from './network.ts';
import { factorAll } from './observe.ts';
import { divide, dot, fromLogarithms, logWeights, multiplied, multiply, sum, trusted } from './weights.ts';

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
 * Cost: for each piece four passes over all sets, and no division by a likelihood, so that a 0 is no special case.
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
  const each = terms.map((one) => likelihoodsOfAll(one, all));
  const prior = new Float64Array(all.count).fill(1);
  multiplyDown(prior, Float64Array.from(odds), all);
  prior[0]! *= empty;
  divide(prior, sum(prior));

  const logAlone = each.map((likelihood) => Math.log(dot(prior, likelihood)));
  const { whole, logWhole, without, logWithout } =
    products(prior, each) ?? productsInLogarithms(odds, each, all, empty);
  const withAll = oddsOf(whole, all);
  return {
    decibels: without.map((chances) => {
      const withoutIt = oddsOf(chances, all);
      return withAll.map((odd, fault) => 10 * Math.log10(odd === withoutIt[fault] ? 1 : odd / withoutIt[fault]!));
    }),
    conflict: (logAlone.reduce((total, log) => total + log, 0) - logWhole) / Math.LN2,
    conflictOf: Float64Array.from(logAlone, (alone, j) => (alone + logWithout[j]! - logWhole) / Math.LN2),
  };
}

/** Posteriors given all evidence and given all but each piece; logarithms of the chances of that evidence. */
interface Products {
  readonly whole: Float64Array;
  readonly logWhole: number;
  readonly without: readonly Float64Array[];
  readonly logWithout: Float64Array;
}

/** Products from the front and from the back, scaled at each step; null where a sum is too small to be trusted. Spends `prior`. */
function products(prior: Float64Array, each: readonly Float64Array[]): Products | null {
  // without[j] starts as what comes before j
  const without: Float64Array[] = [];
  const logWithout = new Float64Array(each.length);
  let whole = prior;
  let logWhole = 0;
  for (const [j, likelihood] of each.entries()) {
    without.push(whole);
    logWithout[j] = logWhole;
    whole = multiplied(whole, likelihood);
    const total = sum(whole);
    if (!trusted(total)) return null;
    divide(whole, total);
    logWhole += Math.log(total);
  }
  const after = new Float64Array(prior.length).fill(1);
  let logAfter = 0;
  for (let j = each.length - 1; j >= 0; j--) {
    const chances = without[j]!;
    multiply(chances, after);
    const total = sum(chances);
    if (!trusted(total)) return null;
    divide(chances, total);
    logWithout[j]! += logAfter + Math.log(total);
    multiply(after, each[j]!);
    let highest = 0;
    for (const value of after) if (value > highest) highest = value;
    divide(after, highest);
    logAfter += Math.log(highest);
  }
  return { whole, logWhole, without, logWithout };
}

/** The slow way, for evidence that is all but impossible. */
function productsInLogarithms(
  odds: ArrayLike<number>,
  each: readonly Float64Array[],
  all: AllConditions,
  empty: number,
): Products {
  const weighed = (likelihoods: readonly Float64Array[]) => {
    const logs = logWeights(odds, likelihoods, all);
    logs[0]! += Math.log(empty);
    return logs;
  };
  const logPrior = fromLogarithms(weighed([]));
  const whole = weighed(each);
  const logWhole = fromLogarithms(whole) - logPrior;
  if (logWhole === -Infinity) throw new RangeError('this evidence is impossible: there is no belief to explain');
  const logWithout = new Float64Array(each.length);
  const without = each.map((_, j) => {
    const chances = weighed(each.toSpliced(j, 1));
    logWithout[j] = fromLogarithms(chances) - logPrior;
    return chances;
  });
  return { whole, logWhole, without, logWithout };
}

/** Odds that each fault is active. Where that is not unlikely, the chance against is summed as such, to keep its digits. */
function oddsOf(chances: Float64Array, all: AllConditions): Float64Array {
  const active = new Float64Array(all.faults);
  addMarginals(all, chances, active);
  return active.map((chance, fault) => chance / (chance < 0.5 ? 1 - chance : chanceWithout(chances, all, fault)));
}

function chanceWithout(chances: Float64Array, all: AllConditions, fault: number): number {
  const { most, count, size, members } = all;
  let total = 0;
  for (let i = 0; i < count; i++) {
    const end = i * most + size[i]!;
    let m = i * most;
    while (m < end && members[m] !== fault) m++;
    if (m === end) total += chances[i]!;
  }
  return total;
}
