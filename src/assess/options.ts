/** Plans of the card -> the options an assessment shows, in words. */

import type { Option, VerdictKind } from '../assessment.ts';
import type { Plan } from '../decision/plan.ts';
import type { Id, Remedy, Stop } from '../knowledge/schema.ts';
import type { ClosedRemedy } from './shop-and-card.ts';

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

export function closedView(closed: readonly ClosedRemedy[]): { id: Id; name: string; reasons: string[] }[] {
  return closed.map(({ id, name, reasons }) => ({ id, name, reasons: [...reasons] }));
}
