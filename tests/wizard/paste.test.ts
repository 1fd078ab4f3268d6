import { beforeAll, describe, expect, it } from 'vitest';
import type { Quantity } from '../../src/evidence/quantity.ts';
import { loadKnowledge, loadShop } from '../../src/knowledge/load.ts';
import type { Record } from '../../src/record/schema.ts';
import { makeCatalogue } from '../../src/wizard/catalogue.ts';
import { findingAnswer, typeReading } from '../../src/wizard/desk.ts';
import { isBlock, layBlock } from '../../src/wizard/paste.ts';
import { type Rail, railsOf } from '../../src/wizard/rails.ts';
import { takeCells } from '../../src/wizard/take-readings.ts';

const AT = '2026-11-24T09:00:00Z';
const empty: Record = { format: 1, id: 'card', title: 'Card', timeline: [{ type: 'arrived', at: AT, facts: {} }] };
let rails: readonly Rail[];

beforeAll(async () => {
  const [knowledge, shop] = await Promise.all([loadKnowledge(), loadShop()]);
  if (!knowledge.ok || !shop.ok) throw new Error('the knowledge in rules/ does not parse: run the audit');
  rails = railsOf(makeCatalogue(knowledge.knowledge, shop.shop).findings);
});

const lay = (text: string, rail = 'core', column: 'ground' | 'known-good' | 'voltage' = 'ground') =>
  layBlock(text, rails, { rail, column });
const around = (drafts: readonly (readonly [string, string])[] = []) => ({
  drafts: new Map(drafts),
  meter: { kind: 'usual' } as const,
  quantityOf: (finding: string): Quantity => (finding.startsWith('voltage') ? 'voltage' : 'resistance'),
});
const typedIn = (record: Record, finding: string) => {
  const answer = findingAnswer(record, finding, 'bench');
  return answer?.type === 'measured' ? answer : undefined;
};

describe('a column copied out of a spreadsheet', () => {
  it('goes down the rails from the cell it is pasted at', () => {
    const { cells, left } = lay('0.31\r\n\r\n38R\r\n22\r\n', 'core');
    expect(left).toEqual([]);
    expect(cells.map(({ finding, text }) => `${finding} ${text}`)).toEqual([
      'resistance-core 0.31',
      'resistance-memory 38R',
      'resistance-pcie-rail 22',
    ]);
  });

  it('takes its neighbours along: to ground, known good, voltage', () => {
    const { cells } = lay('0.31\t0.33\t0.95\n', 'core');
    expect(cells.map(({ column }) => column)).toEqual(['ground', 'known-good', 'voltage']);
    expect(cells.at(-1)?.finding).toBe('voltage-core');
  });

  it('says what found no place, and does not move the rest for it', () => {
    const last = rails.at(-1)!.id;
    expect(lay('1\n2\n3', last).left).toEqual(['2', '3']);
    expect(lay('1\t2\t3\t4', 'core', 'voltage').left).toEqual(['2', '3', '4']);
  });

  it('is none where a single value was copied: that goes into its field as if typed', () => {
    expect(isBlock('0.31\n')).toBe(false);
    expect(isBlock(' 0.31 ')).toBe(false);
    expect(isBlock('0.31\n0.32')).toBe(true);
    expect(isBlock('0.31\t0.32')).toBe(true);
  });
});

