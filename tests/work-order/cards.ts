/** Worked cases with their work orders, made once for the tests of the work. */
import { assess } from '../../src/assess.ts';
import type { Assessed } from '../../src/assessment.ts';
import type { Record as CardRecord } from '../../src/record/schema.ts';
import { recordStep, type StepEntry } from '../../src/work-order/record-step.ts';
import type { WorkOrder } from '../../src/work-order/schema.ts';
import { type OrderChoices, workOrder } from '../../src/work-order/work-order.ts';
import { knowledgeAndShop, workedCase } from '../assess/worked-cases.ts';

export const { knowledge, shop } = await knowledgeAndShop();

/** A record of the case without its expectation. */
export function card(id: string): CardRecord {
  const { worked: _worked, ...record } = workedCase(id).record;
  return record;
}

export async function assessed(record: CardRecord): Promise<Assessed> {
  const assessment = await assess(knowledge, shop, record, { draws: 0 });
  if (assessment.kind !== 'assessed') throw new Error(JSON.stringify(assessment, null, 2));
  return assessment;
}

export async function orderFor(record: CardRecord, choices: OrderChoices = {}): Promise<WorkOrder> {
  const order = workOrder(knowledge, shop, record, await assessed(record), choices);
  if (order.kind !== 'order') throw new Error(`${order.because} ${order.todo}`);
  return order;
}

/** `minutes` after the record's last event. */
export function later(record: CardRecord, minutes: number): string {
  return new Date(Date.parse(record.timeline.at(-1)!.at) + minutes * 60_000).toISOString();
}

export function recorded(
  order: WorkOrder,
  record: CardRecord,
  entry: Omit<StepEntry, 'at'> & { readonly at?: string },
): CardRecord {
  const result = recordStep(order, record, { at: later(record, 5), ...entry });
  if (!result.ok) throw new Error(`${result.wrong} ${result.todo}`);
  return result.record;
}

/** Every hold point before `step` passed without a finding. */
export function workedUpTo(order: WorkOrder, record: CardRecord, step: string): CardRecord {
  const before = order.steps.slice(
    0,
    order.steps.findIndex(({ id }) => id === step),
  );
  return before.reduce((sofar, { id }) => recorded(order, sofar, { step: id, outcome: 'passed' }), record);
}
