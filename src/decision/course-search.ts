/** Finds the courses of remedies that are best under a belief, cutting off what a bound proves useless. */
import { type CardModel, tableOf } from './card-model.ts';
import { activeChances, type ConditionSet, nodeWeights } from './condition-set.ts';
import { type CourseScratch, courseScratch, LONGEST_COURSE, lastFixed, lastStep } from './course.ts';
import { type CourseChances, marginOf, surplus } from './price.ts';
import type { RemedyKind } from './treatment.ts';

/** A remedy is considered where it acts on a fault at least this probable; below, nobody would start with it. */
export const LEAST_FAULT_CHANCE = 0.002;

/** A course with its chances under the belief it was searched with. */
export interface Course {
  readonly steps: readonly number[];
  readonly chances: Pick<CourseChances, 'works' | 'held' | 'kept'>;
  /** expected cost, preparations included, a comeback not */
  readonly spent: number;
  readonly surplus: number;
  /** surplus less the margin */
  readonly net: number;
}

/** How many single remedies a quick search goes on from. */
const QUICK_STARTS = 3;

export interface Found {
  /** every considered remedy on its own */
  readonly singles: readonly Course[];
  /** the course with the best surplus, and the one that most exceeds its margin; of each kind, or of all */
  readonly bySurplus: readonly Course[];
  readonly byNet: readonly Course[];
}

export interface CourseSearch {
  readonly scratch: CourseScratch;
  /**
   * `every-kind`: the best courses that start with each kind of remedy, exactly. `quick`: the best course that starts with
   * one of the few best single remedies.
   */
  run(belief: Float64Array, how: 'every-kind' | 'quick'): Found;
  /** courses worked out, and those a bound cut off */
  counts(): { readonly evaluated: number; readonly pruned: number };
}

/**
 * Depth-first over orders of up to three considered remedies, exact among them. Three bounds cut it, each proved from
 * one fact: a further step changes an outcome only where it acts on a fault, one the card came with or one that the work
 * caused, and it is paid wherever the card does not work yet.
 *
 * - in the middle: a step whose gain, at most, is below its own cost is as well left out;
 * - before two more steps, and before the last one: the gains they can add, at most, do not overtake the best so far.
 */
export function createCourseSearch(model: CardModel, set: ConditionSet): CourseSearch {
  const { money, treatments } = model;
  const scratch = courseScratch(tableOf(model), set);
  const prices = stepPrices(model);
  const reach = actsOn(set, scratch);
  const share = money.margin.shareOfCost;
  const rise = Math.max(0, money.working - money.partsAfterWork);
  // What acting on a fault can bring: the card's rise in value, a later step spared, a comeback spared.
  const mostGain = rise + money.comebackCost + prices.dearest;
  let evaluated = 0;
  let pruned = 0;

  function extend(before: Course | null, treatment: number, weights: Float64Array): Course {
    evaluated++;
    const steps = before ? [...before.steps, treatment] : [treatment];
    const last = lastStep(set, weights, steps, scratch);
    const open = before ? Math.max(0, 1 - before.chances.works) : 1;
    const works = (before?.chances.works ?? 0) + last.fixed;
    const held = (before?.chances.held ?? 0) + last.held;
    const kept = (before?.chances.kept ?? 0) + last.kept;
    const spent = (before?.spent ?? 0) + open * prices.of(before?.steps ?? [], treatment);
    const cost = spent + (works - kept) * money.comebackCost;
    const gain = surplus(money, cost, held);
    return { steps, chances: { works, held, kept }, spent, surplus: gain, net: gain - marginOf(money, cost) };
  }

  function run(belief: Float64Array, how: 'every-kind' | 'quick'): Found {
    const weights = nodeWeights(set, belief);
    const relevant = reach.considered(activeChances(set, belief, scratch.table.faults));
    const singles = relevant.map((treatment) => extend(null, treatment, weights));
    const finest = new Map<string, { surplus: Course; net: Course }>();
    const keyOf = (course: Course): RemedyKind | 'quick' =>
      how === 'quick' ? how : treatments[course.steps[0]!]!.kind;
    const note = (course: Course) => {
      const so = finest.get(keyOf(course));
      if (!so) finest.set(keyOf(course), { surplus: course, net: course });
      else {
        if (course.surplus > so.surplus.surplus) so.surplus = course;
        if (course.net > so.net.net) so.net = course;
      }
    };
    for (const single of singles) note(single);
    const grow = (before: Course, touchedBefore: Float64Array) => {
      const open = Math.max(0, 1 - before.chances.works);
      const last = before.steps.length === LONGEST_COURSE - 1;
      const touched = reach.stillTouched(weights, before.steps, touchedBefore);
      const here = reach.acting(touched, before.steps, open);
      const so = finest.get(keyOf(before))!;
      for (const treatment of relevant) {
        if (before.steps.includes(treatment)) continue;
        const price = prices.of(before.steps, treatment);
        const gain = rise * reach.mostHeld[treatment]! * here[treatment]!;
        const cost = open * price;
        let more = 0;
        let moreNet = 0;
        if (!last) {
          if (mostGain * here[treatment]! <= open * prices.alone[treatment]!) {
            pruned++;
            continue;
          }
          const stillOpen = Math.max(0, open - here[treatment]!);
          for (const next of relevant) {
            if (next === treatment) continue;
            const acting = Math.min(open, here[next]! + reach.causes[treatment * treatments.length + next]!);
            const plus = rise * reach.mostHeld[next]! * acting;
            const pays = stillOpen * prices.alone[next]!;
            more = Math.max(more, plus - pays);
            moreNet = Math.max(moreNet, plus - (1 + share) * pays);
          }
        }
        if (
          before.surplus + gain - cost + more <= so.surplus.surplus &&
          before.net + gain - (1 + share) * cost + moreNet <= so.net.net
        ) {
          pruned++;
          continue;
        }
        const course = extend(before, treatment, weights);
        note(course);
        if (!last && course.chances.works < 1) grow(course, touched);
      }
    };
    const touched = reach.touched(weights);
    const starts = [...singles].sort((a, b) => b.surplus - a.surplus);
    for (const single of how === 'quick' ? starts.slice(0, QUICK_STARTS) : starts) grow(single, touched);
    const kinds = [...finest.values()];
    return { singles, bySurplus: kinds.map((so) => so.surplus), byNet: kinds.map((so) => so.net) };
  }
  return { run, scratch, counts: () => ({ evaluated, pruned }) };
}

