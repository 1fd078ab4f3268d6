import type { Option } from '../../assessment.ts';
import { type Manner, sayMoney } from '../words.ts';

/** Null where nothing is sold: a stop, or the shop's own stock. */
export function sayPrice(option: Option, manner: Manner): string | null {
  const { floor, ceiling } = option;
  if (floor === null || ceiling === null) return null;
  const least = sayMoney(floor, manner);
  const most = sayMoney(Math.max(0, ceiling), manner);
  if (ceiling >= floor) return `Any price from ${least} to ${most} serves both sides.`;
  return `No price serves both: the bench needs ${least}, to the owner it is worth ${most}.`;
}
