/** Which few of the thousands of possible plans are worth showing and planning with. */
import type { CardModel } from './card-model.ts';
import { activeChances, type ConditionSet } from './condition-set.ts';
import { LEAST_FAULT_CHANCE } from './course-bounds.ts';
import { type Course, createCourseSearch } from './course-search.ts';
import { describeCourse, describeStop, type Plan } from './plan.ts';
import type { Verdict } from './treatment.ts';

export interface PlanPool {
  /** best surplus first; equal ones by fewer steps, then by the order of treatments */
  readonly plans: readonly Plan[];
  /** how many courses were worked out, and how many were proved unable to be the best that starts as they do */
  readonly evaluated: number;
  readonly pruned: number;
}

/**
 * Finds the plans worth keeping: every stop; the best course under the belief; the best that starts with each kind of remedy;
 * the best single remedy and the best course given each fault that is at least `LEAST_FAULT_CHANCE` likely, and under each
 * further `witness` belief (such as those after a check's outcomes), because a plan poor today may be the one to follow
 * tomorrow. What another kept plan equals or beats on every condition is dropped, save the best of each verdict.
 *
 * `belief` sums to one over the conditions of the set. Courses are cut off only where a bound proves that leaving a
 * remedy out is as good. Cost: a few passes over the conditions per course; about a millisecond for 300 conditions.
 */
export function enumeratePlans(
  model: CardModel,
  set: ConditionSet,
  belief: Float64Array,
  witnesses: readonly Float64Array[] = [],
): PlanPool {
  const search = createCourseSearch(model, set);
  const kept = new Map<string, readonly number[]>();
  const keep = (course: Course | undefined) => {
    if (course) kept.set(course.steps.join(), course.steps);
  };
  const today = search.run(belief, 'thorough');
  for (const course of [best(today.singles), ...today.best]) keep(course);
  const likely = activeChances(set, belief, model.host.length);
  const given = [...witnesses];
  likely.forEach((chance, fault) => {
    if (chance >= LEAST_FAULT_CHANCE && model.host[fault] === 0) given.push(beliefGiven(set, belief, fault));
  });
  for (const witness of given) {
    const found = search.run(witness, 'quick');
    keep(best(found.singles));
    for (const course of found.best) keep(course);
  }
  const plans = [
    ...model.stops.map((_, stop) => describeStop(model, set, belief, stop, search.scratch)),
    ...[...kept.values()].map((steps) => describeCourse(model, set, belief, steps, search.scratch)),
  ].sort(compare);
  const counts = search.counts();
  return { plans: dropDominated(plans), ...counts };
}

/**
 * The option to follow: the one with the most surplus beyond its margin, among the stops (which need none) and the plans that
 * are justified. The planner of checks values options the same way, so what is advised next and the verdict agree.
 */
export function choosePlan<P extends Pick<Plan, 'surplus' | 'margin' | 'justified'>>(plans: readonly P[]): P {
  let chosen: P | undefined;
  for (const plan of plans) {
    if (plan.justified && (!chosen || plan.surplus - plan.margin > chosen.surplus - chosen.margin)) chosen = plan;
  }
  if (!chosen) throw new RangeError('no option is justified and there is no stop: give the model a stop');
  return chosen;
}

/** A repair is worth talking about where it holds at least this share as often as the one that holds most often. */
const HOPEFUL_SHARE = 0.5;

/**
 * The option that questions about a verdict are about: the one chosen or, where that is scrap, the one that might rescue the
 * card: of the repairs with a real chance (at least half as good as the best chance to hold), the one nearest to being
 * justified; a return where nothing can be repaired; null where there is neither.
 */
export function subjectOf(plans: readonly Plan[]): Plan | null {
  const chosen = choosePlan(plans);
  if (chosen.verdict !== 'scrap') return chosen;
  const repairs = plans.filter((plan) => plan.stop === null && plan.chances.works > 0);
  const most = repairs.reduce((best, plan) => Math.max(best, plan.chances.held), 0);
  let nearest: Plan | null = null;
  for (const plan of repairs) {
    if (plan.chances.held < HOPEFUL_SHARE * most) continue;
    if (!nearest || plan.surplus - plan.margin > nearest.surplus - nearest.margin) nearest = plan;
  }
  return nearest ?? plans.find((plan) => plan.verdict === 'return' && plan.chances.works > 0) ?? null;
}

/** The belief given that a fault is active. */
function beliefGiven(set: ConditionSet, belief: Float64Array, fault: number): Float64Array {
  const given = new Float64Array(set.size);
  let total = 0;
  for (let c = 0; c < set.size; c++) {
    for (let i = set.starts[c]!; i < set.starts[c + 1]!; i++) {
      if (set.codes[i] === 2 * fault) {
        given[c] = belief[c]!;
        total += belief[c]!;
      }
    }
  }
  return given.map((chance) => chance / total);
}

function best(courses: readonly Course[]): Course | undefined {
  let finest: Course | undefined;
  for (const course of courses) if (!finest || course.surplus > finest.surplus) finest = course;
  return finest;
}

function compare(a: Plan, b: Plan): number {
  if (a.surplus !== b.surplus) return b.surplus - a.surplus;
  if (a.steps.length !== b.steps.length) return a.steps.length - b.steps.length;
  if (a.stop !== null && b.stop !== null) return a.stop - b.stop;
  for (let j = 0; j < a.steps.length; j++) if (a.steps[j] !== b.steps[j]) return a.steps[j]! - b.steps[j]!;
  return 0;
}

/** Plans sorted best first: a later one goes where an earlier one that needs no further preparation pays as much everywhere. */
function dropDominated(plans: readonly Plan[]): Plan[] {
  const left: Plan[] = [];
  const verdicts = new Set<Verdict>();
  for (const plan of plans) {
    const firstOfVerdict = !verdicts.has(plan.verdict);
    verdicts.add(plan.verdict);
    if (firstOfVerdict || plan.stop !== null || !left.some((other) => dominates(other, plan))) left.push(plan);
  }
  return left;
}

function dominates(a: Plan, b: Plan): boolean {
  if (!a.preparations.every((preparation) => b.preparations.includes(preparation))) return false;
  for (let c = 0; c < a.payoff.length; c++) if (a.payoff[c]! < b.payoff[c]!) return false;
  return true;
}
