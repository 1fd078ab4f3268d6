/** What each column of a log is: the time, a thermocouple with its unit, or neither. */

import { type DecimalMark, plainNumber, readDate, readMoment } from './log-cells.ts';
import { type LogProblem, logProblem } from './log-problems.ts';

export type TimeUnit = 'seconds' | 'milliseconds' | 'minutes' | 'hours' | 'days';

export type TimeColumn =
  | { readonly kind: 'number'; readonly column: number; readonly unit: TimeUnit; readonly unitFrom: string }
  | { readonly kind: 'moment'; readonly column: number }
  | { readonly kind: 'date-and-clock'; readonly date: number; readonly column: number }
  | { readonly kind: 'rows'; readonly secondsPerRow: number };

/** Something wrong with a file, and what to do about it. */
export interface LayoutProblem extends LogProblem {
  readonly line: number;
  /** 1 for the first; null where it concerns the whole line */
  readonly column: number | null;
}

/** What the bench states about a file; it goes before what the file says. */
export interface StatedLayout {
  /** unit of the temperatures, where the file does not say it */
  readonly unit?: 'C' | 'F';
  /** unit of a numeric time column, where the file does not say it */
  readonly timeUnit?: TimeUnit;
  /** for files without a time column: seconds from row to row */
  readonly secondsPerRow?: number;
  /** names of the channels to use; all of them when left out */
  readonly channels?: readonly string[];
}

export interface Row {
  readonly line: number;
  readonly cells: readonly string[];
}

