/** Why a treated card fails again: five answers that sum to one. */

import type { Fold, Member, Trajectory } from './trajectory.ts';
import type { Remedy } from './treat.ts';

export const ATTRIBUTIONS = ['wrong-thing', 'did-not-take', 'relapsed', 'damaged', 'new-fault'] as const;
export type Attribution = (typeof ATTRIBUTIONS)[number];

export interface Attributions {
  /** given that something is active now; they sum to one */
  readonly chances: Readonly<Record<Attribution, number>>;
  /** chance that nothing is active now: it fails for nobody at the moment */
  readonly nothingActive: number;
}

/**
 * For a card that was treated, how likely each explanation of its failing now is. Every active fault carries one:
 *
 * - wrong thing: it was active before the last remedy, which does nothing to it (a fault of the host among them);
 * - did not take: it was active before, the remedy acts on it, and it stayed;
 * - relapsed: heat only masked it, and it is back; · damaged: the work caused it; · new: it came up in service.
 *
 * Where several are active the trajectory's chance is split evenly. Null for a card that was never treated, and where nothing is active
 * at all. `remedy` is the last one. Cost: trajectories times members.
 */
export function attribute(fold: Fold, remedy: Remedy): Attributions | null {
  const sums: Record<Attribution, number> = {
    'wrong-thing': 0,
    'did-not-take': 0,
    relapsed: 0,
    damaged: 0,
    'new-fault': 0,
  };
  let nothingActive = 0;
  let failing = 0;
  for (const trajectory of fold.trajectories) {
    if (trajectory.before === null) return null;
    const active = trajectory.now.filter(({ standing }) => standing !== 'dormant');
    if (active.length === 0) {
      nothingActive += trajectory.chance;
      continue;
    }
    failing += trajectory.chance;
    for (const member of active) sums[explanationOf(member, trajectory, remedy)] += trajectory.chance / active.length;
  }
  if (!(failing > 0)) return null;
  for (const attribution of ATTRIBUTIONS) sums[attribution] /= failing;
  return { chances: sums, nothingActive };
}

function explanationOf({ fault, standing }: Member, { before }: Trajectory, remedy: Remedy): Attribution {
  if (standing === 'relapsed') return 'relapsed';
  if (standing === 'induced') return 'damaged';
  if (standing === 'new') return 'new-fault';
  const was = before?.find((known) => known.fault === fault);
  if (was?.dormant) return 'relapsed';
  return remedy.cures[fault]! + remedy.masks[fault]! > 0 ? 'did-not-take' : 'wrong-thing';
}
