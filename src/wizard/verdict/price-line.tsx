import type { Option } from '../../assessment.ts';
import { type Manner, sayMoney } from '../words.ts';

export function sayPrice(option: Option, manner: Manner): string | null {
  const { floor, ceiling } = option;
  if (floor === null || ceiling === null) return null;
  const least = sayMoney(floor, manner);
  const most = sayMoney(Math.max(0, ceiling), manner);
  if (ceiling >= floor) return `Any price from ${least} to ${most} serves both sides.`;
  return `No price serves both: the bench needs ${least}, to the owner it is worth ${most}.`;
}

/** Floor and ceiling on one line: room between them, or a gap. */
export function PriceLine({ option, manner }: { readonly option: Option; readonly manner: Manner }) {
  const { floor, ceiling } = option;
  if (floor === null || ceiling === null) return null;
  const top = Math.max(floor, ceiling, 1) * 1.12;
  const at = (amount: number) => `${(100 * Math.max(0, amount)) / top}%`;
  const room = ceiling >= floor;
  const [from, to] = room ? [floor, ceiling] : [Math.max(0, ceiling), floor];
  return (
    <div class="price-line" data-room={room}>
      <p class="price-words">{sayPrice(option, manner)}</p>
      <div class="price-scale" aria-hidden="true">
        <span class="price-span" style={{ left: at(from), width: `calc(${at(to)} - ${at(from)})` }} />
        <span class="price-mark price-floor" style={{ left: at(floor) }}>
          <b>{sayMoney(floor, manner)}</b> bench needs
        </span>
        <span class="price-mark price-ceiling" style={{ left: at(ceiling) }}>
          <b>{sayMoney(Math.max(0, ceiling), manner)}</b> owner's most
        </span>
      </div>
    </div>
  );
}