const COUNTER = /^(no\.?|nr\.?|#|n|index|idx|sample|samples|record|row|point|scan|num|number|id|count(er)?)$/i;
const TIME =
  /^(time|zeit|t|date|datum|timestamp|elapsed|sec|secs|seconds?|s|ms|msec|millis\w*|min|minutes?|clock|datetime|date[ /_-]?time|uhrzeit|tiempo|x)\b|time|elapsed|zeit\b|\((s|ms|sec|min|h)\)|\[(s|ms|sec|min|h)\]/i;
const SET_POINT = /set ?-?point|soll|\bsp\b|\btarget\b/i;
const NOT_TEMPERATURE =
  /humid|%|\brh\b|volt|\bmv\b|\bv\b|\bamps?\b|\bamperes?\b|\bwatts?\b|\bduty\b|\bpwm\b|batt|\bstatus\b|\bstate\b|alarm|\bevent\b|\bflag\b|remark|\bnotes?\b|comment|pressure|\bhpa\b/i;
const UNIT_F = /[°º]\s?F|\b[Dd]eg\.?\s?F\b|\b[Ff]ahrenheit\b|[([/]F[)\]]?\s*$/;
const UNIT_C = /[°º]\s?C|\b[Dd]eg\.?\s?C\b|\b[Cc](elsius|entigrade)\b|[([/]C[)\]]?\s*$/;
/** A bare letter at the end is a unit, too, unless the letters count the channels (TC_A, TC_B, TC_C). */
const BARE_UNIT = /[_\s:;]([CF])$/;
export const LETTERED = /[_\s]([ABDEG])$/;

/** The columns that the time takes up. */
export function columnsOf(time: TimeColumn): readonly number[] {
  switch (time.kind) {
    case 'rows':
      return [];
    case 'date-and-clock':
      return [time.date, time.column];
    case 'number':
    case 'moment':
      return [time.column];
  }
}

/**
 * Which column is the time: one of clocks (with one of dates, if there is), else a rising number that is named so or
 * comes first. Where none is, a problem is added.
 */
export function tellTime(
  rows: readonly Row[],
  names: readonly string[],
  units: readonly string[],
  mark: DecimalMark,
  stated: StatedLayout,
  line: number,
  problems: LayoutProblem[],
): TimeColumn | undefined {
  const whole = (column: number, reads: (cell: string) => boolean) =>
    rows.every((row) => reads(row.cells[column] ?? '')) && rows.length > 0;
  const columns = names.map((_, i) => i);
  const dates = columns.find((i) => whole(i, (cell) => readDate(cell) !== undefined));
  const moments = columns.find((i) => whole(i, (cell) => readMoment(cell) !== undefined));
  if (moments !== undefined && dates !== undefined) return { kind: 'date-and-clock', date: dates, column: moments };
  if (moments !== undefined) return { kind: 'moment', column: moments };
  if (stated.secondsPerRow !== undefined) return { kind: 'rows', secondsPerRow: stated.secondsPerRow };

  const falls = columns.map((i) => {
    const values = rows.map((row) => plainNumber((row.cells[i] ?? '').trim(), mark));
    if (!(values.at(-1)! > values[0]!)) return Number.POSITIVE_INFINITY;
    return values.filter((value, k) => k > 0 && !(value >= values[k - 1]!)).length;
  });
  // a step back here and there is a fault of the file, to be named row by row; a column named as the time may have more
  const rising = (i: number, share: number) => falls[i]! <= rows.length * share;
  const named = columns.find((i) => rising(i, 1 / 3) && TIME.test(names[i]!) && !COUNTER.test(names[i]!));
  const first = rising(0, 1 / 20) && !COUNTER.test(names[0]!) && letterOf(names[0]!, false) === undefined;
  const column = named ?? (first && names.length > 1 ? 0 : undefined);
  if (column === undefined) {
    problems.push({
      line,
      column: null,
      ...logProblem('no-time-column', {}),
    });
    return undefined;
  }
  const values = rows.map((row) => plainNumber((row.cells[column] ?? '').trim(), mark));
  return { kind: 'number', column, ...timeUnit(`${names[column]} ${units[column]}`, values, stated) };
}

function timeUnit(name: string, values: readonly number[], stated: StatedLayout): { unit: TimeUnit; unitFrom: string } {
  if (stated.timeUnit !== undefined) return { unit: stated.timeUnit, unitFrom: 'stated' };
  const said = (pattern: RegExp) => pattern.test(name);
  if (said(/\b(ms|msec|millis\w*)\b|_ms\b/i)) return { unit: 'milliseconds', unitFrom: 'header' };
  if (said(/\b(min|mins|minutes?)\b|_min\b/i)) return { unit: 'minutes', unitFrom: 'header' };
  if (said(/\b(h|hr|hrs|hours?)\b|_h\b/i)) return { unit: 'hours', unitFrom: 'header' };
  if (said(/\b(s|sec|secs|seconds?)\b|_s\b/i)) return { unit: 'seconds', unitFrom: 'header' };
  const steps = values.slice(1).map((value, i) => value - values[i]!);
  const typical = median(steps.filter((step) => step > 0));
  if (values[0]! > 1e11) return { unit: 'milliseconds', unitFrom: 'size, as counted by computers' };
  if (values[0]! > 20_000 && values[0]! < 80_000 && typical < 0.01)
    return { unit: 'days', unitFrom: 'size, as counted by spreadsheets' };
  if (typical >= 40) return { unit: 'milliseconds', unitFrom: 'its steps' };
  return { unit: 'seconds', unitFrom: 'its steps' };
}

/** Why a column is no thermocouple, or undefined where it is one. */
export function whyLeftOut(
  name: string,
  unit: string,
  numbers: number,
  cells: readonly { readonly kind: string }[],
  rows: readonly Row[],
  column: number,
): string | undefined {
  const temperature = letterOf(name, false) !== undefined;
  if (COUNTER.test(name)) return 'it counts the rows';
  if (TIME.test(name) && !temperature && /time|date|datum|zeit|elapsed|clock/i.test(name)) return 'it is a second time';
  if (SET_POINT.test(name)) return 'it is a set point';
  if ((NOT_TEMPERATURE.test(name) && !temperature) || /^(%|k|v|mv|a|w)$/i.test(unit)) return 'it is no thermocouple';
  if (numbers > 0) return undefined;
  if (cells.every(({ kind }) => kind === 'gap'))
    return rows.every((row) => (row.cells[column] ?? '').trim() === '') ? 'it is empty' : 'it has no reading';
  return 'it holds words';
}

/** The unit of a column's temperatures and what says so; undefined where nothing does. */
export function tellUnit(
  name: string,
  unit: string,
  lettered: boolean,
  remarks: readonly string[],
  values: readonly number[],
  behind: 'C' | 'F' | undefined,
  stated: StatedLayout,
): { unit: 'C' | 'F'; unitFrom: string } | undefined {
  if (stated.unit !== undefined) return { unit: stated.unit, unitFrom: 'stated' };
  if (behind !== undefined) return { unit: behind, unitFrom: 'behind the readings' };
  const named = letterOf(name, lettered);
  if (named !== undefined) return { unit: named, unitFrom: 'header' };
  if (/^(°|deg)?\s?F$/i.test(unit)) return { unit: 'F', unitFrom: 'line of units' };
  if (/^(°|deg)?\s?C$/i.test(unit)) return { unit: 'C', unitFrom: 'line of units' };
  const remark = remarks.map((text) => letterOf(text.trim(), false)).find((letter) => letter !== undefined);
  if (remark !== undefined) return { unit: remark, unitFrom: 'remarks above' };
  const start = median(values.slice(0, 5));
  if (start >= 0 && start <= 45 && values.every((value) => value <= 350))
    return { unit: 'C', unitFrom: 'room at the start' };
  return undefined;
}

/** The unit a text names: Celsius or Fahrenheit, and not both. */
function letterOf(text: string, lettered: boolean): 'C' | 'F' | undefined {
  const bare = lettered ? undefined : BARE_UNIT.exec(text)?.[1];
  const fahrenheit = UNIT_F.test(text) || bare === 'F';
  const celsius = UNIT_C.test(text) || bare === 'C';
  if (fahrenheit === celsius) return undefined;
  return fahrenheit ? 'F' : 'C';
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
}
