/** What a remedy does to the belief: each fault goes its own way, and the bench test afterwards is evidence. */
import { type Fold, type Member, settle, type Trajectory, worksNow } from './trajectory.ts';

/** One remedy as chances per fault; what is left of one after `cures` and `masks` is: it stays. */
export interface Remedy {
  /** index = fault */
  readonly cures: ArrayLike<number>;
  readonly masks: ArrayLike<number>;
  /** chance that the work causes the fault on a card that does not have it */
  readonly induces: ArrayLike<number>;
}

/** Damage is followed a little further down than trajectories are, since several kinds of it may meet in one. */
const BRANCH_SHARE = 0.1;

/**
 * Treats every trajectory. An active fault is cured, masked (dormant: works now, comes back) or stays; a dormant one is
 * cured or stays dormant; an absent one may be induced, each independently of the others. `worked` is what the bench test told: true
 * where no fault of the card is active afterwards; null where nobody tested. `host`: 1 for faults that are not the card's.
 *
 * Null where `worked` is impossible: a contradiction. Exact; damage far below the fold's limit is dropped and counted as pruned. Cost: trajectories times outcomes, 3 per active fault and 2 per fault that can be induced.
 */
export function treat(fold: Fold, remedy: Remedy, worked: boolean | null, host: ArrayLike<number>): Fold | null {
  const inducible = Array.from(remedy.induces, (chance, fault) => ({ fault, chance })).filter(
    ({ chance }) => chance > 0,
  );
  const after: Trajectory[] = [];
  let dropped = 0;
  const leastBranch = fold.least * BRANCH_SHARE;
  for (const trajectory of fold.trajectories) {
    const before = trajectory.now.map(({ fault, standing }) => ({ fault, dormant: standing === 'dormant' }));
    let branches: { now: Member[]; chance: number }[] = [{ now: [], chance: trajectory.chance }];
    for (const member of trajectory.now) branches = branches.flatMap((branch) => fateOf(member, remedy, branch));
    const present = new Set(trajectory.now.map(({ fault }) => fault));
    for (const { fault, chance } of inducible) {
      if (present.has(fault)) continue;
      branches = branches.flatMap(({ now, chance: weight }) => {
        const spared = { now, chance: weight * (1 - chance) };
        const hit = { now: [...now, { fault, standing: 'induced' as const }], chance: weight * chance };
        if (hit.chance >= leastBranch) return [spared, hit];
        dropped += hit.chance;
        return [spared];
      });
    }
    for (const { now, chance } of branches) {
      const next = { before, now: now.sort((a, b) => a.fault - b.fault), chance };
      if (worked === null || worksNow(next, host) === worked) after.push(next);
    }
  }
  return settle(fold, after, dropped);
}

function fateOf(
  { fault, standing }: Member,
  { cures, masks }: Remedy,
  { now, chance }: { now: Member[]; chance: number },
): { now: Member[]; chance: number }[] {
  const cured = cures[fault]!;
  const masked = standing === 'dormant' ? 0 : masks[fault]!;
  const stays: Member['standing'] = standing === 'dormant' ? 'dormant' : 'active';
  return [
    { now, chance: chance * cured },
    { now: [...now, { fault, standing: 'dormant' as const }], chance: chance * masked },
    { now: [...now, { fault, standing: stays }], chance: chance * (1 - cured - masked) },
  ].filter((branch) => branch.chance > 0);
}
