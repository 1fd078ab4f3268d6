/** Numbers as a technician reads them. */
import type { VerdictKind } from '../assessment.ts';

export interface Manner {
  readonly locale: string;
  readonly currency: string;
}

/** Whole units: bench money is not known to the cent. */
export function sayMoney(amount: number, { locale, currency }: Manner): string {
  const rounded = Math.round(amount);
  return new Intl.NumberFormat(locale, { style: 'currency', currency, maximumFractionDigits: 0 }).format(
    Object.is(rounded, -0) ? 0 : rounded,
  );
}

export function sayPercent(chance: number): string {
  const percent = 100 * chance;
  if (percent > 0 && percent < 1) return '< 1 %';
  if (percent < 100 && percent > 99) return '> 99 %';
  return `${Math.round(percent)} %`;
}

/** As natural frequency; never rounded to certainty. */
export function sayFrequency(chance: number): string {
  if (chance <= 0) return 'never';
  if (chance >= 1) return 'always';
  if (chance < 0.005) return 'less than 1 in 100';
  if (chance > 0.995) return 'nearly always';
  return `${Math.round(100 * chance)} in 100`;
}

export function sayMinutes(minutes: number): string {
  const whole = Math.round(minutes);
  if (whole < 100) return `${whole} min`;
  const quarters = Math.round(minutes / 15) / 4;
  return `${quarters.toLocaleString('en', { maximumFractionDigits: 2 })} h`;
}

export function sayDays(days: number): string {
  if (days >= 360 && days <= 370) return '12 months';
  if (days >= 59 && days % 30 <= 2) return `${Math.round(days / 30)} months`;
  return days === 1 ? '1 day' : `${days} days`;
}

/** Weight of evidence in decibels (I. J. Good): 10 dB are odds of ten to one. */
export function sayWeight(decibels: number): string {
  const size = Math.abs(decibels);
  if (size < 0.5) return 'says nothing either way';
  const side = decibels > 0 ? 'for' : 'against';
  if (size < 3) return `slightly ${side}`;
  if (size < 7) return `speaks ${side}`;
  if (size < 13) return `strongly ${side}`;
  return decibels > 0 ? 'all but proves it' : 'all but rules it out';
}

export function sayDecibels(decibels: number): string {
  const rounded = Math.abs(decibels) < 10 ? decibels.toFixed(1) : decibels.toFixed(0);
  return `${decibels > 0 ? '+' : ''}${rounded.replace('-', '−')} dB`;
}

/** The states that carry weight, heaviest first, as shares of the whole; those under a twentieth are left out. */
export function sayGrade(
  states: readonly string[],
  weights: readonly number[],
  names: (state: string) => string,
): string {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  if (total <= 0) return 'fits no state';
  const shares = states
    .map((state, index) => ({ state, share: (weights[index] ?? 0) / total }))
    .filter(({ share }) => share >= 0.05)
    .sort((a, b) => b.share - a.share);
  if (shares.length === 1) return names(shares[0]!.state);
  return shares.map(({ state, share }) => `${names(state)} ${Math.round(100 * share)} %`).join(', ');
}

const VERDICT_WORDS: { readonly [kind in VerdictKind]: string } = {
  reflow: 'Reflow',
  reball: 'Reball',
  'component-swap': 'Swap the part',
  'core-swap': 'Swap the core',
  service: 'Service it',
  return: 'Give it back: it is sound',
  scrap: 'Not worth the heat',
};
export const sayVerdict = (kind: VerdictKind): string => VERDICT_WORDS[kind];

const STAMPS: { readonly [kind in VerdictKind]: string } = {
  reflow: 'reflow',
  reball: 'reball',
  'component-swap': 'part swap',
  'core-swap': 'core swap',
  service: 'service',
  return: 'return',
  scrap: 'scrap',
};
export const sayStamp = (kind: VerdictKind): string => STAMPS[kind];

export function sayWhen(iso: string, locale: string, now: Date): string {
  const then = new Date(iso);
  if (Number.isNaN(then.getTime())) return 'at an unknown time';
  const minutes = (now.getTime() - then.getTime()) / 60_000;
  if (minutes >= 0 && minutes < 1) return 'just now';
  if (minutes >= 0 && minutes < 60) return `${Math.floor(minutes)} min ago`;
  const sameDay = then.toDateString() === now.toDateString();
  return new Intl.DateTimeFormat(
    locale,
    sameDay ? { hour: '2-digit', minute: '2-digit' } : { day: 'numeric', month: 'short', year: 'numeric' },
  ).format(then);
}

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
