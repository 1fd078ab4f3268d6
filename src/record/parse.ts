/** Unknown data into a record: migrate by its format number, then parse; every issue at once, in sentences. */
import type { z } from 'zod';
import type { RecordIssue } from '../evidence/evidence.ts';
import { Record as CardRecord, Event, RECORD_FORMAT } from './schema.ts';

export { checkRecord } from './check.ts';

export type ParsedRecord =
  | { readonly ok: true; readonly record: CardRecord }
  | { readonly ok: false; readonly issues: readonly RecordIssue[] };

type Fields = { readonly [field: string]: unknown };

/** How to bring a record from the format it names to the next. Every entry has a fixture among the tests. */
const MIGRATIONS: ReadonlyMap<number, (old: Fields) => Fields> = new Map();

/**
 * Reads a record from data of any kind. Older formats are brought up to date first; what is wrong with the result comes
 * back all at once, each with its path, what is wrong, what to do, and what was typed.
 */
export function parseRecord(value: unknown): ParsedRecord {
  const migrated = migrate(value);
  if (!migrated.ok) return migrated;
  const parsed = CardRecord.safeParse(migrated.value);
  if (parsed.success) return { ok: true, record: parsed.data };
  return { ok: false, issues: parsed.error.issues.flatMap((issue) => say(issue, migrated.value, [])) };
}

function migrate(
  value: unknown,
): { readonly ok: true; readonly value: Fields } | { readonly ok: false; readonly issues: RecordIssue[] } {
  if (!isFields(value)) {
    return refuse(
      '',
      `A record is an object with fields, not ${sort(value)}.`,
      'Give the whole record, from { to }.',
      value,
    );
  }
  let record = value;
  const format = value.format;
  if (typeof format !== 'number' || !Number.isInteger(format)) {
    return refuse(
      'format',
      'The record does not say which format it is in.',
      `Add "format": ${RECORD_FORMAT}.`,
      format,
    );
  }
  if (format > RECORD_FORMAT) {
    return refuse(
      'format',
      `The record is in format ${format}; this version reads up to ${RECORD_FORMAT}.`,
      'Open it with the newer version that wrote it.',
      format,
    );
  }
  for (let step = format; step < RECORD_FORMAT; step += 1) {
    const next = MIGRATIONS.get(step);
    if (!next) {
      return refuse('format', `There was never a format ${step}.`, `Set "format" to ${RECORD_FORMAT}.`, format);
    }
    record = next(record);
  }
  return { ok: true, value: record };
}

function refuse(path: string, wrong: string, todo: string, typed: unknown): { ok: false; issues: RecordIssue[] } {
  return { ok: false, issues: [withTyped({ path, wrong, todo }, typed)] };
}

function say(issue: z.core.$ZodIssue, root: unknown, above: readonly PropertyKey[]): RecordIssue[] {
  const path = [...above, ...issue.path];
  const typed = at(root, path);
  const one = (wrong: string, todo: string): RecordIssue[] => [withTyped({ path: path.join('.'), wrong, todo }, typed)];
  const field = `"${String(path.at(-1) ?? 'record')}"`;
  switch (issue.code) {
    case 'invalid_type':
      return typed === undefined
        ? one(`${field} is missing.`, `Add it: ${KINDS[issue.expected] ?? issue.expected}.`)
        : one(`${field} is ${sort(typed)}.`, `Give ${KINDS[issue.expected] ?? issue.expected}.`);
    case 'unrecognized_keys':
      return issue.keys.map((key) =>
        withTyped(
          {
            path: [...path, key].join('.'),
            wrong: `"${key}" is not a field that belongs here.`,
            todo: 'Correct its spelling or take it out.',
          },
          at(root, [...path, key]),
        ),
      );
    case 'invalid_value':
      return one(`${field} is ${sort(typed)}.`, `Give one of ${issue.values.map(String).join(', ')}.`);
    case 'too_small':
      return issue.origin === 'string'
        ? one(`${field} is empty.`, 'Type something.')
        : one(
            `${field} is too small.`,
            `Give ${issue.inclusive === false ? 'more than' : 'at least'} ${issue.minimum}.`,
          );
    case 'too_big':
      return one(
        `${field} is too large.`,
        `Give ${issue.inclusive === false ? 'less than' : 'at most'} ${issue.maximum}.`,
      );
    case 'invalid_format':
      return issue.format === 'datetime'
        ? one(`${field} is not a date with time and zone.`, 'Write it as 2025-03-01T09:30:00+01:00, or ending in Z.')
        : issue.format === 'date'
          ? one(`${field} is not a day.`, 'Write it as year-month-day, such as 2025-03-01.')
          : one(`${field} is ${sort(typed)}, which is no id.`, 'Write it as lower-case words joined by hyphens.');
    case 'invalid_key':
      return one(`${field} is not an id.`, 'Write it as lower-case words joined by hyphens.');
    case 'invalid_union':
      return sayUnion(issue, root, path, one);
    default:
      return one(`${field} does not fit: ${issue.message}.`, 'Correct it.');
  }
}

/**
 * What a union refused is told as the alternative that came nearest refused it: the one whose first fault lies deepest.
 */
function sayUnion(
  issue: Extract<z.core.$ZodIssue, { code: 'invalid_union' }>,
  root: unknown,
  path: readonly PropertyKey[],
  one: (wrong: string, todo: string) => RecordIssue[],
): RecordIssue[] {
  if ('discriminator' in issue && issue.discriminator !== undefined) {
    const kinds = EVENT_TYPES.join(', ');
    return one('An event of the timeline does not say what kind it is.', `Set its "type" to one of ${kinds}.`);
  }
  const depth = (issues: readonly z.core.$ZodIssue[]): number => Math.max(...issues.map((inner) => inner.path.length));
  const nearest = [...issue.errors].sort((a, b) => depth(b) - depth(a))[0];
  if (!nearest || depth(nearest) === 0) {
    const field = `"${String(path.at(-1) ?? 'record')}"`;
    return one(`${field} does not fit.`, 'Give one amount, or its range as low, likely and high.');
  }
  return nearest.flatMap((inner) => say(inner, root, path));
}

const EVENT_TYPES = Event.options.map(({ shape }) => shape.type.value);

const KINDS: { readonly [expected: string]: string } = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  object: 'an object with fields',
  record: 'an object with fields',
};

function isFields(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function sort(value: unknown): string {
  if (value === undefined) return 'missing';
  if (value === null) return 'null';
  if (Array.isArray(value)) return 'a list';
  return typeof value === 'object' ? 'an object' : JSON.stringify(value);
}

function at(root: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (value, key) =>
      typeof value === 'object' && value !== null ? (value as { [key: PropertyKey]: unknown })[key] : undefined,
    root,
  );
}

function withTyped(issue: RecordIssue, typed: unknown): RecordIssue {
  if (typed === undefined) return issue;
  return { ...issue, typed: typeof typed === 'string' ? typed : JSON.stringify(typed) };
}
