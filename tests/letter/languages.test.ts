import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { de } from '../../src/letter/messages/de.ts';
import { en } from '../../src/letter/messages/en.ts';
import { localeFor, sayIn } from '../../src/letter/say.ts';

type Leaf = string | null | ((...values: never[]) => string);

/** Every entry of a catalogue by its path; functions filled with values that would be seen if they were lost. */
function entries(catalogue: object, path = ''): [string, string | null, number][] {
  return Object.entries(catalogue).flatMap(([key, value]: [string, Leaf | object]) => {
    const here = path === '' ? key : `${path}.${key}`;
    if (typeof value === 'function') {
      // the side that a break-even lies on is a choice of words, not a value
      const values = Array.from({ length: value.length }, (_, at) =>
        at === 0 && SIDED.test(here) ? 'more' : `<${at}>`,
      );
      return [[here, (value as (...all: string[]) => string)(...values), value.length]];
    }
    if (typeof value === 'string' || value === null) return [[here, value, 0]];
    return entries(value, here);
  });
}

/** Said by one number, of which the words themselves depend. */
const BY_NUMBER = /^(days|found\.(others|allNormal)|cause\.more|afterWork\.failedAgain|cameIn\.years)$/;
const SIDED = /^changes\.(value|chance|sound|parts|minutes)$/;

describe('The two catalogues', () => {
  const english = entries(en);
  const german = new Map(entries(de).map(([path, text, values]) => [path, { text, values }]));

  it('have the same keys, and put the same values into their sentences', () => {
    expect([...german.keys()].sort()).toEqual(english.map(([path]) => path).sort());
    for (const [path, text, values] of english) {
      const other = german.get(path)!;
      expect(other.values, path).toBe(values);
      if (text === null || BY_NUMBER.test(path)) continue;
      const filled = (sentence: string) => [...new Set(sentence.match(/<\d>/g) ?? [])].sort();
      expect(filled(other.text!), path).toEqual(filled(text));
    }
  });

  it('differ in every sentence, so none was left untranslated', () => {
    const same = english.filter(
      ([path, text]) => text !== null && /[a-z]{4}/.test(text) && german.get(path)!.text === text,
    );
    expect(same.map(([path]) => path)).toEqual([]);
  });

  it('say every answer that owners give in the symptoms, and everything of the history that is not the bench’s own', () => {
    const { facts } = JSON.parse(readFileSync(new URL('../../rules/facts.json', import.meta.url), 'utf8')) as {
      facts: { id: string; step: string; type: { kind: string; values?: { id: string }[] } }[];
    };
    const known = en.facts as Record<string, Record<string, string | null>>;
    const unsaid: string[] = [];
    for (const { id, step, type } of facts) {
      if (step !== 'symptoms' && step !== 'history') continue;
      // a count of heat cycles and the bench's own cleaning are not what an owner tells
      if (id === 'heat-cycles' || id === 'board-cleaned') continue;
      const values = type.kind === 'yes-no' ? ['true', 'false'] : (type.values ?? []).map((value) => value.id);
      for (const value of values) if (known[id]?.[value] === undefined) unsaid.push(`${id}=${value}`);
    }
    expect(unsaid).toEqual([]);
    const real = new Set(facts.map(({ id }) => id));
    expect(Object.keys(known).filter((id) => !real.has(id))).toEqual([]);
  });

  it('say spans of time as people do', () => {
    expect([365, 730, 180, 90, 45].map(en.days)).toEqual(['a year', '2 years', '6 months', '90 days', '45 days']);
    expect([365, 730, 180, 90, 45].map(de.days)).toEqual([
      'einem Jahr',
      '2 Jahren',
      '6 Monaten',
      '90 Tagen',
      '45 Tagen',
    ]);
  });
});

describe('Figures', () => {
  const say = sayIn('en-IE', 'EUR', en.count);

  it('are counts of 100, with words at the edges where a round number would say too much', () => {
    expect(say.count(0.554).text).toBe('55 of 100');
    expect(say.count(0).text).toBe('0 of 100');
    expect(say.count(0.001).text).toBe('fewer than 1 of 100');
    expect(say.count(0.999).text).toBe('more than 99 of 100');
    expect(say.count(1).text).toBe('100 of 100');
  });

  it('are whole for estimates, and exact for a price', () => {
    expect(say.money(78.4).text).toBe('€78');
    expect(say.money(-0.2).text).toBe('€0');
    expect(say.exactly(82.5).text).toBe('€82.50');
    expect(say.exactly(440).text).toBe('€440');
  });

  it('follow the shop where it speaks the letter’s language, else the letter in the shop’s region', () => {
    expect(localeFor('en', 'en-IE')).toBe('en-IE');
    expect(localeFor('de', 'en-IE')).toBe('de-IE');
    expect(localeFor('de', 'de-AT')).toBe('de-AT');
    expect(localeFor('en', 'fr')).toBe('en');
  });
});
