/** One cell of a logger's file: a number, a gap, or a point in time. */

export type DecimalMark = '.' | ',';

/** What loggers write where there is no reading: open thermocouple, overload, not connected. */
const GAP =
  /^(-{1,6}|\.{2,4}|\?+|nan|ol|o\.l\.?|open|over(load|range)?|na|n\/a|#n\/a|null|none|err(or)?|fault|[+-]?inf(inity)?)$/i;
const DIGITS_POINT = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;
const DIGITS_COMMA = /^[+-]?(\d{1,3}(\.\d{3})+|\d+)?(,\d*)?(e[+-]?\d+)?$/i;
const UNIT_BEHIND = /\s*(°|deg\.?\s?|º)?\s?([CF])$/i;

export type Cell =
  | { readonly kind: 'number'; readonly value: number; readonly unit?: 'C' | 'F' }
  | { readonly kind: 'gap'; readonly reason: 'empty' | 'marked' }
  | { readonly kind: 'unreadable' };

/**
 * A temperature cell. A unit behind the number is read off; an empty cell or a logger's word for "no reading" is a gap;
 * anything else that is not a number is unreadable. A point as thousands mark is read only where the comma is the
 * decimal mark and both are there.
 *
 * @example readCell('24,5 °C', ',') // { kind: 'number', value: 24.5, unit: 'C' }
 */
export function readCell(text: string, mark: DecimalMark): Cell {
  const cell = text.trim();
  if (cell === '') return { kind: 'gap', reason: 'empty' };
  const value = plainNumber(cell, mark);
  if (!Number.isNaN(value)) return { kind: 'number', value };
  if (GAP.test(cell)) return { kind: 'gap', reason: 'marked' };
  const behind = UNIT_BEHIND.exec(cell);
  if (behind === null) return { kind: 'unreadable' };
  const number = plainNumber(cell.slice(0, behind.index).trim(), mark);
  if (Number.isNaN(number)) return { kind: 'unreadable' };
  return { kind: 'number', value: number, unit: behind[2]!.toUpperCase() === 'F' ? 'F' : 'C' };
}

/** The number a cell holds and nothing else, or NaN. Hexadecimal, blanks within and the other decimal mark are refused. */
export function plainNumber(cell: string, mark: DecimalMark): number {
  if (mark === '.') return DIGITS_POINT.test(cell) ? Number(cell) : Number.NaN;
  if (!DIGITS_COMMA.test(cell) || !/\d/.test(cell)) return Number.NaN;
  return Number(cell.replaceAll('.', '').replace(',', '.'));
}

/**
 * A point in time, in seconds. `days` counts days of the calendar where the cell names one that can be told; `wraps` is
 * after how many seconds the form begins again at nought (a clock after a day, minutes and seconds after an hour).
 */
export interface Moment {
  readonly form: 'clock' | 'minutes-seconds' | 'date-clock';
  readonly seconds: number;
  readonly wraps: number;
}

const CLOCK = /^(\d{1,3}):(\d{2})(?::(\d{2})(?:[.,:](\d{1,6}))?)?(?:[.,](\d{1,6}))?\s?(am|pm)?$/i;
const DATE_CLOCK =
  /^(\d{1,4})([-./])(\d{1,2})\2(\d{1,4})[T\s,;]+(\d{1,2}:\d{2}(?::\d{2}(?:[.,:]\d{1,9})?)?\s?(?:am|pm)?)\s?(z|[+-]\d{2}:?\d{2})?$/i;

/**
 * A clock time (`13:05:09`, `1:05:09 PM`, `00:01:23,5`), minutes and seconds (`02:35.5`), or a date with a clock time
 * (`2024-05-01T13:05:09Z`, `01.05.2024 13:05:09`). A date with slashes whose order cannot be told (both parts up to 12)
 * gives its clock alone, which wraps at midnight. Undefined for anything else.
 *
 * @example readMoment('02:35.5') // { form: 'minutes-seconds', seconds: 155.5, wraps: 3600 }
 */
export function readMoment(text: string): Moment | undefined {
  const cell = text.trim();
  const clock = CLOCK.exec(cell);
  if (clock !== null) return readClock(clock);
  const dated = DATE_CLOCK.exec(cell);
  if (dated === null) return undefined;
  const within = CLOCK.exec(dated[5]!.trim());
  if (within === null) return undefined;
  const moment = readClock(within, true);
  if (moment === undefined) return undefined;
  const day = dayNumber(dated[1]!, dated[2]!, dated[3]!, dated[4]!);
  if (day === 'impossible') return undefined;
  if (day === 'order-unknown') return { form: 'clock', seconds: moment.seconds, wraps: 86_400 };
  const zone = zoneSeconds(dated[6]);
  return { form: 'date-clock', seconds: day * 86_400 + moment.seconds - zone, wraps: Number.POSITIVE_INFINITY };
}

/** A date alone (`2024-05-01`, `01.05.2024`, `5/1/2024`): its day, or that its order cannot be told. */
export function readDate(text: string): { readonly day: number | 'order-unknown' } | undefined {
  const found = /^(\d{1,4})([-./])(\d{1,2})\2(\d{1,4})$/.exec(text.trim());
  if (found === null) return undefined;
  const day = dayNumber(found[1]!, found[2]!, found[3]!, found[4]!);
  return day === 'impossible' ? undefined : { day };
}

function readClock(found: RegExpExecArray, dated = false): Moment | undefined {
  const [, first, second, third, fine, fineOfTwo, half] = found;
  const fraction = (digits: string | undefined) => (digits === undefined ? 0 : Number(`0.${digits}`));
  if (third === undefined) {
    // hours and minutes behind a date or before am and pm; minutes and seconds otherwise
    if (dated || half !== undefined) {
      const seconds = inDay(Number(first), half) * 3600 + Number(second) * 60;
      return Number(second) > 59 ? undefined : { form: 'clock', seconds, wraps: 86_400 };
    }
    if (Number(second) > 59) return undefined;
    return {
      form: 'minutes-seconds',
      seconds: Number(first) * 60 + Number(second) + fraction(fineOfTwo),
      wraps: 3600,
    };
  }
  if (Number(second) > 59 || Number(third) > 60) return undefined;
  const hours = inDay(Number(first), half);
  return { form: 'clock', seconds: hours * 3600 + Number(second) * 60 + Number(third) + fraction(fine), wraps: 86_400 };
}

function inDay(hours: number, half: string | undefined): number {
  if (half === undefined) return hours;
  return (hours % 12) + (half.toLowerCase() === 'pm' ? 12 : 0);
}

function zoneSeconds(zone: string | undefined): number {
  if (zone === undefined || zone.toLowerCase() === 'z') return 0;
  const digits = zone.replace(':', '');
  const size = Number(digits.slice(1, 3)) * 3600 + Number(digits.slice(3, 5)) * 60;
  return digits.startsWith('-') ? -size : size;
}

function dayNumber(a: string, mark: string, b: string, c: string): number | 'order-unknown' | 'impossible' {
  if (a.length === 4) return daysOf(Number(a), Number(b), Number(c));
  if (a.length > 2) return 'impossible';
  const year = c.length === 4 ? Number(c) : c.length === 2 ? 2000 + Number(c) : Number.NaN;
  if (Number.isNaN(year)) return 'impossible';
  if (mark === '.' || Number(a) > 12) return daysOf(year, Number(b), Number(a));
  if (Number(b) > 12) return daysOf(year, Number(a), Number(b));
  return Number(a) === Number(b) ? daysOf(year, Number(a), Number(b)) : 'order-unknown';
}

/** Days since 1 March of the year 0 in the Gregorian calendar: years begin in March, so that the leap day comes last. */
function daysOf(year: number, month: number, day: number): number | 'impossible' {
  if (month < 1 || month > 12 || day < 1 || day > 31) return 'impossible';
  const years = month > 2 ? year : year - 1;
  const months = (month + 9) % 12;
  const leapDays = Math.floor(years / 4) - Math.floor(years / 100) + Math.floor(years / 400);
  return years * 365 + leapDays + Math.floor((months * 153 + 2) / 5) + day - 1;
}
