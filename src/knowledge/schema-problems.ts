/** Turns what zod found in one file into problems a contributor can act on: what is wrong, where, what to do. */

import { ID_PATTERN } from './id.ts';
import type { Problem } from './knowledge.ts';
import { type Told, tell } from './schema-sayings.ts';

interface Issue {
  readonly code: string;
  readonly path: readonly PropertyKey[];
  readonly message: string;
  readonly expected?: string;
  readonly origin?: string;
  readonly minimum?: number | bigint;
  readonly maximum?: number | bigint;
  readonly inclusive?: boolean;
  readonly keys?: readonly string[];
  readonly values?: readonly unknown[] | undefined;
  readonly options?: readonly unknown[] | undefined;
  readonly discriminator?: string | undefined;
  readonly errors?: readonly (readonly Issue[])[];
  readonly format?: string;
  readonly pattern?: string | undefined;
}

type Saying = { readonly kind: string; readonly wrong: string; readonly todo: string; readonly told?: Told };

/** A path inside a file: keys joined by dots, places in a list in brackets. */
export function sayPath(path: readonly PropertyKey[]): string {
  return path
    .map((part, i) => (typeof part === 'number' ? `[${part}]` : `${i === 0 ? '' : '.'}${String(part)}`))
    .join('');
}

/** One problem per thing that is wrong; the same place is never reported twice in the same words. */
export function explainSchemaIssues(file: string, raw: unknown, issues: readonly Issue[]): Problem[] {
  const found = new Map<string, Problem>();
  const add = (path: readonly PropertyKey[], saying: Saying) => {
    const problem = { file, path: sayPath(path), ...saying };
    found.set(`${problem.path} ${problem.wrong}`, problem);
  };
  const visit = (issue: Issue, before: readonly PropertyKey[]): void => {
    const path = [...before, ...issue.path];
    if (path.length > 0 && CONDITION_FIELDS.has(String(path[0]))) {
      const field = String(path[0]);
      explainConditions((raw as Record<string, unknown>)[field], [field], add);
    } else if (issue.code === 'unrecognized_keys') {
      for (const key of issue.keys ?? []) add([...path, key], unknownKey(key));
    } else {
      const meant = branchMeant(issue);
      if (meant === undefined) add(path, explain(issue, at(raw, path), String(path.at(-1) ?? '')));
      else for (const inner of meant) visit(inner, path);
    }
  };
  for (const issue of issues) visit(issue, []);
  return [...found.values()];
}

/** Keys that the schema passes over in silence: a misspelt `becuase` must not vanish. */
export function unknownKeys(file: string, raw: unknown, parsed: unknown): Problem[] {
  const problems: Problem[] = [];
  const walk = (a: unknown, b: unknown, path: readonly PropertyKey[]) => {
    if (Array.isArray(a) && Array.isArray(b)) {
      a.forEach((item, i) => {
        walk(item, b[i], [...path, i]);
      });
    } else if (isObject(a) && isObject(b)) {
      for (const key of Object.keys(a)) {
        if (key in b) walk(a[key], b[key], [...path, key]);
        else problems.push({ file, path: sayPath([...path, key]), ...unknownKey(key) });
      }
    }
  };
  walk(raw, parsed, []);
  return problems;
}

const CONDITION_FIELDS = new Set(['conditions', 'appliesWhen']);

function unknownKey(key: string): Saying {
  return { kind: 'unknown-key', ...tell('unknown-key', { key }) };
}

/** Of a union, the one branch whose kind of value this is, where there is one. */
function branchMeant(issue: Issue): readonly Issue[] | undefined {
  const fitting = (issue.errors ?? []).filter(
    (branch) => !branch.some(({ code, path }) => code === 'invalid_type' && path.length === 0),
  );
  return fitting.length === 1 ? fitting[0] : undefined;
}

