/** Plans of the card -> the options an assessment shows, in words. */

import type { Option, VerdictKind } from '../assessment.ts';
import type { Plan } from '../decision/plan.ts';
import { type Spoken, say } from '../knowledge/sayings.ts';
import type { Id, Remedy, Stop } from '../knowledge/schema.ts';

/** Names of what can be done, found by id. */
export interface Names {
  readonly remedies: ReadonlyMap<Id, Remedy>;
  readonly stops: ReadonlyMap<Id, Stop>;
  readonly spoken: Spoken;
}

export function optionOf(plan: Plan, stepIds: readonly Id[], names: Names, waitsFor: readonly string[]): Option {
  const stop = names.stops.get(plan.id);
  const steps = stepIds.map((id) => names.remedies.get(id)!);
  return {
    id: plan.id,
    steps: [...stepIds],
    stepNames: steps.map((remedy) => remedy.name),
    verdict: plan.verdict satisfies VerdictKind,
    name: stop
      ? stop.name
      : joinSteps(
          steps.map((remedy) => remedy.name),
          names.spoken,
        ),
    owner: stop
      ? stop.owner
      : joinSteps(
          steps.map((remedy) => remedy.owner),
          names.spoken,
        ),
    minutes: plan.minutes,
    cost: { ...plan.cost },
    heatCycles: plan.heatCycles,
    works: chance(plan.chances.works),
    holds: chance(plan.chances.held),
    surplus: plan.surplus,
    floor: plan.floor,
    ceiling: plan.ceiling,
    margin: plan.margin,
    justified: plan.justified,
    ...(waitsFor.length > 0 ? { waitsFor: [...waitsFor] } : {}),
  };
}

/** "Reball the core, then, if the card still does not work, replace the core". */
function joinSteps(names: readonly string[], spoken: Spoken): string {
  const [first = '', ...later] = names;
  return [first, ...later.map((next) => say(spoken, 'if-that-fails', { next }))].join('; ');
}

/** Sums of products may pass one by a rounding error. */
function chance(value: number): number {
  return Math.min(1, Math.max(0, value));
}

/** A remedy that mends a card less often than this on its own is not worth a line. */
const LEAST_HOPE = 0.05;

/**
 * The options to lay side by side, best first: the chosen one, the one its break-evens are about, every way to stop, and of the single remedies the chosen one's
 * first step, the best of every verdict, and all with a real chance beyond `sound`, that of a card nothing is wrong with: what
 * needs no repair is no merit of one. `singles` is every open remedy alone. The planner
 * knows many more courses; side by side they would say little that these do not.
 */
export function worthShowing(
  plans: readonly Plan[],
  singles: readonly Plan[],
  chosen: Plan,
  subject: Plan | null,
  sound: number,
): Plan[] {
  const best = new Map<VerdictKind, Plan>();
  for (const single of singles) {
    const before = best.get(single.verdict);
    if (!before || single.surplus > before.surplus) best.set(single.verdict, single);
  }
  const shown = new Map<string, Plan>([[chosen.id, chosen]]);
  if (subject) shown.set(subject.id, subject);
  for (const plan of plans) if (plan.stop !== null) shown.set(plan.id, plan);
  for (const single of singles) {
    const wanted =
      single.steps[0] === chosen.steps[0] ||
      single.chances.works - sound >= LEAST_HOPE ||
      best.get(single.verdict) === single;
    if (wanted) shown.set(single.id, single);
  }
  return [...shown.values()].sort((a, b) => b.surplus - a.surplus);
}
