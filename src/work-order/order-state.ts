/** Where a work order stands: each hold point opens only when the one before it is recorded. */
import type { StepRecord } from '../record/schema.ts';
import type { OrderState, OrderStep, WorkOrder } from './schema.ts';

type Problem = OrderState['problems'][number];
type Order = Pick<WorkOrder, 'steps'>;

interface Walk {
  /** place of the hold point that waits; `steps.length`: all are recorded */
  at: number;
  over: boolean;
  failed: OrderStep | null;
  readonly last: Map<string, StepRecord>;
  readonly tries: Map<string, number>;
}

/**
 * The state of an order given what was recorded of it, in the order it was recorded. A failed hold point stops the order:
 * it leads to the same one again, back to an earlier one (and everything from there once more), or ends the work. What does not
 * follow the order is told in words, and nothing after it counts. Cost: hold points plus records.
 */
export function orderState(order: Order, recorded: readonly StepRecord[]): OrderState {
  const walk: Walk = { at: 0, over: false, failed: null, last: new Map(), tries: new Map() };
  const problems: Problem[] = [];
  for (const [index, entry] of recorded.entries()) {
    const wrong = refusal(order, walk, entry, recorded[index - 1]);
    if (wrong) {
      problems.push({ index, ...wrong });
      break;
    }
    take(order, walk, entry);
  }
  return stateOf(order, walk, problems);
}

/** Why this may not be recorded now, with what to do; null: it may. */
function refusal(
  { steps }: Order,
  walk: Walk,
  entry: StepRecord,
  before: StepRecord | undefined,
): Omit<Problem, 'index'> | null {
  const step = steps.find(({ id }) => id === entry.step);
  const waiting = steps[walk.at];
  if (!step)
    return {
      wrong: `"${entry.step}" is no hold point of this work.`,
      todo: waiting ? `The next one is "${waiting.name}" (${waiting.id}).` : 'All of them are recorded.',
    };
  if (walk.over)
    return {
      wrong: `"${step.name}" is recorded after the work ended at "${walk.failed!.name}".`,
      todo: walk.failed!.ifItFails.say,
    };
  if (!waiting)
    return {
      wrong: `"${step.name}" is recorded after the last hold point.`,
      todo: 'Take it out: the order is finished.',
    };
  if (waiting !== step)
    return steps.indexOf(step) > walk.at
      ? {
          wrong: `"${step.name}" is recorded before "${waiting.name}".`,
          todo: `Each hold point opens only when the one before it is recorded: record "${waiting.name}" first.`,
        }
      : {
          wrong: `"${step.name}" is recorded once more, though it was passed.`,
          todo: `The next one is "${waiting.name}".`,
        };
  if (before && Date.parse(entry.at) < Date.parse(before.at))
    return {
      wrong: `"${step.name}" is recorded at ${entry.at}, before the one above it at ${before.at}.`,
      todo: 'Correct the time: the order runs forwards.',
    };
  if (entry.outcome !== 'left-out') return null;
  if (step.mayBeLeftOut === null)
    return { wrong: `"${step.name}" may not be left out.`, todo: `What must be so: ${step.passes}` };
  if (!entry.note?.trim())
    return { wrong: `"${step.name}" is left out without a reason.`, todo: `Note why. ${step.mayBeLeftOut}` };
  return null;
}

function take({ steps }: Order, walk: Walk, entry: StepRecord): void {
  const step = steps[walk.at]!;
  walk.last.set(step.id, entry);
  walk.tries.set(step.id, (walk.tries.get(step.id) ?? 0) + 1);
  if (entry.outcome !== 'failed') {
    walk.failed = null;
    walk.at += 1;
    return;
  }
  walk.failed = step;
  if (step.ifItFails.leads === 'end') walk.over = true;
  if (step.ifItFails.leads === 'back') walk.at = steps.findIndex(({ id }) => id === step.ifItFails.to);
}

function stateOf({ steps }: Order, walk: Walk, problems: readonly Problem[]): OrderState {
  const waiting = steps[walk.at];
  const kind =
    problems.length > 0
      ? 'out-of-order'
      : walk.over
        ? 'over'
        : !waiting
          ? 'finished'
          : walk.failed
            ? 'stopped'
            : 'open';
  const may = kind === 'open' || kind === 'stopped';
  return {
    kind,
    next: may ? waiting!.id : null,
    sentence: sentenceOf(kind, steps, walk, problems),
    steps: steps.map((step, i) => {
      const last = walk.last.get(step.id);
      const standing =
        i < walk.at && !(walk.over && step === walk.failed)
          ? last?.outcome === 'left-out'
            ? 'left-out'
            : 'passed'
          : step === walk.failed
            ? 'failed'
            : i === walk.at && may
              ? 'open'
              : 'closed';
      return {
        step: step.id,
        standing,
        tries: walk.tries.get(step.id) ?? 0,
        at: last?.at ?? null,
        note: last?.note ?? null,
      };
    }),
    problems: [...problems],
  };
}

function sentenceOf(
  kind: OrderState['kind'],
  steps: readonly OrderStep[],
  walk: Walk,
  problems: readonly Problem[],
): string {
  const waiting = steps[walk.at];
  switch (kind) {
    case 'out-of-order':
      return `${problems[0]!.wrong} ${problems[0]!.todo}`;
    case 'over':
      return `The work ended at "${walk.failed!.name}". ${walk.failed!.ifItFails.say}`;
    case 'finished':
      return 'All hold points are recorded: say whether the card works.';
    case 'stopped':
      return `Stopped at "${walk.failed!.name}". ${walk.failed!.ifItFails.say}${walk.failed === waiting ? '' : ` It goes on at "${waiting!.name}".`}`;
    case 'open':
      return `Hold point ${waiting!.number} of ${steps.length}: ${waiting!.name}.`;
  }
}
