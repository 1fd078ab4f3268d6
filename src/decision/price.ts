/**
 * Money of one option: what it costs, what it leaves, and the band of prices that suits both sides.
 *
 * Everything is linear in the chances of a course, so belief-weighted chances give expected money and chances per
 * condition give payoff vectors.
 */
import type { CardModel, Money } from './card-model.ts';

/** Chances of a course that money depends on. */
export interface CourseChances {
  /** chance that each step is carried out at all; the first is 1 */
  readonly reached: readonly number[];
  /** the card works at hand-back */
  readonly works: number;
  /** works at hand-back and to the horizon */
  readonly held: number;
  /** works at hand-back and does not come back within the warranty */
  readonly kept: number;
}

/** What carrying out a step costs, preparations included that no earlier step of the course has made for good. */
export interface StepCost {
  readonly minutes: number;
  readonly labour: number;
  readonly parts: number;
  readonly consumables: number;
  readonly total: number;
}

export interface CostSplit {
  readonly total: number;
  readonly labour: number;
  readonly parts: number;
  readonly consumables: number;
  readonly comeback: number;
}

export interface PriceBand {
  /** least the shop can charge and cover expected cost, risk and margin; null where no price is paid */
  readonly floor: number | null;
  /** most the owner can pay and be no worse off than leaving the card as it is; null where no price is paid */
  readonly ceiling: number | null;
}

/** Cost of each step of a course in its order. `made` lists preparations that are already made and cost nothing more. */
export function stepCosts(model: CardModel, steps: readonly number[], made: readonly number[] = []): StepCost[] {
  const { money, preparations, treatments } = model;
  const done = new Set(made);
  return steps.map((step) => {
    const treatment = treatments[step]!;
    let minutes = treatment.minutes;
    for (const preparation of new Set(treatment.preparations)) {
      if (done.has(preparation)) continue;
      if (preparations[preparation]!.lasts) done.add(preparation);
      minutes += preparations[preparation]!.minutes;
    }
    const labour = (minutes / 60) * money.labourPerHour;
    let parts = 0;
    for (const part of treatment.parts) parts += money.partPrices[part]!;
    const consumables = treatment.heatCycles * money.consumablesPerHeatCycle;
    return { minutes, labour, parts, consumables, total: labour + parts + consumables };
  });
}

/** Expected real cost: each step by the chance that it is reached, and a comeback by the chance of one. */
export function expectedCost(money: Money, costs: readonly StepCost[], chances: CourseChances): CostSplit {
  let labour = 0;
  let parts = 0;
  let consumables = 0;
  costs.forEach((cost, j) => {
    const reached = chances.reached[j]!;
    labour += reached * cost.labour;
    parts += reached * cost.parts;
    consumables += reached * cost.consumables;
  });
  const comeback = (chances.works - chances.kept) * money.comebackCost;
  return { total: labour + parts + consumables + comeback, labour, parts, consumables, comeback };
}

/** Expected value of the card at the end: V where it holds to the horizon, S otherwise. */
export function endValue(money: Money, held: number): number {
  return money.partsAfterWork + held * (money.working - money.partsAfterWork);
}

/** J = E[value at the end] - E[real costs] - A. */
export function surplus(money: Money, cost: number, held: number): number {
  return endValue(money, held) - cost - money.asIs;
}

/** The least surplus worth starting for: fixed, plus a share of the expected cost. */
export function marginOf(money: Money, cost: number): number {
  return money.margin.fixed + money.margin.shareOfCost * cost;
}

/**
 * Prices for "the owner pays p if the card works at hand-back". With q = P(works) and w = P(comes back in warranty | works),
 * a comeback refunds p in full and leaves no fee; a card that does not work pays the fee. Then
 *
 *     shop:  q (1 - w) p + (1 - q) fee >= C + margin        floor   = (C + margin - (1 - q) fee) / (q (1 - w))
 *     owner: E[value] - q (1 - w) p - (1 - q) fee >= A      ceiling = (E[value] - A - (1 - q) fee) / (q (1 - w))
 *
 * and ceiling - floor = (J - margin) / (q (1 - w)): the band is open exactly where the surplus reaches the margin. Prices
 * may come out negative where a fee alone more than pays; they are not cut off, because that would break the identity.
 * Null for own stock (one purse) and where no price is ever kept (q (1 - w) = 0).
 *
 * @example q = 1, w = 0, no fee, C 50, margin 20, V 300, A 30: floor 70, ceiling 270
 */
export function priceBand(money: Money, cost: number, chances: CourseChances): PriceBand {
  if (money.ownStock || !(chances.kept > 0)) return { floor: null, ceiling: null };
  const fees = (1 - chances.works) * money.feeWhenNotFixed;
  return {
    floor: (cost + marginOf(money, cost) - fees) / chances.kept,
    ceiling: (endValue(money, chances.held) - money.asIs - fees) / chances.kept,
  };
}
