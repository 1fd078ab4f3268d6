/** The judged profile as a finding of the work it belongs to. */
import type { Record, Seen } from '../../record/schema.ts';

export const PROFILE_FINDING = 'profile-record';

export type ProfileWeights = { readonly 'in-window': number; readonly 'out-of-window': number };

const isProfile = (event: Record['timeline'][number]): event is Seen =>
  event.type === 'seen' && event.finding === PROFILE_FINDING;

/** Index after the last work; 0 where none is recorded. */
function afterWork({ timeline }: Record): number {
  return timeline.findLastIndex(({ type }) => type === 'treated') + 1;
}

/** What is recorded of the last work's profile, wherever it stands since. */
export function profileOf(record: Record): Seen | null {
  return record.timeline.slice(afterWork(record)).findLast(isProfile) ?? null;
}

/**
 * Recorded once, with the work: a log read when the card came back still tells of the heat it had then, and the same log read
 * twice is no second witness. Where no work is recorded it stands at the end.
 */
export function recordProfile(record: Record, weights: ProfileWeights, at: string): Record {
  const without = takeOutProfile(record);
  const { timeline } = without;
  const place = afterWork(without);
  const state = weights['in-window'] >= weights['out-of-window'] ? 'in-window' : 'out-of-window';
  const work = timeline[place - 1];
  const event: Seen = {
    type: 'seen',
    at: work?.at ?? at,
    finding: PROFILE_FINDING,
    state,
    by: 'bench',
    weights: { ...weights },
  };
  return { ...record, timeline: timeline.toSpliced(work === undefined ? timeline.length : place, 0, event) };
}

export function takeOutProfile(record: Record): Record {
  const from = afterWork(record);
  const timeline = record.timeline.filter((event, at) => at < from || !isProfile(event));
  return timeline.length === record.timeline.length ? record : { ...record, timeline };
}
