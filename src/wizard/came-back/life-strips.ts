/** Which causes of a life are worth a strip of its drawing, and the steps of each. */
import type { Lifeline } from '../../lifeline.ts';

export interface Strip {
  /** a fault's id, or `sound` */
  readonly id: string;
  readonly name: string;
  /** after every point; null where findings contradicted each other */
  readonly active: readonly (number | null)[];
  readonly masked: readonly (number | null)[];
  /** at the last point that has a belief */
  readonly now: number;
}

/** A cause that never reached this chance gets no strip. */
const LEAST_SHOWN = 0.05;
/** What is likeliest now is shown even where others were likelier once. */
const NOW_SHOWN = 2;

/**
 * Up to `most` faults: those that are likeliest now, then those that were likeliest at any time since somebody looked at the
 * card (what such cards usually have says little of this one). In the order of their chance now.
 */
export function stripsOf({ faults, points }: Lifeline, most: number): readonly Strip[] {
  const looked = Math.max(
    1,
    points.findIndex(({ kind }) => kind === 'found' || kind === 'treated'),
  );
  const all = faults.map(({ fault, name }, at): Strip & { readonly ever: number } => {
    const active = points.map(({ chances }) => chances?.[at] ?? (chances === null ? null : 0));
    const masked = points.map(({ masked: asleep }) => asleep?.[at] ?? (asleep === null ? null : 0));
    const ever = Math.max(0, ...points.map((_, i) => (i < looked ? 0 : (active[i] ?? 0) + (masked[i] ?? 0))));
    return { id: fault, name, active, masked, now: lastOf(active), ever };
  });
  const byNow = all.toSorted((a, b) => b.now - a.now);
  const chosen = [...new Set([...byNow.slice(0, NOW_SHOWN), ...all.toSorted((a, b) => b.ever - a.ever)])]
    .filter(({ ever }) => ever >= LEAST_SHOWN)
    .slice(0, most);
  return byNow.filter((strip) => chosen.includes(strip));
}

/** That the card has no active fault, told apart from a fault that sleeps. */
export function soundStrip({ points }: Lifeline, name: string): Strip {
  const active = points.map(({ sound, soundButMasked }) => (sound === null ? null : sound - (soundButMasked ?? 0)));
  const masked = points.map(({ soundButMasked }) => soundButMasked);
  return { id: 'sound', name, active, masked, now: lastOf(points.map(({ sound }) => sound)) };
}

function lastOf(chances: readonly (number | null)[]): number {
  return chances.findLast((chance) => chance !== null) ?? 0;
}
