/** A quantity with its bounds against a limit: inside, outside, or not to be told. */
import { normalCdf } from '../evidence/normal.ts';

/**
 * What was measured. `low` and `high` are how far the truth may lie, as half-widths of a rectangle on either side
 * (GUM 4.3.7: standard uncertainty = half-width / sqrt 3); Infinity where a record ends before the quantity does.
 */
export interface Quantity {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

export interface Limit {
  readonly atLeast?: number;
  readonly atMost?: number;
}

export type Grade = 'inside' | 'outside' | 'cannot-tell';

export interface Graded {
  readonly grade: Grade;
  /** chance that the true value lies within the limit */
  readonly chanceInside: number;
  /** which side it lies on where it is not inside */
  readonly side: 'below' | 'above' | null;
}

/**
 * How sure a grade has to be. With bounds of sqrt 3 standard uncertainties this is 1.96 of them, so that a change within
 * the bounds can take an inside to "cannot tell" and never to outside.
 */
export const SURE = 0.975;

/**
 * Grades a quantity as a reading is graded (JCGM 106 7.3, 7.4): the chance that the true value lies within the limit,
 * taking it as normal with the standard uncertainty of either side on that side (a split normal, because a crossing of a
 * level is not as uncertain before as after). Inside from 97.5 % up, outside from 2.5 % down, else it cannot be told.
 * A quantity without uncertainty is graded exactly, the limit itself counting as inside. One that is open above (the record
 * ends before it does) and has not passed the upper limit cannot be told, with one half either way. Constant time.
 *
 * @example gradeQuantity({ value: 244, low: 242, high: 246 }, { atMost: 245 }).grade // 'cannot-tell'
 */
export function gradeQuantity(quantity: Quantity, limit: Limit): Graded {
  const { atLeast = Number.NEGATIVE_INFINITY, atMost = Number.POSITIVE_INFINITY } = limit;
  // an open quantity may still become anything from here up: a band that lies ahead of it is neither reached nor missed
  if (quantity.high === Number.POSITIVE_INFINITY && quantity.value <= atMost && atMost !== Number.POSITIVE_INFINITY)
    return { grade: 'cannot-tell', chanceInside: 0.5, side: null };
  const below = atLeast === Number.NEGATIVE_INFINITY ? 0 : chanceBelow(quantity, atLeast, false);
  const above = atMost === Number.POSITIVE_INFINITY ? 0 : 1 - chanceBelow(quantity, atMost, true);
  const chanceInside = Math.max(0, 1 - below - above);
  const grade = chanceInside >= SURE ? 'inside' : chanceInside <= 1 - SURE ? 'outside' : 'cannot-tell';
  return { grade, chanceInside, side: grade === 'inside' ? null : below > above ? 'below' : 'above' };
}

/** The worse of two grades: outside before cannot-tell before inside. */
export function worseGrade(a: Grade, b: Grade): Grade {
  if (a === 'outside' || b === 'outside') return 'outside';
  return a === 'cannot-tell' || b === 'cannot-tell' ? 'cannot-tell' : 'inside';
}

/** P(true value < x), or <= x where the limit counts. */
function chanceBelow({ value, low, high }: Quantity, x: number, orAt: boolean): number {
  const room = x < value ? value - low : high - value;
  if (room <= 0 || x === value) {
    if (room <= 0) return x > value || (orAt && x === value) ? 1 : 0;
    return 0.5;
  }
  if (room === Number.POSITIVE_INFINITY) return 0.5;
  return normalCdf(((x - value) * Math.sqrt(3)) / room);
}