function explain(issue: Issue, value: unknown, key: string): Saying {
  if (key === 'basis' || issue.discriminator === 'basis') return explainBasis(value);
  if (value === undefined) return explainMissing(key);
  switch (issue.code) {
    case 'too_big':
    case 'too_small':
      return explainSize(issue, value, key);
    case 'invalid_value':
      return explainChoice(issue, value);
    case 'invalid_union':
      return issue.options ? explainChoice(issue, value) : explainType(kindsOf(issue), value);
    case 'invalid_key':
      return { kind: 'bad-id', ...tell('bad-id', { value: `"${key}"` }) };
    case 'invalid_format':
      return explainForm(issue, value);
    case 'custom':
      return { kind: 'bad-value', wrong: issue.message, todo: 'Correct it.' };
    default:
      return explainType(KIND_WORDS[issue.expected ?? ''] ?? String(issue.expected), value);
  }
}

function kindsOf(issue: Issue): string {
  const kinds = (issue.errors ?? []).flatMap((branch) => branch.map(({ expected }) => KIND_WORDS[expected ?? '']));
  return [...new Set(kinds.filter((kind) => kind !== undefined))].join(' or ') || 'something else';
}

function explainType(expected: string, value: unknown): Saying {
  return { kind: 'wrong-type', ...tell('wrong-type', { value: quote(value), is: name(value), expected }) };
}

/** Texts of a certain form: how the form is called, and an example. */
const FORMS: { readonly [form: string]: readonly [string, string] } = {
  '/^[A-Z]{3}$/': ['a currency of three capital letters', 'EUR'],
  date: ['a date', '2030-01-31'],
  datetime: ['a date with time and offset', '2030-01-31T14:30:00+01:00'],
};

function explainForm(issue: Issue, value: unknown): Saying {
  if (issue.format === 'regex' && issue.pattern === String(ID_PATTERN))
    return { kind: 'bad-id', ...tell('bad-id', { value: quote(value) }) };
  const [form, example] = FORMS[issue.pattern ?? ''] ?? FORMS[issue.format ?? ''] ?? [`the form ${issue.pattern}`, ''];
  return { kind: 'bad-value', ...tell('bad-form', { value: quote(value), form, example }) };
}

function explainBasis(value: unknown): Saying {
  const kinds = 'standard, published (both with source and place), practice, estimate or shop';
  return value === undefined
    ? { kind: 'no-basis', wrong: 'a number without a basis', todo: `Say where it comes from: ${kinds}.` }
    : { kind: 'no-basis', wrong: `${quote(value)} is not a basis`, todo: `Use one of ${kinds}.` };
}

function explainMissing(key: string): Saying {
  if (key === 'source')
    return {
      kind: 'no-source',
      wrong: 'a standard or published figure without a source',
      todo: 'Name the id of a file in sources/, or call it practice or estimate if that is what it is.',
    };
  if (key === 'place')
    return {
      kind: 'no-place',
      wrong: 'a source without the place inside it',
      todo: 'Say which table, clause, equation or page, so that somebody can look it up.',
    };
  if (key === 'n')
    return {
      kind: 'missing-field',
      wrong: 'a probability without its equivalent sample size',
      todo: 'Give n: how many cards of experience it is worth (5 is a guess, 200 is well known).',
    };
  return { kind: 'missing-field', ...tell('missing-field', { key }) };
}

function explainSize(issue: Issue, value: unknown, key: string): Saying {
  const limit = String(issue.code === 'too_big' ? issue.maximum : issue.minimum);
  if (issue.origin === 'string') return { kind: 'empty-text', ...tell('empty-text', {}) };
  if (issue.origin === 'array')
    return { kind: 'too-short', ...tell('too-short', { entries: (value as unknown[]).length, least: limit }) };
  if (issue.code === 'too_big' && limit === '1')
    return { kind: 'probability', ...tell('more-than-certain', { value: String(value) }) };
  if (key === 'p' || issue.path.includes('p') || issue.path.includes('weights'))
    return { kind: 'probability', ...tell('less-than-never', { value: String(value) }) };
  const relation = issue.code === 'too_big' ? 'at most' : issue.inclusive ? 'at least' : 'more than';
  return { kind: 'out-of-range', ...tell('out-of-range', { value: quote(value), relation, limit }) };
}

