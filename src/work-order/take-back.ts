/** Taking back what was recorded of the work last: the undoing of `recordStep` and of `finishWork`. */
import type { Record as CardRecord, Event, StepRecord } from '../record/schema.ts';
import { type OpenWork, openWork } from './open-work.ts';
import type { WorkOrder } from './schema.ts';

type Order = Pick<WorkOrder, 'steps'>;

export interface TakenBack {
  readonly record: CardRecord;
  readonly step: StepRecord;
  /** what was found there, which is taken out with it */
  readonly found: readonly Event[];
}

/** The record without its last hold point and what was found there; null: none is recorded of the work that is open. */
export function takeBackStep(order: Order, record: CardRecord): TakenBack | null {
  const own = openWork(record);
  const step = own?.process.steps.at(-1);
  if (own === null || step === undefined) return null;
  const wasFound = (event: Event, index: number) =>
    index > own.index && 'step' in event && event.step === step.step && event.at === step.at;
  const found = record.timeline.filter(wasFound);
  const timeline = record.timeline.filter((event, index) => !wasFound(event, index));
  return { record: { ...record, timeline: without(order, timeline, own) }, step, found };
}

/** The process one hold point shorter. Work of which only preparations are left is prepared again, where it was. */
function without(order: Order, timeline: readonly Event[], own: OpenWork): Event[] {
  const steps = own.process.steps.slice(0, -1);
  const first = steps[0];
  if (first === undefined) return timeline.toSpliced(own.index, 1);
  const process = { ...own.process, steps };
  const { remedy } = own.event;
  const touches = ({ step, outcome }: StepRecord) =>
    outcome !== 'left-out' && order.steps.find(({ id }) => id === step)?.stage !== 'prepare';
  if (!own.touched || steps.some(touches)) return timeline.with(own.index, { ...own.event, process });
  const rest = timeline.toSpliced(own.index, 1);
  const later = rest.findIndex((event) => {
    const [other, begun] = [Date.parse(event.at), Date.parse(first.at)];
    return other > begun || (other === begun && 'step' in event && event.step === first.step);
  });
  return rest.toSpliced(later < 0 ? rest.length : later, 0, { type: 'prepared', at: first.at, remedy, process });
}

/** Nobody has said whether the card works after its last work; null: nobody had, or the card has left the bench since. */
export function takeBackWord(record: CardRecord): CardRecord | null {
  const index = record.timeline.findLastIndex(({ type }) => type === 'treated');
  const event = record.timeline[index];
  if (event?.type !== 'treated' || event.process === undefined || event.worked === null) return null;
  const open = { ...record, timeline: record.timeline.with(index, { ...event, worked: null }) };
  return openWork(open) === null ? null : open;
}
