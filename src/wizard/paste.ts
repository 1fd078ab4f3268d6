/** A block copied out of a spreadsheet, laid into the table of readings from the cell it was pasted at. */
import type { Rail } from './rails.ts';

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
}

/** One value is no block: it goes into the field it was pasted in. */
export const isBlock = (text: string): boolean => rowsOf(text).length > 1 || text.trim().includes('\t');

/**
 * Lines go down the rails, tabs across the columns. An empty place in the block leaves its cell as it is; a rail without such a
 * reading is stepped over only by an empty place, so that rows stay beside their rails.
 */
export function layBlock(
  text: string,
  rails: readonly Rail[],
  from: { readonly rail: string; readonly column: Column },
): Laid {
  const first = rails.findIndex(({ id }) => id === from.rail);
  const column = COLUMNS.indexOf(from.column);
  const cells: Cell[] = [];
  const left: string[] = [];
  rowsOf(text).forEach((row, down) => {
    row.forEach((value, across) => {
      if (value === '') return;
      const rail = rails[first + down];
      const to = COLUMNS[column + across];
      const finding = rail === undefined || to === undefined ? null : to === 'voltage' ? rail.voltage : rail.resistance;
      if (finding === null || to === undefined) left.push(value);
      else cells.push({ finding: finding.id, column: to, text: value });
    });
  });
  return { cells, left };
}

function rowsOf(text: string): readonly (readonly string[])[] {
  const lines = text.replace(/\r\n?/g, '\n').replace(/\n+$/, '').split('\n');
  return lines.map((line) => line.split('\t').map((value) => value.trim()));
}
