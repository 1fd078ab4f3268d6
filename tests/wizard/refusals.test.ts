import { afterEach, describe, expect, it } from 'vitest';
import { parseQuantity } from '../../src/evidence/quantity.ts';
import { REFUSALS, type RefusalId, type Told } from '../../src/evidence/refusals.ts';
import { checkRecord } from '../../src/record/check.ts';
import { parseRecord } from '../../src/record/parse.ts';
import { sayIssue } from '../../src/wizard/issues.ts';
import { preferLanguage } from '../../src/wizard/language.ts';
import { refusalsDe } from '../../src/wizard/messages/refusals-de.ts';
import { knowledgeAndShop, workedCase } from '../assess/worked-cases.ts';

const { knowledge } = await knowledgeAndShop();
const speak = (language: string) => preferLanguage({ getItem: () => language }, [], { lang: '' });
afterEach(() => speak('en'));

/** Things a refusal may be about, each to be found again in its sentences. */
const ABOUT = {
  ...Object.fromEntries(
    ['field', 'is', 'values', 'typed', 'name', 'states', 'ids', 'id', 'at', 'before', 'step', 'text', 'digits']
      .concat(['decimal', 'thousand', 'suffix', 'left', 'message', 'kinds', 'unit'])
      .map((slot) => [slot, `<${slot}>`]),
  ),
  kind: 'a whole number',
  of: '"<of>"',
  format: 71,
  reads: 72,
  value: 73,
  least: 74,
  most: 75,
  quantity: 'resistance',
  other: 'voltage',
};
const MARK = /<\w+>|7[1-5]/g;
const marks = (sentence: string) => [...new Set(sentence.match(MARK))].sort();

describe('What is refused, in German', () => {
  it('is said of the same things as in English, in other words', () => {
    for (const id of Object.keys(REFUSALS) as RefusalId[]) {
      const [english, german] = [REFUSALS, refusalsDe].map((refusals) =>
        (refusals[id] as (about: object) => { wrong: string; todo: string })(ABOUT),
      );
      expect(marks(`${german!.wrong} ${german!.todo}`), id).toEqual(marks(`${english!.wrong} ${english!.todo}`));
      expect(german!.wrong, id).not.toBe(english!.wrong);
      expect(german!.todo, id).not.toBe(english!.todo);
      expect(`${german!.wrong} ${german!.todo}`, id).not.toMatch(/\b(the|and|with|not|this|that|type it|choose)\b/i);
    }
  });

  it('tells a reading that cannot be read: opposites, thousands, other units, what no card shows', async () => {
    const wrong = (typed: string) => {
      const parsed = parseQuantity(typed, 'resistance');
      if (parsed.kind !== 'error') throw new Error(`${typed} is readable`);
      return sayIssue(parsed);
    };
    expect(wrong('0L')).toMatchObject({ wrong: expect.stringContaining('those are opposites'), lang: undefined });
    await speak('de');
    expect(wrong('0L')).toMatchObject({ wrong: expect.stringContaining('das sind Gegensätze'), lang: undefined });
    expect(wrong('1,234').todo).toBe('1.234 oder 1234 eintippen.');
    expect(wrong('12 V').wrong).toBe('„V“ ist Volt, dieser Messwert ist aber in Ohm.');
    expect(wrong('abc').todo).toBe('So eintippen: 0.31, 310m, 4R7, 1k2 oder OL.');
    expect(wrong('9G').wrong).toContain('9.000.000.000 Ohm');
  });

  it('tells what is wrong with a record of other origin, field by field', async () => {
    await speak('de');
    const { record } = workedCase('one-memory-chip');
    const said = (value: unknown) => {
      const parsed = parseRecord(value);
      return (parsed.ok ? checkRecord(parsed.record, knowledge) : parsed.issues).map(sayIssue);
    };
    const { worked: _worked, ...card } = record;
    expect(said([])).toEqual([
      {
        wrong: 'Eine Akte ist ein Objekt mit Feldern, nicht: eine Liste.',
        todo: 'Die ganze Akte angeben, von { bis }.',
        lang: undefined,
      },
    ]);
    expect(said({ ...card, title: 7 })[0]!.wrong).toBe('„title“ ist: 7.');
    expect(said({ ...card, colour: 'red' })[0]!.wrong).toBe('„colour“ ist kein Feld, das hierher gehört.');
    const at = card.timeline.at(-1)!.at;
    const later = (event: object) => said({ ...card, timeline: [...card.timeline, { at, ...event }] })[0]!;
    expect(later({ type: 'came-back' }).wrong).toContain('vorher ist keine Arbeit an ihr festgehalten');
    expect(later({ type: 'treated', remedy: 'reflow-cor', worked: null })).toMatchObject({
      wrong: '„reflow-cor“ ist keine Arbeit, wie es hier bekannt ist.',
      todo: expect.stringMatching(/^Am nächsten kommen reflow-core, /),
    });
  });

  it('stands in English, and is marked so, where it does not say which refusal it is', async () => {
    const issue = { wrong: 'The disk is full.', todo: 'Make room.' };
    const unknown = { ...issue, told: { id: 'no-such-refusal', about: {} } as unknown as Told };
    expect(sayIssue(issue).lang).toBeUndefined();
    await speak('de');
    expect([sayIssue(issue), sayIssue(unknown)]).toEqual([
      { ...issue, lang: 'en' },
      { ...issue, lang: 'en' },
    ]);
  });
});
