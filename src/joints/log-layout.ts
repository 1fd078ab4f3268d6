/** How a logger laid out its file, told from its first lines: separator, decimal mark, header, what each column is. */

import { type DecimalMark, plainNumber, readCell, readDate, readMoment } from './log-cells.ts';
import {
  columnsOf,
  type LayoutProblem,
  LETTERED,
  type Row,
  type StatedLayout,
  type TimeColumn,
  tellTime,
  tellUnit,
  whyLeftOut,
} from './log-columns.ts';
import { logProblem } from './log-problems.ts';

export type Separator = '\t' | ';' | ',' | '|' | ' ';
export interface ChannelColumn {
  readonly column: number;
  readonly name: string;
  readonly unit: 'C' | 'F';
  readonly unitFrom: string;
}

export interface Layout {
  readonly separator: Separator;
  readonly decimalMark: DecimalMark;
  /** the header's line, or null where the file has none */
  readonly headerLine: number | null;
  readonly firstReadingLine: number;
  readonly columns: number;
  readonly time: TimeColumn;
  readonly channels: readonly ChannelColumn[];
  /** columns that are neither time nor temperature, each with the reason */
  readonly leftOut: readonly { readonly column: number; readonly name: string; readonly because: string }[];
}

export type LaidOut =
  | { readonly kind: 'layout'; readonly layout: Layout }
  | { readonly kind: 'problems'; readonly problems: readonly LayoutProblem[] };

const SEPARATORS: readonly Separator[] = ['\t', ';', ',', '|', ' '];
const UNIT_ROW = /^(s|sec|ms|min|h|hh:mm:ss|mm:ss|°?\s?[cf]|deg ?[cf]|k|%|-|)$/i;

