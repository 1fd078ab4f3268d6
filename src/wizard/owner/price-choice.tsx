import type { ComponentChildren } from 'preact';
import type { PriceWarning } from '../../letter/schema.ts';
import type { Quoted } from '../../record/schema.ts';
import { CautionMark } from '../frame/marks.tsx';
import { TypedField } from '../questions/typed-field.tsx';
import { useSession } from '../session.ts';
import { sayPrice } from '../verdict/price-words.ts';
import { type Manner, sayDay, sayMoney } from '../words.ts';
import { type Asking, readPrice, type Typed } from './asking.ts';
import { ownerWords } from './words.ts';

export const PRICE_FIELD = 'owner-price';

interface Props {
  readonly asking: Asking;
  readonly typed: Typed;
  /** what the owner has been asked; null: nothing yet */
  readonly quote: Quoted | null;
  readonly onQuote: (price: number) => void;
  readonly onWithdraw: () => void;
  readonly warnings: readonly PriceWarning[];
  readonly manner: Manner;
}

/** The price is the technician's choice; what it does to either side is said beside it. */
export function PriceChoice({ asking, typed, quote, onQuote, onWithdraw, warnings, manner }: Props) {
  const { drafts } = useSession();
  const words = ownerWords.value;
  const { option, floor, ceiling, middle, from, to, step } = asking;
  const text = drafts.texts.value.get(PRICE_FIELD) ?? '';
  const standing = quote !== null && quote.option === option.id ? quote : null;
  const usual = standing?.price ?? middle;
  const asked = typed.kind === 'price' ? typed.price : usual;
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
          placeholder={usual === null ? '' : String(usual)}
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
          {usual === null
            ? words.noPriceAgain
            : (standing === null ? words.backToMiddle : words.backToQuote)(sayMoney(usual, manner))}
        </button>
      )}
      <Quote
        quote={quote}
        forThis={standing !== null}
        asked={typed.kind === 'unreadable' ? null : asked}
        manner={manner}
      >
        {(price) => (
          <button
            type="button"
            onClick={() => {
              onQuote(price);
              take('');
            }}
          >
            {words.quote(sayMoney(price, manner))}
          </button>
        )}
      </Quote>
      {quote !== null && (
        <button type="button" class="quiet" onClick={onWithdraw}>
          {words.withdraw}
        </button>
      )}
    </div>
  );
}

interface QuoteProps {
  readonly quote: Quoted | null;
  readonly forThis: boolean;
  readonly asked: number | null;
  readonly manner: Manner;
  readonly children: (price: number) => ComponentChildren;
}

/** What stands on the card as asked of the owner, and the way to put it there. */
function Quote({ quote, forThis, asked, manner, children }: QuoteProps) {
  const words = ownerWords.value;
  const told =
    quote === null
      ? words.notQuoted
      : (forThis ? words.quoted : words.quotedForOther)(
          sayMoney(quote.price, manner),
          sayDay(quote.at, manner.locale),
          sayDay(quote.validUntil, manner.locale),
        );
  return (
    <>
      <p class="about owner-quote">{told}</p>
      {asked !== null && !(forThis && quote?.price === asked) && children(asked)}
    </>
  );
}
