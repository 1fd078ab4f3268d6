/** What is said of a ball joint, in both languages. */
import { describe, expect, it } from 'vitest';
import { judgeBalls } from '../../src/ball-grid/judge-balls.ts';
import { de } from '../../src/ball-grid/messages/de.ts';
import { en } from '../../src/ball-grid/messages/en.ts';
import { sayGiven } from '../../src/ball-grid/say-joint.ts';
import { JOINT_SOURCES } from '../../src/joints/cited.ts';
import { LEAD_FREE_CONSTANTS, LIFE_IS_A_COMPARISON, SNPB_CONSTANTS } from '../../src/joints/fatigue.ts';
import type { Balls } from '../../src/record/balls.ts';
import { ballsDe } from '../../src/wizard/messages/balls-de.ts';
import { ballsEn } from '../../src/wizard/messages/balls-en.ts';

const EVERYTHING: Balls = {
  ballMillimetres: 0.6,
  packagePadMillimetres: 0.45,
  boardPadMillimetres: 0.52,
  pitchMillimetres: 1,
  pasteCubicMillimetres: 0.02,
  leftMillimetres: 0.02,
  ballAlloy: 'SAC305',
  padAlloy: 'Sn63Pb37',
  imageMillimetres: 0.5,
  voidsMillimetres: [0.2, 0.15],
  swingKelvin: 55,
  hottestCelsius: 85,
  cyclesPerDay: 3,
  referenceSwingKelvin: 40,
  referenceHottestCelsius: 65,
  referenceCyclesPerDay: 1,
  referenceCycles: 3000,
  referenceShape: 2,
  strainRange: 0.01,
  dwellMinutes: 60,
  activationElectronvolts: 0.7,
};
const ENGLISH = /\b(the|and|with|of|is|are|when|from|than|this|that|which|not|no|for|by)\b/i;
const figures = (text: string) => text.replaceAll(/(\d),(\d)/g, '$1.$2').match(/\d+(\.\d+)?/g) ?? [];

/** Every text of a catalogue by its path; functions are filled in. */
function texts(words: object, path = ''): Map<string, string> {
  return new Map(
    Object.entries(words).flatMap(([key, value]): [string, string][] => {
      const here = `${path}.${key}`;
      if (typeof value === 'object' && value !== null) return [...texts(value, here)];
      if (typeof value !== 'function') return [[here, String(value)]];
      if (key === 'note' || key === 'number') return [];
      const said: unknown = value('71', '72', '73', '74', '75');
      return typeof said === 'object' && said !== null ? [...texts(said, here)] : [[here, String(said)]];
    }),
  );
}

describe('A ball joint in German', () => {
  it('says the same parts with the same figures as in English, and nothing in English', () => {
    const [english, german] = [judgeBalls(EVERYTHING, 'en'), judgeBalls(EVERYTHING, 'de')];
    expect(german.words.map(({ part }) => part)).toEqual(['shape', 'mixture', 'voids', 'life', 'engelmaier']);
    for (const [at, { part, lines }] of german.words.entries()) {
      expect(lines.filter((line) => ENGLISH.test(line))).toEqual([]);
      const other = english.words[at]!;
      // thousands are grouped by each language in its own way
      const plain = (all: readonly string[]) =>
        figures(all.join(' ').replaceAll(/(\d)[.,](\d{3})\b(?!\d)/g, '$1$2')).sort();
      if (part !== 'life' && part !== 'engelmaier') expect(plain(lines), part).toEqual(plain(other.lines));
      expect(lines.length, part).toBe(other.lines.length);
    }
    expect(ENGLISH.test(sayGiven(EVERYTHING, 'de'))).toBe(false);
  });

  it.each([
    ['what is said of a joint', en, de, /^\.(sources\.(ipc|lall)|voids\.none)|pan-2005/],
    ['the part in the wizard', ballsEn, ballsDe, /nothing/],
  ])('leaves no sentence of %s untranslated, and uses what the English one uses', (_, first, second, same) => {
    const english = texts(first);
    const german = texts(second);
    expect([...german.keys()].sort()).toEqual([...english.keys()].sort());
    for (const [path, text] of german) {
      expect(text.trim(), path).not.toBe('');
      if (same.test(path)) continue;
      expect(text, path).not.toBe(english.get(path));
      expect(
        figures(text)
          .filter((one) => /^7[1-5]$/.test(one))
          .sort(),
        path,
      ).toEqual(
        figures(english.get(path)!)
          .filter((one) => /^7[1-5]$/.test(one))
          .sort(),
      );
    }
  });
});

describe('What is cited', () => {
  it('has a name for every set of constants and every source it can cite', () => {
    for (const { id, cited } of [SNPB_CONSTANTS, ...LEAD_FREE_CONSTANTS])
      for (const words of [en, de]) {
        expect(words.constants[id], id).toBeDefined();
        expect(words.sources[cited.source], cited.source).toBeDefined();
      }
    for (const source of Object.keys(en.sources)) expect(JOINT_SOURCES[source], source).toBeDefined();
  });

  it('says of every life that it is a comparison', () => {
    expect(en.life.comparison).toBe(LIFE_IS_A_COMPARISON);
    expect(
      judgeBalls(EVERYTHING, 'de')
        .words.find(({ part }) => part === 'life')
        ?.lines.at(-1),
    ).toBe(de.life.comparison);
  });
});
