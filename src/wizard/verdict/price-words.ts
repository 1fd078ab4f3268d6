import type { Option } from '../../assessment.ts';
import { messages } from '../language.ts';
import { type Manner, sayMoney } from '../words.ts';

/** Null where nothing is sold: a stop, or the shop's own stock. */
export function sayPrice({ floor, ceiling }: Pick<Option, 'floor' | 'ceiling'>, manner: Manner): string | null {
  if (floor === null || ceiling === null) return null;
  const { verdict } = messages.value;
  const least = sayMoney(Math.max(0, floor), manner);
  const most = sayMoney(Math.max(0, ceiling), manner);
  return ceiling >= floor ? verdict.price(least, most) : verdict.noPrice(least, most);
}
