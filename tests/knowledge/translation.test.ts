import { beforeAll, describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import { auditTranslation, readTranslations } from '../../src/knowledge/audit-languages.ts';
import type { Knowledge } from '../../src/knowledge/knowledge.ts';
import { RULES_FOLDER, readRules } from '../../src/knowledge/load.ts';
import { type Translation, textsOf, translate } from '../../src/knowledge/translation.ts';
import { knowledgeAndShop, workedCase } from '../assess/worked-cases.ts';

let knowledge: Knowledge;
let german: Translation;
let files: Map<string, unknown>;
beforeAll(async () => {
  ({ knowledge } = await knowledgeAndShop());
  files = await readRules(RULES_FOLDER);
  german = readTranslations(files, knowledge).translations.find(({ language }) => language === 'de')!;
});

describe('The German of the rules', () => {
  it('says every text that is shown, and none that is not there any more', () => {
    expect(readTranslations(files, knowledge).problems).toEqual([]);
  });

  it('differs from the English wherever there is a word to translate', () => {
    const { texts } = textsOf(knowledge);
    const { texts: spoken } = textsOf(translate(knowledge, german));
    const same = [...texts].filter(([key, english]) => spoken.get(key) === english).map(([, english]) => english);
    // units, types of memory, voltages, and words that both languages have
    const alike = ['%', '5 V', 'A', 'GDDR5', 'GDDR5X', 'GDDR6', 'GDDR6X', 'GDDR7', 'normal', '°C'];
    expect([...new Set(same)].sort()).toEqual(alike);
  });

  it('leaves no sentence in either language without its full stop', () => {
    for (const [english, said] of Object.entries(german.sentences)) expect(said.at(-1), said).toBe(english.at(-1));
  });

  it('keeps every figure of the English', () => {
    const figures = (text: string) => (text.match(/\d+(?:[.,]\d+)?/g) ?? []).map((one) => one.replace(',', '.')).sort();
    const { texts, sentences } = textsOf(knowledge);
    const { texts: spoken } = textsOf(translate(knowledge, german));
    const changed = [...texts].filter(([key, english]) => {
      const plain = english.replace('8,760', '8.760');
      return String(figures(plain)) !== String(figures(spoken.get(key)!));
    });
    expect(changed.map(([key]) => key)).toEqual([]);
    for (const english of sentences) expect(figures(german.sentences[english]!), english).toEqual(figures(english));
  });
});

describe('A translation', () => {
  it('that lacks a text is refused with the file, the place and what is to be said there', () => {
    const { name: _name, ...rest } = german.texts.faults!['core-joint-crack']!;
    const lacking = {
      ...german,
      texts: { ...german.texts, faults: { ...german.texts.faults, 'core-joint-crack': rest } },
    };
    expect(auditTranslation(knowledge, lacking)).toMatchObject([
      { file: 'languages/de/faults.json', path: 'core-joint-crack.name', kind: 'untranslated' },
    ]);
    const { sentences } = german;
    const [[english] = ['']] = Object.entries(sentences);
    const { [english]: _gone, ...others } = sentences;
    expect(auditTranslation(knowledge, { ...german, sentences: others })).toMatchObject([
      { file: 'languages/de/sentences.json', path: english, kind: 'untranslated' },
    ]);
  });

  it('that says no longer what a hold point asks is refused with the hold point and the place', () => {
    const points = german.texts['hold-points']!;
    const { 'record.1': _blank, ...rest } = points['pads-flat']!;
    const texts = {
      ...german.texts,
      'hold-points': { ...points, 'pads-flat': { ...rest, 'howTo.3': 'ein Schritt, den es nicht mehr gibt' } },
    };
    expect(auditTranslation(knowledge, { ...german, texts })).toMatchObject([
      { file: 'languages/de/hold-points.json', path: 'pads-flat.record.1', kind: 'untranslated' },
      { file: 'languages/de/hold-points.json', path: 'pads-flat.howTo.3', kind: 'translation-of-nothing' },
    ]);
    const { sentences } = german;
    const note = 'No pressure on iron or wick, or pads lift.';
    const { [note]: _note, ...others } = sentences;
    expect(auditTranslation(knowledge, { ...german, sentences: others })).toMatchObject([
      { file: 'languages/de/sentences.json', path: note, kind: 'untranslated' },
    ]);
  });

  it('that loses a figure of a hold point, or invents one, is refused', () => {
    const points = german.texts['hold-points']!;
    const texts = {
      ...german.texts,
      'hold-points': {
        ...points,
        'load-held': { ...points['load-held'], 'howTo.0': 'Last für {dauer}; dann abkühlen lassen.' },
      },
    };
    expect(auditTranslation(knowledge, { ...german, texts })).toMatchObject([
      { file: 'languages/de/hold-points.json', path: 'load-held.howTo.0', kind: 'other-slots' },
    ]);
  });

  it('of something that is not there is refused, whatever it is called', () => {
    const texts = {
      ...german.texts,
      faults: { ...german.texts.faults, 'no-such-fault': { name: 'Kein Fehler' } },
      stops: { ...german.texts.stops, return: { ...german.texts.stops!.return, about: 'mehr' } },
    };
    const problems = auditTranslation(knowledge, {
      ...german,
      texts,
      sentences: { ...german.sentences, 'No such.': 'Nein.' },
    });
    expect(problems.map(({ path, kind }) => `${kind} ${path}`).sort()).toEqual([
      'translation-of-nothing No such.',
      'translation-of-nothing no-such-fault.name',
      'translation-of-nothing return.about',
    ]);
  });

  it('that loses or invents a slot of a sentence is refused', () => {
    const sayings = { ...german.sayings, 'of-hundred': 'alle', 'one-year': 'ein {count}', 'no-such': 'nichts' };
    expect(
      auditTranslation(knowledge, { ...german, sayings })
        .map(({ path, kind }) => `${kind} ${path}`)
        .sort(),
    ).toEqual(['other-slots of-hundred', 'other-slots one-year', 'translation-of-nothing no-such']);
  });

  it('in a file of another kind, or that holds no texts, is refused', () => {
    const { problems } = readTranslations(
      new Map([...files, ['languages/de/sources.json', {}], ['languages/de/stops.json', { return: { name: 7 } }]]),
      knowledge,
    );
    expect(problems).toContainEqual(
      expect.objectContaining({ file: 'languages/de/sources.json', kind: 'unknown-folder' }),
    );
    expect(problems).toContainEqual(
      expect.objectContaining({ file: 'languages/de/stops.json', path: 'return.name', kind: 'no-text' }),
    );
  });

  it('changes words and nothing else: the same chances, verdict and next check', async () => {
    const { shop } = await knowledgeAndShop();
    const { record } = workedCase('one-memory-chip');
    const [english, spoken] = await Promise.all([
      assess(knowledge, shop, record),
      assess(translate(knowledge, german), shop, record),
    ]);
    if (english.kind !== 'assessed' || spoken.kind !== 'assessed') throw new Error('the case is not assessed');
    const figures = ({ ranking, options, verdict, next }: typeof english) => ({
      ranking: ranking.map(({ fault, chance }) => [fault, chance]),
      options: options.map(({ id, works, surplus }) => [id, works, surplus]),
      verdict: [verdict.kind, verdict.option],
      next: next.kind === 'check' ? next.check : next.kind,
    });
    expect(figures(spoken)).toEqual(figures(english));
    expect(spoken.ranking[0]?.name).toBe('Speicherbaustein ausgefallen');
    expect(spoken.verdict.because).toMatch(
      /^Wahrscheinliche Ursache: Speicherbaustein ausgefallen \(\d+\s%\); es gelingt/,
    );
  });
});
