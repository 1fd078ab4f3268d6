/** The price on the page: inside the band it is the technician's choice; outside it, one side loses. */
import type { Option } from '../assessment.ts';

/** Prices come in round steps: the largest that leaves some choice inside the band, and whole amounts wherever one fits. */
const STEPS = [100, 50, 10, 5, 1, 0.5, 0.1, 0.05, 0.01] as const;
const LEAST_STEPS_IN_BAND = 4;

/** An option that something is paid for: both edges of its price band are there. */
export type Priced = Option & { readonly floor: number; readonly ceiling: number };

export function isPriced(option: Option): option is Priced {
  return option.floor !== null && option.ceiling !== null;
}

/**
 * The price asked unless the technician names another: the middle of the band, where what both sides gain over having no
 * deal is the same (the equal split; J. F. Nash, The Bargaining Problem, Econometrica 18, 1950, from memory), rounded to a
 * round amount inside the band. A band that begins below zero is taken from zero. Null where the band is closed.
 *
 * @example band 395 to 485: 440; band 73 to 92: 83 (82.5 in steps of one)
 */
export function middlePrice(option: Priced): number | null {
  const { ceiling } = option;
  const floor = Math.max(0, option.floor);
  if (ceiling < floor) return null;
  const middle = (floor + ceiling) / 2;
  const width = ceiling - floor;
  const inside = STEPS.filter((step) => step <= Math.max(1, width / LEAST_STEPS_IN_BAND))
    .map((step) => Number((Math.round(middle / step) * step).toFixed(2)))
    .find((price) => price >= floor && price <= ceiling);
  return inside ?? middle;
}

/**
 * Chance that the price is paid and kept: the card works at hand-back and does not come back within the warranty. The
 * assessment states it through the floor = (cost + margin - (1 - works) fee) / kept and, where that is 0 / 0, through the
 * width of the band = (surplus - margin) / kept.
 */
export function chanceKept(option: Priced, fee: number): number {
  const numerator = option.cost.total + option.margin - (1 - option.works) * fee;
  const width = option.ceiling - option.floor;
  if (Math.abs(option.floor) >= Math.abs(width)) return numerator / option.floor;
  return (option.surplus - option.margin) / width;
}

/** What each side loses on average per such card at this price; 0 for a side that does not lose. */
export function lossesAt(
  option: Priced,
  price: number,
  fee: number,
): { readonly shop: number; readonly owner: number } {
  const kept = chanceKept(option, fee);
  return { shop: kept * Math.max(0, option.floor - price), owner: kept * Math.max(0, price - option.ceiling) };
}