/** A line that is a remark by its first sign. A semicolon is one only where it does not separate. */
export function isComment(line: string, separator: Separator | null): boolean {
  const first = line.trimStart().replace(/^"/, '');
  if (/^(#(?!n\/a)|\/\/|!|%|\*|')/i.test(first)) return true;
  return first.startsWith(';') && separator !== ';';
}

/** The cells of one line. Quotes hold a cell together; a doubled quote within is one. Blanks separate in runs. */
export function cellsOf(line: string, separator: Separator): string[] {
  if (separator === ' ') return line.trim().split(/\s+/);
  if (!line.includes('"')) return line.split(separator);
  const cells: string[] = [];
  let cell = '';
  let quoted = false;
  for (let at = 0; at < line.length; at += 1) {
    const sign = line[at]!;
    if (sign === '"') {
      if (quoted && line[at + 1] === '"') {
        cell += '"';
        at += 1;
      } else quoted = !quoted;
    } else if (sign === separator && !quoted) {
      cells.push(cell);
      cell = '';
    } else cell += sign;
  }
  cells.push(cell);
  return cells;
}

/**
 * Tells the layout from the first lines of a file (some hundreds; fewer do). The separator is the one under which most
 * lines are rows of readings, all of one width; the header is the last other line of that width above the first of them.
 *
 * Units come, in this order, from what is stated, the column's name, a line of units, the remarks above, and where none
 * of them says, from the room: a board that begins at 0 to 45 and stays below 350 reads in Celsius, because in Fahrenheit
 * it would have begun in the frost. Where that does not decide either, it is a problem and nothing is assumed. A numeric
 * time whose header is silent is in milliseconds where its steps are 40 or more, since a profile of such seconds is none.
 */
export function tellLayout(lines: readonly string[], stated: StatedLayout = {}): LaidOut {
  // a single column is a table only where time needs no column of its own
  const least = stated.secondsPerRow === undefined ? 2 : 1;
  const fitting = SEPARATORS.map((separator) => rowsUnder(lines, separator)).filter(({ columns }) => columns >= least);
  if (fitting.length === 0) return noRows(lines);
  const wide = (columns: number) => Number(columns > 1);
  const best = fitting.reduce((a, b) =>
    b.rows.length > a.rows.length || (b.rows.length === a.rows.length && wide(b.columns) > wide(a.columns)) ? b : a,
  );
  const { separator, rows, columns, decimalMark } = best;
  const firstReadingLine = rows[0]!.line;
  const above = lines.slice(0, firstReadingLine - 1).map(
    (text, i): Row => ({
      line: i + 1,
      cells: isComment(text, separator) ? [text] : cellsOf(text, separator),
    }),
  );
  const fullWidth = above.filter(({ cells }) => cells.length > 1 && Math.abs(cells.length - columns) <= 1);
  const unitRow = fullWidth.findLast(({ cells }) => cells.every((cell) => UNIT_ROW.test(cell.trim())));
  const header = fullWidth.findLast((row) => row !== unitRow && row.cells.some((cell) => /[^\d\s.,:;-]/.test(cell)));
  const words = above.findLast(({ cells }) => cells.length > 1 && cells.some((cell) => /[^\d\s.,:;-]/.test(cell)));
  const joined = words && commaTwice(words.cells.length, rows, separator);
  if (joined) return { kind: 'problems', problems: [joined] };

  const names = Array.from({ length: columns }, (_, i) => header?.cells[i]?.trim() ?? '');
  const units = Array.from({ length: columns }, (_, i) => unitRow?.cells[i]?.trim() ?? '');
  const remarks = above.filter((row) => row !== header && row !== unitRow).map(({ cells }) => cells.join(' '));
  const problems: LayoutProblem[] = [];
  const where = header?.line ?? firstReadingLine;

  const time = tellTime(rows, names, units, decimalMark, stated, where, problems);
  const used = time === undefined ? [] : columnsOf(time);
  const channels: ChannelColumn[] = [];
  const leftOut: { column: number; name: string; because: string }[] = [];
  for (let column = 0; column < columns; column += 1) {
    if (used.includes(column)) continue;
    const name = names[column] || `channel ${column + 1 - used.filter((one) => one < column).length}`;
    const cells = rows.map((row) => readCell(row.cells[column] ?? '', decimalMark));
    const numbers = cells.flatMap((cell) => (cell.kind === 'number' ? [cell] : []));
    const asked = stated.channels?.includes(name) === true && numbers.length > 0;
    const out = asked
      ? undefined
      : whyLeftOut(names[column] ?? '', units[column] ?? '', numbers.length, cells, rows, column);
    if (out !== undefined) {
      // an empty last column is the mark of a separator at the end of each line
      if (names[column] || out !== 'it is empty') leftOut.push({ column, name, because: out });
      continue;
    }
    if (stated.channels !== undefined && !asked) {
      leftOut.push({ column, name, because: 'it was not asked for' });
      continue;
    }
    const unit = tellUnit(
      names[column] ?? '',
      units[column] ?? '',
      names.some((one) => LETTERED.test(one)),
      remarks,
      numbers.map(({ value }) => value),
      numbers.find((cell) => cell.unit !== undefined)?.unit,
      stated,
    );
    if (unit === undefined)
      problems.push({
        line: where,
        column: column + 1,
        ...logProblem('unit-unknown', { channel: name }),
      });
    else channels.push({ column, name, ...unit });
  }
  for (const missed of stated.channels ?? [])
    if (!channels.some(({ name }) => name === missed) && problems.length === 0)
      problems.push({
        line: where,
        column: null,
        ...logProblem('no-such-channel', {
          channel: missed,
          channels: [...channels, ...leftOut].map(({ name }) => name).join(', '),
        }),
      });
  if (channels.length === 0 && problems.length === 0)
    problems.push({
      line: where,
      column: null,
      ...logProblem('no-temperatures', {}),
    });
  if (problems.length > 0 || time === undefined) return { kind: 'problems', problems };
  return {
    kind: 'layout',
    layout: {
      separator,
      decimalMark,
      headerLine: header?.line ?? null,
      firstReadingLine,
      columns,
      time,
      channels,
      leftOut,
    },
  };
}

function rowsUnder(lines: readonly string[], separator: Separator) {
  const all = lines.flatMap((text, i): Row[] =>
    text.trim() === '' || isComment(text, separator) ? [] : [{ line: i + 1, cells: cellsOf(text, separator) }],
  );
  const quotedCommas = separator !== ',' || lines.some((line) => /"[+-]?\d+,\d+"/.test(line));
  const commas = all.reduce((n, { cells }) => n + cells.filter((cell) => /^\s*[+-]?\d+,\d+\s*$/.test(cell)).length, 0);
  const points = all.reduce((n, { cells }) => n + cells.filter((cell) => /^\s*[+-]?\d+\.\d+\s*$/.test(cell)).length, 0);
  const decimalMark: DecimalMark = quotedCommas && commas > points ? ',' : '.';
  const readings = all.filter(({ cells }) => isReading(cells, decimalMark));
  const widths = new Map<number, number>();
  for (const { cells } of readings) widths.set(cells.length, (widths.get(cells.length) ?? 0) + 1);
  const columns = [...widths].reduce((a, b) => (b[1] > a[1] ? b : a), [0, 0])[0];
  return { separator, decimalMark, columns, rows: readings.filter(({ cells }) => cells.length === columns) };
}

/** Time or a number first, and a number or a gap further on. */
function isReading(cells: readonly string[], mark: DecimalMark): boolean {
  const first = cells[0]!.trim();
  if (cells.length === 1) return !Number.isNaN(plainNumber(first, mark));
  if (Number.isNaN(plainNumber(first, mark)) && !readMoment(first) && !readDate(first)) return false;
  return cells.slice(1).some((cell) => cell.trim() !== '' && readCell(cell, mark).kind !== 'unreadable');
}

function noRows(lines: readonly string[]): LaidOut {
  const line = Math.max(1, lines.findIndex((text) => text.trim() !== '') + 1);
  const empty = lines.every((text) => text.trim() === '');
  const problem = empty
    ? logProblem('empty', {})
    : logProblem('no-readings', { first: (lines[line - 1] ?? '').slice(0, 60) });
  return { kind: 'problems', problems: [{ line, column: null, ...problem }] };
}

/** Rows twice as wide as their header, separated by commas: the comma is the decimal mark as well. */
function commaTwice(width: number, rows: readonly Row[], separator: Separator): LayoutProblem | undefined {
  const { line, cells } = rows[0]!;
  const twice = cells.length === 2 * width || cells.length === 2 * width - 1;
  if (separator !== ',' || width < 2 || !twice) return undefined;
  return {
    line,
    column: null,
    ...logProblem('comma-twice', { columns: width, cells: cells.length }),
  };
}
