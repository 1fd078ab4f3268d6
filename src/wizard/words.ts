/** Numbers as a technician reads them, in the chosen language. */
import type { VerdictKind } from '../assessment.ts';
import { formatTag, messages } from './language.ts';

export interface Manner {
  /** as the shop writes; the chosen language goes first where the two differ */
  readonly locale: string;
  readonly currency: string;
}

/** Whole units: bench money is not known to the cent. */
export function sayMoney(amount: number, { locale, currency }: Manner): string {
  const rounded = Math.round(amount);
  return unbroken(
    new Intl.NumberFormat(formatTag(locale), { style: 'currency', currency, maximumFractionDigits: 0 }).format(
      Object.is(rounded, -0) ? 0 : rounded,
    ),
  );
}

/** A minus is one and not a hyphen, and no line ends between it and what it stands before, where Unicode line breaking (UAX #14) would let it. */
export const unbroken = (text: string): string => text.replace(/(?<![\p{L}\d])[-−](?=\p{Sc}|\d)/gu, '−\u2060');

/** Whole percent; never rounded to certainty. */
export function sayPercent(chance: number): string {
  const percent = 100 * chance;
  const say = (share: number) => sayNumber(share, { style: 'percent', maximumFractionDigits: 0 });
  if (percent > 0 && percent < 1) return `<\u00A0${say(0.01)}`;
  if (percent < 100 && percent > 99) return `>\u00A0${say(0.99)}`;
  return say(chance);
}

/** As natural frequency; never rounded to certainty. */
export function sayFrequency(chance: number): string {
  const { never, always, lessThanOne, nearlyAlways, outOfHundred } = messages.value.words;
  if (chance <= 0) return never;
  if (chance >= 1) return always;
  if (chance < 0.005) return lessThanOne;
  if (chance > 0.995) return nearlyAlways;
  return outOfHundred(Math.round(100 * chance));
}

export function sayNumber(value: number, options: Intl.NumberFormatOptions = {}): string {
  return new Intl.NumberFormat(formatTag(), options).format(value);
}

export const sayList = (items: readonly string[]): string =>
  new Intl.ListFormat(formatTag(), { type: 'conjunction' }).format(items);

export function sayMinutes(minutes: number): string {
  const { words } = messages.value;
  const whole = Math.round(minutes);
  if (whole < 100) return words.minutes(sayNumber(whole));
  const quarters = Math.round(minutes / 15) / 4;
  return words.hours(sayNumber(quarters, { maximumFractionDigits: 2 }));
}

/** To the minute at any length, for a figure that moves under the hand. */
export function sayMinutesExactly(minutes: number): string {
  const { words } = messages.value;
  const whole = Math.round(minutes);
  if (whole < 100) return words.minutes(sayNumber(whole));
  const hours = words.hours(sayNumber(Math.floor(whole / 60)));
  return whole % 60 === 0 ? hours : `${hours} ${words.minutes(sayNumber(whole % 60))}`;
}

export function sayDays(days: number): string {
  const { words } = messages.value;
  if (days >= 360 && days <= 370) return words.months(12);
  if (days >= 59 && days % 30 <= 2) return words.months(Math.round(days / 30));
  return words.days(days);
}

/** Weight of evidence in decibels (I. J. Good): 10 dB are odds of ten to one. */
export function sayWeight(decibels: number): string {
  const { neither, slightly, speaks, strongly, proves } = messages.value.words;
  const size = Math.abs(decibels);
  if (size < 0.5) return neither;
  const side = decibels > 0 ? 'for' : 'against';
  if (size < 3) return slightly[side];
  if (size < 7) return speaks[side];
  if (size < 13) return strongly[side];
  return proves[side];
}

export function sayDecibels(decibels: number): string {
  const digits = Math.abs(decibels) < 10 ? 1 : 0;
  const size = sayNumber(Math.abs(decibels), { minimumFractionDigits: digits, maximumFractionDigits: digits });
  return `${decibels > 0 ? '+' : decibels < 0 ? '−' : ''}${size} dB`;
}

export const sayVerdict = (kind: VerdictKind): string => messages.value.words.verdicts[kind];

export const sayStamp = (kind: VerdictKind): string => messages.value.words.stamps[kind];

export function sayWhen(iso: string, locale: string, now: Date): string {
  const { unknownTime, justNow, minutesAgo } = messages.value.words;
  const then = new Date(iso);
  if (Number.isNaN(then.getTime())) return unknownTime;
  const minutes = (now.getTime() - then.getTime()) / 60_000;
  if (minutes >= 0 && minutes < 1) return justNow;
  if (minutes >= 0 && minutes < 60) return minutesAgo(Math.floor(minutes));
  const sameDay = then.toDateString() === now.toDateString();
  return new Intl.DateTimeFormat(
    formatTag(locale),
    sameDay ? { hour: '2-digit', minute: '2-digit' } : { day: 'numeric', month: 'short', year: 'numeric' },
  ).format(then);
}

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A day: of an instant where the bench stands, or a day that is one already. */
export function sayDay(iso: string, locale: string): string {
  const dated = /^\d{4}-\d{2}-\d{2}$/.test(iso);
  return new Intl.DateTimeFormat(formatTag(locale), {
    dateStyle: 'medium',
    ...(dated ? { timeZone: 'UTC' } : {}),
  }).format(new Date(iso));
}
