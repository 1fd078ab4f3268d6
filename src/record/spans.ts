/** Where on a timeline a card becomes another one, so that what was found before is no longer an answer. */
import type { Event } from './schema.ts';

/**
 * Whether the card changed with this event: work was done on it, or it failed in service for the first time since. A card that
 * came back, went out again with nothing done to it and came back once more has the fault it had: the second return changes
 * nothing, and a finding seen at both is one finding seen again, not two witnesses.
 */
export function changesTheCard(timeline: readonly Event[], index: number): boolean {
  const { type } = timeline[index]!;
  if (type === 'treated') return true;
  if (type !== 'came-back') return false;
  const before = timeline.slice(0, index).findLast((event) => event.type === 'treated' || event.type === 'came-back');
  return before?.type !== 'came-back';
}

/** Index of the first event since the card last changed. */
export function spanStart(timeline: readonly Event[]): number {
  return timeline.findLastIndex((_, index) => changesTheCard(timeline, index)) + 1;
}
