/** Why a treated card fails again: five answers that sum to one. */

import {
  type Fold,
  faultOf,
  isDormant,
  memberCode,
  NEVER_TREATED,
  type Situation,
  showsItself,
  standingOf,
} from './trajectory.ts';
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
 * - relapsed: heat only masked it, and it is back; · damaged: the work caused it, whether it showed at once or opened later; · new: it came up in service.
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
  for (let i = 0; i < fold.chance.length; i++) {
    if (fold.before[i] === NEVER_TREATED) return null;
    const before = fold.situations[fold.before[i]!]!;
    const now = fold.situations[fold.now[i]!]!;
    const chance = fold.chance[i]!;
    if (!showsItself(now)) {
      nothingActive += chance;
      continue;
    }
    failing += chance;
    const active = now.filter((code) => !isDormant(code));
    for (const code of active) sums[explanationOf(code, before, remedy)] += chance / active.length;
  }
  if (!(failing > 0)) return null;
  for (const attribution of ATTRIBUTIONS) sums[attribution] /= failing;
  return { chances: sums, nothingActive };
}

function explanationOf(code: number, before: Situation, remedy: Remedy): Attribution {
  const standing = standingOf(code);
  if (standing === 'relapsed') return 'relapsed';
  if (standing === 'induced' || standing === 'opened') return 'damaged';
  if (standing === 'new') return 'new-fault';
  const fault = faultOf(code);
  if (before.includes(memberCode(fault, 'dormant'))) return 'relapsed';
  return remedy.cures[fault]! + remedy.masks[fault]! > 0 ? 'did-not-take' : 'wrong-thing';
}
