import { describe, expect, it } from 'vitest';
import type { Record as CardRecord } from '../../../src/record/schema.ts';
import {
  type Around,
  CANNOT_TELL,
  draftsAt,
  draftsOf,
  entryAt,
  failingReading,
  logField,
  notBefore,
  noteField,
  numberField,
  recordEntry,
  stateField,
  writeField,
} from '../../../src/wizard/work-order/entry.ts';
import { takeBackStep } from '../../../src/work-order/take-back.ts';
import { card, later, orderFor, workedUpTo } from '../../work-order/cards.ts';

const arrived = card('ball-crack-on-a-dear-card');
const order = await orderFor(arrived);
const point = (id: string) => order.steps.find((step) => step.id === id)!;
const around: Around = {
  quantityOf: (finding) => (finding.startsWith('resistance-') ? 'resistance' : undefined),
  takenWith: () => ({ leads: '0.1' }),
};
const typed = (...entries: (readonly [string, string])[]) => new Map(entries);

describe('What is typed at a hold point', () => {
  const resistances = point('resistances');
  const grid = point('grid-after-cleaning');

  it('becomes its findings: a state that was seen, a reading with the leads it was taken with, and nothing that was not looked at', () => {
    const drafts = typed(
      [numberField('resistances', 'resistance-core'), '0.9'],
      [stateField('resistances', 'resistance-core'), 'short'],
      [stateField('resistances', 'resistance-memory'), CANNOT_TELL],
      [stateField('seated', 'ball-grid'), 'intact'],
    );
    expect(entryAt(resistances, drafts, around).found).toEqual([
      { finding: 'resistance-core', typed: '0.9', leads: '0.1' },
      { finding: 'resistance-memory', state: null },
    ]);
  });

  it('is written down under the blank it was typed into', () => {
    const drafts = typed(
      [writeField('grid-after-cleaning', 0), ' row 3, column 4 '],
      [noteField('grid-after-cleaning'), 'solvent was old'],
    );
    expect(entryAt(grid, drafts, around).note).toBe(`${grid.record[0]}: row 3, column 4; solvent was old`);
    expect(entryAt(grid, new Map(), around).note).toBe('');
  });

  it('that cannot be read as a number is said and is no finding', () => {
    const drafts = typed([numberField('resistances', 'resistance-core'), '0.9.1']);
    const { found, unreadable } = entryAt(resistances, drafts, around);
    expect(found).toEqual([]);
    expect(unreadable.map(({ finding }) => finding)).toEqual(['resistance-core']);
  });

  it('fails the hold point where the state that was seen does, or the heaviest state that a reading is graded into', () => {
    const off = entryAt(grid, typed([stateField('grid-after-cleaning', 'ball-grid'), 'missing-balls']), around);
    expect(off.fails?.find.finding).toBe('ball-grid');
    expect(entryAt(grid, typed([stateField('grid-after-cleaning', 'ball-grid'), 'intact']), around).fails).toBeNull();
    const graded = (state: string) => new Map([['resistance-core', { finding: 'resistance-core', state } as never]]);
    expect(failingReading(resistances, graded('short'))?.find.finding).toBe('resistance-core');
    expect(failingReading(resistances, graded('low'))).toBeNull();
    expect(failingReading(resistances, new Map())).toBeNull();
  });

  it('takes the judged log of the work with its weights, and what stands broken on the device for none', () => {
    const curve = point('curve-kept');
    const log = { 'in-window': 0.1, 'out-of-window': 0.9 };
    expect(entryAt(curve, typed([logField('curve-kept'), JSON.stringify(log)]), around).found).toEqual([
      { finding: 'profile-record', state: 'out-of-window', weights: log },
    ]);
    for (const broken of ['{"in-window":', '{}', '7'])
      expect(entryAt(curve, typed([logField('curve-kept'), broken]), around).found).toEqual([]);
  });

  it('is there again as it was typed when the hold point is taken back', () => {
    const at = workedUpTo(order, arrived, 'resistances');
    const drafts = typed(
      [numberField('resistances', 'resistance-core'), '0.9'],
      [stateField('resistances', 'resistance-memory'), CANNOT_TELL],
      [writeField('resistances', 0), 'all eight; twice'],
      [noteField('resistances'), 'meter zeroed'],
    );
    const taken = recordEntry(order, at, resistances, 'passed', entryAt(resistances, drafts, around), later(at, 5));
    if (!taken.ok) throw new Error(taken.wrong);
    const back = takeBackStep(order, taken.record)!;
    expect(back.record).toEqual(at);
    const again = draftsOf(resistances, back.step, back.found);
    // the semicolon that was typed is one of those that part blanks from notes: not a word is lost for it
    expect(again.get(writeField('resistances', 0))).toBe('all eight; twice; meter zeroed');
    expect(again.get(numberField('resistances', 'resistance-core'))).toBe('0.9');
    expect(again.get(stateField('resistances', 'resistance-memory'))).toBe(CANNOT_TELL);
    expect(entryAt(resistances, again, around).found).toEqual(entryAt(resistances, drafts, around).found);
    expect(entryAt(resistances, again, around).note).toBe(back.step.note);
    expect(draftsAt('resistances', again)).toHaveLength(3);
    expect(draftsAt('resistances', typed([noteField('resistances-more'), 'x'])), 'of this hold point alone').toEqual(
      [],
    );
  });
});

describe('The time of a hold point', () => {
  it('never lies before what is on the record, also where the clock of this bench is behind', () => {
    const last = arrived.timeline.at(-1)!.at;
    expect(notBefore(arrived, '2001-01-01T00:00:00Z')).toBe(last);
    expect(notBefore(arrived, '2099-01-01T00:00:00Z')).toBe('2099-01-01T00:00:00Z');
    const recorded = recordEntry(
      order,
      arrived,
      order.steps[0]!,
      'passed',
      { found: [], note: '', unreadable: [], fails: null },
      '2001-01-01T00:00:00Z',
    );
    expect(recorded.ok).toBe(true);
  });
});

describe('A hold point out of its turn', () => {
  it('is refused in words, whatever is typed at it, and the record stays as it was', () => {
    const record: CardRecord = workedUpTo(order, arrived, 'resistances');
    const image = point('first-image');
    const tried = recordEntry(order, record, image, 'passed', entryAt(image, new Map(), around), later(record, 5));
    expect(tried).toMatchObject({ ok: false });
    expect(!tried.ok && tried.todo).toMatch(/Each hold point opens only when the one before it is recorded/);
  });
});
