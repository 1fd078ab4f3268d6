/** Finds courses of remedies that are good under a belief, cutting off what a bound proves useless. */
import { type CardModel, tableOf } from './card-model.ts';
import { activeChances, type ConditionSet, nodeWeights } from './condition-set.ts';
import { type CourseScratch, courseScratch, LONGEST_COURSE, lastStep } from './course.ts';
import { type CourseChances, expectedCost, marginOf, stepCosts, surplus } from './price.ts';

/** A remedy is considered where it acts on a fault at least this probable; below, nobody would start with it. */
export const LEAST_FAULT_CHANCE = 0.002;

/** A course with its chances under the belief it was searched with. */
export interface Course {
  readonly steps: readonly number[];
  readonly chances: CourseChances;
  readonly surplus: number;
  /** surplus less the margin */
  readonly net: number;
}

export interface Found {
  /** every considered remedy on its own */
  readonly singles: readonly Course[];
  /** per first remedy the course with the best surplus, and the one that most exceeds its margin */
  readonly bySurplus: readonly Course[];
  readonly byNet: readonly Course[];
}

export interface CourseSearch {
  readonly scratch: CourseScratch;
  run(belief: Float64Array): Found;
  /** courses worked out, and those a bound cut off */
  counts(): { readonly evaluated: number; readonly pruned: number };
}

/**
 * Depth-first over orders of up to three considered remedies. Exact among those: a remedy is left out in the middle only
 * where the course without it is proved no worse, and at the end only where it cannot overtake the best with the same start.
 */
export function createCourseSearch(model: CardModel, set: ConditionSet): CourseSearch {
  const { money, treatments } = model;
  const scratch = courseScratch(tableOf(model), set);
  const { table } = scratch;
  const alone = treatments.map((treatment) => {
    let parts = 0;
    for (const part of treatment.parts) parts += money.partPrices[part]!;
    return (
      (treatment.minutes / 60) * money.labourPerHour + parts + treatment.heatCycles * money.consumablesPerHeatCycle
    );
  });
  let dearest = 0;
  treatments.forEach((_, t) => {
    dearest = Math.max(dearest, stepCosts(model, [t])[0]!.total);
  });
  const rise = Math.max(0, money.working - money.partsAfterWork);
  // What acting on a fault that is there can bring: the card's rise in value, and later steps and a comeback saved.
  const mostGain = rise + money.comebackCost + dearest;
  let evaluated = 0;
  let pruned = 0;

  /** chance that the remedy finds anything to act on, among the faults a card came with */
  function touchedMass(belief: Float64Array, treatment: number): number {
    const row = treatment * table.faults;
    let mass = 0;
    for (let c = 0; c < set.size; c++) {
      for (let i = set.starts[c]!; i < set.starts[c + 1]!; i++) {
        const fault = set.codes[i]! >> 1;
        if (table.host[fault] === 0 && table.cures[row + fault]! + table.masks[row + fault]! > 0) {
          mass += belief[c]!;
          break;
        }
      }
    }
    return mass;
  }

  /** bound on the chance that the steps caused a fault the remedy acts on */
  function causedFor(steps: readonly number[], treatment: number): number {
    const row = treatment * table.faults;
    let sum = 0;
    for (const fault of table.touched[treatment]!) {
      if (table.cures[row + fault]! + table.masks[row + fault]! <= 0) continue;
      for (const step of steps) sum += table.induces[step * table.faults + fault]!;
    }
    return sum;
  }

  function extend(before: Course | null, treatment: number, weights: Float64Array): Course {
    evaluated++;
    const steps = before ? [...before.steps, treatment] : [treatment];
    const last = lastStep(set, weights, steps, scratch);
    const soFar = before?.chances ?? { reached: [], works: 0, held: 0, kept: 0 };
    const chances: CourseChances = {
      reached: [...soFar.reached, Math.max(0, 1 - soFar.works)],
      works: soFar.works + last.fixed,
      held: soFar.held + last.held,
      kept: soFar.kept + last.kept,
    };
    const cost = expectedCost(money, stepCosts(model, steps), chances);
    const gain = surplus(money, cost.total, chances.held);
    return { steps, chances, surplus: gain, net: gain - marginOf(money, cost.total) };
  }

  function run(belief: Float64Array): Found {
    const weights = nodeWeights(set, belief);
    const likely = activeChances(set, belief, table.faults);
    const relevant: number[] = [];
    treatments.forEach((treatment, t) => {
      const acts = treatment.effects.some(
        ({ fault, cures, masks }) =>
          cures + masks > 0 && table.host[fault] === 0 && likely[fault]! >= LEAST_FAULT_CHANCE,
      );
      if (acts) relevant.push(t);
    });
    const touch = new Map(relevant.map((t) => [t, touchedMass(belief, t)]));
    const singles: Course[] = [];
    const bySurplus: Course[] = [];
    const byNet: Course[] = [];
    const share = money.margin.shareOfCost;
    for (const first of relevant) {
      const single = extend(null, first, weights);
      singles.push(single);
      let finest = single;
      let surest = single;
      let frontier = [single];
      for (let length = 2; length <= LONGEST_COURSE; length++) {
        const next: Course[] = [];
        for (const before of frontier) {
          const open = Math.max(0, 1 - before.chances.works);
          for (const treatment of relevant) {
            if (before.steps.includes(treatment)) continue;
            const found = Math.min(open, touch.get(treatment)! + causedFor(before.steps, treatment));
            const cost = open * alone[treatment]!;
            const last = length === LONGEST_COURSE;
            // In the middle: no better than the same course without it. At the end: cannot overtake the best so far.
            const hopeless = last
              ? before.surplus + rise * found - cost <= finest.surplus &&
                before.net + rise * found - (1 + share) * cost <= surest.net
              : mostGain * found <= cost;
            if (hopeless) {
              pruned++;
              continue;
            }
            const course = extend(before, treatment, weights);
            next.push(course);
            if (course.surplus > finest.surplus) finest = course;
            if (course.net > surest.net) surest = course;
          }
        }
        frontier = next;
      }
      bySurplus.push(finest);
      byNet.push(surest);
    }
    return { singles, bySurplus, byNet };
  }
  return { run, scratch, counts: () => ({ evaluated, pruned }) };
}
