/** A block copied out of a spreadsheet, laid into the table of readings from the cell it was pasted at. */
import { railCalled } from './rail-names.ts';
import type { Rail } from './rails.ts';
import { isReadable } from './take-readings.ts';

export const COLUMNS = ['ground', 'known-good', 'voltage'] as const;
export type Column = (typeof COLUMNS)[number];

export interface Cell {
  readonly finding: string;
  readonly column: Column;
  readonly text: string;
}

export interface Laid {
  readonly cells: readonly Cell[];
  /** values that had no cell to go to */
  readonly left: readonly string[];
  /** first lines that were taken for headings, as they were read */
  readonly headings: readonly string[];
  /** the first column named the rails, and every row went to the one it names */
  readonly byName: boolean;
}

type Row = readonly string[];

/** One value is no block: it goes into the field it was pasted in. */
export const isBlock = (text: string): boolean => rowsOf(text).length > 1 || text.trim().includes('\t');

/**
 * Lines go down the rails, tabs across the columns. An empty place in the block leaves its cell as it is; a rail without such a
 * reading is stepped over only by an empty place, so that rows stay beside their rails. First lines of words alone are headings
 * and take no rail; where the first column names rails, a row goes to the rail it names; headings that say which column is
 * which are believed before the place of pasting.
 */
export function layBlock(
  text: string,
  rails: readonly Rail[],
  from: { readonly rail: string; readonly column: Column },
): Laid {
  const rows = rowsOf(text);
  const start = firstOfValues(rows);
  const values = rows.slice(start);
  const byName = namesRails(values);
  const labels = byName ? 1 : 0;
  const columns = columnsOf(rows.slice(0, start), labels, from.column);
  const first = rails.findIndex(({ id }) => id === from.rail);
  const cells: Cell[] = [];
  const left: string[] = [];
  values.forEach((row, down) => {
    const named = byName ? railCalled(row[0] ?? '') : null;
    const rail = byName ? rails.find(({ id }) => id === named) : rails[first + down];
    row.slice(labels).forEach((value, across) => {
      if (value === '') return;
      const to = columns(across);
      const finding = rail === undefined || to === undefined ? null : to === 'voltage' ? rail.voltage : rail.resistance;
      if (finding === null || to === undefined) left.push(value);
      else cells.push({ finding: finding.id, column: to, text: value });
    });
  });
  return { cells, left, headings: rows.slice(0, start).map((row) => row.filter(Boolean).join(' ')), byName };
}

function rowsOf(text: string): readonly Row[] {
  const lines = text.replace(/\r\n?/g, '\n').replace(/\n+$/, '').split('\n');
  return lines.map((line) => line.split('\t').map((value) => value.trim()));
}

const reads = (value: string): boolean => isReadable(value, 'resistance') || isReadable(value, 'voltage');

/** What stands in a sheet for a reading that is missing or was put in words: it belongs to its rail, and waits there. */
const INSTEAD_OF_A_READING =
  /^(#.*|n\.?\s?\/?\s?a\.?|nan|null|nil|none|x|o\.?l\.?|inf\w*|open|offen|short(ed)?|kurzschluss|schluss|dead|tot|ok|fail(ed)?|err(or)?|fehler|kein\w*|k\.?\s?a\.?|not .*|nicht .*)$/i;

const isWord = (value: string): boolean =>
  /^[\p{L}(["'Ω]/u.test(value) && /\p{L}|Ω/u.test(value) && !INSTEAD_OF_A_READING.test(value) && !reads(value);

/** Lines before the first one with a reading, as long as they hold nothing but words. */
function firstOfValues(rows: readonly Row[]): number {
  let at = 0;
  while (at < rows.length && isHeading(rows[at]!)) at++;
  const anyValue = rows.slice(at).some((row) => row.some((value) => value !== '' && reads(value)));
  return anyValue ? at : 0;
}

function isHeading(row: Row): boolean {
  const filled = row.filter((value) => value !== '');
  const labelled = row.length > 1 && railCalled(row[0]!) !== null;
  return filled.length > 0 && !labelled && filled.every(isWord);
}

/** The first of several columns holds names of rails, or words, and no readings. */
function namesRails(rows: readonly Row[]): boolean {
  const labels = rows.filter((row) => row.length > 1).map((row) => row[0]!);
  const filled = labels.filter((label) => label !== '');
  const named = filled.filter((label) => railCalled(label) !== null);
  return (
    named.length * 2 >= filled.length && named.length > 0 && filled.every((label) => railCalled(label) || !reads(label))
  );
}

const HEADED: readonly (readonly [Column, RegExp])[] = [
  ['known-good', /known|good|reference|\bref\b|gutkarte|\bgut|vergleich|referenz/i],
  ['voltage', /volt|spannung|^[(["]?v[)\]"]?$|[([]v[)\]]/i],
  ['ground', /ohm|Ω|resist|widerstand|ground|\bgnd\b|masse|^r$/iu],
];

/** Which column of the table each column of the block goes to. */
function columnsOf(headings: readonly Row[], labels: number, from: Column): (across: number) => Column | undefined {
  const start = COLUMNS.indexOf(from);
  for (const heading of headings) {
    const said = heading.slice(labels).map((words) => HEADED.find(([, pattern]) => pattern.test(words))?.[0]);
    const known = said.filter((column) => column !== undefined);
    if (known.length > 0 && known.length === said.length && new Set(known).size === said.length)
      return (across) => said[across];
  }
  return (across) => COLUMNS[start + across];
}
