import type { Option } from '../../assessment.ts';
import { type Manner, sayMoney } from '../words.ts';
import { sayPrice } from './price-words.ts';

/** Floor and ceiling on one line: room between them, or a gap. */
export function PriceLine({ option, manner }: { readonly option: Option; readonly manner: Manner }) {
  const { floor, ceiling } = option;
  if (floor === null || ceiling === null) return null;
  const top = Math.max(floor, ceiling, 1) * 1.12;
  const at = (amount: number) => `${(100 * Math.max(0, amount)) / top}%`;
  const mark = (amount: number) => ({ left: at(amount), translate: `-${at(amount)}` });
  const room = ceiling >= floor;
  const [from, to] = room ? [floor, ceiling] : [Math.max(0, ceiling), floor];
  return (
    <div class="price-line" data-room={room}>
      <p class="price-words">{sayPrice(option, manner)}</p>
      <div class="price-scale" aria-hidden="true">
        <span class="price-span" style={{ left: at(from), width: `calc(${at(to)} - ${at(from)})` }} />
        <span class="price-mark price-floor" style={mark(floor)}>
          <b>{sayMoney(floor, manner)}</b> bench needs
        </span>
        <span class="price-mark price-ceiling" style={mark(ceiling)}>
          <b>{sayMoney(Math.max(0, ceiling), manner)}</b> owner's most
        </span>
      </div>
    </div>
  );
}
