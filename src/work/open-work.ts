/** The piece of work a card is in the middle of. */
import type { Record as CardRecord, Event } from '../record/schema.ts';

export type Treated = Extract<Event, { type: 'treated' }>;

export interface OpenWork {
  /** place in the timeline */
  readonly index: number;
  readonly event: Treated & { readonly process: NonNullable<Treated['process']> };
}

/** The last treatment, while it has a process and nobody has said whether the card works; nothing that ends it may follow. */
export function openWork(record: Pick<CardRecord, 'timeline'>): OpenWork | null {
  const index = record.timeline.findLastIndex(({ type }) => type === 'treated');
  const event = record.timeline[index];
  if (event?.type !== 'treated' || event.process === undefined || event.worked !== null) return null;
  const ended = record.timeline
    .slice(index + 1)
    .some(
      ({ type }) => type === 'handed-back' || type === 'still-working' || type === 'came-back' || type === 'closed',
    );
  return ended ? null : { index, event: { ...event, process: event.process } };
}
