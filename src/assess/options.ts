/** Plans of the card -> the options an assessment shows, in words. */

import type { Option, VerdictKind } from '../assessment.ts';
import type { Plan } from '../decision/plan.ts';
import type { Id, Remedy, Stop } from '../knowledge/schema.ts';

/** Names of what can be done, found by id. */
export interface Names {
  readonly remedies: ReadonlyMap<Id, Remedy>;
  readonly stops: ReadonlyMap<Id, Stop>;
}

export function optionOf(plan: Plan, stepIds: readonly Id[], names: Names): Option {
  const stop = names.stops.get(plan.id);
  const steps = stepIds.map((id) => names.remedies.get(id)!);
  return {
    id: plan.id,
    steps: [...stepIds],
    stepNames: steps.map((remedy) => remedy.name),
    verdict: plan.verdict satisfies VerdictKind,
    name: stop ? stop.name : joinSteps(steps.map((remedy) => remedy.name)),
    owner: stop ? stop.owner : joinSteps(steps.map((remedy) => remedy.owner)),
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
  };
}

/** "Reball the core, then, if the card still does not work, replace the core". */
function joinSteps(names: readonly string[]): string {
  const [first = '', ...later] = names;
  return [first, ...later.map((name) => `if that fails, ${name.charAt(0).toLowerCase()}${name.slice(1)}`)].join('; ');
}

/** Sums of products may pass one by a rounding error. */
function chance(value: number): number {
  return Math.min(1, Math.max(0, value));
}

/** A remedy that works less often than this on its own is not worth a line. */
const LEAST_HOPE = 0.05;

/**
 * The options to lay side by side, best first: the chosen one, its first step alone, every way to stop, of every other
 * verdict the best single remedy, and further single remedies with a real chance. The planner knows many more courses;
 * side by side they would say little that these do not.
 */
export function worthShowing(plans: readonly Plan[], chosen: string): Plan[] {
  const pick = plans.find((plan) => plan.id === chosen);
  const single = (plan: Plan) => plan.steps.length === 1;
  const ofVerdict = new Map<VerdictKind, Plan>();
  for (const plan of plans) {
    const before = ofVerdict.get(plan.verdict);
    if (!before || (!single(before) && single(plan))) ofVerdict.set(plan.verdict, plan);
  }
  return plans.filter(
    (plan) =>
      plan === pick ||
      plan.stop !== null ||
      (single(plan) && (plan.steps[0] === pick?.steps[0] || plan.chances.works >= LEAST_HOPE)) ||
      (plan.verdict !== pick?.verdict && ofVerdict.get(plan.verdict) === plan),
  );
}
