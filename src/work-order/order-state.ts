/** Where a work order stands: each hold point opens only when the one before it is recorded. */
import type { StepRecord } from '../record/schema.ts';
import { orderMessages } from './messages/messages.ts';
import type { OrderState, OrderStep, WorkOrder } from './schema.ts';

type Problem = OrderState['problems'][number];
/** In which language it speaks; left out: English. */
type Order = Pick<WorkOrder, 'steps'> & { readonly language?: string | undefined };

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
  { steps, language }: Order,
  walk: Walk,
  entry: StepRecord,
  before: StepRecord | undefined,
): Omit<Problem, 'index'> | null {
  const { state: words } = orderMessages(language);
  const step = steps.find(({ id }) => id === entry.step);
  const waiting = steps[walk.at];
  if (!step)
    return {
      wrong: words.noHoldPoint(entry.step),
      todo: waiting ? words.nextIs(waiting.name, waiting.id) : words.allRecorded,
    };
  if (walk.over)
    return {
      wrong: words.afterTheEnd(step.name, walk.failed!.name),
      todo: walk.failed!.ifItFails.say,
    };
  if (!waiting) return { wrong: words.afterTheLast(step.name), todo: words.takeOut };
  if (waiting !== step)
    return steps.indexOf(step) > walk.at
      ? { wrong: words.tooEarly(step.name, waiting.name), todo: words.recordFirst(waiting.name) }
      : { wrong: words.onceMore(step.name), todo: words.nextNamed(waiting.name) };
  if (before && Date.parse(entry.at) < Date.parse(before.at))
    return { wrong: words.backwards(step.name, entry.at, before.at), todo: words.correctTime };
  if (entry.outcome !== 'left-out') return null;
  if (step.mayBeLeftOut === null) return { wrong: words.mayNotBeLeftOut(step.name), todo: words.mustBeSo(step.passes) };
  if (!entry.note?.trim()) return { wrong: words.noReason(step.name), todo: words.noteWhy(step.mayBeLeftOut) };
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

function stateOf({ steps, language }: Order, walk: Walk, problems: readonly Problem[]): OrderState {
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
    sentence: sentenceOf(kind, { steps, language }, walk, problems),
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
  { steps, language }: Order,
  walk: Walk,
  problems: readonly Problem[],
): string {
  const { state: words } = orderMessages(language);
  const waiting = steps[walk.at];
  switch (kind) {
    case 'out-of-order':
      return `${problems[0]!.wrong} ${problems[0]!.todo}`;
    case 'over':
      return words.over(walk.failed!.name, walk.failed!.ifItFails.say);
    case 'finished':
      return words.finished;
    case 'stopped':
      return [
        words.stopped(walk.failed!.name, walk.failed!.ifItFails.say),
        ...(walk.failed === waiting ? [] : [words.goesOn(waiting!.name)]),
      ].join(' ');
    case 'open':
      return words.open(waiting!.number, steps.length, waiting!.name);
  }
}
