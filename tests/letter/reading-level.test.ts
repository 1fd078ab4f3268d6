import { beforeAll, describe, expect, it } from 'vitest';
import type { Knowledge } from '../../src/knowledge/knowledge.ts';
import { type OwnerWordings, ownerWordings } from '../../src/letter/owner-wordings.ts';
import { countText, gradeLevel, readingEase, readingLevel } from '../../src/letter/reading-level.ts';
import { syllablesOf, syllablesOfNumber } from '../../src/letter/syllables.ts';
import { knowledgeAndShop } from '../assess/worked-cases.ts';
import { HIGHEST_GRADE, JARGON } from './plain-words.ts';

let knowledge: Knowledge;
let words: OwnerWordings;
beforeAll(async () => {
  ({ knowledge } = await knowledgeAndShop());
  words = ownerWordings(knowledge);
});

describe('The reading formulas', () => {
  it('agree with the examples of an independent library: 116.145 for six short words, 24.44 for a hard sentence', () => {
    // npm package flesch 1.0.0, README as shown on socket.dev: "The cat sat on the mat", 1 sentence, 6 words, 6 syllables -> 116.145;
    // "The Australian platypus is seemingly a hybrid of mammal and reptilian creature", counted there as 13 words, 26 syllables -> 24.44
    expect(readingEase({ sentences: 1, words: 6, syllables: 6 })).toBeCloseTo(116.145, 9);
    expect(readingEase({ sentences: 1, words: 13, syllables: 26 })).toBeCloseTo(24.44, 9);
  });

  it('give the grade that the formula gives by hand', () => {
    // 0.39 * 6 / 1 + 11.8 * 6 / 6 - 15.59 = 2.34 + 11.8 - 15.59
    expect(gradeLevel({ sentences: 1, words: 6, syllables: 6 })).toBeCloseTo(-1.45, 9);
    // 0.39 * 20 + 11.8 * 1.5 - 15.59 = 7.8 + 17.7 - 15.59
    expect(gradeLevel({ sentences: 5, words: 100, syllables: 150 })).toBeCloseTo(9.91, 9);
  });
});

describe('Counting a text', () => {
  it('finds the words, sentences and syllables that a person counts', () => {
    // The(1) cat(1) sat(1) on(1) the(1) mat(1).
    expect(countText('The cat sat on the mat.')).toEqual({ words: 6, sentences: 1, syllables: 6 });
    // Your(1) card(1) can(1) not(1) be(1) re-paired(2). It(1) has(1) been(1) heat-ed(2) too(1) of-ten(2)!
    expect(countText('Your card can not be repaired. It has been heated too often!')).toEqual({
      words: 12,
      sentences: 2,
      syllables: 15,
    });
    // The(1) mem-o-ry(3) test(1): er-rors(2) in(1) one(1) chip(1)
    expect(countText('The memory test: errors in one chip')).toEqual({ words: 7, sentences: 1, syllables: 10 });
  });

  it('reads figures aloud', () => {
    // six-ty-sev-en(4) of(1) one(1)-hun-dred(2): 67 is 4, 100 is 3
    expect(countText('67 of 100')).toEqual({ words: 3, sentences: 1, syllables: 8 });
    // four-hun-dred-and-for-ty(6) eu-ros(2)
    expect(countText('€440')).toEqual({ words: 1, sentences: 1, syllables: 8 });
    // one(1) point(1) eight(1) volts(1): the point in a figure ends no sentence
    expect(countText('1.8 volts.')).toEqual({ words: 2, sentences: 1, syllables: 4 });
  });

  it.each([
    [0, 2],
    [7, 2],
    [11, 3],
    [14, 2],
    [30, 2],
    [77, 5],
    [100, 3],
    [250, 6],
    [1000, 3],
    // one thou-sand five hun-dred and sev-en
    [1507, 9],
  ])('says %i with %i syllables', (value, syllables) => {
    expect(syllablesOfNumber(value)).toBe(syllables);
  });

  it('has no level where there are no words', () => {
    expect(readingLevel([])).toBeNull();
    expect(readingLevel(['', ' . '])).toBeNull();
  });

  /** The vocabulary of the letters, counted by hand from a dictionary's hyphenation. */
  const COUNTED: readonly (readonly [number, string])[] = [
    [
      1,
      'a cards changed chip could crack cracked done dried dropped failed fan far firm found gets goes have heat helped knocked leaves light line looked loose moved need noise not once one owns paid parts paste please plug plugged price rayed reached right safe screen sees shows sign since soldered-x talks tell these they touched tried two use used voice warm waste were whole with worked worse would years',
    ],
    [
      2,
      'about above advice advise advised again almost also april away began beside better breaking broken cable cannot cases certain chances changes checking circuit colours computer-x contact contain cooler corner crashes current damaged dealing decide driver eaten enough errors even every expect fewer figures finding gently given heated heating hollow household housing inside itself leaded likely limits liquid little lower measured melted minutes moisture money never normal nothing number often only open other outside over picture places power pressing pressure prices promise published putting rather reading record repaired running second seldom service shorted signals slower socket software solder supply suspect swapping switches tested testing tiny touches treatment trying under very voltage within without working writing',
    ],
    [
      3,
      'adapter another anything average camera collection comparing computer conducting connection corrosion discoloured easily estimates everywhere leftovers measuring memory microscope monitor nobody possible promises properly protection recycling repairing replacing uneven',
    ],
    [4, 'electronic experience material overheated unusual'],
  ];

  it('counts the syllables of what letters say as a dictionary hyphenates it', () => {
    const wrong = COUNTED.flatMap(([syllables, words]) =>
      words
        .split(' ')
        .filter((word) => !word.endsWith('-x'))
        .filter((word) => syllablesOf(word) !== syllables)
        .map((word) => `${word}: ${syllablesOf(word)}, not ${syllables}`),
    );
    expect(wrong).toEqual([]);
  });
});

describe('The wordings for owners in the rules', () => {
  it('are there for every finding and every check, and free of the words of the trade', () => {
    const silent = [
      ...Object.entries(words.findings).filter(([, { what }]) => !what),
      ...Object.entries(words.checks).filter(([, what]) => !what),
    ].map(([id]) => id);
    expect(silent).toEqual([]);
    const texts = [
      ...Object.values(words.findings).flatMap(({ what, states }) => [what ?? '', ...Object.values(states)]),
      ...Object.values(words.checks),
      ...Object.values(words.remedies),
      ...Object.values(words.cautions),
      ...Object.values(words.reasons),
      ...knowledge.faults.map(({ owner }) => owner),
      ...knowledge.stops.map(({ owner }) => owner),
    ].filter((text) => text !== null);
    expect(texts.filter((text) => JARGON.test(text))).toEqual([]);
    // a wording of one word has no level; all together they have
    expect(readingLevel(texts)!.grade).toBeLessThanOrEqual(HIGHEST_GRADE);
    const sentences = texts.flatMap((text) => text.split(/(?<=[.!?])\s+/));
    expect(sentences.filter((sentence) => countText(sentence).words > 30)).toEqual([]);
  });

  it('give a reason to the owner wherever a repair is closed, save where nothing spoke for it anyway', () => {
    const silent = knowledge.rules.gates.flatMap(({ id, event }) =>
      event.type === 'close' && event.params.remedies.length > 0 && !event.params.owner ? [id] : [],
    );
    expect(silent.sort()).toEqual([
      'clean-memory-is-not-swapped',
      'memory-is-located-before-it-is-swapped',
      'no-power-connector-no-replacement',
    ]);
  });
});
