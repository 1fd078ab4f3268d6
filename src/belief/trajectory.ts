/**
 * A card's life as trajectories: what condition it was in just before the last remedy, and what condition it is in now.
 * The belief over them is a fold of everything that happened: observe, treat, serve.
 */
import type { Belief } from './belief.ts';
import { membersOf } from './conditions.ts';

/**
 * Where a fault of the card stands now. The four kinds of active differ only in how they came to be, which is what tells
 * why a card failed again; findings see all of them alike. `latent`: the work caused it and it does not show yet (a pillow joint that
 * touches); `opened`: it does now.
 */
export const STANDINGS = ['active', 'relapsed', 'induced', 'new', 'dormant', 'latent', 'opened'] as const;
export type Standing = (typeof STANDINGS)[number];

export interface Member {
  readonly fault: number;
  readonly standing: Standing;
}

/** One trajectory, spelled out. */
export interface Trajectory {
  /** faults just before the last remedy, by fault; null where the card was never treated */
  readonly before: readonly { readonly fault: number; readonly dormant: boolean }[] | null;
  /** faults now, by fault */
  readonly now: readonly Member[];
  readonly chance: number;
}

/** The faults that are not absent, ascending, each with its standing: `memberCode`. */
export type Situation = readonly number[];

/** A belief over trajectories, packed: situations are kept once and named by their number. */
export interface Fold {
  readonly situations: readonly Situation[];
  /** per trajectory: the situation just before the last remedy; -1 where the card was never treated */
  readonly before: Int32Array;
  /** per trajectory: the situation now */
  readonly now: Int32Array;
  /** per trajectory; they sum to one */
  readonly chance: Float64Array;
  /** chance that was dropped on the way because it was too small to follow, in all */
  readonly pruned: number;
  /** trajectories less likely than this are dropped; 0: none */
  readonly least: number;
  /** natural logarithm of the chance of everything observed so far */
  readonly logChance: number;
}

/** Trajectories less likely than this are dropped, unless a fold asks for another limit, and what they held is counted. */
export const LEAST_FOLLOWED = 1e-7;

export const NEVER_TREATED = -1;
const DORMANT = STANDINGS.indexOf('dormant');
const LATENT = STANDINGS.indexOf('latent');
/** The standing lies in the lowest bits of a code, the fault above it. */
const STANDING_BITS = 3;
const STANDING_MASK = (1 << STANDING_BITS) - 1;

/** A fault and its standing in one number, ordered by fault. */
export function memberCode(fault: number, standing: Standing): number {
  return (fault << STANDING_BITS) | STANDINGS.indexOf(standing);
}

export function faultOf(code: number): number {
  return code >> STANDING_BITS;
}

export function standingOf(code: number): Standing {
  return STANDINGS[code & STANDING_MASK]!;
}

/** Whether it is there and does not show: masked, or caused by the work and not yet open. */
export function isDormant(code: number): boolean {
  const standing = code & STANDING_MASK;
  return standing === DORMANT || standing === LATENT;
}

/** What a belief over trajectories is made from: trajectories that differ from one another, with unscaled weights. */
export interface Drafted {
  readonly situations: readonly Situation[];
  readonly before: ArrayLike<number>;
  readonly now: ArrayLike<number>;
  readonly weight: ArrayLike<number>;
  /** chance that was left out while making them */
  readonly dropped?: number;
}

/** Begins the fold at a belief over conditions: nothing treated yet. `logChance`: of the evidence behind the belief. */
export function beginFold(belief: Belief, logChance = 0, least = LEAST_FOLLOWED): Fold {
  const situations: Situation[] = [];
  const weight: number[] = [];
  let dropped = 0;
  const { conditions, chance } = belief;
  for (let c = 0; c < chance.length; c++) {
    if (chance[c]! === 0) continue;
    if (chance[c]! < least) {
      dropped += chance[c]!;
      continue;
    }
    const { active, dormant } = membersOf(conditions, c);
    situations.push(
      [
        ...active.map((fault) => memberCode(fault, 'active')),
        ...dormant.map((fault) => memberCode(fault, 'dormant')),
      ].sort((a, b) => a - b),
    );
    weight.push(chance[c]!);
  }
  const now = Int32Array.from(weight, (_, at) => at);
  const before = new Int32Array(weight.length).fill(NEVER_TREATED);
  const empty = { situations, before, now, chance: new Float64Array(weight.length), pruned: 0, least, logChance };
  const begun = settle(empty, { situations, before, now, weight, dropped });
  return begun ? { ...begun, logChance } : { ...empty, logChance: Number.NEGATIVE_INFINITY };
}

