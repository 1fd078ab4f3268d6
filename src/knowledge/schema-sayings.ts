/**
 * What can be wrong with a file that a person edits, in English: what is wrong, and what to do. Each saying also says which it is and of what it
 * speaks, so that whoever shows it may say it in another language.
 */

type About = { readonly [slot: string]: string | number };

export interface Sentences {
  readonly wrong: string;
  readonly todo: string;
}

export interface Told {
  readonly id: SayingId;
  readonly about: About;
}

export const SAYINGS = {
  'unknown-key': ({ key }: { key: string }) => ({
    wrong: `nothing reads "${key}" here`,
    todo: 'Correct its spelling or take it out; the schema in rules/schemas lists what belongs here.',
  }),
  'missing-field': ({ key }: { key: string }) => ({
    wrong: `"${key}" is missing`,
    todo: 'Add it; the schema in rules/schemas says how.',
  }),
  'wrong-type': ({ value, is, expected }: { value: string; is: string; expected: string }) => ({
    wrong: `${value} is ${is} where ${expected} belongs`,
    todo: `Write ${expected}.`,
  }),
  'bad-id': ({ value }: { value: string }) => ({
    wrong: `${value} is not an id`,
    todo: 'Ids are lower-case words joined by hyphens, such as core-joint-crack.',
  }),
  'bad-form': ({ value, form, example }: { value: string; form: string; example: string }) => ({
    wrong: `${value} is not ${form}`,
    todo: `Write ${form}${example === '' ? '' : `, such as ${example}`}.`,
  }),
  'empty-text': (_: object) => ({ wrong: 'the text is empty', todo: 'Write it.' }),
  'too-short': ({ entries, least }: { entries: number; least: string }) => ({
    wrong: `the list has ${entries} entries and needs at least ${least}`,
    todo: 'Add what is missing.',
  }),
  'more-than-certain': ({ value }: { value: string }) => ({
    wrong: `${value} is more than 1`,
    todo: 'A probability lies from 0 to 1.',
  }),
  'less-than-never': ({ value }: { value: string }) => ({
    wrong: `${value} is less than 0`,
    todo: 'A probability lies from 0 to 1.',
  }),
  'out-of-range': ({ value, relation, limit }: { value: string; relation: string; limit: string }) => ({
    wrong: `${value} is out of range`,
    todo: `It must be ${relation} ${limit}.`,
  }),
  'not-a-choice': ({ value, choices }: { value: string; choices: string }) => ({
    wrong: `${value} is not one of the choices`,
    todo: choices === '' ? 'The schema in rules/schemas says what fits.' : `Use one of ${choices}.`,
  }),
  'no-json': ({ line, column, at }: { line: number; column: number; at: string }) => ({
    wrong: `this is no JSON from line ${line}, column ${column} on, ${at === '' ? 'where the file ends' : `at ${at}`}`,
    todo: 'Look there and just before for a missing comma, bracket or quotation mark, or a comma too many.',
  }),
  'stands-twice': ({ key, line, column }: { key: string; line: number; column: number }) => ({
    wrong: `"${key}" stands twice in one object, the second time at line ${line}, column ${column}`,
    todo: 'Only the last would be read: keep one of them.',
  }),
  'not-utf-8': (_: object) => ({ wrong: 'this is not UTF-8 text', todo: 'Save it again with the encoding UTF-8.' }),
};

export type Sayings = typeof SAYINGS;
export type SayingId = keyof Sayings;

/** The saying in English, and as what it may be said otherwise. */
export function tell<Name extends SayingId>(
  id: Name,
  about: Parameters<Sayings[Name]>[0] & About,
): Sentences & { readonly told: Told } {
  return { ...sayTold(SAYINGS, { id, about }), told: { id, about } };
}

/** In the words of that catalogue. */
export const sayTold = (sayings: Sayings, { id, about }: Told): Sentences =>
  (sayings[id] as (about: About) => Sentences)(about);
