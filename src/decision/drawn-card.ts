/**
 * A card whose uncertain inputs can be set, one by one or all at once, and its candidate plans worked out again. Both the
 * share of draws in which a verdict stands and the tornado are made with it.
 */
import { type CardModel, tableOf } from './card-model.ts';
import { type ConditionSet, nodeWeights } from './condition-set.ts';
import { courseScratch, lastStep, renewScratch } from './course.ts';
import { findingWeigher } from './drawn-belief.ts';
import { dot, type Plan } from './plan.ts';
import { type CourseChances, endValue, expectedCost, marginOf, stepCosts, surplus } from './price.ts';
import { inducedChance, nothingNewIn, stillDormant, type Verdict } from './treatment.ts';
import { type DrawnState, mutableCopy, type UncertainInput, uncertainInputs } from './uncertain-inputs.ts';
import type { Uncertainty } from './uncertainty.ts';

export interface DrawnPlan {
  readonly verdict: Verdict;
  works: number;
  held: number;
  surplus: number;
  margin: number;
  justified: boolean;
}

export interface DrawnCard {
  /** those that touch the conditions or the plans */
  readonly inputs: readonly UncertainInput[];
  /**
   * Works belief and plans out again for the inputs as they are set; false where the drawn rows forbid what was seen under
   * every condition. `belief` and `plans` are overwritten.
   */
  evaluate(): boolean;
  /**
   * The same where one input is away from its likely value and all others are at theirs, for the plans only and in less
   * work: surplus is linear in the belief, and money needs no chances worked out again.
   */
  evaluateOne(input: UncertainInput): boolean;
  readonly belief: Float64Array;
  readonly plans: readonly DrawnPlan[];
}

