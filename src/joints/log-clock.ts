/** The time column of a log, row after row, to seconds since its first row. */
import { type DecimalMark, plainNumber, readDate, readMoment } from './log-cells.ts';
import type { TimeColumn } from './log-columns.ts';
import { type LogProblem, logProblem } from './log-problems.ts';

export interface NoTime extends LogProblem {
  readonly kind: 'none' | 'back';
  readonly column: number;
}

const DAY = 86_400;
const SECONDS = { seconds: 1, milliseconds: 1e-3, minutes: 60, hours: 3600, days: 86_400 } as const;

/** Cells to seconds since the first row: keeps count of the nights and hours a clock has passed. */
export class LogClock {
  #start: number | undefined;
  #last = 0;
  #lastText = '';
  #wrapped = 0;
  #form: 'clock' | 'dated' | undefined;
  #rows = 0;
  readonly #time: TimeColumn;
  readonly #mark: DecimalMark;

  constructor(time: TimeColumn, mark: DecimalMark) {
    this.#time = time;
    this.#mark = mark;
  }

  seconds(cells: readonly string[]): number | NoTime {
    const time = this.#time;
    if (time.kind === 'rows') {
      this.#rows += 1;
      return (this.#rows - 1) * time.secondsPerRow;
    }
    const text = cells[time.column] ?? '';
    const read = time.kind === 'number' ? this.#number(text, SECONDS[time.unit]) : this.#moment(time, cells, text);
    if (read === undefined)
      return {
        kind: 'none',
        column: time.column,
        ...logProblem('no-time-cell', { text: text.trim().slice(0, 30) }),
      };
    let now = read.seconds + this.#wrapped;
    if (this.#start === undefined) {
      this.#start = now;
      this.#last = now;
    }
    if (now < this.#last && this.#last - now > read.wraps / 2) {
      this.#wrapped += read.wraps;
      now += read.wraps;
    }
    if (now < this.#last)
      return {
        kind: 'back',
        column: time.column,
        ...logProblem('time-goes-back', { from: this.#lastText, to: text.trim() }),
      };
    this.#last = now;
    this.#lastText = text.trim();
    return now - this.#start;
  }

  #number(text: string, unit: number): { seconds: number; wraps: number } | undefined {
    const value = plainNumber(text.trim(), this.#mark);
    return Number.isNaN(value) ? undefined : { seconds: value * unit, wraps: Number.POSITIVE_INFINITY };
  }

  #moment(
    time: Extract<TimeColumn, { kind: 'moment' | 'date-and-clock' }>,
    cells: readonly string[],
    text: string,
  ): { seconds: number; wraps: number } | undefined {
    const moment = readMoment(text);
    if (moment === undefined) return undefined;
    let day: number | 'order-unknown' = moment.form === 'date-clock' ? 0 : 'order-unknown';
    if (time.kind === 'date-and-clock') {
      const date = readDate(cells[time.date] ?? '');
      if (date === undefined) return undefined;
      day = date.day;
    }
    const dated = day !== 'order-unknown';
    this.#form ??= dated ? 'dated' : 'clock';
    if (this.#form === 'clock') {
      // a date whose order cannot be told still passes midnight, which the clock says, too
      const seconds = dated ? moment.seconds % DAY : moment.seconds;
      return { seconds, wraps: dated ? DAY : moment.wraps };
    }
    if (dated) return { seconds: Number(day) * DAY + moment.seconds, wraps: Number.POSITIVE_INFINITY };
    const today = Math.floor(this.#last / DAY) * DAY + moment.seconds;
    return { seconds: today < this.#last - DAY / 2 ? today + DAY : today, wraps: Number.POSITIVE_INFINITY };
  }
}
