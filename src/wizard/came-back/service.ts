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
  /** times in service since the same work that are over: it came back and went out again with nothing done to it */
  readonly earlier: readonly { readonly left: Event; readonly cameBack: Happened<'came-back'> }[];
}

/** Null: no work on the card is recorded. */
export function serviceOf({ timeline }: Record): Service | null {
  const treated = timeline[lastWork(timeline)];
  if (treated?.type !== 'treated') return null;
  const since = timeline.slice(stretchStart(timeline) + 1);
  const last = <Type extends Kind>(type: Type) =>
    (since.findLast((event) => event.type === type) as Happened<Type> | undefined) ?? null;
  return {
    treated,
    handedBack: last('handed-back'),
    stillWorking: last('still-working'),
    cameBack: last('came-back'),
    earlier: earlierStretches(timeline, treated),
  };
}

function earlierStretches(timeline: readonly Event[], treated: Event): Service['earlier'] {
  const over: { left: Event; cameBack: Happened<'came-back'> }[] = [];
  let left = treated;
  for (const event of timeline.slice(lastWork(timeline) + 1, stretchStart(timeline) + 1)) {
    if (event.type === 'handed-back') left = event;
    if (event.type === 'came-back') over.push({ left, cameBack: event });
  }
  return over;
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
  const start = stretchStart(timeline);
  const found = indexOf(timeline, kind, start);
  const rest = found === null ? timeline : timeline.toSpliced(found, 1);
  const [from, to] = [lastBefore(rest, kind, start), firstAfter(rest, kind, start)];
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

/** Index of what the present time in service begins after: the work, or the return after which it went out with nothing done to it. */
function stretchStart(timeline: readonly Event[]): number {
  const out = timeline.findLastIndex(({ type }) => type === 'handed-back');
  const back = timeline.slice(0, Math.max(0, out)).findLastIndex(({ type }) => type === 'came-back');
  return Math.max(lastWork(timeline), back);
}

function lastWork(timeline: readonly Event[]): number {
  return timeline.findLastIndex(({ type }) => type === 'treated');
}

function indexOf(timeline: readonly Event[], kind: Kind, start: number): number | null {
  const at = timeline.findLastIndex(({ type }) => type === kind);
  return at > start ? at : null;
}

/** Index of what this time in service begins after, or of what happened in it before this. */
function lastBefore(timeline: readonly Event[], kind: Kind, start: number): number {
  const earlier = ORDER.slice(0, ORDER.indexOf(kind)).flatMap((known) => indexOf(timeline, known, start) ?? []);
  return Math.max(start, ...earlier);
}

/** Index of what happened in service after this, else the end. */
function firstAfter(timeline: readonly Event[], kind: Kind, start: number): number {
  const later = ORDER.slice(ORDER.indexOf(kind) + 1).flatMap((known) => indexOf(timeline, known, start) ?? []);
  return Math.min(timeline.length, ...later);
}

/**
 * The card goes out again today with nothing done to it since it came back. Days in service are counted anew; what was found on the
 * bench stays found, since nothing changed.
 */
export function outAgain(record: Record, now: string): Record {
  const { cameBack } = serviceOf(record) ?? {};
  if (!cameBack) return record;
  const last = record.timeline.at(-1)!.at;
  const at = new Date(Math.max(Date.parse(last), Date.parse(now))).toISOString();
  return { ...record, timeline: [...record.timeline, { type: 'handed-back', at }] };
}

/** As if it had not been written down. What the bench found after a return stays, and is then found after the work. */
export function takeOut(record: Record, kind: Kind): Record {
  const at = indexOf(record.timeline, kind, stretchStart(record.timeline));
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
  const at = indexOf(record.timeline, kind, stretchStart(record.timeline));
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
