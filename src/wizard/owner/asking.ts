/** What the owner may be asked for: the band, and how far beyond it the slider reaches. */
import type { Assessed, Option } from '../../assessment.ts';
import { repairInQuestion } from '../../letter/choices.ts';
import { isPriced, middlePrice } from '../../letter/price.ts';
import { readAmount } from '../amounts.ts';

export interface Asking {
  /** the repair the price is for */
  readonly option: Option;
  readonly floor: number;
  readonly ceiling: number;
  /** asked unless the technician names another; null: no price serves both */
  readonly middle: number | null;
  /** the slider, beyond both edges so that a price outside can be tried */
  readonly from: number;
  readonly to: number;
  readonly step: number;
}

const STEPS_ACROSS = 60;
const ROUND = [0.01, 0.05, 0.1, 0.5, 1, 5, 10, 50, 100, 500, 1_000] as const;

/** Null: nothing is sold, so there is no price to choose. */
export function askingOf(assessed: Assessed): Asking | null {
  const option = assessed.ownStock ? null : repairInQuestion(assessed);
  if (option === null || !isPriced(option)) return null;
  const { floor } = option;
  const ceiling = Math.max(0, option.ceiling);
  const [low, high] = [Math.max(0, Math.min(floor, ceiling)), Math.max(floor, ceiling, 0)];
  const beyond = Math.max(high - low, 0.2 * high, 1) / 2;
  const step = ROUND.findLast((one) => one <= (high - low + 2 * beyond) / STEPS_ACROSS) ?? ROUND[0];
  return {
    option,
    floor,
    ceiling,
    middle: middlePrice(option),
    from: Math.floor(Math.max(0, low - beyond) / step) * step,
    to: Math.ceil((high + beyond) / step) * step,
    step,
  };
}

export type Typed =
  | { readonly kind: 'none' }
  | { readonly kind: 'price'; readonly price: number }
  | { readonly kind: 'unreadable'; readonly wrong: string; readonly todo: string };

/** One figure; a range is no price. `oneFigure`: what to say then. */
export function readPrice(text: string, oneFigure: string): Typed {
  if (text.trim() === '') return { kind: 'none' };
  const read = readAmount(text);
  if (!read.ok) return { kind: 'unreadable', wrong: read.wrong, todo: oneFigure };
  if (typeof read.amount === 'number') return { kind: 'price', price: read.amount };
  return { kind: 'unreadable', wrong: text.trim(), todo: oneFigure };
}
