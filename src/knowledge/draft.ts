/**
 * The files under `rules/` after each was parsed alone and before they are checked against each other. A file that does
 * not parse stays in the draft without a value: its id is still known, so that it does not make others look wrong.
 */
import type { Problem } from './knowledge.ts';
import {
  type Bench,
  type Caution,
  type Check,
  type Facts,
  type Fault,
  type Finding,
  FOLDERS,
  type HoldPoint,
  type Id,
  type PackageKind,
  type Population,
  type Preparation,
  type Procedure,
  type Remedy,
  type Rule,
  SINGLE_FILES,
  type Source,
  type Stop,
  type Window,
} from './schema.ts';
import { explainSchemaIssues, unknownKeys } from './schema-problems.ts';
import { LANGUAGES_FOLDER } from './translation.ts';

/** One file of a folder; `id` is what its name says, `value` is absent where it did not parse. */
export interface Filed<T> {
  readonly file: string;
  readonly id: Id;
  readonly value?: T;
}

/** Stands for the content of a file that is there and cannot be read as JSON. */
export class Unreadable {
  readonly wrong: string;
  readonly todo: string;
  constructor(wrong: string, todo: string) {
    this.wrong = wrong;
    this.todo = todo;
  }
}

export interface Draft {
  readonly faults: readonly Filed<Fault>[];
  readonly findings: readonly Filed<Finding>[];
  readonly preparations: readonly Filed<Preparation>[];
  readonly checks: readonly Filed<Check>[];
  readonly remedies: readonly Filed<Remedy>[];
  readonly procedures: readonly Filed<Procedure>[];
  readonly 'hold-points': readonly Filed<HoldPoint>[];
  readonly packages: readonly Filed<PackageKind>[];
  readonly stops: readonly Filed<Stop>[];
  readonly windows: readonly Filed<Window>[];
  readonly sources: readonly Filed<Source>[];
  readonly cautions: readonly Filed<Caution>[];
  readonly history: readonly Filed<Rule>[];
  readonly 'owner-words': readonly Filed<Rule>[];
  readonly 'window-choice': readonly Filed<Rule>[];
  readonly gates: readonly Filed<Rule>[];
  readonly facts?: Facts;
  readonly population?: Population;
  readonly bench?: Bench;
}

export type FolderName = keyof typeof FOLDERS;
export const FOLDER_NAMES = Object.keys(FOLDERS) as readonly FolderName[];
export const RULE_FOLDERS = ['history', 'owner-words', 'window-choice', 'gates'] as const;

/** Not knowledge: the shop profile is money and policy, the schemas are written from the code, translations say the same again. */
const SKIPPED = (file: string): boolean =>
  file === 'shop.json' || file.startsWith('schemas/') || file.startsWith(LANGUAGES_FOLDER);

/** Only the files that are knowledge, in the order of their paths. */
export function knowledgeFiles(files: ReadonlyMap<string, unknown>): readonly (readonly [string, unknown])[] {
  return [...files].filter(([file]) => !SKIPPED(file)).sort(([a], [b]) => (a < b ? -1 : 1));
}

/** Parses every file alone. Nothing stops at the first problem. */
export function draftKnowledge(files: ReadonlyMap<string, unknown>): { draft: Draft; problems: Problem[] } {
  const problems: Problem[] = [];
  const folders = Object.fromEntries(FOLDER_NAMES.map((name) => [name, [] as Filed<unknown>[]]));
  const singles: Record<string, unknown> = {};
  for (const [file, raw] of knowledgeFiles(files)) {
    const single = SINGLE_FILES[file as keyof typeof SINGLE_FILES];
    if (single !== undefined) {
      singles[file.replace('.json', '')] = readValue(file, raw, single, problems);
      continue;
    }
    const [folder, name, ...deeper] = file.split('/');
    const schema = FOLDERS[folder as FolderName];
    if (schema === undefined || name === undefined || deeper.length > 0) {
      problems.push(strayFile(file));
      continue;
    }
    const value = readValue(file, raw, schema, problems);
    const id = name.replace(/\.json$/, '');
    folders[folder as FolderName]!.push(value === undefined ? { file, id } : { file, id, value });
  }
  for (const file of Object.keys(SINGLE_FILES))
    if (!files.has(file)) problems.push({ file, path: '', kind: 'missing-file', ...missing(file) });
  return { draft: { ...folders, ...singles } as unknown as Draft, problems };
}

interface Schema {
  safeParse(raw: unknown): { success: true; data: unknown } | { success: false; error: { issues: unknown } };
}

function readValue(file: string, raw: unknown, schema: unknown, problems: Problem[]): unknown {
  if (raw instanceof Unreadable) {
    problems.push({ file, path: '', kind: 'bad-json', wrong: raw.wrong, todo: raw.todo });
    return undefined;
  }
  const parsed = (schema as Schema).safeParse(raw);
  if (!parsed.success) {
    problems.push(...explainSchemaIssues(file, raw, parsed.error.issues as Parameters<typeof explainSchemaIssues>[2]));
    return undefined;
  }
  problems.push(...unknownKeys(file, raw, parsed.data));
  return parsed.data;
}

function strayFile(file: string): Problem {
  const wrong = file.includes('/')
    ? `"${file.slice(0, file.lastIndexOf('/'))}" is not a folder of the knowledge`
    : 'no file of this name belongs directly under rules/';
  const todo =
    `Move it to one of ${FOLDER_NAMES.join(', ')} (one file per thing, no deeper folders), ` +
    `or make it one of ${Object.keys(SINGLE_FILES).join(', ')}.`;
  return { file, path: '', kind: 'unknown-folder', wrong, todo };
}

function missing(file: string): { wrong: string; todo: string } {
  const holds: Record<string, string> = {
    'facts.json': 'the facts that rules may ask for',
    'population.json': 'the figures of the population as a whole',
    'bench.json': 'the equipment and parts that checks and remedies may name',
  };
  return { wrong: 'this file is missing', todo: `Add it: it holds ${holds[file]}.` };
}
