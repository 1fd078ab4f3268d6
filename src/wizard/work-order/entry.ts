/**
 * What is typed at a hold point before it is recorded. It waits as drafts on this device, so that a reload costs nothing, and
 * becomes findings and a note when the hold point is recorded.
 */
import type { EvidenceItem } from '../../assessment.ts';
import { parseQuantity, type Quantity } from '../../evidence/quantity.ts';
import type { Record as CardRecord, Event, Measured, StepRecord } from '../../record/schema.ts';
import { type Found, type Recorded, recordStep } from '../../work-order/record-step.ts';
import { keepNote, readNote } from '../../work-order/say-note.ts';
import type { OrderStep, WorkOrder } from '../../work-order/schema.ts';
import type { Drafted } from './under-way.ts';

type Find = OrderStep['finds'][number];

/** "looked, can't tell" */
export const CANNOT_TELL = '?';
/** The finding a thermocouple log is judged as. */
export const LOG_FINDING = 'profile-record';

// a colon is in no id: a hold point whose id begins like this one keeps its drafts
const within = (step: string) => `work-${step}:`;
export const stateField = (step: string, finding: string): string => `${within(step)}state-${finding}`;
export const numberField = (step: string, finding: string): string => `${within(step)}number-${finding}`;
export const writeField = (step: string, place: number): string => `${within(step)}write-${place}`;
export const noteField = (step: string): string => `${within(step)}note`;
export const logField = (step: string): string => `${within(step)}log`;

/** Every draft of this hold point. */
export const draftsAt = (step: string, drafts: Drafted): readonly string[] =>
  [...drafts.keys()].filter((key) => key.startsWith(within(step)));

export interface Around {
  readonly quantityOf: (finding: string) => Quantity | undefined;
  /** leads and meter that a reading taken now is taken with */
  readonly takenWith: (finding: string, quantity: Quantity) => Partial<Measured>;
}

export interface Entry {
  readonly found: readonly Found[];
  readonly note: string;
  /** typed, and not to be read as a number */
  readonly unreadable: readonly Find[];
  /** a state was chosen with which this hold point has failed */
  readonly fails: { readonly find: Find; readonly state: string } | null;
}

export function entryAt(step: OrderStep, drafts: Drafted, around: Around): Entry {
  const found: Found[] = [];
  const unreadable: Find[] = [];
  for (const find of step.finds) {
    const typed = drafts.get(numberField(step.id, find.finding))?.trim() ?? '';
    const quantity = around.quantityOf(find.finding);
    if (typed !== '' && quantity !== undefined) {
      if (parseQuantity(typed, quantity).kind === 'error') unreadable.push(find);
      else found.push({ ...around.takenWith(find.finding, quantity), finding: find.finding, typed });
      continue;
    }
    const log = find.finding === LOG_FINDING ? logIn(drafts.get(logField(step.id))) : null;
    if (log !== null) {
      found.push({ finding: find.finding, state: heavierOf(log), weights: { ...log } });
      continue;
    }
    const state = drafts.get(stateField(step.id, find.finding));
    if (state !== undefined) found.push({ finding: find.finding, state: state === CANNOT_TELL ? null : state });
  }
  const failing = step.finds.flatMap((find) => {
    const one = found.find(({ finding }) => finding === find.finding);
    if (one === undefined || 'typed' in one) return [];
    const state = find.fails.find(({ id }) => id === one.state);
    return state === undefined ? [] : [{ find, state: state.name }];
  });
  return { found, note: noteOf(step, drafts), unreadable, fails: failing[0] ?? null };
}

/** The first reading whose heaviest state is one with which the hold point has failed. */
export function failingReading(
  step: OrderStep,
  grades: ReadonlyMap<string, EvidenceItem>,
): { readonly find: Find; readonly state: string } | null {
  for (const find of step.finds) {
    const state = find.fails.find(({ id }) => id === grades.get(find.finding)?.state);
    if (state !== undefined) return { find, state: state.name };
  }
  return null;
}

export type LogWeights = { readonly 'in-window': number; readonly 'out-of-window': number };

export const heavierOf = (log: LogWeights): keyof LogWeights =>
  log['in-window'] >= log['out-of-window'] ? 'in-window' : 'out-of-window';

export function logIn(draft: string | undefined): LogWeights | null {
  if (draft === undefined) return null;
  try {
    const read = JSON.parse(draft) as LogWeights;
    return Number.isFinite(read['in-window']) && Number.isFinite(read['out-of-window']) ? read : null;
  } catch {
    return null;
  }
}

function noteOf(step: OrderStep, drafts: Drafted): string {
  const typed = (field: string) => drafts.get(field)?.trim() ?? '';
  return keepNote(step, [
    ...step.record.map((_, place) => ({ place, said: typed(writeField(step.id, place)) })),
    { place: null, said: typed(noteField(step.id)) },
  ]);
}

/** A time the timeline allows: a clock behind the one that dated the card must not keep the bench from recording. */
export function notBefore(record: CardRecord, at: string): string {
  const last = record.timeline.at(-1);
  return last !== undefined && Date.parse(at) < Date.parse(last.at) ? last.at : at;
}

export function recordEntry(
  order: WorkOrder,
  record: CardRecord,
  step: OrderStep,
  outcome: StepRecord['outcome'],
  { found, note }: Entry,
  at: string,
): Recorded {
  return recordStep(order, record, {
    step: step.id,
    at: notBefore(record, at),
    outcome,
    ...(note === '' ? {} : { note }),
    found,
  });
}

/** What was recorded, as drafts again: whoever takes a hold point back finds it as it was typed. */
export function draftsOf(
  step: OrderStep,
  { note = '' }: StepRecord,
  found: readonly Event[],
): ReadonlyMap<string, string> {
  const drafts = new Map<string, string>();
  for (const event of found) {
    if (event.type === 'measured') drafts.set(numberField(step.id, event.finding), event.typed);
    if (event.type !== 'seen') continue;
    if (event.finding === LOG_FINDING && event.weights !== undefined)
      drafts.set(logField(step.id), JSON.stringify(event.weights));
    else drafts.set(stateField(step.id, event.finding), event.state ?? CANNOT_TELL);
  }
  for (const { place, said } of readNote(step, note))
    drafts.set(place === null ? noteField(step.id) : writeField(step.id, place), said);
  return drafts;
}
