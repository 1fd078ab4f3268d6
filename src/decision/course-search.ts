/** Finds the courses of remedies that are best under a belief, cutting off what a bound proves useless. */
import { type CardModel, tableOf } from './card-model.ts';
import { activeChances, type ConditionSet, nodeWeights } from './condition-set.ts';
import {
  type CourseScratch,
  courseScratch,
  LONGEST_COURSE,
  lastStep,
  lastStepVectors,
  type StepChances,
} from './course.ts';
import { actsOn, stepPrices } from './course-bounds.ts';
import { dot } from './plan.ts';
import { type CourseChances, marginOf, surplus } from './price.ts';
import type { RemedyKind } from './treatment.ts';

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

/** A longer course must promise this much more than the best so far, as a share of the card's rise in value; less is not looked for. */
export const LEAST_GAIN = 0.002;
/** How many of the most promising next steps a climb tries. */
const CLIMB_WIDTH = 4;

export interface Found {
  /** every considered remedy on its own */
  readonly singles: readonly Course[];
  /** the course with the best surplus and the one that most exceeds its margin: of each kind (thorough), and of all */
  readonly best: readonly Course[];
}

export interface CourseSearch {
  readonly scratch: CourseScratch;
  /**
   * `thorough`: the best of all courses (to `LEAST_GAIN`), and a good one that starts with each kind of remedy. `quick`: a good one,
   * climbed to from the best single remedy.
   */
  run(belief: Float64Array, how: 'thorough' | 'quick'): Found;
  /** courses worked out, and those a bound cut off */
  counts(): { readonly evaluated: number; readonly pruned: number };
}

