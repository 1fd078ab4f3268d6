/** Figures as the owner reads them, by Intl, in the letter's language. */
import type { Count, Language, Money } from './schema.ts';

export interface Say {
  readonly locale: string;
  /** rounded to whole units, as the technician sees it */
  readonly money: (amount: number) => Money;
  /** to the cent where it is not whole: a price is paid as it is printed */
  readonly exactly: (amount: number) => Money;
  readonly count: (chance: number) => Count;
  readonly number: (value: number) => string;
  /** to one decimal where it is not whole */
  readonly years: (value: number) => string;
  readonly list: (items: readonly string[]) => string;
  readonly date: (iso: string) => { readonly iso: string; readonly text: string };
}

export interface CountWords {
  readonly ofHundred: (count: string) => string;
  readonly fewerThanOne: string;
  readonly moreThan99: string;
}

/** The shop's locale where it speaks the letter's language; else that language in the shop's region. */
export function localeFor(language: Language, shopLocale: string): string {
  const shop = new Intl.Locale(shopLocale);
  if (shop.language === language) return shopLocale;
  return shop.region ? `${language}-${shop.region}` : language;
}

export function sayIn(locale: string, currency: string, words: CountWords): Say {
  const whole = new Intl.NumberFormat(locale, { style: 'currency', currency, maximumFractionDigits: 0 });
  const exact = new Intl.NumberFormat(locale, { style: 'currency', currency, trailingZeroDisplay: 'stripIfInteger' });
  const number = new Intl.NumberFormat(locale, { maximumFractionDigits: 0 });
  const tenths = new Intl.NumberFormat(locale, { maximumFractionDigits: 1 });
  const date = new Intl.DateTimeFormat(locale, { dateStyle: 'long', timeZone: 'UTC' });
  const list = new Intl.ListFormat(locale, { type: 'conjunction' });
  return {
    locale,
    list: (items) => list.format(items),
    money: (amount) => ({ amount, text: whole.format(Math.round(amount) === 0 ? 0 : amount) }),
    exactly: (amount) => ({ amount, text: exact.format(amount) }),
    count: (chance) => {
      const of100 = Math.round(100 * chance);
      const edge =
        of100 === 0 && chance > 0 ? words.fewerThanOne : of100 === 100 && chance < 1 ? words.moreThan99 : null;
      return { chance, of100, text: edge ?? words.ofHundred(number.format(of100)) };
    },
    number: (value) => number.format(value),
    years: (value) => tenths.format(value),
    date: (iso) => ({ iso, text: date.format(new Date(`${iso}T00:00:00Z`)) }),
  };
}

/** The day `days` after an ISO date. */
export function daysAfter(iso: string, days: number): string {
  const at = new Date(`${iso}T00:00:00Z`);
  at.setUTCDate(at.getUTCDate() + days);
  return at.toISOString().slice(0, 10);
}
