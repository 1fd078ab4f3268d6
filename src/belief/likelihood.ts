/** What one piece of evidence makes of conditions: P(e | h) for a finding that is the noisy-MAX of its faults. */
import type { AllConditions, Conditions } from './conditions.ts';
import type { FindingNode } from './network.ts';
import { scale } from './weights.ts';

/**
 * One piece of evidence, factored. With C_x(h) = leak_x times the product of F_f(x) over active f in h,
 *
 *     P(e | h) = sum over x of weight_x (C_x - C_(x-1))
 *
 * Let `top` be the last state with weight above 0. C_top leaves the sum as a plain product, and neighbouring states of
 * equal weight join; what stays are the ratios R_t = C_t / C_top at the few states where the weight changes:
 *
 *     P(e | h) = C_top (w_0 R_0 + w_1 (R_1 - R_0) + ... + w_T (1 - R_(T-1)))
 *
 * Every term is a product of numbers in [0, 1] or a difference that rounding cannot make negative, and a difference
 * that is 0 in exact arithmetic because no fault in h and no leak has that state is 0 here too. Evidence on the most
 * normal state has T = 0: it is a product and nothing else, which is why it costs next to nothing (D. Heckerman, "A tractable
 * inference algorithm for diagnosing multiple diseases", UAI 1989, for two states).
 */
export interface Terms {
  readonly faults: number;
  readonly node: FindingNode;
  /** the last state with weight above 0 */
  readonly top: number;
  /** T, how many ratios there are */
  readonly changes: number;
  /** ratioLeak[t] = leak_t / leak_top, not falling with t */
  readonly ratioLeak: Float64Array;
  /** ratio[t * faults + f] = F_f(t) / F_f(top), not falling with t */
  readonly ratio: Float64Array;
  /** w_0..w_T */
  readonly steps: Float64Array;
}

/**
 * Factors the weights of one finding. `weights`: one per state, in [0, 1]. Edges: all weights 0 gives terms that are 0
 * for every condition; a fault or a leak with F(top) = 0 does so through `top`. Throws on weights of the wrong number or
 * outside [0, 1]. Cost: faults times changes.
 */
export function factor(node: FindingNode, weights: ArrayLike<number>, faults: number): Terms {
  const states = node.states.length;
  if (weights.length !== states) {
    throw new RangeError(`${node.id} has ${states} states and was given ${weights.length} weights`);
  }
  let highest = -1;
  for (let x = 0; x < states; x++) {
    const weight = weights[x]!;
    if (!(weight >= 0 && weight <= 1)) {
      throw new RangeError(`${node.id}: weight of ${node.states[x]} is ${weight}, not a number from 0 to 1`);
    }
    if (weight > 0) highest = x;
  }
  const changesAt: number[] = [];
  for (let x = 0; x < highest; x++) if (weights[x] !== weights[x + 1]) changesAt.push(x);

  const changes = changesAt.length;
  const steps = new Float64Array(changes + 1);
  for (let t = 0; t < changes; t++) steps[t] = weights[changesAt[t]!]!;
  steps[changes] = highest < 0 ? 0 : weights[highest]!;
  const top = Math.max(highest, 0);
  if (changes === 0) return { faults, node, top, changes, ratioLeak: NONE, ratio: NONE, steps };

  const ratio = new Float64Array(changes * faults).fill(1);
  for (const { fault, cumulative } of node.given) {
    for (let t = 0; t < changes; t++) ratio[t * faults + fault] = over(cumulative[changesAt[t]!]!, cumulative[top]!);
  }
  const ratioLeak = Float64Array.from(changesAt, (x) => over(node.leak[x]!, node.leak[top]!));
  return { faults, node, top, changes, ratioLeak, ratio, steps };
}

/** The plain product in front, C_top: its leak, and F_f(top) of every fault multiplied into `factors`. */
export function multiplyTop({ node, top }: Terms, factors: Float64Array): number {
  for (const { fault, cumulative } of node.given) factors[fault]! *= cumulative[top]!;
  return node.leak[top]!;
}

/** P(e | h) for every condition of any list; dormant members leave the finding alone. Cost: members times (changes + 1). */
export function likelihoods(terms: Terms, conditions: Conditions): Float64Array {
  const { faults, changes, ratio, ratioLeak, steps } = terms;
  const { most, count, size, members, dormant } = conditions;
  const top = new Float64Array(faults).fill(1);
  const topLeak = multiplyTop(terms, top);
  const result = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const end = i * most + size[i]!;
    let product = topLeak;
    for (let m = i * most, asleep = dormant[i]!; m < end; m++, asleep >>= 1) {
      if ((asleep & 1) === 0) product *= top[members[m]!]!;
    }
    let below = 0;
    let mixed = 0;
    for (let t = 0; t < changes; t++) {
      let r = ratioLeak[t]!;
      for (let m = i * most, asleep = dormant[i]!; m < end; m++, asleep >>= 1) {
        if ((asleep & 1) === 0) r *= ratio[t * faults + members[m]!]!;
      }
      mixed += steps[t]! * (r - below);
      below = r;
    }
    result[i] = product * (mixed + steps[changes]! * (1 - below));
  }
  return result;
}

