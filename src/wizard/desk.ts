/**
 * Answers on the open record. They are stored as events of its timeline and nothing else is: every function here takes
 * a record and returns the next one. Changing an answer replaces that answer's event where it stands and keeps the rest.
 */
import type { Event, FactAnswers, Measured, Money, Record, Seen } from '../record/schema.ts';
import { spanStart } from '../record/spans.ts';

export type FactAnswer = FactAnswers[string];
export type Witness = 'bench' | 'owner';
export type FindingAnswer = Seen | Measured;
type Arrived = Extract<Event, { type: 'arrived' }>;

const isArrived = (event: Event): event is Arrived => event.type === 'arrived';

/** A fact that was never asked is undefined; "can't tell" is null. */
export function factAnswer(record: Record, fact: string): FactAnswer | undefined {
  return record.timeline.find(isArrived)?.facts[fact];
}

export function answerFact(record: Record, fact: string, value: FactAnswer, at: string): Record {
  return withFacts(record, at, (facts) => ({ ...facts, [fact]: value }));
}

/** Back to "not asked". */
export function clearFact(record: Record, fact: string, at: string): Record {
  if (factAnswer(record, fact) === undefined) return record;
  return withFacts(record, at, ({ [fact]: _cleared, ...facts }) => facts);
}

function withFacts(record: Record, at: string, change: (facts: FactAnswers) => FactAnswers): Record {
  const index = record.timeline.findIndex(isArrived);
  const arrived = record.timeline[index];
  if (arrived === undefined || !isArrived(arrived)) {
    const arrival: Arrived = { type: 'arrived', at, facts: change({}) };
    return { ...record, timeline: [inOrder(arrival, record.timeline, -1, 0), ...record.timeline] };
  }
  return { ...record, timeline: record.timeline.with(index, { ...arrived, facts: change(arrived.facts) }) };
}

function witnessOf(event: FindingAnswer): Witness {
  return event.type === 'measured' ? 'bench' : event.by;
}

const answers = (event: Event, finding: string, witness: Witness): event is FindingAnswer =>
  (event.type === 'seen' || event.type === 'measured') && event.finding === finding && witnessOf(event) === witness;

/**
 * What this witness says of the finding since the card last changed (work, a return): what was found before stays on record and is no
 * longer the answer that is edited. Undefined is "not looked at". */
export function findingAnswer(record: Record, finding: string, witness: Witness): FindingAnswer | undefined {
  const found = record.timeline.findLast(
    (event, index) => index >= spanStart(record.timeline) && answers(event, finding, witness),
  );
  return found as FindingAnswer | undefined;
}

/** `state` null is "looked, can't tell". */
export function answerFinding(
  record: Record,
  finding: string,
  state: string | null,
  witness: Witness,
  at: string,
): Record {
  return place(record, { type: 'seen', at, finding, state, by: witness });
}

/** Keeps what was typed, readable or not; how it was taken stays as it was unless `how` says otherwise. */
export function typeReading(
  record: Record,
  finding: string,
  typed: string,
  at: string,
  how: Partial<Pick<Measured, 'knownGood' | 'leads' | 'fourWire' | 'instrument' | 'temperature'>> = {},
): Record {
  const before = findingAnswer(record, finding, 'bench');
  const kept = before?.type === 'measured' ? before : {};
  const event: Measured = { ...kept, ...how, type: 'measured', at, finding, typed };
  if (event.knownGood === '') delete event.knownGood;
  return place(record, event);
}

/** Back to "not looked at". */
export function clearFinding(record: Record, finding: string, witness: Witness): Record {
  const start = spanStart(record.timeline);
  const timeline = record.timeline.filter((event, index) => index < start || !answers(event, finding, witness));
  return timeline.length === record.timeline.length ? record : { ...record, timeline };
}

/** In place of the same witness's earlier answer; else at the end, but an owner's report goes before what the bench found. */
function place(record: Record, event: FindingAnswer): Record {
  const { timeline } = record;
  const start = spanStart(record.timeline);
  const witness = witnessOf(event);
  const index = timeline.findLastIndex((other, i) => i >= start && answers(other, event.finding, witness));
  if (index >= 0) return { ...record, timeline: timeline.with(index, inOrder(event, timeline, index - 1, index + 1)) };
  const firstOfBench = timeline.findIndex(
    (other, i) => i >= start && (other.type === 'measured' || (other.type === 'seen' && other.by === 'bench')),
  );
  const at = witness === 'bench' || firstOfBench < 0 ? timeline.length : firstOfBench;
  return { ...record, timeline: timeline.toSpliced(at, 0, inOrder(event, timeline, at - 1, at)) };
}

/**
 * The event dated between its neighbours: a timeline must not run backwards, neither because an early answer is
 * changed late, nor because this clock is behind the one that dated the card.
 */
function inOrder<Dated extends Event>(event: Dated, timeline: readonly Event[], before: number, after: number): Dated {
  const [earlier, later] = [timeline[before]?.at, timeline[after]?.at];
  const tooLate = later !== undefined && Date.parse(event.at) > Date.parse(later);
  const at = tooLate ? later : event.at;
  const tooEarly = earlier !== undefined && Date.parse(at) < Date.parse(earlier);
  return { ...event, at: tooEarly ? earlier : at };
}

export function rename(record: Record, title: string): Record {
  return { ...record, title };
}

export function setMoney(record: Record, money: Money): Record {
  return { ...record, money };
}

/** Nothing has been said about the card yet. */
export function isBlank(record: Record): boolean {
  return record.timeline.every((event) => isArrived(event) && Object.keys(event.facts).length === 0);
}

/** The open record with what undo and redo need. */
export interface Desk {
  readonly record: Record;
  readonly past: readonly Record[];
  readonly future: readonly Record[];
  /** which field the last change came from: keystrokes in one field are one step to undo */
  readonly field: string | null;
}

const REMEMBERED = 200;

export function openDesk(record: Record): Desk {
  return { record, past: [], future: [], field: null };
}

export function change(desk: Desk, record: Record, field: string | null = null): Desk {
  if (record === desk.record) return desk;
  if (field !== null && field === desk.field) return { ...desk, record, future: [] };
  return { record, past: [...desk.past, desk.record].slice(-REMEMBERED), future: [], field };
}

export function undo(desk: Desk): Desk {
  const record = desk.past.at(-1);
  if (record === undefined) return desk;
  return { record, past: desk.past.slice(0, -1), future: [desk.record, ...desk.future], field: null };
}

export function redo(desk: Desk): Desk {
  const [record, ...future] = desk.future;
  if (record === undefined) return desk;
  return { record, past: [...desk.past, desk.record], future, field: null };
}