/**
 * Scales weights to one and drops trajectories below the fold's limit. What the weights sum to is the chance of what was just observed.
 * Null where nothing is left: a contradiction.
 */
export function settle(from: Fold, { situations, before, now, weight, dropped = 0 }: Drafted): Fold | null {
  let total = 0;
  for (let i = 0; i < weight.length; i++) total += weight[i]!;
  if (!(total > 0)) return null;
  const limit = from.least * total;
  const kept = new Int32Array(weight.length);
  let count = 0;
  let followed = 0;
  for (let i = 0; i < weight.length; i++) {
    if (!(weight[i]! > 0) || weight[i]! < limit) continue;
    kept[count++] = i;
    followed += weight[i]!;
  }
  // situations that nothing leads to any more are left behind
  const number = new Int32Array(situations.length).fill(-1);
  const lived: Situation[] = [];
  const renumbered = (at: number) => {
    if (at === NEVER_TREATED) return at;
    if (number[at] === -1) number[at] = lived.push(situations[at]!) - 1;
    return number[at]!;
  };
  const settled = { before: new Int32Array(count), now: new Int32Array(count), chance: new Float64Array(count) };
  for (let k = 0; k < count; k++) {
    const i = kept[k]!;
    settled.before[k] = renumbered(before[i]!);
    settled.now[k] = renumbered(now[i]!);
    settled.chance[k] = weight[i]! / followed;
  }
  return {
    situations: lived,
    ...settled,
    pruned: 1 - (1 - from.pruned) * (total / (total + dropped)) * (followed / total),
    least: from.least,
    logChance: from.logChance + Math.log(total),
  };
}

/** Every trajectory of a fold, spelled out. */
export function trajectoriesOf({ situations, before, now, chance }: Fold): Trajectory[] {
  return Array.from(chance, (each, i) => ({
    before:
      before[i] === NEVER_TREATED
        ? null
        : situations[before[i]!]!.map((code) => ({ fault: faultOf(code), dormant: isDormant(code) })),
    now: situations[now[i]!]!.map((code) => ({ fault: faultOf(code), standing: standingOf(code) })),
    chance: each,
  }));
}

/** What the trajectories hold, by situation. index = situation */
export function chanceBySituation({ situations, chance }: Fold, which: Int32Array): Float64Array {
  const sums = new Float64Array(situations.length);
  for (let i = 0; i < chance.length; i++) if (which[i]! >= 0) sums[which[i]!]! += chance[i]!;
  return sums;
}

/** Situations as they are now, each once, with what they hold: how an active fault came to be is left out. */
export function plainly(fold: Fold): { situations: Situation[]; chance: number[] } {
  const sums = chanceBySituation(fold, fold.now);
  const index = new Map<string, number>();
  const situations: Situation[] = [];
  const chance: number[] = [];
  fold.situations.forEach((situation, i) => {
    if (sums[i]! === 0) return;
    const plain = situation.map((code) => memberCode(faultOf(code), isDormant(code) ? 'dormant' : 'active'));
    const key = String.fromCharCode(...plain);
    const known = index.get(key);
    if (known === undefined) {
      index.set(key, situations.length);
      situations.push(plain);
      chance.push(sums[i]!);
    } else {
      chance[known]! += sums[i]!;
    }
  });
  return { situations, chance };
}

/** Whether some fault shows itself. */
export function showsItself(situation: Situation): boolean {
  return situation.some((code) => !isDormant(code));
}

/** Whether the card itself works: none of its own faults is active; `host` is 1 for faults that are not the card's. */
export function worksNow(situation: Situation, host: ArrayLike<number>): boolean {
  return situation.every((code) => isDormant(code) || host[faultOf(code)] === 1);
}

/** Chance that each fault is active in a situation drawn with these chances. index = fault */
export function activeChances(
  situations: readonly Situation[],
  chances: ArrayLike<number>,
  faults: number,
): Float64Array {
  const active = new Float64Array(faults);
  situations.forEach((situation, at) => {
    const chance = chances[at] ?? 0;
    if (chance === 0) return;
    for (const code of situation) if (!isDormant(code)) active[faultOf(code)]! += chance;
  });
  return active;
}

/** Chance that each fault is active now. */
export function activeChancesOf(fold: Fold, faults: number): Float64Array {
  return activeChances(fold.situations, chanceBySituation(fold, fold.now), faults);
}

/** Chance that each fault was active just before the last remedy, in the light of everything since. */
export function activeBeforeRemedy(fold: Fold, faults: number): Float64Array {
  return activeChances(fold.situations, chanceBySituation(fold, fold.before), faults);
}
