/** The piece of work a card is in the middle of. */
import type { Record as CardRecord, Event, Process } from '../record/schema.ts';

export interface OpenWork {
  /** place in the timeline */
  readonly index: number;
  readonly event: Extract<Event, { type: 'prepared' | 'treated' }>;
  readonly process: Process;
  /** the card has been touched; before that, only preparations are recorded */
  readonly touched: boolean;
}

/**
 * The last work that is prepared or being done: it has a process, and nobody has said whether the card works. Nothing that
 * ends it may follow.
 */
export function openWork(record: Pick<CardRecord, 'timeline'>): OpenWork | null {
  const index = record.timeline.findLastIndex(({ type }) => type === 'treated' || type === 'prepared');
  const event = record.timeline[index];
  if (event?.type !== 'treated' && event?.type !== 'prepared') return null;
  if (event.process === undefined || (event.type === 'treated' && event.worked !== null)) return null;
  const ended = record.timeline
    .slice(index + 1)
    .some(
      ({ type }) => type === 'handed-back' || type === 'still-working' || type === 'came-back' || type === 'closed',
    );
  return ended ? null : { index, event, process: event.process, touched: event.type === 'treated' };
}
