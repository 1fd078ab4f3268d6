/** One plan: up to three remedies in an order, each tried while the card does not work, or a stop; what it does and costs. */
import { type CardModel, tableOf } from './card-model.ts';
import type { ConditionSet } from './condition-set.ts';
import { type CourseScratch, courseScratch, lastStepVectors } from './course.ts';
import { type CostSplit, type CourseChances, expectedCost, marginOf, priceBand, stepCosts, surplus } from './price.ts';
import type { Verdict } from './treatment.ts';

/** Chances of a plan per condition; money is linear in them. */
export interface PlanVectors {
  readonly reached: readonly Float64Array[];
  readonly works: Float64Array;
  readonly held: Float64Array;
  readonly kept: Float64Array;
}

export interface Plan {
  /** ids of its remedies joined by ' + ', or the stop's id */
  readonly id: string;
  /** indices of treatments in the order they are tried; empty for a stop */
  readonly steps: readonly number[];
  /** index of the stop, or null */
  readonly stop: number | null;
  /** the first remedy's kind, or the stop's verdict */
  readonly verdict: Verdict;
  readonly vectors: PlanVectors;
  /** surplus per condition, without the cost of `preparations` */
  readonly payoff: Float64Array;
  /** those of the first step: paid for sure, and shared with whatever else needs them */
  readonly preparations: readonly number[];
  readonly preparationCost: number;
  readonly chances: CourseChances;
  /** expected bench minutes, all preparations included */
  readonly minutes: number;
  /** expected heat cycles, and how many if every step is reached */
  readonly heatCycles: number;
  readonly heatCyclesAtMost: number;
  readonly cost: CostSplit;
  /** J, preparations paid */
  readonly surplus: number;
  readonly margin: number;
  /** J reaches the margin, or the plan is a stop: there is nothing to justify about stopping */
  readonly justified: boolean;
  readonly floor: number | null;
  readonly ceiling: number | null;
}

/** What a course of remedies does and costs, per condition and under the belief. */
export function describeCourse(
  model: CardModel,
  set: ConditionSet,
  belief: Float64Array,
  steps: readonly number[],
  scratch: CourseScratch = courseScratch(tableOf(model), set),
): Plan {
  const { money, treatments, preparations } = model;
  const vectors = courseVectors(set, steps, scratch);
  const chances = weigh(vectors, belief);
  const costs = stepCosts(model, steps);
  const first = treatments[steps[0]!]!.preparations;
  let preparationMinutes = 0;
  for (const preparation of new Set(first)) preparationMinutes += preparations[preparation]!.minutes;
  const preparationCost = (preparationMinutes / 60) * money.labourPerHour;
  const payoff = new Float64Array(set.size);
  for (let c = 0; c < set.size; c++) {
    let cost = (vectors.works[c]! - vectors.kept[c]!) * money.comebackCost - preparationCost;
    for (let j = 0; j < steps.length; j++) cost += vectors.reached[j]![c]! * costs[j]!.total;
    payoff[c] = surplus(money, cost, vectors.held[c]!);
  }
  const cost = expectedCost(money, costs, chances);
  const total = surplus(money, cost.total, chances.held);
  const margin = marginOf(money, cost.total);
  const over = (of: (j: number) => number) => steps.reduce((sum, _, j) => sum + chances.reached[j]! * of(j), 0);
  return {
    id: steps.map((step) => treatments[step]!.id).join(' + '),
    steps,
    stop: null,
    verdict: treatments[steps[0]!]!.kind,
    vectors,
    payoff,
    preparations: [...new Set(first)],
    preparationCost,
    chances,
    minutes: over((j) => costs[j]!.minutes),
    heatCycles: over((j) => treatments[steps[j]!]!.heatCycles),
    heatCyclesAtMost: steps.reduce((sum, step) => sum + treatments[step]!.heatCycles, 0),
    cost,
    surplus: total,
    margin,
    justified: total >= margin,
    ...priceBand(money, cost.total, chances),
  };
}

