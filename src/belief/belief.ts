/** A belief, and what can be read off it: chances of faults, of sites, of a sound card, and its likeliest conditions. */
import { type AllConditions, type Conditions, isAll, membersOf, pick } from './conditions.ts';
import { divide, sum } from './weights.ts';

/** A probability for every condition of a list; they sum to one. */
export interface Belief {
  readonly conditions: Conditions;
  readonly chance: Float64Array;
}

/**
 * P(fault active) for every fault: the sum over conditions in which it is active. Dormant members do not count.
 * Cost: conditions times members.
 */
export function marginals(belief: Belief): Float64Array {
  const result = new Float64Array(belief.conditions.faults);
  addMarginals(belief.conditions, belief.chance, result);
  return result;
}

/** Adds the weight of every condition to each of its active faults; `weights` need not sum to one. */
export function addMarginals(conditions: Conditions, weights: Float64Array, into: Float64Array): void {
  if (isAll(conditions)) {
    addMarginalsOfAll(conditions, weights, into);
    return;
  }
  const { most, count, size, members, dormant } = conditions;
  for (let i = 0; i < count; i++) {
    const weight = weights[i]!;
    if (weight === 0) continue;
    const end = i * most + size[i]!;
    for (let m = i * most, asleep = dormant[i]!; m < end; m++, asleep >>= 1) {
      if ((asleep & 1) === 0) into[members[m]!]! += weight;
    }
  }
}

/** The children of a set lie side by side: their sum goes to its members at once. */
function addMarginalsOfAll(all: AllConditions, weights: Float64Array, into: Float64Array): void {
  const { faults, most, levels, last, members } = all;
  let child = 1;
  for (let k = 1; k <= most; k++) {
    for (let parent = levels[k - 1]!; parent < levels[k]!; parent++) {
      let sum = 0;
      for (let fault = k === 1 ? 0 : last[parent]! + 1; fault < faults; fault++, child++) {
        const weight = weights[child]!;
        sum += weight;
        into[fault]! += weight;
      }
      for (let m = parent * most; m < parent * most + k - 1; m++) into[members[m]!]! += sum;
    }
  }
}

/**
 * P(no fault of `mask` is active). `mask`: one entry per fault, not 0 for the faults that count; with all faults but the
 * host's, it is the chance that the card itself is sound.
 */
export function chanceNoneOf(belief: Belief, mask: ArrayLike<number>): number {
  return chanceWhere(belief, mask, false);
}

/** P(at least one fault of `mask` is active), summed as such and not as one minus the other. */
export function chanceAnyOf(belief: Belief, mask: ArrayLike<number>): number {
  return chanceWhere(belief, mask, true);
}

/**
 * For each group, P(at least one of its faults is active). `groupOf`: group of each fault, 0..groups-1. The sum may pass
 * one, since a card can have faults in several groups.
 */
export function groupChances(belief: Belief, groupOf: ArrayLike<number>, groups: number): Float64Array {
  const { most, count, size, members, dormant } = belief.conditions;
  const result = new Float64Array(groups);
  const counted = new Int32Array(groups).fill(-1);
  for (let i = 0; i < count; i++) {
    const chance = belief.chance[i]!;
    const end = i * most + size[i]!;
    for (let m = i * most, asleep = dormant[i]!; m < end; m++, asleep >>= 1) {
      const group = groupOf[members[m]!]!;
      if ((asleep & 1) !== 0 || counted[group] === i) continue;
      counted[group] = i;
      result[group]! += chance;
    }
  }
  return result;
}

/** The `count` likeliest conditions, likeliest first; equal ones in the order of the list. */
export function topConditions(
  belief: Belief,
  count: number,
): { readonly active: number[]; readonly dormant: number[]; readonly chance: number }[] {
  return likeliest(belief, 1, count).map((i) => ({ ...membersOf(belief.conditions, i), chance: belief.chance[i]! }));
}

/** A belief over fewer conditions, likeliest first, and how much of the whole it covers. */
export interface Restricted extends Belief {
  /** mass of the kept conditions before they were scaled to one */
  readonly coverage: number;
  /** where each kept condition was in the list */
  readonly index: Int32Array;
}

/**
 * The fewest conditions whose mass reaches `mass`, but no more than `most` of them, scaled to sum to one.
 * `mass` in (0, 1]; with 1 every condition with a chance above 0 is wanted. `coverage` says what was reached.
 * Cost: one pass, then sorting only of the conditions that can matter.
 */
export function restrict(belief: Belief, mass: number, most: number): Restricted {
  const index = Int32Array.from(likeliest(belief, mass, most));
  const chance = Float64Array.from(index, (i) => belief.chance[i]!);
  const coverage = sum(chance);
  divide(chance, coverage);
  return { conditions: pick(belief.conditions, index), chance, coverage: Math.min(coverage, 1), index };
}

function likeliest(belief: Belief, mass: number, most: number): number[] {
  const { chance } = belief;
  // conditions below this sum to less than (1 - mass): without them the rest still reaches it
  const floor = Math.max(0, 1 - mass) / chance.length;
  const least = Math.max(floor, leastAmong(chance, most));
  const sorted: number[] = [];
  for (let i = 0; i < chance.length; i++) if (chance[i]! > 0 && chance[i]! >= least) sorted.push(i);
  sorted.sort((a, b) => chance[b]! - chance[a]! || a - b);
  let covered = 0;
  let kept = 0;
  while (kept < sorted.length && kept < most && covered < mass) covered += chance[sorted[kept++]!]!;
  sorted.length = kept;
  return sorted;
}

/** No chance below this is among the `most` largest; 0 where there are not many more than wanted. */
function leastAmong(chance: Float64Array, most: number): number {
  return chance.length <= 2 * most ? 0 : rankedValue(chance.slice(), Math.max(most, 1));
}

/** The rank-th largest value (1: the largest); reorders `values` (C. A. R. Hoare, Algorithm 65: Find, 1961). */
function rankedValue(values: Float64Array, rank: number): number {
  let low = 0;
  let high = values.length - 1;
  const at = rank - 1;
  while (low < high) {
    const pivot = values[(low + high) >> 1]!;
    let i = low;
    let j = high;
    while (i <= j) {
      while (values[i]! > pivot) i++;
      while (values[j]! < pivot) j--;
      if (i > j) break;
      const swap = values[i]!;
      values[i++] = values[j]!;
      values[j--] = swap;
    }
    if (at <= j) high = j;
    else if (at >= i) low = i;
    else break;
  }
  return values[at]!;
}

function chanceWhere(belief: Belief, mask: ArrayLike<number>, any: boolean): number {
  const { most, count, size, members, dormant } = belief.conditions;
  let total = 0;
  for (let i = 0; i < count; i++) {
    const end = i * most + size[i]!;
    let found = false;
    for (let m = i * most, asleep = dormant[i]!; m < end && !found; m++, asleep >>= 1) {
      found = (asleep & 1) === 0 && mask[members[m]!]! !== 0;
    }
    if (found === any) total += belief.chance[i]!;
  }
  return total;
}