/** `belief` sums to one over the set; `plans` are candidates described under it. */
export function drawnCard(
  model: CardModel,
  set: ConditionSet,
  belief: Float64Array,
  uncertainty: Uncertainty,
  plans: readonly Plan[],
): DrawnCard {
  const used = [...new Set(plans.flatMap((plan) => plan.steps))].sort((a, b) => a - b);
  const table = tableOf(model);
  const scratch = courseScratch(table, set);
  const { faults } = table;
  const now = mutableCopy(model);
  const { money } = now;
  const state: DrawnState = {
    now,
    odds: new Float64Array(faults).fill(1),
    factors: new Float64Array(faults).fill(1),
    weighers: uncertainty.findings.map((finding) => findingWeigher(finding, set)),
    cures: Float64Array.from(table.cures),
    maskShares: table.masks.map((masked, i) => (masked > 0 ? masked / (1 - table.cures[i]!) : 0)),
    induces: new Float64Array(table.induces.length),
    damage: Float64Array.from(model.treatments, (treatment) => treatment.damage),
    medians: Float64Array.from(model.relapse, (weibull) => weibull?.medianDays ?? Number.NaN),
  };
  model.treatments.forEach((treatment, t) => {
    for (const { fault, chance } of treatment.induces) state.induces[t * faults + fault] = chance;
  });
  const inputs = uncertainInputs(model, set, uncertainty, used, state);

  const members = [...new Set(set.codes)];
  const drawn = new Float64Array(set.size);
  const { courses, courseOf } = courseTree(plans);
  const results = plans.map(
    (plan): DrawnPlan => ({ verdict: plan.verdict, works: 0, held: 0, surplus: 0, margin: 0, justified: false }),
  );
  const sound = soundConditions(set, table.host);

  function weighBelief(): boolean {
    drawn.set(belief);
    if (members.some((code) => state.odds[code >> 1]! * state.factors[code >> 1]! !== 1)) {
      for (let c = 0; c < set.size; c++) {
        let ratio = 1;
        for (let i = set.starts[c]!; i < set.starts[c + 1]!; i++) {
          const fault = set.codes[i]! >> 1;
          ratio *= state.odds[fault]! * state.factors[fault]!;
        }
        drawn[c] = drawn[c]! * ratio;
      }
    }
    for (const weigher of state.weighers) if (weigher && weigher.changed > 0) weigher.weigh(drawn);
    return normalise(drawn);
  }

  function fillTable(): void {
    for (const t of used) {
      for (const fault of table.touched[t]!) {
        const i = t * faults + fault;
        table.cures[i] = state.cures[i]!;
        table.masks[i] = (1 - state.cures[i]!) * state.maskShares[i]!;
        table.induces[i] = inducedChance(state.induces[i]!, state.damage[t]!);
      }
    }
    model.relapse.forEach((weibull, fault) => {
      if (!weibull) return;
      const relapse = { medianDays: state.medians[fault]!, shape: weibull.shape };
      table.dormantAtHorizon[fault] = stillDormant(relapse, money.horizonDays);
      table.dormantAtWarranty[fault] = stillDormant(relapse, money.warrantyDays);
    });
    table.nothingNew[0] = nothingNewIn(money.horizonDays, now.newFaultsPerYear);
    table.nothingNew[1] = nothingNewIn(money.warrantyDays, now.newFaultsPerYear);
    renewScratch(scratch);
  }

  function runCourses(weights: Float64Array): CourseChances[] {
    fillTable();
    const chances: CourseChances[] = [];
    for (const { steps, before } of courses) {
      const last = lastStep(set, weights, steps, scratch);
      const soFar = before < 0 ? { reached: [], works: 0, held: 0, kept: 0 } : chances[before]!;
      chances.push({
        reached: [...soFar.reached, Math.max(0, 1 - soFar.works)],
        works: soFar.works + last.fixed,
        held: soFar.held + last.held,
        kept: soFar.kept + last.kept,
      });
    }
    return chances;
  }

  function settle(chances: readonly CourseChances[]): void {
    plans.forEach((plan, k) => {
      const result = results[k]!;
      if (plan.stop !== null) settleStop(plan.stop, result);
      else {
        const at = chances[courseOf[k]!]!;
        const cost = expectedCost(money, stepCosts(now, plan.steps), at).total;
        result.works = at.works;
        result.held = at.held;
        result.surplus = surplus(money, cost, at.held);
        result.margin = marginOf(money, cost);
        result.justified = result.surplus >= result.margin;
      }
    });
  }

  function evaluate(): boolean {
    if (!weighBelief()) return false;
    settle(runCourses(nodeWeights(set, drawn)));
    return true;
  }

  let likelyChances: readonly CourseChances[] | undefined;
  function evaluateOne(input: UncertainInput): boolean {
    if (input.reach === 'belief') {
      if (!weighBelief()) return false;
      plans.forEach((plan, k) => {
        const result = results[k]!;
        result.works = dot(plan.vectors.works, drawn);
        result.held = dot(plan.vectors.held, drawn);
        result.surplus = dot(plan.payoff, drawn) - plan.preparationCost;
        const cost = endValue(money, result.held) - money.asIs - result.surplus;
        result.margin = plan.stop === null ? marginOf(money, cost) : 0;
        result.justified = plan.stop !== null || result.surplus >= result.margin;
      });
      return true;
    }
    drawn.set(belief);
    const weights = nodeWeights(set, belief);
    if (input.reach === 'courses') settle(runCourses(weights));
    else {
      likelyChances ??= runCourses(weights);
      fillTable();
      settle(likelyChances);
    }
    return true;
  }

  function settleStop(stop: number, result: DrawnPlan): void {
    const { value } = model.stops[stop]!;
    const labour = (now.stops[stop]!.minutes / 60) * money.labourPerHour;
    result.works = 0;
    result.held = 0;
    result.justified = true;
    result.surplus = -labour;
    if (value === 'parts') result.surplus += money.partsAfterWork - money.asIs;
    if (value !== 'working-if-sound') return;
    for (const { condition, dormant } of sound) {
      let holds = table.nothingNew[0]!;
      for (const fault of dormant) holds *= table.dormantAtHorizon[fault]!;
      result.works += drawn[condition]!;
      result.held += drawn[condition]! * holds;
    }
    const rise = result.held * (money.working - money.partsAfterWork);
    result.surplus +=
      result.works * (money.partsAfterWork - money.asIs) +
      rise -
      (1 - result.works) * (money.comebackCost + money.wronglySoundCost);
  }

  return { inputs, evaluate, evaluateOne, belief: drawn, plans: results };
}

/** Every start of every course once, shorter before longer, with the one that it extends. */
function courseTree(plans: readonly Plan[]) {
  const courses: { readonly steps: readonly number[]; readonly before: number }[] = [];
  const places = new Map<string, number>();
  const place = (steps: readonly number[]): number => {
    if (steps.length === 0) return -1;
    const key = steps.join();
    const known = places.get(key);
    if (known !== undefined) return known;
    const before = place(steps.slice(0, -1));
    courses.push({ steps, before });
    places.set(key, courses.length - 1);
    return courses.length - 1;
  };
  const courseOf = plans.map((plan) => place(plan.steps));
  return { courses, courseOf };
}

/** Conditions in which no fault of the card is active, with its dormant ones. */
function soundConditions(set: ConditionSet, host: Uint8Array) {
  return set.conditions.flatMap(({ active, dormant }, condition) =>
    active.every((fault) => host[fault] === 1)
      ? [{ condition, dormant: dormant.filter((fault) => host[fault] === 0) }]
      : [],
  );
}

function normalise(values: Float64Array): boolean {
  let total = 0;
  for (const value of values) total += value;
  if (!(total > 0) || !Number.isFinite(total)) return false;
  for (let i = 0; i < values.length; i++) values[i] = values[i]! / total;
  return true;
}
