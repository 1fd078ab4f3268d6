/** Translations of the knowledge under `languages/`, held against it: nothing missing, nothing that is not there any more. */
import { SAYINGS } from './english-sayings.ts';
import type { Knowledge, Problem } from './knowledge.ts';
import { slotsOf } from './sayings.ts';
import { LANGUAGES_FOLDER, SAID, SENTENCES, TRANSLATED, type Translation, textsOf } from './translation.ts';

/** The translations among the files, by language; what is no translation is a problem, and so is every text too many or too few. */
export function readTranslations(
  files: ReadonlyMap<string, unknown>,
  knowledge: Knowledge,
): { readonly translations: readonly Translation[]; readonly problems: readonly Problem[] } {
  const languages = new Set(
    [...files.keys()]
      .filter((file) => file.startsWith(LANGUAGES_FOLDER))
      .map((file) => file.slice(LANGUAGES_FOLDER.length).split('/')[0]!),
  );
  const problems: Problem[] = [];
  const translations = [...languages].sort().map((language) => readOne(files, language, problems));
  for (const translation of translations) problems.push(...auditTranslation(knowledge, translation));
  return { translations, problems };
}

const KINDS: readonly string[] = [...TRANSLATED, SENTENCES, SAID];

function readOne(files: ReadonlyMap<string, unknown>, language: string, problems: Problem[]): Translation {
  const folder = `${LANGUAGES_FOLDER}${language}/`;
  const texts: { [kind: string]: { [id: string]: { [place: string]: string } } } = {};
  let sentences: { readonly [english: string]: string } = {};
  let sayings: { readonly [id: string]: string } = {};
  for (const [file, raw] of files) {
    if (!file.startsWith(folder)) continue;
    const kind = file.slice(folder.length).replace(/\.json$/, '');
    if (!KINDS.includes(kind)) {
      problems.push({
        file,
        path: '',
        kind: 'unknown-folder',
        wrong: `"${kind}" is nothing that is translated`,
        todo: `Call the file one of ${KINDS.join(', ')}.`,
      });
    } else if (kind === SENTENCES) {
      sentences = onlyTexts(file, '', raw, problems);
    } else if (kind === SAID) {
      sayings = onlyTexts(file, '', raw, problems);
    } else {
      const byId = isFields(raw) ? raw : {};
      if (!isFields(raw)) problems.push(noTexts(file, ''));
      texts[kind] = Object.fromEntries(
        Object.entries(byId).map(([id, places]) => [id, onlyTexts(file, id, places, problems)]),
      );
    }
  }
  return { language, texts, sentences, sayings };
}

const isFields = (value: unknown): value is { readonly [key: string]: unknown } =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const noTexts = (file: string, path: string): Problem => ({
  file,
  path,
  kind: 'no-texts',
  wrong: 'this is no list of texts by name',
  todo: 'Write { "name": "text" }.',
});

function onlyTexts(file: string, path: string, raw: unknown, problems: Problem[]): { [name: string]: string } {
  if (!isFields(raw)) {
    problems.push(noTexts(file, path));
    return {};
  }
  const said: { [name: string]: string } = {};
  for (const [name, text] of Object.entries(raw)) {
    if (typeof text === 'string' && text.trim() !== '') said[name] = text;
    else
      problems.push({
        file,
        path: path === '' ? name : `${path}.${name}`,
        kind: 'no-text',
        wrong: 'this is no text',
        todo: 'Write what it says in this language.',
      });
  }
  return said;
}

/** Figures, signs and names of parts are the same in every language, so a text may be. */
export function auditTranslation(
  knowledge: Knowledge,
  { language, texts, sentences, sayings }: Translation,
): Problem[] {
  const wanted = textsOf(knowledge);
  const file = (kind: string) => `${LANGUAGES_FOLDER}${language}/${kind}.json`;
  const problems: Problem[] = [];
  for (const [key, english] of wanted.texts) {
    const [kind, id, place] = key.split('/') as [string, string, string];
    const said = texts[kind]?.[id]?.[place];
    if (said === undefined) problems.push(missing(file(kind), `${id}.${place}`, english));
    // figures are put into the words of hold points
    else if (kind === 'hold-points' && slots(said) !== slots(english))
      problems.push(otherSlots(file(kind), `${id}.${place}`, english));
  }
  for (const [kind, byId] of Object.entries(texts))
    for (const [id, places] of Object.entries(byId))
      for (const place of Object.keys(places))
        if (!wanted.texts.has(`${kind}/${id}/${place}`)) problems.push(unknown(file(kind), `${id}.${place}`));
  for (const english of wanted.sentences)
    if (sentences[english] === undefined) problems.push(missing(file(SENTENCES), english, english));
  for (const english of Object.keys(sentences))
    if (!wanted.sentences.has(english)) problems.push(unknown(file(SENTENCES), english));
  for (const [id, english] of Object.entries(SAYINGS)) {
    const said = sayings[id];
    if (said === undefined) problems.push(missing(file(SAID), id, english));
    else if (slots(said) !== slots(english)) problems.push(otherSlots(file(SAID), id, english));
  }
  for (const id of Object.keys(sayings)) if (!(id in SAYINGS)) problems.push(unknown(file(SAID), id));
  return problems;
}

/** A rule is named by its id, which is English: where it is said otherwise it may be left out. */
const slots = (template: string): string =>
  slotsOf(template)
    .filter((slot) => slot !== 'rule')
    .sort()
    .join(' ');

const otherSlots = (file: string, path: string, english: string): Problem => ({
  file,
  path,
  kind: 'other-slots',
  wrong: `it does not put the same things into the sentence as "${english}"`,
  todo: 'Put each name in braces once, spelt the same.',
});

const missing = (file: string, path: string, english: string): Problem => ({
  file,
  path,
  kind: 'untranslated',
  wrong: `"${english}" is not translated`,
  todo: 'Add it here.',
});

const unknown = (file: string, path: string): Problem => ({
  file,
  path,
  kind: 'translation-of-nothing',
  wrong: 'nothing in the knowledge says this',
  todo: 'Take it out, or correct its name to that of the text it translates.',
});
