/** Unknown data into a record: migrate by its format number, then parse; every issue at once, in sentences. */
import type { z } from 'zod';
import type { RecordIssue } from '../evidence/evidence.ts';
import { type Refused, refuse } from '../evidence/refusals.ts';
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
    return no('', refuse('not-a-record', { is: sort(value) }), value);
  }
  let record = value;
  const format = value.format;
  if (typeof format !== 'number' || !Number.isInteger(format)) {
    return no('format', refuse('no-format', { format: RECORD_FORMAT }), format);
  }
  if (format > RECORD_FORMAT) {
    return no('format', refuse('newer-format', { format, reads: RECORD_FORMAT }), format);
  }
  for (let step = format; step < RECORD_FORMAT; step += 1) {
    const next = MIGRATIONS.get(step);
    if (!next) {
      return no('format', refuse('never-a-format', { format: step, reads: RECORD_FORMAT }), format);
    }
    record = next(record);
  }
  return { ok: true, value: record };
}

function no(path: string, refused: Refused, typed: unknown): { ok: false; issues: RecordIssue[] } {
  return { ok: false, issues: [withTyped({ path, ...refused }, typed)] };
}

function say(issue: z.core.$ZodIssue, root: unknown, above: readonly PropertyKey[]): RecordIssue[] {
  const path = [...above, ...issue.path];
  const typed = at(root, path);
  const one: Tell = (refused) => [withTyped({ path: path.join('.'), ...refused }, typed)];
  const field = String(path.at(-1) ?? 'record');
  switch (issue.code) {
    case 'invalid_type': {
      const kind = KINDS[issue.expected] ?? issue.expected;
      return one(
        typed === undefined
          ? refuse('missing', { field, kind })
          : refuse('other-type', { field, is: sort(typed), kind }),
      );
    }
    case 'unrecognized_keys':
      return issue.keys.map((key) =>
        withTyped(
          { path: [...path, key].join('.'), ...refuse('stray-field', { field: key }) },
          at(root, [...path, key]),
        ),
      );
    case 'invalid_value':
      return one(refuse('other-value', { field, is: sort(typed), values: issue.values.map(String).join(', ') }));
    case 'too_small':
      return one(
        issue.origin === 'string'
          ? refuse('empty', { field })
          : issue.inclusive === false
            ? refuse('not-above', { field, least: String(issue.minimum) })
            : refuse('too-small', { field, least: String(issue.minimum) }),
      );
    case 'too_big':
      return one(
        issue.inclusive === false
          ? refuse('not-below', { field, most: String(issue.maximum) })
          : refuse('too-large', { field, most: String(issue.maximum) }),
      );
    case 'invalid_format':
      return one(
        issue.format === 'datetime'
          ? refuse('no-time', { field })
          : issue.format === 'date'
            ? refuse('no-day', { field })
            : refuse('no-id-there', { field, is: sort(typed) }),
      );
    case 'invalid_key':
      return one(refuse('no-id', { field }));
    case 'invalid_union':
      return sayUnion(issue, root, path, one);
    default:
      return one(refuse('does-not-fit', { field, message: issue.message }));
  }
}

type Tell = (refused: Refused) => RecordIssue[];

/**
 * What a union refused is told as the alternative that came nearest refused it: the one whose first fault lies deepest.
 */
function sayUnion(
  issue: Extract<z.core.$ZodIssue, { code: 'invalid_union' }>,
  root: unknown,
  path: readonly PropertyKey[],
  one: Tell,
): RecordIssue[] {
  if ('discriminator' in issue && issue.discriminator !== undefined) {
    return one(refuse('no-event-type', { kinds: EVENT_TYPES.join(', ') }));
  }
  const depth = (issues: readonly z.core.$ZodIssue[]): number => Math.max(...issues.map((inner) => inner.path.length));
  const nearest = [...issue.errors].sort((a, b) => depth(b) - depth(a))[0];
  if (!nearest || depth(nearest) === 0) {
    return one(refuse('no-amount', { field: String(path.at(-1) ?? 'record') }));
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