/**
 * What a stop is worth. Returned as sound: a card without an active fault of its own is a working card like any other
 * (V to the horizon, else S); one that has a fault comes straight back
 * (A, less the comeback cost and the cost of having called it sound). Left as it is: A.
 * Parted out: S. Each less the stop's minutes.
 */
export function describeStop(
  model: CardModel,
  set: ConditionSet,
  belief: Float64Array,
  stop: number,
  scratch: CourseScratch = courseScratch(tableOf(model), set),
): Plan {
  const { money } = model;
  const { id, verdict, value, minutes } = model.stops[stop]!;
  const labour = (minutes / 60) * money.labourPerHour;
  const vectors = stopVectors(set, value === 'working-if-sound', scratch);
  const payoff = new Float64Array(set.size);
  for (let c = 0; c < set.size; c++) {
    payoff[c] = -labour;
    if (value === 'parts') payoff[c] = payoff[c]! + money.partsAfterWork - money.asIs;
    if (value === 'working-if-sound') {
      payoff[c] =
        payoff[c]! +
        (vectors.works[c] === 1 ? surplus(money, 0, vectors.held[c]!) : -(money.comebackCost + money.wronglySoundCost));
    }
  }
  const chances = weigh(vectors, belief);
  const comeback =
    value === 'working-if-sound' ? (1 - chances.works) * (money.comebackCost + money.wronglySoundCost) : 0;
  return {
    id,
    steps: [],
    stop,
    verdict,
    vectors,
    payoff,
    preparations: [],
    preparationCost: 0,
    chances,
    minutes,
    heatCycles: 0,
    heatCyclesAtMost: 0,
    cost: { total: labour + comeback, labour, parts: 0, consumables: 0, comeback },
    surplus: dot(payoff, belief),
    margin: 0,
    justified: true,
    floor: null,
    ceiling: null,
  };
}

export function courseVectors(set: ConditionSet, steps: readonly number[], scratch: CourseScratch): PlanVectors {
  const works = new Float64Array(set.size);
  const held = new Float64Array(set.size);
  const kept = new Float64Array(set.size);
  const reached: Float64Array[] = [];
  for (let j = 0; j < steps.length; j++) {
    reached.push(works.map((fixed) => Math.max(0, 1 - fixed)));
    const step = lastStepVectors(set, steps.slice(0, j + 1), scratch);
    for (let c = 0; c < set.size; c++) {
      works[c] = works[c]! + step.fixed[c]!;
      held[c] = held[c]! + step.held[c]!;
      kept[c] = kept[c]! + step.kept[c]!;
    }
  }
  return { reached, works, held, kept };
}

function stopVectors(set: ConditionSet, returned: boolean, scratch: CourseScratch): PlanVectors {
  const works = new Float64Array(set.size);
  const held = new Float64Array(set.size);
  const kept = new Float64Array(set.size);
  const { host, dormantAtHorizon, dormantAtWarranty, nothingNew } = scratch.table;
  for (let c = 0; returned && c < set.size; c++) {
    let sound = 1;
    let toHorizon = nothingNew[0]!;
    let toWarranty = nothingNew[1]!;
    for (let i = set.starts[c]!; i < set.starts[c + 1]!; i++) {
      const code = set.codes[i]!;
      if (host[code >> 1] === 1) continue;
      if ((code & 1) === 0) sound = 0;
      else {
        toHorizon *= dormantAtHorizon[code >> 1]!;
        toWarranty *= dormantAtWarranty[code >> 1]!;
      }
    }
    works[c] = sound;
    held[c] = sound * toHorizon;
    kept[c] = sound * toWarranty;
  }
  return { reached: [], works, held, kept };
}

function weigh(vectors: PlanVectors, belief: Float64Array): CourseChances {
  return {
    reached: vectors.reached.map((vector) => dot(vector, belief)),
    works: dot(vectors.works, belief),
    held: dot(vectors.held, belief),
    kept: dot(vectors.kept, belief),
  };
}

export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
