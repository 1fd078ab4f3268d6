/**
 * A card's life as trajectories: what condition it was in just before the last remedy, and what condition it is in now.
 * The belief over them is a fold of everything that happened: observe, treat, serve.
 */
import type { Belief } from './belief.ts';
import { membersOf } from './conditions.ts';

/**
 * Where a fault of the card stands now. The four kinds of active differ only in how they came to be, which is what tells
 * why a card failed again; findings see all of them alike.
 */
export const STANDINGS = ['active', 'relapsed', 'induced', 'new', 'dormant'] as const;
export type Standing = (typeof STANDINGS)[number];

export interface Member {
  readonly fault: number;
  readonly standing: Standing;
}

export interface Trajectory {
  /** faults just before the last remedy, by fault; null where the card was never treated */
  readonly before: readonly { readonly fault: number; readonly dormant: boolean }[] | null;
  /** faults now, by fault */
  readonly now: readonly Member[];
  readonly chance: number;
}

/** A belief over trajectories. */
export interface Fold {
  readonly trajectories: readonly Trajectory[];
  /** chance that was dropped on the way because it was too small to follow, in all */
  readonly pruned: number;
  /** trajectories less likely than this are dropped; 0: none */
  readonly least: number;
  /** natural logarithm of the chance of everything observed so far */
  readonly logChance: number;
}

/** Trajectories less likely than this are dropped, unless a fold asks for another limit, and what they held is counted. */
export const LEAST_FOLLOWED = 1e-7;

/** Begins the fold at a belief over conditions: nothing treated yet. `logChance`: of the evidence behind the belief. */
export function beginFold(belief: Belief, logChance = 0, least = LEAST_FOLLOWED): Fold {
  const trajectories: Trajectory[] = [];
  const { conditions, chance } = belief;
  for (let c = 0; c < chance.length; c++) {
    if (chance[c]! === 0) continue;
    const { active, dormant } = membersOf(conditions, c);
    const now: Member[] = [
      ...active.map((fault): Member => ({ fault, standing: 'active' })),
      ...dormant.map((fault): Member => ({ fault, standing: 'dormant' })),
    ].sort((a, b) => a.fault - b.fault);
    trajectories.push({ before: null, now, chance: chance[c]! });
  }
  const empty: Fold = { trajectories: [], pruned: 0, least, logChance };
  return settle(empty, trajectories) ?? { ...empty, logChance: Number.NEGATIVE_INFINITY };
}

/**
 * Merges equal trajectories, drops those below the fold's limit and scales the rest to one. `trajectories` carry unscaled weights; what
 * they sum to is the chance of what was just observed. `dropped`: chance that was left out while making them. Null where
 * nothing is left: a contradiction.
 */
export function settle(from: Fold, trajectories: readonly Trajectory[], dropped = 0): Fold | null {
  const merged = new Map<string, Trajectory>();
  let total = 0;
  for (const trajectory of trajectories) {
    if (trajectory.chance <= 0) continue;
    total += trajectory.chance;
    const key = keyOf(trajectory);
    const known = merged.get(key);
    merged.set(key, known ? { ...known, chance: known.chance + trajectory.chance } : trajectory);
  }
  if (!(total > 0)) return null;
  const limit = from.least * total;
  const kept: Trajectory[] = [];
  let followed = 0;
  for (const trajectory of merged.values()) {
    if (trajectory.chance < limit) continue;
    kept.push(trajectory);
    followed += trajectory.chance;
  }
  return {
    trajectories: kept.map((trajectory) => ({ ...trajectory, chance: trajectory.chance / followed })),
    pruned: 1 - (1 - from.pruned) * (1 - dropped) * (followed / total),
    least: from.least,
    logChance: from.logChance + Math.log(total),
  };
}

/** Faults that show themselves now. */
export function activeOf(trajectory: Trajectory): number[] {
  return trajectory.now.filter((member) => member.standing !== 'dormant').map((member) => member.fault);
}

/** Whether the card itself works: none of its own faults is active; `host` is 1 for faults that are not the card's. */
export function worksNow(trajectory: Trajectory, host: ArrayLike<number>): boolean {
  return activeOf(trajectory).every((fault) => host[fault] === 1);
}

/** Chance that each fault is active now. */
export function activeChancesOf(fold: Fold, faults: number): Float64Array {
  const chances = new Float64Array(faults);
  for (const trajectory of fold.trajectories) {
    for (const fault of activeOf(trajectory)) chances[fault]! += trajectory.chance;
  }
  return chances;
}

function keyOf({ before, now }: Trajectory): string {
  const was = before === null ? '-' : before.map(({ fault, dormant }) => `${fault}${dormant ? 'd' : 'a'}`).join(',');
  return `${was}>${now.map(({ fault, standing }) => `${fault}${standing[0]}`).join(',')}`;
}
