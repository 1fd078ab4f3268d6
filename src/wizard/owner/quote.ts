import { DEFAULT_QUOTE_DAYS } from '../../letter/letter.ts';
import { daysAfter } from '../../letter/say.ts';
import { openQuote } from '../../record/quote.ts';
import type { Quoted, Record } from '../../record/schema.ts';
import type { Shop } from '../../shop/schema.ts';

export interface Offered {
  readonly option: string;
  readonly price: number;
  /** the day it is offered on, ISO */
  readonly today: string;
}

/** The owner has been asked this price: it stands on the card as long as the shop's offers stand. */
export function quotePrice(record: Record, { option, price, today }: Offered, shop: Shop, at: string): Record {
  const last = record.timeline.at(-1)?.at;
  const quoted: Quoted = {
    type: 'quoted',
    // a clock that runs behind must not make the record run backwards
    at: last !== undefined && Date.parse(last) > Date.parse(at) ? last : at,
    option,
    price,
    validUntil: daysAfter(today, shop.quoteDays ?? DEFAULT_QUOTE_DAYS),
  };
  return { ...record, timeline: [...record.timeline, quoted] };
}

/** As if it had never been asked; an earlier quote then stands again. */
export function withdrawQuote(record: Record): Record {
  const quote = openQuote(record);
  return quote === null ? record : { ...record, timeline: record.timeline.filter((event) => event !== quote) };
}
