import type { PriceWarning } from '../../letter/schema.ts';
import { CautionMark } from '../frame/marks.tsx';
import { TypedField } from '../questions/typed-field.tsx';
import { useSession } from '../session.ts';
import { sayPrice } from '../verdict/price-words.ts';
import { type Manner, sayMoney } from '../words.ts';
import { type Asking, readPrice, type Typed } from './asking.ts';
import { ownerWords } from './words.ts';

export const PRICE_FIELD = 'owner-price';

interface Props {
  readonly asking: Asking;
  readonly typed: Typed;
  readonly warnings: readonly PriceWarning[];
  readonly manner: Manner;
}

/** The price is the technician's choice; what it does to either side is said beside it. */
export function PriceChoice({ asking, typed, warnings, manner }: Props) {
  const { drafts } = useSession();
  const words = ownerWords.value;
  const { option, floor, ceiling, middle, from, to, step } = asking;
  const text = drafts.texts.value.get(PRICE_FIELD) ?? '';
  const asked = typed.kind === 'price' ? typed.price : middle;
  const across = (amount: number) => `${(100 * (Math.min(to, Math.max(from, amount)) - from)) / (to - from)}%`;
  const [low, high] = ceiling >= floor ? [floor, ceiling] : [ceiling, floor];
  const take = (next: string) => drafts.set(PRICE_FIELD, next.trim() === '' ? null : next);
  return (
    <div class="owner-price">
      <p class="about" id="owner-price-band">
        {sayPrice(option, manner)}
      </p>
      <div data-question>
        <TypedField
          id={PRICE_FIELD}
          label={words.price}
          unit={manner.currency}
          stored={typed.kind === 'unreadable' ? '' : text}
          draft={typed.kind === 'unreadable' ? text : undefined}
          placeholder={middle === null ? '' : String(middle)}
          read={(entry) => {
            const read = readPrice(entry, words.oneFigure);
            return read.kind === 'unreadable' ? { ok: false, wrong: read.wrong, todo: read.todo } : { ok: true };
          }}
          same={(entry, stored) => entry === stored}
          onText={take}
          describedBy="owner-price-band owner-price-sides"
        />
      </div>
      <div class="owner-slider" data-question data-room={ceiling >= floor} data-asked={asked !== null}>
        <input
          type="range"
          aria-label={words.slider}
          min={from}
          max={to}
          step={step}
          value={asked ?? low}
          aria-valuetext={sayMoney(asked ?? low, manner)}
          onInput={({ currentTarget }) => take(currentTarget.value)}
        />
        <span class="owner-band" aria-hidden="true">
          <span style={{ left: across(low), right: `calc(100% - ${across(high)})` }} />
        </span>
        <span class="owner-edges" aria-hidden="true">
          <span style={{ left: across(low), translate: `-${across(low)}` }}>{sayMoney(low, manner)}</span>
          <span style={{ left: across(high), translate: `-${across(high)}` }}>{sayMoney(high, manner)}</span>
        </span>
      </div>
      <p class="owner-sides" id="owner-price-sides">
        {asked === null
          ? words.noPrice
          : words.sides(
              sayMoney(Math.abs(asked - floor), manner),
              asked >= floor,
              sayMoney(Math.abs(ceiling - asked), manner),
              asked <= ceiling,
            )}
      </p>
      <div role="status">
        {warnings.map(({ kind, loses, sentence }) => (
          <p class="notice owner-warning" key={kind} data-loses={loses}>
            <CautionMark /> <b>{words.loses[loses]}</b> {sentence}
          </p>
        ))}
      </div>
      {typed.kind !== 'none' && (
        <button type="button" class="quiet" onClick={() => take('')}>
          {middle === null ? words.noPriceAgain : words.backToMiddle(sayMoney(middle, manner))}
        </button>
      )}
    </div>
  );
}
