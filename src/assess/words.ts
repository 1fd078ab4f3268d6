/** Figures and sentences as people read them: figures in the shop's locale and currency, sentences in the language of the knowledge. */
import { type SayingId, type Slots, type Spoken, say } from '../knowledge/sayings.ts';

export interface Words {
  readonly money: (amount: number) => string;
  readonly percent: (chance: number) => string;
  readonly ofHundred: (chance: number) => string;
  readonly days: (days: number) => string;
  /** left out: English */
  readonly language: string | undefined;
  readonly say: (id: SayingId, slots?: Slots) => string;
}

export function wordsFor(shopLocale: string, currency: string, spoken: Spoken = {}): Words {
  const locale = localeOf(shopLocale, spoken.language);
  const saying = (id: SayingId, slots?: Slots) => say(spoken, id, slots);
  const money = new Intl.NumberFormat(locale, { style: 'currency', currency, maximumFractionDigits: 0 });
  const percent = new Intl.NumberFormat(locale, { style: 'percent', maximumFractionDigits: 0 });
  return {
    money: (amount) => money.format(Math.round(amount) === 0 ? 0 : amount),
    percent: (chance) =>
      chance > 0 && chance < 0.005
        ? saying('under', { percent: percent.format(0.01) })
        : chance < 1 && chance > 0.995
          ? saying('over', { percent: percent.format(0.99) })
          : percent.format(chance),
    ofHundred: (chance) => {
      const count = Math.round(100 * chance);
      if (count === 0 && chance > 0) return saying('fewer-than-one');
      if (count === 100 && chance < 1) return saying('more-than-99');
      return saying('of-hundred', { count });
    },
    days: (days) =>
      days % 365 === 0
        ? days === 365
          ? saying('one-year')
          : saying('years', { count: days / 365 })
        : days % 30 === 0
          ? saying('months', { count: days / 30 })
          : saying('days', { count: days }),
    language: spoken.language,
    say: saying,
  };
}

/** The shop's own where it is of that language, else that language in the shop's region. */
function localeOf(shopLocale: string, language: string | undefined): string {
  const shop = new Intl.Locale(shopLocale);
  if (language === undefined || shop.language === language) return shopLocale;
  return shop.region === undefined ? language : `${language}-${shop.region}`;
}
