/**
 * What became of the card since the last work on it, as events of its timeline: handed back, still working, came back. Every
 * function takes a record and returns the next one, or says why a day cannot be right.
 */
import type { Event, Record } from '../../record/schema.ts';

type Kind = 'handed-back' | 'still-working' | 'came-back';
type Happened<Type extends Event['type']> = Extract<Event, { type: Type }>;

export interface Service {
  readonly treated: Happened<'treated'>;
  readonly handedBack: Happened<'handed-back'> | null;
  readonly stillWorking: Happened<'still-working'> | null;
  readonly cameBack: Happened<'came-back'> | null;
}

/** Null: no work on the card is recorded. */
export function serviceOf({ timeline }: Record): Service | null {
  const from = timeline.findLastIndex(({ type }) => type === 'treated');
  const treated = timeline[from];
  if (treated?.type !== 'treated') return null;
  const since = timeline.slice(from + 1);
  const last = <Type extends Kind>(type: Type) =>
    (since.findLast((event) => event.type === type) as Happened<Type> | undefined) ?? null;
  return {
    treated,
    handedBack: last('handed-back'),
    stillWorking: last('still-working'),
    cameBack: last('came-back'),
  };
}

/** The local day of a moment, as a date field writes it. */
export function dayOf(iso: string): string {
  const at = new Date(iso);
  const two = (part: number) => String(part).padStart(2, '0');
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}

export type Placed =
  | { readonly ok: true; readonly record: Record }
  /** the day lies before an event that came earlier, or after one that came later, or in the future */
  | { readonly ok: false; readonly why: 'before' | 'after' | 'future' | 'no-day'; readonly than: Event | null };

/** In the order in which a card goes through them. */
const ORDER: readonly Kind[] = ['handed-back', 'still-working', 'came-back'];

/**
 * Puts the event on that day, in place of an earlier one of its kind since the last work. What else was said of it is kept. It must
 * lie between the work and what happened before and after it in service; what was found in between goes before or after it
 * by its own day: what was found on the day of a return was found after it.
 */
export function putOn(record: Record, kind: Kind, day: string, now: string): Placed {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(day) || Number.isNaN(Date.parse(day)))
    return { ok: false, why: 'no-day', than: null };
  if (day > dayOf(now)) return { ok: false, why: 'future', than: null };
  const { timeline } = record;
  const found = indexOf(timeline, kind);
  const rest = found === null ? timeline : timeline.toSpliced(found, 1);
  const [from, to] = [lastBefore(rest, kind), firstAfter(rest, kind)];
  const [before, after] = [rest[from], rest[to]];
  if (before !== undefined && day < dayOf(before.at)) return { ok: false, why: 'before', than: before };
  if (after !== undefined && day > dayOf(after.at)) return { ok: false, why: 'after', than: after };
  const later = rest.findIndex(({ at }, index) => {
    const other = dayOf(at);
    return index > from && index < to && (kind === 'handed-back' ? other > day : other >= day);
  });
  const place = later < 0 ? to : later;
  const old = found === null ? {} : timeline[found];
  const event = { ...old, type: kind, at: momentOn(day, rest[place - 1]?.at, rest[place]?.at, now) } as Event;
  return { ok: true, record: { ...record, timeline: rest.toSpliced(place, 0, event) } };
}

/** Noon, unless the day's neighbours or the clock leave only another hour of it. */
function momentOn(day: string, before: string | undefined, after: string | undefined, now: string): string {
  const noon = new Date(`${day}T12:00:00`).getTime();
  const latest = Math.min(Date.parse(now), after === undefined ? Number.POSITIVE_INFINITY : Date.parse(after));
  const earliest = before === undefined ? Number.NEGATIVE_INFINITY : Date.parse(before);
  return new Date(Math.max(earliest, Math.min(noon, latest))).toISOString();
}

function lastWork(timeline: readonly Event[]): number {
  return timeline.findLastIndex(({ type }) => type === 'treated');
}

function indexOf(timeline: readonly Event[], kind: Kind): number | null {
  const at = timeline.findLastIndex(({ type }) => type === kind);
  return at > lastWork(timeline) ? at : null;
}

/** Index of the work, or of what happened in service before this. */
function lastBefore(timeline: readonly Event[], kind: Kind): number {
  const earlier = ORDER.slice(0, ORDER.indexOf(kind)).flatMap((known) => indexOf(timeline, known) ?? []);
  return Math.max(lastWork(timeline), ...earlier);
}

/** Index of what happened in service after this, else the end. */
function firstAfter(timeline: readonly Event[], kind: Kind): number {
  const later = ORDER.slice(ORDER.indexOf(kind) + 1).flatMap((known) => indexOf(timeline, known) ?? []);
  return Math.min(timeline.length, ...later);
}

/** As if it had not been written down. What the bench found after a return stays, and is then found after the work. */
export function takeOut(record: Record, kind: Kind): Record {
  const at = indexOf(record.timeline, kind);
  return at === null ? record : { ...record, timeline: record.timeline.toSpliced(at, 1) };
}

/** What the owner paid; undefined: not written down. */
export function setPaid(record: Record, paid: number | undefined): Record {
  return change(record, 'handed-back', ({ paid: _before, ...rest }) => (paid === undefined ? rest : { ...rest, paid }));
}

/** Days it worked; null: can't tell · undefined: until it was brought back. */
export function setWorkedDays(record: Record, workedDays: number | null | undefined): Record {
  return change(record, 'came-back', ({ workedDays: _before, ...rest }) =>
    workedDays === undefined ? rest : { ...rest, workedDays },
  );
}

function change<Type extends Kind>(record: Record, kind: Type, to: (event: Happened<Type>) => Event): Record {
  const at = indexOf(record.timeline, kind);
  return at === null
    ? record
    : { ...record, timeline: record.timeline.with(at, to(record.timeline[at] as Happened<Type>)) };
}

/** What the card showed of this finding before it came back: the bench's word before the owner's. */
export function shownBefore({ timeline }: Record, finding: string): string | null {
  const back = timeline.findLastIndex(({ type }) => type === 'came-back');
  const before = timeline
    .slice(0, lastWork(timeline))
    .filter((event) => event.type === 'seen' && event.finding === finding);
  if (back < 0) return null;
  const said = before.findLast((event) => event.type === 'seen' && event.by === 'bench') ?? before.at(-1);
  return said?.type === 'seen' ? said.state : null;
}
