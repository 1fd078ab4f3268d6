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

export interface Standing {
  /** checks that must come before it, by name */
  readonly waitsFor: readonly string[];
  readonly mendsEnough: boolean;
  /** a cheaper option of another kind that does as much, by name */
  readonly outdoneBy: string | null;
}

export function optionOf(
  plan: Plan,
  stepIds: readonly Id[],
  names: Names,
  { waitsFor, mendsEnough, outdoneBy }: Standing,
): Option {
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
    justified: plan.justified && outdoneBy === null,
    ...(outdoneBy === null ? {} : { outdoneBy }),
    ...(waitsFor.length > 0 ? { waitsFor: [...waitsFor] } : {}),
    ...(mendsEnough ? {} : { mendsTooLittle: true as const }),
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

export interface Shown {
  readonly plan: Plan;
  /** a cheaper remedy of another kind that does as much; null: there is none */
  readonly outdoneBy: Plan | null;
}

/**
 * The options to lay side by side, best first: the chosen one, the one its break-evens are about, every way to stop, and of the single
 * remedies the chosen one's first step, the best of every verdict, and all with a real chance of their own. `singles` is every open
 * remedy alone. The planner knows many more courses; side by side they would say little that these do not.
 *
 * A chance of its own is one that neither a sound card nor a cheaper remedy of another kind has: a card needs no new regulator because
 * the cooler goes back on with fresh paste.
 */
export function worthShowing(
  plans: readonly Plan[],
  singles: readonly Plan[],
  chosen: Plan,
  subject: Plan | null,
  { chance, isSound }: { readonly chance: Float64Array; readonly isSound: (condition: number) => boolean },
): Shown[] {
  const best = new Map<VerdictKind, Plan>();
  for (const single of singles) {
    const before = best.get(single.verdict);
    if (!before || single.surplus > before.surplus) best.set(single.verdict, single);
  }
  const faulty = Uint32Array.from(chance.keys().filter((condition) => !isSound(condition)));
  const own = (single: Plan, rival: Plan | null): number => {
    const { works } = single.vectors;
    let sum = 0;
    for (const condition of faulty) {
      const more = works[condition]! - (rival === null ? 0 : rival.vectors.works[condition]!);
      if (more > 0) sum += chance[condition]! * more;
    }
    return sum;
  };
  const outdoes = (single: Plan): Plan | null => {
    const rivals = singles
      .filter((rival) => rival.verdict !== single.verdict && rival.cost.total < single.cost.total)
      .sort((a, b) => b.surplus - a.surplus);
    return rivals.find((rival) => own(single, rival) < LEAST_HOPE) ?? null;
  };
  const shown = new Map<string, Shown>();
  const show = (plan: Plan, outdoneBy: Plan | null = null) => {
    if (!shown.has(plan.id)) shown.set(plan.id, { plan, outdoneBy });
  };
  show(chosen);
  if (subject) show(subject);
  for (const plan of plans) if (plan.stop !== null) show(plan);
  for (const single of singles) {
    if (single.steps[0] === chosen.steps[0]) show(single);
    const mends = own(single, null) >= LEAST_HOPE;
    const outdoneBy = mends ? outdoes(single) : null;
    if ((mends && outdoneBy === null) || best.get(single.verdict) === single) show(single, outdoneBy);
  }
  return [...shown.values()].sort((a, b) => b.plan.surplus - a.plan.surplus);
}
