/**
 * What if the money or the work were otherwise? Surplus, margin and price band of a plan are linear in these once its chances
 * are known, so a verdict can be formed anew from a few numbers per plan, in microseconds and far from the conditions.
 */
import type { CardModel, Money, StopOption } from './card-model.ts';
import type { Plan } from './plan.ts';
import { choosePlan } from './plans.ts';
import { endValue, marginOf, priceBand, surplus } from './price.ts';
import type { Verdict } from './treatment.ts';

export type WhatIfMoney = Omit<Money, 'warrantyDays' | 'horizonDays'>;

/** What is left of a plan when the conditions are summed over: all that money is linear in. */
export interface WhatIfPlan {
  readonly id: string;
  readonly verdict: Verdict;
  /** what a stop leaves; null: a course of remedies */
  readonly stop: StopOption['value'] | null;
  readonly works: number;
  readonly held: number;
  readonly kept: number;
  /** expected minutes of its steps, each weighed by the chance that it is reached, and of what has to be prepared for them */
  readonly workMinutes: number;
  readonly preparationMinutes: number;
  /** expected */
  readonly heatCycles: number;
  /** expected pieces of each part; `part` is its place in `partPrices` */
  readonly parts: readonly { readonly part: number; readonly pieces: number }[];
}

export interface WhatIf<P extends WhatIfPlan = WhatIfPlan> {
  readonly money: WhatIfMoney;
  /** every plan the verdict is chosen from, best first */
  readonly plans: readonly P[];
  /** the plan that questions about the verdict are about; null: there is none */
  readonly subject: string | null;
}

/** What is thought otherwise; what is left out stays as it is. */
export interface Changes {
  readonly working?: number;
  readonly asIs?: number;
  readonly partsAfterWork?: number;
  readonly labourPerHour?: number;
  /** every part at this many times its price */
  readonly partsTimes?: number;
  /** every remedy in this many times its minutes; preparations and stops stay as they are */
  readonly workMinutesTimes?: number;
  /** the subject, and every plan of its verdict, works (and holds, and is kept) this many times as often; no further than always */
  readonly worksTimes?: number;
}

export interface PlanAnew {
  readonly cost: number;
  readonly partsCost: number;
  readonly minutes: number;
  readonly works: number;
  readonly held: number;
  readonly surplus: number;
  readonly margin: number;
  readonly justified: boolean;
  readonly floor: number | null;
  readonly ceiling: number | null;
}

export interface Anew {
  /** in the order of `plans` */
  readonly plans: readonly PlanAnew[];
  /** index of the plan that is followed */
  readonly chosen: number;
}

/** The sums a plan's money is linear in. `plans` as `choosePlan` would get them. */
export function whatIfOf(model: CardModel, plans: readonly Plan[], subject: Plan | null): WhatIf {
  const { warrantyDays: _warranty, horizonDays: _horizon, ...money } = model.money;
  return { money, plans: plans.map((plan) => summed(model, plan)), subject: subject?.id ?? null };
}

function summed(model: CardModel, plan: Plan): WhatIfPlan {
  const { works, held, kept, reached } = plan.chances;
  const pieces = new Map<number, number>();
  let workMinutes = 0;
  plan.steps.forEach((step, j) => {
    const treatment = model.treatments[step]!;
    workMinutes += reached[j]! * treatment.minutes;
    for (const part of treatment.parts) pieces.set(part, (pieces.get(part) ?? 0) + reached[j]!);
  });
  return {
    id: plan.id,
    verdict: plan.verdict,
    stop: plan.stop === null ? null : model.stops[plan.stop]!.value,
    works,
    held,
    kept,
    workMinutes,
    preparationMinutes: plan.minutes - workMinutes,
    heatCycles: plan.heatCycles,
    parts: [...pieces].map(([part, count]) => ({ part, pieces: count })),
  };
}

/**
 * Every plan's money under the changes, and the plan that `choosePlan` would follow then. With
 *
 *     cost    = minutes / 60 * rate + pieces * price + heat cycles * consumables + (works - kept) * comeback
 *     surplus = S + held (V - S) - cost - A
 *
 * for a course, and as in `describeStop` for a stop (whose minutes are its preparation minutes: nothing speeds them up).
 * Exact for the plans given: equal to working the card out anew with that money. A full assessment may besides find a
 * plan that was not worth keeping at today's money. Cost: a dozen multiplications per plan.
 *
 * @example V 300, S 20, A 30, one plan that always works and costs 50: surplus 220, with V 200: 120
 */
export function reconsider({ money, plans, subject }: WhatIf, changes: Changes = {}): Anew {
  const changed: Money = {
    ...money,
    working: changes.working ?? money.working,
    asIs: changes.asIs ?? money.asIs,
    partsAfterWork: changes.partsAfterWork ?? money.partsAfterWork,
    labourPerHour: changes.labourPerHour ?? money.labourPerHour,
    // days are already in the chances
    warrantyDays: 0,
    horizonDays: 0,
  };
  const { partsTimes = 1, workMinutesTimes = 1, worksTimes = 1 } = changes;
  const kind = plans.find(({ id }) => id === subject)?.verdict;
  const anew = plans.map((plan) =>
    planAnew(changed, plan, partsTimes, workMinutesTimes, plan.verdict === kind ? worksTimes : 1),
  );
  return { plans: anew, chosen: anew.indexOf(choosePlan(anew)) };
}

function planAnew(
  money: Money,
  plan: WhatIfPlan,
  partsTimes: number,
  workMinutesTimes: number,
  worksTimes: number,
): PlanAnew {
  const times = plan.works > 0 ? Math.min(worksTimes, 1 / plan.works) : 1;
  const [works, held, kept] = [times * plan.works, times * plan.held, times * plan.kept];
  const minutes =
    plan.stop === null ? plan.preparationMinutes + workMinutesTimes * plan.workMinutes : plan.preparationMinutes;
  const labour = (minutes / 60) * money.labourPerHour;
  if (plan.stop !== null) return stopAnew(money, plan.stop, labour, minutes, works, held);
  let partsCost = 0;
  for (const { part, pieces } of plan.parts) partsCost += pieces * money.partPrices[part]! * partsTimes;
  const consumables = plan.heatCycles * money.consumablesPerHeatCycle;
  const cost = labour + partsCost + consumables + (works - kept) * money.comebackCost;
  const left = surplus(money, cost, held);
  const margin = marginOf(money, cost);
  const band = priceBand(money, cost, { reached: [], works, held, kept });
  return { cost, partsCost, minutes, works, held, surplus: left, margin, justified: left >= margin, ...band };
}

/** As `describeStop` sums it: sound cards are worth what working ones are, others come straight back. */
function stopAnew(
  money: Money,
  stop: StopOption['value'],
  labour: number,
  minutes: number,
  works: number,
  held: number,
): PlanAnew {
  const back = stop === 'working-if-sound' ? (1 - works) * (money.comebackCost + money.wronglySoundCost) : 0;
  const leaves =
    stop === 'working-if-sound'
      ? endValue(money, held) - (1 - works) * money.partsAfterWork - works * money.asIs
      : stop === 'parts'
        ? money.partsAfterWork - money.asIs
        : 0;
  const cost = labour + back;
  return {
    cost,
    partsCost: 0,
    minutes,
    works,
    held,
    surplus: leaves - cost,
    margin: 0,
    justified: true,
    floor: null,
    ceiling: null,
  };
}