/**
 * Depth-first over orders of up to three considered remedies. Three bounds cut it, each proved from
 * one fact: a further step changes an outcome only where it acts on a fault, one the card came with or one that the work
 * caused, and it is paid wherever the card does not work yet.
 *
 * - before others: a step whose gain, at most, is below its own cost is as well left out;
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
  const leastGain = LEAST_GAIN * rise;
  let evaluated = 0;
  let pruned = 0;

  /** per treatment: chances of its first and only step, per tree node */
  const aloneAt: (readonly Float64Array[] | undefined)[] = [];

  function courseOf(before: Course | null, treatment: number, last: StepChances): Course {
    evaluated++;
    const steps = before ? [...before.steps, treatment] : [treatment];
    const open = before ? Math.max(0, 1 - before.chances.works) : 1;
    const works = (before?.chances.works ?? 0) + last.fixed;
    const held = (before?.chances.held ?? 0) + last.held;
    const kept = (before?.chances.kept ?? 0) + last.kept;
    const spent = (before?.spent ?? 0) + open * prices.of(before?.steps ?? [], treatment);
    const cost = spent + (works - kept) * money.comebackCost;
    const gain = surplus(money, cost, held);
    return { steps, chances: { works, held, kept }, spent, surplus: gain, net: gain - marginOf(money, cost) };
  }

  function single(treatment: number, weights: Float64Array): Course {
    aloneAt[treatment] ??= singleStepByNode(set, treatment, scratch);
    const [fixed, held, kept] = aloneAt[treatment]!.map((chances) => dot(chances, weights));
    return courseOf(null, treatment, { fixed: fixed!, held: held!, kept: kept! });
  }

  function run(belief: Float64Array, how: 'thorough' | 'quick'): Found {
    const weights = nodeWeights(set, belief);
    const relevant = reach.considered(activeChances(set, belief, scratch.table.faults));
    const singles = relevant.map((treatment) => single(treatment, weights));
    const all: Best = { surplus: null, net: null };
    const kinds = new Map<RemedyKind, Best>();
    const note = (course: Course) => {
      const { kind } = treatments[course.steps[0]!]!;
      const ofKind = kinds.get(kind) ?? { surplus: null, net: null };
      kinds.set(kind, ofKind);
      for (const best of [all, ofKind]) {
        if (!best.surplus || course.surplus > best.surplus.surplus) best.surplus = course;
        if (!best.net || course.net > best.net.net) best.net = course;
      }
    };
    for (const course of singles) note(course);

    /** Steps that may follow a course, most promising first, each with a bound on what can come of it. */
    const following = (before: Course, openAt: Float64Array): Prospect[] => {
      const open = Math.max(0, 1 - before.chances.works);
      const last = before.steps.length === LONGEST_COURSE - 1;
      const here = last ? null : reach.acting(openAt, before.steps, open);
      const holding = last ? reach.holding(weights, openAt, before.steps, open) : null;
      const promising: Prospect[] = [];
      for (const treatment of relevant) {
        if (before.steps.includes(treatment)) continue;
        const gain = rise * (holding ? holding[treatment]! : reach.mostHeld[treatment]! * here![treatment]!);
        const cost = open * prices.of(before.steps, treatment);
        let more = 0;
        let moreNet = 0;
        if (here) {
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
        promising.push({
          treatment,
          most: before.surplus + gain - cost + more,
          mostNet: before.net + gain - (1 + share) * cost + moreNet,
          more,
          moreNet,
        });
      }
      return promising.sort((a, b) => b.most - a.most);
    };
    const extend = (before: Course, treatment: number): Course => {
      const course = courseOf(before, treatment, lastStep(set, weights, [...before.steps, treatment], scratch));
      note(course);
      return course;
    };

    /** goes on with the best of the few most promising steps */
    const climb = (before: Course, openBefore: Float64Array): void => {
      if (before.steps.length === LONGEST_COURSE || before.chances.works >= 1) return;
      const openAt = reach.stillOpen(weights, before.steps, openBefore);
      const next = following(before, openAt).slice(0, CLIMB_WIDTH);
      const [best] = next.map(({ treatment }) => extend(before, treatment)).sort((a, b) => b.surplus - a.surplus);
      if (best) climb(best, openAt);
    };
    /** goes on with every step whose bound does not rule it out */
    const exhaust = (before: Course, openBefore: Float64Array): void => {
      if (before.steps.length === LONGEST_COURSE || before.chances.works >= 1) return;
      const openAt = reach.stillOpen(weights, before.steps, openBefore);
      const grown: { readonly course: Course; readonly more: number; readonly moreNet: number }[] = [];
      for (const { treatment, most, mostNet, more, moreNet } of following(before, openAt)) {
        if (hopeless(most, mostNet)) pruned++;
        else grown.push({ course: extend(before, treatment), more, moreNet });
      }
      grown.sort((a, b) => b.course.surplus - a.course.surplus);
      for (const { course, more, moreNet } of grown) {
        if (hopeless(course.surplus + more, course.net + moreNet)) pruned++;
        else exhaust(course, openAt);
      }
    };
    const hopeless = (most: number, mostNet: number) =>
      most <= all.surplus!.surplus + leastGain && mostNet <= all.net!.net + leastGain;

    const starts = [...singles].sort((a, b) => b.surplus - a.surplus);
    const climbed = new Set<string>();
    for (const course of starts) {
      const key = how === 'quick' ? 'any' : treatments[course.steps[0]!]!.kind;
      if (climbed.has(key)) continue;
      climbed.add(key);
      climb(course, weights);
    }
    if (how === 'thorough') {
      const acting = reach.acting(weights, [], 1);
      for (const course of starts) {
        const first = course.steps[0]!;
        // As in the middle: what follows such a first step is as good without it.
        if (mostGain * acting[first]! > prices.alone[first]!) exhaust(course, weights);
      }
    }
    const best = [...(how === 'quick' ? [] : kinds.values()), all];
    return { singles, best: best.flatMap(({ surplus: most, net }) => [most, net].filter((course) => course !== null)) };
  }
  return { run, scratch, counts: () => ({ evaluated, pruned }) };
}

interface Best {
  surplus: Course | null;
  net: Course | null;
}

/** A step that may follow, bounds on any course that goes on with it, and what of them is due to yet another step. */
interface Prospect {
  readonly treatment: number;
  readonly most: number;
  readonly mostNet: number;
  readonly more: number;
  readonly moreNet: number;
}

/** Chances that a treatment on its own fixes, and then holds, and is kept, per tree node. */
function singleStepByNode(set: ConditionSet, treatment: number, scratch: CourseScratch): Float64Array[] {
  const { fixed, held, kept } = lastStepVectors(set, [treatment], scratch);
  return [fixed, held, kept].map((chances) => nodeWeights(set, chances));
}