describe('a block with words around its values', () => {
  const laid = (text: string, rail?: string, column?: 'ground' | 'known-good' | 'voltage') =>
    lay(text, rail, column).cells.map((cell) => `${cell.finding} ${cell.column} ${cell.text}`);

  it('has a heading, and every value stays beside its own rail', () => {
    const { headings, left } = lay('R to GND\n0.31\n38R\n');
    expect(headings).toEqual(['R to GND']);
    expect(left).toEqual([]);
    expect(laid('R to GND\n0.31\n\n38R\n')).toEqual(['resistance-core ground 0.31', 'resistance-memory ground 38R']);
    expect(laid('Card 17\n[Ω]\n0.31')).toEqual(['resistance-core ground 0.31']);
  });

  it('names the rails, and each row goes to the rail it names, in whatever order and wherever it is pasted', () => {
    const sheet = 'Rail\tOhm\nMemory\t38R\nVcore\t0.31\n12 V Eingang\t31k\n1,8 V\t420\nFan header\t9\n';
    expect(laid(sheet, '5v')).toEqual([
      'resistance-memory ground 38R',
      'resistance-core ground 0.31',
      'resistance-12v-input ground 31k',
      'resistance-1v8 ground 420',
    ]);
    expect(lay(sheet)).toMatchObject({ left: ['9'], byName: true, headings: ['Rail Ohm'] });
  });

  it('says in its headings which column is which: volts do not become ohms', () => {
    expect(laid('Rail\tVoltage [V]\tGround [Ω]\nCore\t0.95\t0.31')).toEqual([
      'voltage-core voltage 0.95',
      'resistance-core ground 0.31',
    ]);
    expect(laid('Spannung\n0,95')).toEqual(['voltage-core voltage 0,95']);
    expect(laid('Known good\tThis card (ohm)\n0.33\t0.31')).toEqual([
      'resistance-core known-good 0.33',
      'resistance-core ground 0.31',
    ]);
    expect(laid('a\tb\n0.31\t0.33'), 'headings that say nothing leave it to the place of pasting').toEqual([
      'resistance-core ground 0.31',
      'resistance-core known-good 0.33',
    ]);
  });

  it('may begin with a reading that is missing, mistyped or put in words: that is no heading and holds its place', () => {
    for (const first of ['n/a', '-', '#REF!', '0.3.1', 'short', 'Kurzschluss', 'not measured', 'OL', '1.2 kohms'])
      expect(laid(`${first}\n\n38R`).at(-1), first).toBe('resistance-memory ground 38R');
    expect(lay('no numbers\nin here').headings, 'words alone are no table').toEqual([]);
  });
});

describe('pasted values', () => {
  it('that cannot be read wait as they are, and the others are taken', () => {
    const { cells } = lay('0.31\n\nn/a\n1,234');
    const taken = takeCells(cells, empty, AT, around());
    expect(taken).toMatchObject({ readable: 1, unreadable: 2 });
    expect(typedIn(taken.record, 'resistance-core')?.typed).toBe('0.31');
    expect(typedIn(taken.record, 'resistance-memory')).toBeUndefined();
    expect([...taken.drafts]).toEqual([
      ['reading-resistance-core', null],
      ['reading-resistance-memory', 'n/a'],
      ['reading-resistance-pcie-rail', '1,234'],
    ]);
  });

  it('of a known-good card stand beside the reading, also one pasted with them or taken before', () => {
    const both = takeCells(lay('0.31\t0.4').cells, empty, AT, around());
    expect(typedIn(both.record, 'resistance-core')).toMatchObject({ typed: '0.31', knownGood: '0.4' });
    const before = typeReading(empty, 'resistance-core', '0.31', AT);
    const beside = takeCells(lay('0.4', 'core', 'known-good').cells, before, AT, around());
    expect(typedIn(beside.record, 'resistance-core')).toMatchObject({ typed: '0.31', knownGood: '0.4' });
    const alone = takeCells(lay('0.4', 'core', 'known-good').cells, empty, AT, around());
    expect(alone.record).toBe(empty);
    expect(alone.drafts.get('known-good-resistance-core')).toBe('0.4');
  });

  it('are taken the way the bench has set: leads, four-wire, meter', () => {
    const taken = takeCells(lay('0.31').cells, empty, AT, around([['four-wire', 'yes']]));
    expect(typedIn(taken.record, 'resistance-core')?.fourWire).toBe(true);
  });
});
