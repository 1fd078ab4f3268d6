/** Recording a hold point: into the process of the work, and what was found there as an event of its own. */

import type {
  Record as CardRecord,
  Event,
  Measured,
  PackageKnown,
  Process,
  Seen,
  StepRecord,
} from '../record/schema.ts';
import { orderMessages } from './messages/messages.ts';
import { type OpenWork, openWork } from './open-work.ts';
import { orderState } from './order-state.ts';
import type { OrderStep, WorkOrder } from './schema.ts';

/** What was seen or read at a hold point; who, when and where are filled in. */
export type Found = Pick<Seen, 'finding' | 'state' | 'weights'> | Omit<Measured, 'type' | 'at' | 'step'>;

export interface StepEntry extends StepRecord {
  readonly found?: readonly Found[] | undefined;
}

export type Recorded =
  | { readonly ok: true; readonly record: CardRecord }
  | { readonly ok: false; readonly wrong: string; readonly todo: string };

/**
 * The record with one hold point more. Preparations are kept as an event `prepared`, which changes nothing of what is
 * believed; the first hold point beyond them touches the card and makes it `treated`, with `worked` null. What does not
 * follow the order, or passes a hold point with a state that fails it, is refused in words, and the record stays as it was.
 *
 * @param known what is known of the package, kept when the work begins
 */
export function recordStep(order: WorkOrder, record: CardRecord, entry: StepEntry, known?: PackageKnown): Recorded {
  const { refused: words } = orderMessages(order.language);
  const { found = [], ...stepRecord } = entry;
  const begun = openWork(record);
  if (begun?.touched && begun.event.remedy !== order.remedy)
    return no(words.otherWork(order.name, nameOf(order, begun.event.remedy)), words.sayFirst);
  const own = begun?.event.remedy === order.remedy ? begun : null;
  const steps = [...(own?.process.steps ?? []), stepRecord];
  const problem = orderState(order, steps).problems[0];
  if (problem) return no(problem.wrong, problem.todo);
  const step = order.steps.find(({ id }) => id === stepRecord.step)!;
  const misfit = found.map((one) => misfitOf(order, step, stepRecord, one)).find((one) => one !== null);
  if (misfit) return misfit;
  const last = record.timeline.at(-1);
  if (last && Date.parse(stepRecord.at) < Date.parse(last.at))
    return no(words.beforeLast(stepRecord.at, last.at), words.correctTime);
  const process: Process = {
    ...(order.solder === null ? {} : { alloy: order.solder.alloy }),
    ...(known === undefined ? {} : { package: known }),
    ...own?.process,
    steps,
  };
  const touches = step.stage !== 'prepare' && stepRecord.outcome !== 'left-out';
  const events = found.map((one): Event => {
    const where = { at: stepRecord.at, step: step.id };
    return 'typed' in one ? { type: 'measured', ...one, ...where } : { type: 'seen', ...one, by: 'bench', ...where };
  });
  return {
    ok: true,
    record: {
      ...record,
      timeline: [...placed(record.timeline, own, order.remedy, process, stepRecord.at, touches), ...events],
    },
  };
}

/** Work that has touched the card stands where it first did; preparations give way to it. */
function placed(
  timeline: readonly Event[],
  own: OpenWork | null,
  remedy: string,
  process: Process,
  at: string,
  touches: boolean,
): Event[] {
  if (own && (own.touched || !touches)) return timeline.with(own.index, { ...own.event, process });
  const rest = own ? timeline.toSpliced(own.index, 1) : [...timeline];
  return [
    ...rest,
    touches ? { type: 'treated', at, remedy, worked: null, process } : { type: 'prepared', at, remedy, process },
  ];
}

/** An order that was made before the other work began does not know its name. */
const nameOf = ({ otherWork }: WorkOrder, remedy: string): string =>
  otherWork?.remedy === remedy ? otherWork.name : remedy.replaceAll('-', ' ');

/** Says whether the card works after the work that has begun, which closes it. */
export function finishWork(record: CardRecord, worked: boolean): Recorded {
  const begun = openWork(record);
  if (begun?.event.type !== 'treated')
    return no('No work has touched this card yet, so nothing can be said of it.', 'Record its hold points first.');
  return { ok: true, record: { ...record, timeline: record.timeline.with(begun.index, { ...begun.event, worked }) } };
}

function misfitOf({ language }: WorkOrder, step: OrderStep, { outcome }: StepRecord, found: Found): Recorded | null {
  const { refused: words } = orderMessages(language);
  const asked = step.finds.find(({ finding }) => finding === found.finding);
  if (!asked)
    return no(
      words.notLookedFor(found.finding, step.name),
      step.finds.length === 0 ? words.ofItsOwn : words.looksFor(step.finds.map((one) => one.finding).join(', ')),
    );
  if (outcome === 'left-out') return no(words.leftOutWithFinding(step.name), words.lookedAt);
  if ('typed' in found || found.state === null || outcome === 'failed') return null;
  const failing = asked.fails.find(({ id }) => id === found.state);
  if (!failing) return null;
  return no(words.hasFailed(asked.name, failing.name), words.recordFailed(step.ifItFails.say));
}

function no(wrong: string, todo: string): Recorded {
  return { ok: false, wrong, todo };
}
