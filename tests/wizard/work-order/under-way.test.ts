import { describe, expect, it } from 'vitest';
import type { Record as CardRecord } from '../../../src/record/schema.ts';
import { workDe } from '../../../src/wizard/messages/work-de.ts';
import { workEn } from '../../../src/wizard/messages/work-en.ts';
import { advisedWork, isWorkOffered, REMEDY_DRAFT, underWay } from '../../../src/wizard/work-order/under-way.ts';
import { finishWork } from '../../../src/work-order/record-step.ts';
import { assessed, card, later, orderFor, workedUpTo } from '../../work-order/cards.ts';

const arrived = card('ball-crack-on-a-dear-card');
const order = await orderFor(arrived);
const nothing: ReadonlyMap<string, string> = new Map();
const chosen = new Map([[REMEDY_DRAFT, 'reflow-core']]);
const lifted = workedUpTo(order, arrived, 'pads-flat');
const finished = finishWork(workedUpTo(order, arrived, 'marked-leaded'), true);
const done: CardRecord = finished.ok ? finished.record : arrived;
const since = (record: CardRecord, ...types: readonly ('handed-back' | 'came-back')[]): CardRecord => {
  let now = record;
  for (const type of types) now = { ...now, timeline: [...now.timeline, { type, at: later(now, 60) }] };
  return now;
};

describe('The work on the screen', () => {
  it('is the verdict’s, until the bench chooses another or has begun one', () => {
    expect(underWay(arrived, nothing)).toMatchObject({ open: null, done: null, remedy: undefined, recorded: [] });
    expect(underWay(arrived, chosen).remedy).toBe('reflow-core');
    const prepared = workedUpTo(order, arrived, 'shielded');
    expect(underWay(prepared, nothing).remedy).toBe('reball-core-leaded');
    expect(underWay(prepared, nothing).recorded).toHaveLength(3);
    expect(underWay(prepared, chosen), 'before the card is touched it may still be another').toMatchObject({
      remedy: 'reflow-core',
      recorded: [],
    });
    expect(underWay(lifted, chosen).remedy, 'afterwards it may not').toBe('reball-core-leaded');
  });

  it('is done once somebody said whether the card works, until it comes back or other work is chosen', () => {
    expect(underWay(done, nothing).done).toMatchObject({ event: { worked: true } });
    expect(underWay(since(done, 'handed-back'), nothing).done).not.toBeNull();
    expect(underWay(done, chosen).done).toBeNull();
    expect(underWay(since(done, 'handed-back', 'came-back'), nothing).done).toBeNull();
  });

  it('is offered where the verdict is work, some was chosen, or some is on record, and for no card of which nothing is known', async () => {
    const assessment = await assessed(arrived);
    expect(advisedWork(assessment)?.id).toBe('reball-core-leaded');
    expect(isWorkOffered(arrived, assessment, nothing)).toBe(true);
    const none = { ...assessment, verdict: { ...assessment.verdict, option: 'leave-as-is' } };
    const blank: CardRecord = { ...arrived, timeline: [] };
    expect(isWorkOffered(arrived, none, nothing)).toBe(false);
    expect(isWorkOffered(blank, assessment, nothing)).toBe(false);
    expect(isWorkOffered(arrived, none, chosen)).toBe(true);
    expect(isWorkOffered(lifted, null, nothing)).toBe(true);
    expect(isWorkOffered(done, none, nothing)).toBe(true);
  });
});

describe('The sentences of the work', () => {
  type Entry = readonly [path: string, text: unknown];
  const entriesOf = (catalogue: object, path = ''): readonly Entry[] =>
    Object.entries(catalogue).flatMap(([key, value]): readonly Entry[] =>
      typeof value === 'object' && value !== null ? entriesOf(value, `${path}${key}.`) : [[path + key, value]],
    );

  it('stand in both languages with the same parameters, each of which is used', () => {
    const english = new Map(entriesOf(workEn));
    const german = new Map(entriesOf(workDe));
    expect([...german.keys()].sort()).toEqual([...english.keys()].sort());
    const say = (text: unknown) =>
      typeof text === 'function' ? String(text(...Array.from({ length: text.length }, (_, at) => at + 71))) : text;
    for (const [path, text] of english) {
      const translated = german.get(path);
      expect(typeof translated, path).toBe(typeof text);
      expect(say(translated), path).not.toBe(say(text));
      if (typeof text !== 'function') continue;
      expect((translated as typeof text).length, path).toBe(text.length);
      for (let mark = 71; mark < 71 + text.length; mark++) {
        expect(say(text), path).toContain(String(mark));
        expect(say(translated), path).toContain(String(mark));
      }
    }
  });
});
