/** The knowledge on disk. Only this file of the folder knows that there is a disk. */
import { readdir, readFile } from 'node:fs/promises';
import { join, relative, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type ParsedShop, parseShop } from '../shop/parse.ts';
import { readTranslations } from './audit-languages.ts';
import { Unreadable } from './draft.ts';
import { jsonFaults } from './json-faults.ts';
import type { Knowledge } from './knowledge.ts';
import { type ParsedKnowledge, parseKnowledge } from './parse.ts';
import { type Told, tell } from './schema-sayings.ts';
import { translate } from './translation.ts';

export const RULES_FOLDER = fileURLToPath(new URL('../../rules', import.meta.url));

/** Reads and parses the knowledge; files that are no JSON are problems like any other, and hide none. */
export async function loadKnowledge(folder: string = RULES_FOLDER): Promise<ParsedKnowledge> {
  let files: ReadonlyMap<string, unknown>;
  try {
    files = await readRules(folder);
  } catch (cause) {
    const todo = 'Give the path of a folder with the knowledge, laid out as rules/ is.';
    const problem = { file: resolve(folder), path: '', kind: 'no-folder', wrong: whyUnread(cause), todo };
    return { ok: false, problems: [problem] };
  }
  return parseKnowledge(files);
}

/** The translations beside this knowledge, with all that is wrong with them. */
export async function loadTranslations(
  knowledge: Knowledge,
  folder: string = RULES_FOLDER,
): Promise<ReturnType<typeof readTranslations>> {
  return readTranslations(await readRules(folder), knowledge);
}

/** The knowledge in that language, as far as it is translated; as it is where there is no translation. */
export async function inLanguage(knowledge: Knowledge, language: string, folder?: string): Promise<Knowledge> {
  const { translations } = await loadTranslations(knowledge, folder);
  const found = translations.find((one) => one.language === language);
  return found === undefined ? knowledge : translate(knowledge, found);
}

/** Every JSON file under the folder: path -> content, or why it cannot be read. */
export async function readRules(folder: string): Promise<Map<string, unknown>> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  const files = entries.filter((entry) => entry.isFile() && entry.name.endsWith('.json'));
  const read = files.map(async (entry): Promise<[string, unknown]> => {
    const path = join(entry.parentPath, entry.name);
    const content = readJson(await readFile(path, 'utf8'));
    const file = relative(folder, path).split(sep).join('/');
    return [file, content.ok ? content.value : new Unreadable(content.wrong, content.todo)];
  });
  return new Map(await Promise.all(read));
}

export type LoadedShop = ParsedShop;

/** The shop profile; without a path the default one beside the knowledge. */
export async function loadShop(path: string = join(RULES_FOLDER, 'shop.json')): Promise<LoadedShop> {
  const file = resolve(path);
  const broken = (kind: string, wrong: string, todo: string): LoadedShop => ({
    ok: false,
    problems: [{ file, path: '', kind, wrong, todo }],
  });
  let text: string | null;
  try {
    text = textOf(await readFile(file));
  } catch (cause) {
    return broken('no-file', whyUnread(cause), 'Give the path of a shop profile, such as a copy of rules/shop.json.');
  }
  if (text === null) return broken('bad-encoding', NOT_UTF_8.wrong, NOT_UTF_8.todo);
  const read = readJson(text);
  return read.ok ? parseShop(file, read.value) : broken('bad-json', read.wrong, read.todo);
}

function whyUnread(cause: unknown): string {
  const { code, message } = cause as NodeJS.ErrnoException;
  if (code === 'ENOENT') return 'there is nothing here';
  if (code === 'EISDIR') return 'this is a folder, not a file';
  if (code === 'ENOTDIR') return 'this is a file, not a folder';
  return `it cannot be read (${message})`;
}

export const NOT_UTF_8 = tell('not-utf-8', {});

/** Null where it is no UTF-8: such a byte would come out as a question mark, and what was typed would be lost. */
export function textOf(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return null;
  }
}

type ReadJson =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly wrong: string; readonly todo: string; readonly told: Told };

/** JSON, or where it stops being JSON or says one thing twice: line and column, both from one. */
export function readJson(content: string): ReadJson {
  const text = content.replace(/^\uFEFF/, '');
  const [fault] = jsonFaults(text);
  if (fault === undefined) return { ok: true, value: JSON.parse(text) };
  const before = text.slice(0, fault.at).split('\n');
  const place = { line: before.length, column: before.at(-1)!.length + 1 };
  if (fault.repeated !== undefined) return { ok: false, ...tell('stands-twice', { key: fault.repeated, ...place }) };
  const rest = text.slice(fault.at).split('\n')[0]!.trim().slice(0, 20);
  return { ok: false, ...tell('no-json', { ...place, at: rest }) };
}
