/** Files in: a record from a file or standard input, the knowledge, the shop profile. Everything wrong is said at once. */
import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { buffer } from 'node:stream/consumers';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { loadKnowledge, loadShop, NOT_UTF_8, readJson as readJsonText, textOf } from '../knowledge/load.ts';
import { sayProblem } from '../knowledge/say-problem.ts';
import { auditShop } from '../shop/audit.ts';
import type { Shop } from '../shop/schema.ts';
import { dataFolder } from '../store/data-folder.ts';
import { BadInput, type CommandInput, type Flag, stringFlag } from './command.ts';

export const KNOWLEDGE_FLAG: Flag = {
  type: 'string',
  takes: 'folder',
  about: "knowledge to use instead of this project's rules/",
};
export const SHOP_FLAG: Flag = {
  type: 'string',
  takes: 'file',
  about: 'shop profile (money, policy, meters) to use instead of your own in the data folder',
};

/** How a kind of file is asked for, and what it is: said where it cannot be read. */
export interface FileKind {
  readonly what: string;
  readonly is: string;
}

const RECORD_FILE: FileKind = {
  what: 'a record file, or - for standard input',
  is: 'A record is a JSON object; `worth-the-heat new` writes one.',
};

/** Parsed JSON of a record's file, or of standard input for `-`. */
export async function readJson(path: string): Promise<unknown> {
  return (await readJsonFile(path, RECORD_FILE)).value;
}

/** Text and value of a JSON file: UTF-8 only, nothing in it twice, faults by line and column. */
export async function readJsonFile(path: string, kind: FileKind): Promise<{ text: string; value: unknown }> {
  const where = path === '-' ? 'standard input' : path;
  const text = decoded(where, await bytesOf(path, kind));
  if (text.trim() === '') throw new BadInput(`${where}: it is empty. ${kind.is}`);
  const read = readJsonText(text);
  if (read.ok) return { text, value: read.value };
  throw new BadInput(`${where}: ${read.wrong}. ${read.todo} ${kind.is}`);
}

async function bytesOf(path: string, { what }: FileKind): Promise<Buffer> {
  try {
    return path === '-' ? await buffer(process.stdin) : await readFile(path);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    const wrong =
      code === 'ENOENT' ? 'there is no such file' : code === 'EISDIR' ? 'that is a folder' : (error as Error).message;
    throw new BadInput(`${path}: ${wrong}. Name ${what}.`);
  }
}

function decoded(where: string, bytes: Buffer): string {
  const text = textOf(bytes);
  if (text === null) throw new BadInput(`${where}: ${NOT_UTF_8.wrong}. ${NOT_UTF_8.todo}`);
  return text;
}

export function recordPath(input: CommandInput, command: string): string {
  const [path, ...more] = input.positionals;
  if (path === undefined)
    throw new BadInput(`Name a record file, or - for standard input: worth-the-heat ${command} <record>`);
  if (more.length > 0) throw new BadInput(`One record at a time: "${more[0]}" is one too many.`);
  return path;
}

export async function readKnowledge(input: CommandInput): Promise<Knowledge> {
  const loaded = await loadKnowledge(stringFlag(input, 'rules'));
  if (loaded.ok) return loaded.knowledge;
  throw new BadInput(
    `The knowledge is not sound: ${loaded.problems.length} problem(s).\n${loaded.problems.map(sayProblem).join('\n')}`,
  );
}

/** The profile named by --shop, else the bench's own in the data folder, else the default. */
export async function readShop(input: CommandInput, knowledge: Knowledge): Promise<Shop> {
  const own = join(dataFolder(), 'shop.json');
  const path = stringFlag(input, 'shop') ?? (existsSync(own) ? own : undefined);
  const loaded = await loadShop(path);
  const problems = loaded.ok
    ? auditShop(path ?? 'shop.json', loaded.shop, knowledge.bench, knowledge)
    : loaded.problems;
  if (loaded.ok && problems.length === 0) return loaded.shop;
  throw new BadInput(`The shop profile is not sound.\n${problems.map(sayProblem).join('\n')}`);
}
