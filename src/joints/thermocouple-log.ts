/** A logger's file, however long, to seconds and degrees Celsius per channel. Nothing is dropped without being counted. */
import { type DecimalMark, readCell } from './log-cells.ts';
import { LogClock } from './log-clock.ts';
import type { LayoutProblem, StatedLayout } from './log-columns.ts';
import { cellsOf, isComment, type Layout, tellLayout } from './log-layout.ts';
import { logProblem } from './log-problems.ts';
import { StepFinder } from './log-step.ts';

export interface ThermocoupleChannel {
  readonly name: string;
  /** one per row of `seconds`; NaN where there was no reading */
  readonly celsius: Float64Array;
  /** the step the readings come in, in kelvin: the coarsest grid that all of them lie on */
  readonly resolution: number;
  readonly gaps: {
    readonly empty: number;
    readonly marked: number;
    readonly impossible: number;
    readonly unreadable: number;
  };
}

export interface ThermocoupleLog {
  readonly kind: 'log';
  /** from the first reading on; never falling */
  readonly seconds: Float64Array;
  readonly channels: readonly ThermocoupleChannel[];
  readonly layout: Layout;
  readonly lines: number;
  readonly skipped: readonly SkippedLines[];
  /** what was wrong in single lines, up to the limit asked for */
  readonly problems: readonly LayoutProblem[];
  readonly problemsBeyond: number;
}

export interface UnreadableLog {
  readonly kind: 'unreadable';
  readonly lines: number;
  readonly problems: readonly LayoutProblem[];
  readonly problemsBeyond: number;
}

export const SKIP_REASONS = [
  'blank',
  'remark',
  'above the readings',
  'header',
  'header again',
  'no time',
  'time goes back',
  'too many cells',
  'no row of readings',
] as const;
export type SkipReason = (typeof SKIP_REASONS)[number];

export interface SkippedLines {
  readonly reason: SkipReason;
  readonly count: number;
  readonly firstLine: number;
}

export interface ReadLogOptions extends StatedLayout {
  /** most problems to name; the rest is counted (default 20) */
  readonly mostProblems?: number;
  /** called about every 50,000 lines; may wait, so that a page can draw */
  readonly onProgress?: (progress: { readonly lines: number; readonly characters: number }) => void | Promise<void>;
}

/** A type K couple ends at 1372 degC, a bench profile far below; beyond this a logger reports a fault in figures. */
const HOTTEST_CELSIUS = 600;
const COLDEST_CELSIUS = -100;
const LINES_TO_TELL_LAYOUT = 400;
const LINES_PER_REPORT = 50_000;
const DEFAULT_MOST_PROBLEMS = 20;

/**
 * Reads a thermocouple log from text or from chunks of text as they come (cut anywhere). Separator, decimal mark, header,
 * form of time, units and channels are told from the first 400 lines (`tellLayout`); temperatures are taken to Celsius,
 * time to seconds from the first row on. A clock that passes midnight (or minutes and seconds that pass an hour) goes on
 * counting. Rows whose time falls back are skipped; rows of equal time are kept (a clock coarser than its readings).
 *
 * Unreadable when the layout cannot be told, nothing was read, or more lines were skipped as faulty than read. Otherwise
 * faulty lines and cells are counted by reason and named, with line and column, up to `mostProblems`. Readings outside
 * -100 to 600 degC are faults reported in figures, hence gaps. Cost: linear, one pass; memory 8 bytes a reading.
 */
export async function readThermocoupleLog(
  text: string | Iterable<string> | AsyncIterable<string>,
  options: ReadLogOptions = {},
): Promise<ThermocoupleLog | UnreadableLog> {
  const reader = new LogReader(options);
  let rest = '';
  let characters = 0;
  let reported = 0;
  for await (const chunk of typeof text === 'string' ? pieces(text) : text) {
    characters += chunk.length;
    const joined = rest === '' ? chunk : rest + chunk;
    let from = 0;
    for (let end = joined.indexOf('\n'); end !== -1; end = joined.indexOf('\n', from)) {
      reader.line(joined.slice(from, joined.charCodeAt(end - 1) === 13 && end > from ? end - 1 : end));
      from = end + 1;
    }
    rest = joined.slice(from);
    if (options.onProgress && reader.lines - reported >= LINES_PER_REPORT) {
      reported = reader.lines;
      await options.onProgress({ lines: reported, characters });
    }
  }
  // files of old loggers end lines with a carriage return alone
  if (rest.includes('\r')) for (const line of rest.replace(/\r$/, '').split('\r')) reader.line(line);
  else if (rest !== '') reader.line(rest);
  if (reader.lines > reported) await options.onProgress?.({ lines: reader.lines, characters });
  return reader.finish();
}