function explainChoice(issue: Issue, value: unknown): Saying {
  const choices = issue.values ?? issue.options ?? [];
  return { kind: 'not-a-choice', ...tell('not-a-choice', { value: quote(value), choices: choices.join(', ') }) };
}

/** Conditions are a union that refers to itself; the branch meant is told by the key it carries. */
function explainConditions(
  raw: unknown,
  path: readonly PropertyKey[],
  add: (path: readonly PropertyKey[], saying: Saying) => void,
): void {
  if (!isObject(raw)) {
    if (raw === undefined)
      add(path, { kind: 'missing-field', wrong: 'the conditions are missing', todo: CONDITION_FORM });
    else add(path, { kind: 'bad-condition', wrong: `${quote(raw)} is not a condition`, todo: CONDITION_FORM });
    return;
  }
  const keys = Object.keys(raw);
  const lists = keys.filter((key) => key === 'all' || key === 'any' || key === 'not');
  if (lists.length + (keys.includes('fact') ? 1 : 0) !== 1) {
    add(path, {
      kind: 'bad-condition',
      wrong: keys.length === 0 ? 'an empty condition' : `a condition of ${keys.join(', ')}`,
      todo: CONDITION_FORM,
    });
    return;
  }
  const list = lists[0];
  if (list === undefined) {
    explainComparison(raw, path, add);
    return;
  }
  for (const key of keys) if (key !== list) add([...path, key], unknownKey(key));
  const inner = raw[list];
  if (list === 'not') explainConditions(inner, [...path, 'not'], add);
  else if (!Array.isArray(inner)) {
    add([...path, list], { kind: 'bad-condition', wrong: `"${list}" is not a list`, todo: CONDITION_FORM });
  } else if (inner.length === 0) {
    add([...path, list], {
      kind: 'empty-conditions',
      wrong: `the list "${list}" is empty, and the rules engine would let it fire for every card`,
      todo: 'Put at least one condition in it, or delete it.',
    });
  } else {
    inner.forEach((item, i) => {
      explainConditions(item, [...path, list, i], add);
    });
  }
}

const CONDITION_FORM =
  'A condition is {"all": [...]}, {"any": [...]}, {"not": {...}} or {"fact", "operator", "value"}.';

function explainComparison(
  raw: Record<string, unknown>,
  path: readonly PropertyKey[],
  add: (path: readonly PropertyKey[], saying: Saying) => void,
): void {
  for (const key of Object.keys(raw))
    if (!['fact', 'operator', 'value'].includes(key)) add([...path, key], unknownKey(key));
  for (const key of ['fact', 'operator'])
    if (typeof raw[key] !== 'string')
      add([...path, key], {
        kind: 'bad-condition',
        wrong: raw[key] === undefined ? `"${key}" is missing` : `"${key}" is not a word`,
        todo: CONDITION_FORM,
      });
  const value = raw.value;
  const plain = (v: unknown) => typeof v === 'string' || typeof v === 'number';
  if (!(plain(value) || typeof value === 'boolean' || (Array.isArray(value) && value.every(plain))))
    add([...path, 'value'], {
      kind: 'bad-condition',
      wrong: value === undefined ? '"value" is missing' : `${quote(value)} cannot be compared with`,
      todo: 'Write a word, a number, true, false, or a list of words or numbers.',
    });
}

const KIND_WORDS: Record<string, string> = {
  string: 'a text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  object: 'an object {...}',
  record: 'an object {...}',
  array: 'a list [...]',
};

function name(value: unknown): string {
  if (value === null) return 'nothing (null)';
  return KIND_WORDS[Array.isArray(value) ? 'array' : typeof value] ?? typeof value;
}

function quote(value: unknown): string {
  const text = JSON.stringify(value) ?? String(value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function at(raw: unknown, path: readonly PropertyKey[]): unknown {
  let value = raw;
  for (const part of path) {
    if (typeof value !== 'object' || value === null) return undefined;
    value = (value as Record<PropertyKey, unknown>)[part];
  }
  return value;
}
