import type { Amount, Money } from '../../record/schema.ts';
import type { Shop } from '../../shop/schema.ts';
import { readAmount, writeAmount } from '../amounts.ts';
import { setMoney } from '../desk.ts';
import { messages } from '../language.ts';
import { TypedField } from '../questions/typed-field.tsx';
import { useSession } from '../session.ts';

interface Props {
  readonly shop: Shop;
  /** tells two sets of these fields apart on one page */
  readonly at: string;
  readonly parts?: readonly { readonly id: string; readonly name: string }[];
}

const FIELDS = ['working', 'asIs', 'partsAfterWork'] as const;

const sameAmount = (text: string, stored: string): boolean => {
  const [a, b] = [readAmount(text), readAmount(stored)];
  return a.ok && b.ok && writeAmount(a.amount) === writeAmount(b.amount);
};

/** What the card is worth. What is left empty is the shop profile's figure, shown in grey. */
export function MoneyFields({ shop, at, parts }: Props) {
  const { desk, drafts, edit } = useSession();
  const { moneyFields: words } = messages.value;
  if (desk.value === null) return null;
  const stated = desk.value.record.money;
  const money: Money = stated ?? shop.defaultMoney;
  const take = (field: string, put: (amount: Amount) => Money) => (text: string) => {
    const read = readAmount(text);
    drafts.set(field, read.ok || text.trim() === '' ? null : text);
    if (read.ok) edit((record) => setMoney(record, put(read.amount)), field);
  };
  return (
    <div class="money">
      {FIELDS.map((key) => {
        const field = `money-${key}`;
        const taken = writeAmount(money[key]);
        // one figure typed puts all three into the record: those nobody typed stay grey, and typing does not go on behind them
        const typed = taken === writeAmount(shop.defaultMoney[key]) ? '' : taken;
        return (
          <div class="money-field" data-question key={key}>
            <TypedField
              id={`${at}-${field}`}
              label={words[key]}
              unit={shop.currency}
              stored={typed}
              draft={drafts.texts.value.get(field)}
              placeholder={taken}
              read={readAmount}
              same={(text, stored) => text === stored || sameAmount(text, taken)}
              onText={take(field, (amount) => ({ ...money, [key]: amount }))}
              describedBy={`${at}-${field}-about`}
            />
            <small id={`${at}-${field}-about`}>{words.about[key]}</small>
          </div>
        );
      })}
      <label class="choice own-stock" data-question>
        <input
          type="checkbox"
          checked={money.ownStock === true}
          onChange={({ currentTarget }) => {
            const { checked } = currentTarget;
            edit((record) => setMoney(record, { ...money, ownStock: checked }));
          }}
        />
        <span class="choice-name">{words.ownStock}</span>
      </label>
      {parts !== undefined && parts.length > 0 && (
        <details class="part-prices">
          <summary>{words.partPrices}</summary>
          {parts.map((part) => {
            const field = `part-${part.id}`;
            const own = money.parts?.[part.id];
            const usual = shop.parts[part.id];
            return (
              <div class="money-field" data-question key={part.id}>
                <TypedField
                  id={`${at}-${field}`}
                  label={part.name}
                  unit={shop.currency}
                  stored={own === undefined ? '' : writeAmount(own)}
                  draft={drafts.texts.value.get(field)}
                  placeholder={usual === undefined ? '' : writeAmount(usual)}
                  read={readAmount}
                  same={(text, stored) => text === stored || sameAmount(text, stored)}
                  onText={take(field, (amount) => ({ ...money, parts: { ...money.parts, [part.id]: amount } }))}
                />
              </div>
            );
          })}
        </details>
      )}
    </div>
  );
}