/** The same for the list of all sets, one multiplication per set and factor. */
export function likelihoodsOfAll(terms: Terms, all: AllConditions): Float64Array {
  const result = new Float64Array(all.count);
  const top = new Float64Array(terms.faults).fill(1);
  result[0] = multiplyTop(terms, top);
  multiplyDown(result, top, all);
  multiplyMixed(result, [terms], all);
  return result;
}

/** values[child] = values[parent] times by[the fault it adds], from values[0] down. Cost: one multiplication per set. */
export function multiplyDown(values: Float64Array, by: Float64Array, all: AllConditions): void {
  const { faults, most, levels, last } = all;
  let child = 1;
  for (let k = 1; k <= most; k++) {
    const end = levels[k]!;
    for (let parent = levels[k - 1]!; parent < end; parent++) {
      const value = values[parent]!;
      for (let fault = k === 1 ? 0 : last[parent]! + 1; fault < faults; fault++) values[child++] = value * by[fault]!;
    }
  }
}

/**
 * Multiplies `weights` by the part of P(e | h) that is not a plain product, w_0 R_0 + ... + w_T (1 - R_(T-1)), for all
 * sets and every piece of evidence. Crisp states, by far the most frequent, are taken two at a time, so that each weight
 * is fetched and stored half as often.
 * Cost: two multiplications per set and crisp state, 2 (T + 1) per set and other piece.
 */
export function multiplyMixed(weights: Float64Array, evidence: readonly Terms[], all: AllConditions): void {
  let waiting: Terms | null = null;
  for (const terms of evidence) {
    const { changes, steps } = terms;
    if (changes === 0) {
      if (steps[0] !== 1) scale(weights, steps[0]!);
    } else if (changes > 1 || steps[0] !== 0 || steps[1] !== 1) {
      multiplyRatios(weights, terms, all);
    } else if (waiting) {
      multiplyTwoCrisp(weights, waiting, terms, all);
      waiting = null;
    } else {
      waiting = terms;
    }
  }
  if (waiting) multiplyCrisp(weights, waiting, all);
}

/** One crisp state above the most normal: 1 - R. */
function multiplyCrisp(weights: Float64Array, { ratio, ratioLeak }: Terms, all: AllConditions): void {
  const { faults, most, levels, last } = all;
  const inner = levels[most]!;
  const above = new Float64Array(Math.max(inner, 1));
  above[0] = ratioLeak[0]!;
  weights[0]! *= 1 - above[0]!;
  let child = 1;
  for (let k = 1; k <= most; k++) {
    const end = levels[k]!;
    for (let parent = levels[k - 1]!; parent < end; parent++) {
      const r = above[parent]!;
      let fault = k === 1 ? 0 : last[parent]! + 1;
      if (k < most) {
        for (let at = child, f = fault; f < faults; f++, at++) above[at] = r * ratio[f]!;
      }
      for (; fault < faults; fault++, child++) weights[child]! *= 1 - r * ratio[fault]!;
    }
  }
}

function multiplyTwoCrisp(weights: Float64Array, one: Terms, two: Terms, all: AllConditions): void {
  const { faults, most, levels, last } = all;
  const ratioOne = one.ratio;
  const ratioTwo = two.ratio;
  const inner = levels[most]!;
  const aboveOne = new Float64Array(Math.max(inner, 1));
  const aboveTwo = new Float64Array(Math.max(inner, 1));
  aboveOne[0] = one.ratioLeak[0]!;
  aboveTwo[0] = two.ratioLeak[0]!;
  weights[0]! *= (1 - aboveOne[0]!) * (1 - aboveTwo[0]!);
  let child = 1;
  for (let k = 1; k <= most; k++) {
    const end = levels[k]!;
    for (let parent = levels[k - 1]!; parent < end; parent++) {
      const r = aboveOne[parent]!;
      const s = aboveTwo[parent]!;
      let fault = k === 1 ? 0 : last[parent]! + 1;
      if (k < most) {
        for (let at = child, f = fault; f < faults; f++, at++) {
          aboveOne[at] = r * ratioOne[f]!;
          aboveTwo[at] = s * ratioTwo[f]!;
        }
      }
      for (; fault < faults; fault++, child++) {
        weights[child]! *= (1 - r * ratioOne[fault]!) * (1 - s * ratioTwo[fault]!);
      }
    }
  }
}

