/** How long a remedy's cards lasted, step by step, and the law of time that fits them. */

import { type Followed, follow } from '../survival/followed.ts';
import { productLimit, type SurvivalCurve, survivalAt } from '../survival/product-limit.ts';
import { fitWeibull, NoWeibullFit } from '../survival/weibull.ts';
import type { RemedyAnswer } from './answer.ts';

/** Days a card served, and the share of it that counts as failed: the rest was lost sight of. */
export interface Served {
  readonly days: number;
  readonly failed: number;
}

/** A law is fitted from so many failures on, added up in parts of cards (this project's judgement). */
export const LAW_FROM = 3;
/** Failed on the day it left: no law of this kind allows a failure at once. */
const HALF_A_DAY = 0.5;

export const followedOf = (cards: readonly Served[]): Followed =>
  follow(cards.map(({ days, failed }) => ({ time: days, failed, censored: 1 - failed })));

/**
 * The product-limit curve as steps: each from its day until the next one's, the first from day 0. `low` and `high` hold in between,
 * as `survivalAt` tells them there, so that a drawing and a table say the same of a day. At the last day they are of that day: nobody
 * was followed longer. Counts of cards are whole, parts of cards are not.
 */
export function stepsOf(curve: SurvivalCurve): RemedyAnswer['steps'] {
  const limits = (days: number) => {
    const { low, high } = survivalAt(curve, days);
    return { low, high };
  };
  const { time } = curve;
  const steps = Array.from(time, (days, i) => ({
    days,
    atRisk: Math.round(curve.atRisk[i]!),
    failed: curve.failed[i]!,
    lost: curve.censored[i]!,
    survival: curve.survival[i]!,
    ...limits(i + 1 < time.length ? (days + time[i + 1]!) / 2 : days),
  }));
  if (time[0] === 0) return steps;
  const all = Math.round(curve.atRisk[0]!);
  return [{ days: 0, atRisk: all, failed: 0, lost: 0, survival: 1, ...limits(time[0]! / 2) }, ...steps];
}

/** The Weibull law of most likelihood through these times in service; null: too few failed, or they set no law. */
export function lawOf(cards: readonly Served[]): RemedyAnswer['law'] {
  if (cards.reduce((sum, { failed }) => sum + failed, 0) < LAW_FROM) return null;
  const since = cards.map(({ days, failed }) => ({ days: failed > 0 ? Math.max(HALF_A_DAY, days) : days, failed }));
  try {
    const { shape, scale, shapeError, scaleError } = fitWeibull(followedOf(since));
    return { shape, scaleDays: scale, shapeError, scaleError };
  } catch (error) {
    if (error instanceof NoWeibullFit) return null;
    throw error;
  }
}

/** Takes times in service to the curve; what a remedy's answer says of them, without its words. */
export function lastingOf(cards: readonly Served[]): {
  readonly curve: SurvivalCurve;
  readonly steps: RemedyAnswer['steps'];
  readonly law: RemedyAnswer['law'];
} {
  const curve = productLimit(followedOf(cards));
  return { curve, steps: stepsOf(curve), law: lawOf(cards) };
}