function* pieces(text: string): Generator<string> {
  const size = 1 << 20;
  for (let from = 0; from < text.length; from += size) yield text.slice(from, from + size);
}

interface Taking {
  readonly column: number;
  readonly name: string;
  readonly fahrenheit: boolean;
  celsius: Float64Array;
  readonly gaps: { empty: number; marked: number; impossible: number; unreadable: number };
  readonly step: StepFinder;
}

class LogReader {
  lines = 0;
  #held: string[] | null = [];
  #layout: Layout | undefined;
  #headerText = '';
  #clock: LogClock | undefined;
  #channels: Taking[] = [];
  #seconds = new Float64Array(1024);
  #rows = 0;
  readonly #options: ReadLogOptions;
  readonly #mostProblems: number;
  readonly #skipped = new Map<SkipReason, { count: number; firstLine: number }>();
  readonly #problems: LayoutProblem[] = [];
  #problemsBeyond = 0;

  constructor(options: ReadLogOptions) {
    this.#options = options;
    this.#mostProblems = options.mostProblems ?? DEFAULT_MOST_PROBLEMS;
  }

  line(text: string): void {
    if (this.#held === null) {
      this.lines += 1;
      this.#take(text, this.lines);
      return;
    }
    this.#held.push(this.#held.length === 0 ? text.replace(/^\uFEFF/, '') : text);
    if (this.#held.length >= LINES_TO_TELL_LAYOUT) this.#settle();
  }

  finish(): ThermocoupleLog | UnreadableLog {
    if (this.#held !== null) this.#settle();
    const layout = this.#layout;
    const faulty = (['no time', 'time goes back', 'too many cells', 'no row of readings'] as const).reduce(
      (sum, reason) => sum + (this.#skipped.get(reason)?.count ?? 0),
      0,
    );
    if (layout !== undefined && (this.#rows === 0 || faulty > this.#rows))
      this.#problems.unshift({
        line: layout.firstReadingLine,
        column: null,
        ...logProblem('few-lines-read', { lines: this.#rows + faulty, read: this.#rows }),
      });
    if (layout === undefined || this.#rows === 0 || faulty > this.#rows)
      return {
        kind: 'unreadable',
        lines: this.lines,
        problems: this.#problems.slice(0, this.#mostProblems),
        problemsBeyond: this.#problemsBeyond + Math.max(0, this.#problems.length - this.#mostProblems),
      };
    return {
      kind: 'log',
      seconds: this.#seconds.slice(0, this.#rows),
      channels: this.#channels.map(({ name, celsius, gaps, step, fahrenheit }) => ({
        name,
        celsius: celsius.slice(0, this.#rows),
        resolution: step.resolution() * (fahrenheit ? 5 / 9 : 1),
        gaps,
      })),
      layout,
      lines: this.lines,
      skipped: SKIP_REASONS.flatMap((reason) => {
        const found = this.#skipped.get(reason);
        return found ? [{ reason, ...found }] : [];
      }),
      problems: this.#problems,
      problemsBeyond: this.#problemsBeyond,
    };
  }

  #settle(): void {
    const held = this.#held ?? [];
    this.#held = null;
    const told = tellLayout(held, this.#options);
    if (told.kind === 'problems') {
      for (const problem of told.problems) this.#problem(problem);
      this.lines = held.length;
      return;
    }
    const { layout } = told;
    this.#layout = layout;
    this.#headerText = layout.headerLine === null ? '' : (held[layout.headerLine - 1] ?? '').trim();
    this.#clock = new LogClock(layout.time, layout.decimalMark);
    this.#channels = layout.channels.map(({ column, name, unit }) => ({
      column,
      name,
      fahrenheit: unit === 'F',
      celsius: new Float64Array(this.#seconds.length),
      gaps: { empty: 0, marked: 0, impossible: 0, unreadable: 0 },
      step: new StepFinder(),
    }));
    for (const text of held) {
      this.lines += 1;
      this.#take(text, this.lines);
    }
  }

  #take(text: string, line: number): void {
    const layout = this.#layout;
    if (layout === undefined) return;
    if (line < layout.firstReadingLine) {
      if (text.trim() === '') this.#skip('blank', line);
      else if (line === layout.headerLine) this.#skip('header', line);
      else this.#skip(isComment(text, layout.separator) ? 'remark' : 'above the readings', line);
      return;
    }
    const first = text.charCodeAt(0);
    // a row begins with a figure; only what does not is looked at more closely
    if (!(first >= 48 && first <= 57)) {
      const reason = this.#noReading(text, layout);
      if (reason !== undefined) {
        this.#skip(reason, line);
        return;
      }
    }
    const cells = cellsOf(text, layout.separator);
    if (cells.length > layout.columns && cells.slice(layout.columns).some((cell) => cell.trim() !== '')) {
      this.#fault('too many cells', {
        line,
        column: layout.columns + 1,
        ...logProblem('too-many-cells', { cells: cells.length, columns: layout.columns }),
      });
      return;
    }
    const seconds = this.#clock!.seconds(cells);
    if (typeof seconds !== 'number') {
      const reason = seconds.kind === 'back' ? 'time goes back' : cells.length < 2 ? 'no row of readings' : 'no time';
      this.#fault(reason, {
        line,
        column: seconds.column + 1,
        wrong: seconds.wrong,
        todo: seconds.todo,
        told: seconds.told,
      });
      return;
    }
    const row = this.#rows;
    if (row === this.#seconds.length) this.#grow();
    this.#seconds[row] = seconds;
    for (const channel of this.#channels)
      channel.celsius[row] = this.#reading(channel, cells, layout.decimalMark, line);
    this.#rows += 1;
  }

  #noReading(text: string, layout: Layout): SkipReason | undefined {
    const trimmed = text.trim();
    if (trimmed === '') return 'blank';
    if (isComment(text, layout.separator)) return 'remark';
    return trimmed === this.#headerText ? 'header again' : undefined;
  }

  #reading(channel: Taking, cells: readonly string[], mark: DecimalMark, line: number): number {
    const text = cells[channel.column] ?? '';
    let value = Number.NaN;
    const first = text.charCodeAt(0);
    // the plain case by hand: figures and one point, which is what a million rows consist of
    if (mark === '.' && first >= 48 && first <= 57 && text.charCodeAt(1) !== 120) value = Number(text);
    if (Number.isNaN(value)) {
      const cell = readCell(text, mark);
      if (cell.kind === 'gap') {
        channel.gaps[cell.reason] += 1;
        return Number.NaN;
      }
      if (cell.kind === 'unreadable') {
        channel.gaps.unreadable += 1;
        this.#problem({
          line,
          column: channel.column + 1,
          ...logProblem('no-temperature', { text: text.trim().slice(0, 30), channel: channel.name }),
        });
        return Number.NaN;
      }
      value = cell.value;
    }
    const celsius = channel.fahrenheit ? ((value - 32) * 5) / 9 : value;
    if (celsius > HOTTEST_CELSIUS || celsius < COLDEST_CELSIUS) {
      channel.gaps.impossible += 1;
      return Number.NaN;
    }
    channel.step.see(value, text);
    return celsius;
  }

  #grow(): void {
    const size = this.#seconds.length * 2;
    const grown = (old: Float64Array) => {
      const larger = new Float64Array(size);
      larger.set(old);
      return larger;
    };
    this.#seconds = grown(this.#seconds);
    for (const channel of this.#channels) channel.celsius = grown(channel.celsius);
  }

  #fault(reason: SkipReason, problem: LayoutProblem): void {
    this.#skip(reason, problem.line);
    this.#problem(problem);
  }

  #skip(reason: SkipReason, line: number): void {
    const known = this.#skipped.get(reason);
    if (known) known.count += 1;
    else this.#skipped.set(reason, { count: 1, firstLine: line });
  }

  #problem(problem: LayoutProblem): void {
    if (this.#problems.length < this.#mostProblems) this.#problems.push(problem);
    else this.#problemsBeyond += 1;
  }
}
