import type { Option } from '../../assessment.ts';
import { InFigures } from '../charts/in-figures.tsx';
import { scaleOver } from '../charts/scale.ts';
import { messages } from '../language.ts';
import { type Manner, sayMoney } from '../words.ts';
import { sayPrice } from './price-words.ts';

interface Props {
  readonly option: Pick<Option, 'floor' | 'ceiling' | 'works'>;
  readonly manner: Manner;
  /** what the card is worth working: no price beyond it is talked about */
  readonly working?: number | undefined;
  /** so that the line does not jump while figures are tried */
  readonly upTo?: number;
  /** in place of the words of an offer, and of the table under it */
  readonly words?: string | null;
}

/** A bench that needs this many times what the card is worth needs more than the line can show: it stands at the end. */
const MOST_TIMES = 2;

/** Floor and ceiling on one line with a scale under it: room between them, or a gap. */
export function PriceLine({ option, manner, working, upTo, words: instead }: Props) {
  const { verdict: words } = messages.value;
  const said = instead ?? sayPrice(option, manner);
  if (option.floor === null || option.ceiling === null || said === null) return null;
  const floor = Math.max(0, option.floor);
  const ceiling = Math.max(0, option.ceiling);
  const usual = upTo ?? working ?? 0;
  const known = Math.max(usual, ceiling, Math.min(floor, MOST_TIMES * usual || floor));
  const scale = scaleOver([0, known], 5);
  const at = (amount: number) => `${scale.at(amount)}%`;
  const room = option.ceiling >= option.floor;
  const [from, to] = room ? [floor, ceiling] : [ceiling, floor];
  return (
    <div class="price-line" data-room={room}>
      <p class="price-words">{said}</p>
      <div class="price-scale" aria-hidden="true">
        <span class="price-span" style={{ left: at(from), width: `max(3px, calc(${at(to)} - ${at(from)}))` }} />
        <Mark at={scale.at(ceiling)} class="price-ceiling" amount={sayMoney(ceiling, manner)} name={words.ownersMost} />
        <Mark at={scale.at(floor)} class="price-floor" amount={sayMoney(floor, manner)} name={words.benchNeeds} />
        {scale.ticks.map((tick) => (
          <span class="price-tick" style={{ left: at(tick) }} key={tick}>
            {sayMoney(tick, manner)}
          </span>
        ))}
      </div>
      {instead === undefined && (
        <InFigures
          title={words.priceCaption}
          columns={[{ name: words.side }, { name: manner.currency, number: true }]}
          rows={[
            [words.benchNeeds, sayMoney(floor, manner)],
            [words.ownersMost, sayMoney(ceiling, manner)],
            [room ? words.room : words.gap, sayMoney(to - from, manner)],
            ...(working === undefined ? [] : [[words.worthWorking, sayMoney(working, manner)]]),
          ]}
        />
      )}
    </div>
  );
}

/** The label leans towards the middle, so that it never leaves the line. */
function Mark({ at, class: name, amount, name: label }: { at: number; class: string; amount: string; name: string }) {
  return (
    <>
      <span class={`price-pin ${name}`} style={{ left: `${at}%` }} />
      <span class={`price-mark ${name}`} style={{ left: `${at}%`, translate: `-${at}%` }}>
        <b>{amount}</b> {label}
      </span>
    </>
  );
}
