/** Readings put into the record or, where they cannot be read or have nothing to stand beside yet, aside as drafts. */
import { parseQuantity, type Quantity } from '../evidence/quantity.ts';
import type { Measured, Record } from '../record/schema.ts';
import { findingAnswer, typeReading } from './desk.ts';
import { leadsOf } from './leads.ts';
import { figuresOf, type MeterChoice } from './meters.ts';
import type { Cell } from './paste.ts';

export const readingField = (finding: string): string => `reading-${finding}`;
export const knownGoodField = (finding: string): string => `known-good-${finding}`;

export const isReadable = (text: string, quantity: Quantity): boolean => parseQuantity(text, quantity).kind !== 'error';

/** How a reading taken now is taken: with which leads, which meter, beside which known-good reading. */
export function howTaken(
  record: Record,
  finding: string,
  quantity: Quantity,
  drafts: ReadonlyMap<string, string>,
  meter: MeterChoice,
): Partial<Measured> {
  const knownGood = drafts.get(knownGoodField(finding));
  const instrument = figuresOf(meter, quantity);
  return {
    ...(quantity === 'resistance' ? leadsOf(record, drafts) : {}),
    ...(knownGood !== undefined && isReadable(knownGood, quantity) ? { knownGood } : {}),
    ...(instrument === undefined ? {} : { instrument }),
  };
}

export interface Taken {
  readonly record: Record;
  /** what to keep as drafts (text) and which drafts are done with (null) */
  readonly drafts: ReadonlyMap<string, string | null>;
  readonly readable: number;
  readonly unreadable: number;
}

/** All of a pasted block as one change, so that one keystroke takes it back. */
export function takeCells(
  cells: readonly Cell[],
  before: Record,
  at: string,
  around: {
    readonly drafts: ReadonlyMap<string, string>;
    readonly meter: MeterChoice;
    readonly quantityOf: (finding: string) => Quantity;
  },
): Taken {
  const drafts = new Map<string, string | null>();
  const known = () =>
    new Map([...around.drafts, ...drafts].flatMap(([key, text]) => (text === null ? [] : [[key, text]])));
  let record = before;
  let readable = 0;
  // known-good readings first: a reading of the same row then finds its own
  const ordered = cells.toSorted((a, b) => Number(b.column === 'known-good') - Number(a.column === 'known-good'));
  for (const { finding, column, text } of ordered) {
    const quantity = around.quantityOf(finding);
    const reads = isReadable(text, quantity);
    readable += Number(reads);
    const answer = findingAnswer(record, finding, 'bench');
    if (column === 'known-good') {
      const measured = answer?.type === 'measured' ? answer : null;
      drafts.set(knownGoodField(finding), reads && measured !== null ? null : text);
      if (reads && measured !== null) record = typeReading(record, finding, measured.typed, at, { knownGood: text });
    } else {
      drafts.set(readingField(finding), reads ? null : text);
      if (!reads) continue;
      record = typeReading(record, finding, text, at, howTaken(record, finding, quantity, known(), around.meter));
    }
  }
  return { record, drafts, readable, unreadable: cells.length - readable };
}
