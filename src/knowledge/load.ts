/** The knowledge on disk. Only this file of the folder knows that there is a disk. */
import { readdir, readFile } from 'node:fs/promises';
import { join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseShop } from '../shop/parse.ts';
import type { Shop } from '../shop/schema.ts';
import { inOrder } from './audit.ts';
import type { Problem } from './knowledge.ts';
import { type ParsedKnowledge, parseKnowledge } from './parse.ts';

export const RULES_FOLDER = fileURLToPath(new URL('../../rules', import.meta.url));

/** Reads and parses the knowledge; files that are no JSON are problems like any other, and hide none. */
export async function loadKnowledge(folder: string = RULES_FOLDER): Promise<ParsedKnowledge> {
  const { files, problems } = await readRules(folder);
  const parsed = await parseKnowledge(files);
  if (problems.length === 0) return parsed;
  return { ok: false, problems: inOrder([...problems, ...(parsed.ok ? [] : parsed.problems)]) };
}

/** Every JSON file under the folder as path -> content. A file that is no JSON is kept as undefined, with its problem. */
export async function readRules(folder: string): Promise<{ files: Map<string, unknown>; problems: Problem[] }> {
  const files = new Map<string, unknown>();
  const problems: Problem[] = [];
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  for (const entry of entries) {
    if (!entry.isFile() || !entry.name.endsWith('.json')) continue;
    const path = join(entry.parentPath, entry.name);
    const file = relative(folder, path).split(sep).join('/');
    const read = readJson(await readFile(path, 'utf8'));
    if (read.ok) files.set(file, read.value);
    else problems.push({ file, path: '', kind: 'bad-json', wrong: read.wrong, todo: read.todo });
  }
  return { files, problems };
}

export type LoadedShop =
  | { readonly ok: true; readonly shop: Shop }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** The shop profile; without a path the default one beside the knowledge. */
export async function loadShop(path: string = join(RULES_FOLDER, 'shop.json')): Promise<LoadedShop> {
  let text: string;
  try {
    text = await readFile(path, 'utf8');
  } catch (cause) {
    const why = (cause as NodeJS.ErrnoException).code === 'ENOENT' ? 'there is no such file' : (cause as Error).message;
    return {
      ok: false,
      problems: [{ file: path, path: '', kind: 'no-file', wrong: why, todo: 'Give the path of a shop profile.' }],
    };
  }
  const read = readJson(text);
  if (!read.ok)
    return { ok: false, problems: [{ file: path, path: '', kind: 'bad-json', wrong: read.wrong, todo: read.todo }] };
  return parseShop(path, read.value);
}

type ReadJson =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly wrong: string; readonly todo: string };

/** JSON, or where it stops being JSON: line and column, both from one. */
export function readJson(text: string): ReadJson {
  try {
    return { ok: true, value: JSON.parse(text) };
  } catch (cause) {
    const message = (cause as SyntaxError).message;
    const position = Number(/position (\d+)/.exec(message)?.[1] ?? text.trimEnd().length);
    const before = text.slice(0, position).split('\n');
    const at = `line ${before.length}, column ${before.at(-1)!.length + 1}`;
    return {
      ok: false,
      wrong: `this is not JSON: ${message.replace(/ in JSON at position.*$/, '').replace(/^(.)/, (c) => c.toLowerCase())} (${at})`,
      todo: 'Look just before that place for a missing comma, bracket or quotation mark, or a comma too many.',
    };
  }
}