/** Price of a step, given the steps before it: preparations are paid by the first that needs them. */
function stepPrices(model: CardModel) {
  const { money, treatments, preparations } = model;
  const preparationPrices = preparations.map(({ minutes }) => (minutes / 60) * money.labourPerHour);
  const alone = Float64Array.from(treatments, ({ minutes, parts, heatCycles }) => {
    const pieces = parts.reduce((sum, part) => sum + money.partPrices[part]!, 0);
    return (minutes / 60) * money.labourPerHour + pieces + heatCycles * money.consumablesPerHeatCycle;
  });
  const needs = treatments.map((treatment) => [...new Set(treatment.preparations)]);
  const of = (before: readonly number[], treatment: number) => {
    let price = alone[treatment]!;
    for (const preparation of needs[treatment]!) {
      if (before.some((step) => needs[step]!.includes(preparation))) continue;
      price += preparationPrices[preparation]!;
    }
    return price;
  };
  let dearest = 0;
  treatments.forEach((_, treatment) => {
    dearest = Math.max(dearest, of([], treatment));
  });
  return { alone, of, dearest };
}

/** What each treatment finds to act on. */
function actsOn(set: ConditionSet, scratch: CourseScratch) {
  const { table } = scratch;
  const { treatments, faults, host, cures, masks, induces, dormantAtHorizon, nothingNew } = table;
  const treats = (treatment: number, fault: number) =>
    host[fault] === 0 && cures[treatment * faults + fault]! + masks[treatment * faults + fault]! > 0;
  const mostHeld = new Float64Array(treatments);
  const causes = new Float64Array(treatments * treatments);
  for (let t = 0; t < treatments; t++) {
    for (const fault of table.touched[t]!) {
      if (!treats(t, fault)) continue;
      const held = cures[t * faults + fault]! + masks[t * faults + fault]! * dormantAtHorizon[fault]!;
      mostHeld[t] = Math.max(mostHeld[t]!, held * nothingNew[0]!);
      for (let other = 0; other < treatments; other++) {
        causes[other * treatments + t] = causes[other * treatments + t]! + induces[other * faults + fault]!;
      }
    }
  }
  const nodes = set.nodeParent.length;
  const starts = new Int32Array(nodes + 1);
  const actors: number[] = [];
  for (let node = 0; node < nodes; node++) {
    for (let t = 0; t < treatments; t++) {
      let above = node;
      while (above > 0 && !treats(t, set.nodeCode[above]! >> 1)) above = set.nodeParent[above]!;
      if (above > 0) actors.push(t);
    }
    starts[node + 1] = actors.length;
  }
  const list = Int32Array.from(actors);
  const fixed = new Float64Array(nodes);
  return {
    mostHeld,
    /** causes[a * treatments + b]: bound on the chance that a causes a fault that b acts on */
    causes,
    considered(likely: Float64Array): number[] {
      const considered: number[] = [];
      for (let t = 0; t < treatments; t++) {
        if (table.touched[t]!.some((fault) => treats(t, fault) && likely[fault]! >= LEAST_FAULT_CHANCE))
          considered.push(t);
      }
      return considered;
    },
    /** per treatment: belief in the conditions that it has something to act on in */
    touched(weights: Float64Array): Float64Array {
      const mass = new Float64Array(treatments);
      for (let node = 0; node < nodes; node++) {
        for (let i = starts[node]!; i < starts[node + 1]!; i++) mass[list[i]!] = mass[list[i]!]! + weights[node]!;
      }
      return mass;
    },
    /** the same and the card not working after `steps`, given the same before the last of them */
    stillTouched(weights: Float64Array, steps: readonly number[], before: Float64Array): Float64Array {
      lastFixed(set, steps, scratch, fixed);
      const { count, node } = scratch.visit;
      const mass = Float64Array.from(before);
      for (let n = 0; n < count; n++) {
        const gone = weights[node[n]!]! * fixed[n]!;
        for (let i = starts[node[n]!]!; i < starts[node[n]! + 1]!; i++) mass[list[i]!] = mass[list[i]!]! - gone;
      }
      return mass;
    },
    /** per treatment: bound on the chance that the card does not work after the steps and there is something to act on */
    acting(touched: Float64Array, steps: readonly number[], open: number): Float64Array {
      return touched.map((mass, t) => {
        let sum = Math.max(0, mass);
        for (const step of steps) sum += causes[step * treatments + t]!;
        return Math.min(open, sum);
      });
    },
  };
}
