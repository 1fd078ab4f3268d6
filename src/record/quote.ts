import type { Record as CardRecord, Quoted } from './schema.ts';

/** The price the owner was last asked; null: none, or the card has been worked on, came back or was closed since. */
export function openQuote({ timeline }: Pick<CardRecord, 'timeline'>): Quoted | null {
  const settled = timeline.findLastIndex(({ type }) => type === 'treated' || type === 'came-back' || type === 'closed');
  return timeline.slice(settled + 1).findLast((event): event is Quoted => event.type === 'quoted') ?? null;
}