function multiplyRatios(weights: Float64Array, terms: Terms, all: AllConditions): void {
  if (terms.changes === 1) multiplyOneRatio(weights, terms, all);
  else if (terms.changes === 2) multiplyTwoRatios(weights, terms, all);
  else multiplyManyRatios(weights, terms, all);
}

/** One change: w_0 R_0 + w_1 (1 - R_0). */
function multiplyOneRatio(weights: Float64Array, { ratio, ratioLeak, steps }: Terms, all: AllConditions): void {
  const { faults, most, levels, last } = all;
  const inner = levels[most]!;
  const [s0, s1] = [steps[0]!, steps[1]!];
  const above = new Float64Array(Math.max(inner, 1));
  above[0] = ratioLeak[0]!;
  weights[0]! *= s0 * above[0]! + s1 * (1 - above[0]!);
  let child = 1;
  for (let k = 1; k <= most; k++) {
    const end = levels[k]!;
    for (let parent = levels[k - 1]!; parent < end; parent++) {
      const over = above[parent]!;
      let fault = k === 1 ? 0 : last[parent]! + 1;
      if (k < most) for (let at = child, f = fault; f < faults; f++, at++) above[at] = over * ratio[f]!;
      for (; fault < faults; fault++, child++) {
        const r = over * ratio[fault]!;
        weights[child]! *= s0 * r + s1 * (1 - r);
      }
    }
  }
}

/** Two changes, such as a reading between two states that are neither the first: w_0 R_0 + w_1 (R_1 - R_0) + w_2 (1 - R_1). */
function multiplyTwoRatios(weights: Float64Array, { ratio, ratioLeak, steps }: Terms, all: AllConditions): void {
  const { faults, most, levels, last } = all;
  const inner = levels[most]!;
  const [s0, s1, s2] = [steps[0]!, steps[1]!, steps[2]!];
  const lower = ratio.subarray(0, faults);
  const upper = ratio.subarray(faults, 2 * faults);
  const aboveLower = new Float64Array(Math.max(inner, 1));
  const aboveUpper = new Float64Array(Math.max(inner, 1));
  aboveLower[0] = ratioLeak[0]!;
  aboveUpper[0] = ratioLeak[1]!;
  weights[0]! *= s0 * aboveLower[0]! + s1 * (aboveUpper[0]! - aboveLower[0]!) + s2 * (1 - aboveUpper[0]!);
  let child = 1;
  for (let k = 1; k <= most; k++) {
    const end = levels[k]!;
    for (let parent = levels[k - 1]!; parent < end; parent++) {
      const overLower = aboveLower[parent]!;
      const overUpper = aboveUpper[parent]!;
      let fault = k === 1 ? 0 : last[parent]! + 1;
      if (k < most) {
        for (let at = child, f = fault; f < faults; f++, at++) {
          aboveLower[at] = overLower * lower[f]!;
          aboveUpper[at] = overUpper * upper[f]!;
        }
      }
      for (; fault < faults; fault++, child++) {
        const r = overLower * lower[fault]!;
        const q = overUpper * upper[fault]!;
        weights[child]! *= s0 * r + s1 * (q - r) + s2 * (1 - q);
      }
    }
  }
}

function multiplyManyRatios(weights: Float64Array, terms: Terms, all: AllConditions): void {
  const { faults, most, levels, last } = all;
  const { changes, ratio, ratioLeak, steps } = terms;
  const inner = levels[most]!;
  const above = new Float64Array(Math.max(inner, 1) * changes);
  above.set(ratioLeak);
  weights[0]! *= mix(ratioLeak, steps, changes);
  const product = new Float64Array(changes);
  const lastStep = steps[changes]!;
  let child = 1;
  for (let k = 1; k <= most; k++) {
    const end = levels[k]!;
    for (let parent = levels[k - 1]!; parent < end; parent++) {
      const from = parent * changes;
      for (let fault = k === 1 ? 0 : last[parent]! + 1; fault < faults; fault++, child++) {
        let below = 0;
        let mixed = 0;
        for (let t = 0; t < changes; t++) {
          const r = above[from + t]! * ratio[t * faults + fault]!;
          mixed += steps[t]! * (r - below);
          below = r;
          product[t] = r;
        }
        weights[child]! *= mixed + lastStep * (1 - below);
        if (child < inner) above.set(product, child * changes);
      }
    }
  }
}

function mix(ratios: Float64Array, steps: Float64Array, changes: number): number {
  let below = 0;
  let mixed = 0;
  for (let t = 0; t < changes; t++) {
    mixed += steps[t]! * (ratios[t]! - below);
    below = ratios[t]!;
  }
  return mixed + steps[changes]! * (1 - below);
}

const NONE = new Float64Array(0);

/** A ratio of cumulative chances; 1 where both are 0, so that the product in front decides. */
const over = (part: number, whole: number): number => (whole > 0 ? part / whole : 1);
