/** A record's timeline as times in service: one for each piece of work that left the bench with a working card. */

import type { Id } from '../knowledge/schema.ts';
import type { Record as CardRecord, Event } from '../record/schema.ts';

/** How a time in service ended. Only the first is a failure; the others are the last that was heard of a working card. */
export const ENDINGS = ['came-back', 'still-working', 'closed', 'silent'] as const;
export type Ending = (typeof ENDINGS)[number];

export interface ServiceTime {
  readonly record: Id;
  /** the last work before the card left; work of the same stay before it is not counted apart */
  readonly remedy: Id;
  /** all work of that stay, in order, `remedy` last */
  readonly stay: readonly Id[];
  /** when it left */
  readonly since: string;
  readonly days: number;
  readonly ended: Ending;
  /** it came back, nobody knows after how many days: taken half way from the last word of a working card to its return */
  readonly dayUnknown: boolean;
  /** the record up to the end of this time in service, with what was found when the card came back */
  readonly timeline: readonly Event[];
}

export interface WorkDone {
  readonly remedy: Id;
  readonly outcome: 'did-not-work' | 'left-working' | 'not-known-to-work' | 'not-handed-back';
}

export interface Services {
  readonly work: readonly WorkDone[];
  readonly times: readonly ServiceTime[];
}

/** Silence of an owner taken as a card that works: up to this day, and no longer than the warranty, while a failure would be heard of. */
export interface Silence {
  readonly until: string;
  readonly warrantyDays: number;
}

const MILLISECONDS_PER_DAY = 86_400_000;

/**
 * What counts, one rule for each:
 *
 * - begins when the card leaves the bench (`handed-back`; the work itself where that is not recorded), after work that left it working:
 *   `worked` true, or unknown and the card is later said to have worked;
 * - ends at the first `came-back`: a failure after `workedDays`, or the days it was away where that is left out;
 * - else at the last word: `still-working` or `closed` after it left. Days after the last word are not days of service;
 * - handed back and never heard of: no days at all, unless `silence` says that no word is a good word;
 * - the next work on the card ends it, too.
 */
export function servicesOf(record: Pick<CardRecord, 'id' | 'timeline'>, silence?: Silence): Services {
  const work: WorkDone[] = [];
  const times: ServiceTime[] = [];
  const { timeline } = record;
  const treated = timeline.flatMap((event, at) => (event.type === 'treated' ? [{ event, at }] : []));
  let stay: Id[] = [];
  treated.forEach(({ event, at }, k) => {
    stay.push(event.remedy);
    const next = treated[k + 1]?.at ?? timeline.length;
    const after = timeline.slice(at + 1, next);
    const left = after.some(({ type }) => type === 'handed-back' || type === 'still-working' || type === 'came-back');
    const outcome = outcomeOf(event.worked, left, after);
    work.push({ remedy: event.remedy, outcome });
    if (outcome === 'left-working')
      times.push(
        timeOf(record.id, { remedy: event.remedy, stay, worked: event.at }, timeline.slice(0, at + 1), after, silence),
      );
    if (left) stay = [];
  });
  return { work, times };
}

function outcomeOf(worked: boolean | null, left: boolean, after: readonly Event[]): WorkDone['outcome'] {
  if (worked === false) return 'did-not-work';
  if (!left) return 'not-handed-back';
  if (worked === true) return 'left-working';
  const saidToWork = after.some(
    (event) => event.type === 'still-working' || (event.type === 'came-back' && (event.workedDays ?? 0) > 0),
  );
  return saidToWork ? 'left-working' : 'not-known-to-work';
}

function timeOf(
  record: Id,
  { remedy, stay, worked }: { remedy: Id; stay: readonly Id[]; worked: string },
  before: readonly Event[],
  after: readonly Event[],
  silence: Silence | undefined,
): ServiceTime {
  const backAt = after.findIndex(({ type }) => type === 'came-back');
  const served = backAt < 0 ? after : after.slice(0, backAt);
  const since = served.find(({ type }) => type === 'handed-back')?.at ?? worked;
  const base = { record, remedy, stay: [...stay], since };
  const back = after[backAt];
  if (back?.type === 'came-back') {
    const away = daysBetween(since, back.at);
    const dayUnknown = back.workedDays === null;
    const word = served.findLast(({ type }) => type === 'still-working');
    const heard = word ? daysBetween(since, word.at) : 0;
    const days = back.workedDays ?? (dayUnknown ? (heard + away) / 2 : away);
    return { ...base, days, ended: 'came-back', dayUnknown, timeline: [...before, ...untilItLeftAgain(after, backAt)] };
  }
  const word = served.findLast(({ type, at }) => isWord(type) && daysBetween(since, at) > 0);
  const heard = word ? daysBetween(since, word.at) : 0;
  const silent = silence ? Math.min(silence.warrantyDays, daysBetween(since, silence.until)) : 0;
  const days = Math.max(heard, silent);
  const ended = silent > heard || !word ? 'silent' : (word.type as 'still-working' | 'closed');
  // to the belief a card still working is one, whoever says so
  const said: Event[] =
    ended === 'still-working' || days === 0
      ? []
      : [{ type: 'still-working', at: new Date(Date.parse(since) + days * MILLISECONDS_PER_DAY).toISOString() }];
  return { ...base, days, ended, dayUnknown: false, timeline: [...before, ...served, ...said] };
}

function isWord(type: Event['type']): boolean {
  return type === 'still-working' || type === 'closed';
}

function untilItLeftAgain(after: readonly Event[], backAt: number): readonly Event[] {
  const leaves = after.findIndex(
    ({ type }, i) => i > backAt && (type === 'handed-back' || type === 'came-back' || type === 'still-working'),
  );
  return leaves < 0 ? after : after.slice(0, leaves);
}

function daysBetween(from: string, to: string): number {
  return Math.max(0, (Date.parse(to) - Date.parse(from)) / MILLISECONDS_PER_DAY);
}
