/** Figures as the shop's locale writes them. */

export interface Figures {
  readonly money: (amount: number) => string;
  readonly percent: (chance: number) => string;
  /** "71 of 100" */
  readonly ofHundred: (chance: number) => string;
}

export function figures(locale: string, currency: string): Figures {
  const money = new Intl.NumberFormat(locale, { style: 'currency', currency, maximumFractionDigits: 0 });
  const percent = new Intl.NumberFormat(locale, { style: 'percent', maximumFractionDigits: 0 });
  const fine = new Intl.NumberFormat(locale, { style: 'percent', maximumSignificantDigits: 2 });
  return {
    money: (amount) => money.format(Object.is(Math.round(amount), -0) ? 0 : amount),
    percent: (chance) => (chance > 0 && chance < 0.01 ? fine.format(chance) : percent.format(chance)),
    ofHundred: (chance) => {
      const count = Math.round(100 * chance);
      if (count === 0 && chance > 0) return 'fewer than 1 of 100';
      if (count === 100 && chance < 1) return 'more than 99 of 100';
      return `${count} of 100`;
    },
  };
}
