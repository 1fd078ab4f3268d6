/**
 * Conditions: which faults a card has. A condition is a set of at most `most` faults; each member is active, or dormant
 * where heat has masked it. Lists of them are kept as flat typed arrays.
 */

export interface Conditions {
  /** how many faults there are to choose from */
  readonly faults: number;
  /** most members a condition can have, K */
  readonly most: number;
  readonly count: number;
  /** how many members each condition has; `count` long */
  readonly size: Uint8Array;
  /** members[i * most + slot], rising within a condition; slots from size[i] on mean nothing */
  readonly members: Uint16Array;
  /** bit `slot` is set where that member is dormant; `count` long */
  readonly dormant: Uint16Array;
}

/** Every set of at most `most` faults, all active, in a fixed order: by size, then as words in a dictionary. */
export interface AllConditions extends Conditions {
  /** levels[k] is where the sets of k faults start; levels[most + 1] is `count` */
  readonly levels: Int32Array;
  /** the last, that is highest, member; `count` long, meaningless for the empty set */
  readonly last: Uint16Array;
}

/** What the representation can hold. The bench asks for at most 5; small networks are enumerated whole in tests. */
const MOST_MEMBERS = 16;
const MOST_CONDITIONS = 5_000_000;

/** Whether a list is that of all sets, so that its order can be made use of. */
export const isAll = (conditions: Conditions): conditions is AllConditions => 'levels' in conditions;

const known = new Map<string, AllConditions>();

/**
 * All sets of at most `most` of `faults` faults, the empty one first.
 *
 * The order makes the children of a set (the set and one later fault) one unbroken run, and the runs follow each other in
 * the order of their parents, so that a quantity that multiplies along members needs one multiplication per set.
 *
 * Edges: `most` above `faults` lists every subset. Throws on `most` outside 0..16 or not whole, and on
 * more than five million sets.
 * Cost: time and memory of sum over k <= most of C(faults, k) sets (49 faults, 3: 19,650); the last lists are kept.
 *
 * @example enumerate(3, 2).count // 7: {} {0} {1} {2} {0,1} {0,2} {1,2}
 */
export function enumerate(faults: number, most: number): AllConditions {
  if (!Number.isInteger(most) || most < 0 || most > MOST_MEMBERS) {
    throw new RangeError(`at most ${most} faults at once: give a whole number from 0 to ${MOST_MEMBERS}`);
  }
  if (!Number.isInteger(faults) || faults < 0 || faults > 0xffff) {
    throw new RangeError(`${faults} faults: give a whole number from 0 to 65535`);
  }
  const key = `${faults}/${most}`;
  const before = known.get(key);
  if (before) return before;
  const all = list(faults, most);
  if (known.size >= 8) known.clear();
  known.set(key, all);
  return all;
}

/** Which of `conditions` to keep, in the order given. */
export function pick(conditions: Conditions, indices: ArrayLike<number>): Conditions {
  const { most } = conditions;
  const count = indices.length;
  const size = new Uint8Array(count);
  const members = new Uint16Array(count * most);
  const dormant = new Uint16Array(count);
  for (let i = 0; i < count; i++) {
    const from = indices[i]!;
    size[i] = conditions.size[from]!;
    dormant[i] = conditions.dormant[from]!;
    for (let slot = 0; slot < most; slot++) members[i * most + slot] = conditions.members[from * most + slot]!;
  }
  return { faults: conditions.faults, most, count, size, members, dormant };
}

/** Members of one condition, for people and tests. */
export function membersOf(conditions: Conditions, index: number): { active: number[]; dormant: number[] } {
  const active: number[] = [];
  const dormant: number[] = [];
  for (let slot = 0; slot < conditions.size[index]!; slot++) {
    const fault = conditions.members[index * conditions.most + slot]!;
    (((conditions.dormant[index]! >> slot) & 1) === 1 ? dormant : active).push(fault);
  }
  return { active, dormant };
}

function list(faults: number, most: number): AllConditions {
  const levels = new Float64Array(most + 2);
  let sets = 1;
  for (let k = 0; k <= most; k++) {
    levels[k + 1] = levels[k]! + sets;
    sets = k < faults ? Math.round((sets * (faults - k)) / (k + 1)) : 0;
  }
  const count = levels[most + 1]!;
  if (count > MOST_CONDITIONS) {
    throw new RangeError(`sets of at most ${most} of ${faults} faults are too many to list: allow fewer at once`);
  }
  const size = new Uint8Array(count);
  const members = new Uint16Array(count * most);
  const last = new Uint16Array(count);
  let child = 1;
  for (let k = 1; k <= most; k++) {
    for (let parent = levels[k - 1]!; parent < levels[k]!; parent++) {
      for (let fault = k === 1 ? 0 : last[parent]! + 1; fault < faults; fault++, child++) {
        size[child] = k;
        last[child] = fault;
        for (let slot = 0; slot < k - 1; slot++) members[child * most + slot] = members[parent * most + slot]!;
        members[child * most + k - 1] = fault;
      }
    }
  }
  return { faults, most, count, size, members, dormant: new Uint16Array(count), levels: Int32Array.from(levels), last };
}
