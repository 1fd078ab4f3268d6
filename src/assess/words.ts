/** Figures as people read them, in the shop's locale and currency. */

export interface Words {
  readonly money: (amount: number) => string;
  readonly percent: (chance: number) => string;
  readonly ofHundred: (chance: number) => string;
  readonly days: (days: number) => string;
}

export function wordsFor(locale: string, currency: string): Words {
  const money = new Intl.NumberFormat(locale, { style: 'currency', currency, maximumFractionDigits: 0 });
  const percent = new Intl.NumberFormat(locale, { style: 'percent', maximumFractionDigits: 0 });
  return {
    money: (amount) => money.format(Math.round(amount) === 0 ? 0 : amount),
    percent: (chance) =>
      chance > 0 && chance < 0.005
        ? `under ${percent.format(0.01)}`
        : chance < 1 && chance > 0.995
          ? `over ${percent.format(0.99)}`
          : percent.format(chance),
    ofHundred: (chance) => {
      const count = Math.round(100 * chance);
      if (count === 0 && chance > 0) return 'fewer than 1 of 100';
      if (count === 100 && chance < 1) return 'more than 99 of 100';
      return `${count} of 100`;
    },
    days: (days) =>
      days % 365 === 0
        ? days === 365
          ? 'a year'
          : `${days / 365} years`
        : days % 30 === 0
          ? `${days / 30} months`
          : `${days} days`,
  };
}
