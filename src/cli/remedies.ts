import { existsSync } from 'node:fs';
import { readdir, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { inLanguage, RULES_FOLDER } from '../knowledge/load.ts';
import { sayProblem } from '../knowledge/say-problem.ts';
import { LASTING_LANGUAGES, type LastingLanguage } from '../lasting/messages/messages.ts';
import { lastingHtml } from '../lasting/page.ts';
import type { RemediesAnswer } from '../learning/answer.ts';
import { remediesFrom } from '../learning/remedies.ts';
import { parseRecord } from '../record/parse.ts';
import type { Record as CardRecord } from '../record/schema.ts';
import type { Learnt } from '../shop/schema.ts';
import { shopNameIn } from '../shop/shipped-name.ts';
import { dataFolder } from '../store/data-folder.ts';
import { openStore } from '../store/sqlite-store.ts';
import type { Store } from '../store/store.ts';
import { BadInput, type Command, type CommandInput, printJson, stringFlag, wholeFlag } from './command.ts';
import { KNOWLEDGE_FLAG, readJson, readKnowledge, readShop, SHOP_FLAG } from './reading.ts';
import { remediesText } from './remedies-text.ts';

export const remediesCommand: Command = {
  name: 'remedies',
  usage: 'remedies [record ...]',
  about: "how long the shop's own repairs last, and the times to relapse that its records teach",
  more: [
    'Reads the records of the data folder, or the files and folders named. Each repair that left the bench working is followed',
    'until the card came back or the last word of it (still-working, closed). A comeback counts against the remedy by how likely the',
    'assessment holds that it relapsed, did not take or was damaged by the work; a wrong diagnosis and a new fault only end the time.',
    'Survival is the product-limit estimate with 95 % limits. Of cards handed back and never heard of nothing is known: --silent-until',
    'takes silence for a working card, up to that day and within the warranty. Invented cards are left out unless --invented is given.',
    'The time to relapse of the book is nudged by few cases and decided by many; --write states what was learnt in the shop profile,',
    'and every later assessment reckons with it.',
  ],
  flags: {
    rules: KNOWLEDGE_FLAG,
    shop: SHOP_FLAG,
    data: { type: 'string', takes: 'folder', about: 'data folder to read, and to write to' },
    'max-faults': { type: 'string', takes: 'K', about: 'most faults at once, 1 to 4 (default 3)' },
    'silent-until': {
      type: 'string',
      takes: 'day',
      about: 'no word is a good word up to this day (2026-03-31), within the warranty',
    },
    invented: { type: 'boolean', about: 'count invented cards, too (to try it out)' },
    html: { type: 'string', takes: 'file', about: 'write it as one HTML page with each curve drawn' },
    language: { type: 'string', takes: LASTING_LANGUAGES.join('|'), about: 'language of that page (default en)' },
    write: { type: 'boolean', about: 'put what was learnt into the shop profile of the data folder' },
  },
  run: async (input) => {
    const write = input.values.write === true;
    if (write && stringFlag(input, 'shop') !== undefined)
      throw new BadInput(
        '--write writes to the profile in the data folder: leave --shop out, or copy "learnt" from --json.',
      );
    if (write && input.values.invented === true)
      throw new BadInput('Invented cards teach nothing: --write and --invented do not go together.');
    const language = languageFlag(input);
    const html = stringFlag(input, 'html');
    const rules = await readKnowledge(input);
    const knowledge = language === undefined ? rules : await inLanguage(rules, language, stringFlag(input, 'rules'));
    const shop = await readShop(withFolder(input), knowledge);
    const until = dayFlag(input, 'silent-until');
    const named = input.positionals;
    const found = named.length > 0 ? await recordsNamed(named) : storedRecords(folderOf(input));
    const records = found.filter(({ invented }) => input.values.invented === true || invented !== true);
    if (records.length < found.length)
      process.stderr.write(
        `${found.length - records.length} invented card(s) left out; --invented counts them, too.\n`,
      );
    const answer = await remediesFrom(knowledge, shop, records, {
      maxFaults: wholeFlag(input, 'max-faults', 3, 1, 4),
      ...(until === undefined ? {} : { silence: { until, warrantyDays: shop.warrantyDays } }),
    });
    if (html !== undefined)
      await writeHtml(
        html,
        lastingHtml(answer, {
          shop: shopNameIn(language ?? 'en', shop.name),
          language: language ?? 'en',
          locale: shop.locale.startsWith(language ?? 'en') ? shop.locale : (language ?? 'en'),
          invented: records.some(({ invented }) => invented === true),
        }),
      );
    if (input.values.json === true) printJson(answer);
    else if (html === undefined) process.stdout.write(`${remediesText(answer, shop.locale)}\n`);
    if (write) writeLearnt(folderOf(input), knowledge, answer);
    return 0;
  },
};

function languageFlag(input: CommandInput): LastingLanguage | undefined {
  const typed = stringFlag(input, 'language');
  if (typed === undefined) return undefined;
  if (input.values.html === undefined)
    throw new BadInput('--language is that of the page: name its file, too, with --html.');
  const known = LASTING_LANGUAGES.find((one) => one === typed.toLowerCase());
  if (!known) throw new BadInput(`--language takes ${LASTING_LANGUAGES.join(' or ')}; "${typed}" is neither.`);
  return known;
}

async function writeHtml(file: string, text: string): Promise<void> {
  try {
    await writeFile(file, text);
  } catch (error) {
    throw new BadInput(
      `${file}: the page could not be written (${(error as Error).message}). Name a file in a folder that is there.`,
    );
  }
  process.stderr.write(`Wrote ${file}.\n`);
}

function folderOf(input: CommandInput): string {
  return stringFlag(input, 'data') ?? dataFolder();
}

/** The profile of the folder named by --data, unless another is named. */
function withFolder(input: CommandInput): CommandInput {
  const own = join(folderOf(input), 'shop.json');
  if (stringFlag(input, 'data') === undefined || stringFlag(input, 'shop') !== undefined || !existsSync(own))
    return input;
  return { ...input, values: { ...input.values, shop: own } };
}

function dayFlag(input: CommandInput, name: string): string | undefined {
  const typed = stringFlag(input, name);
  if (typed === undefined) return undefined;
  const time = /^\d{4}-\d{2}-\d{2}$/.test(typed) ? Date.parse(`${typed}T00:00:00Z`) : Number.NaN;
  // a 31st of February is read as a day of March
  if (Number.isNaN(time) || new Date(time).toISOString().slice(0, 10) !== typed)
    throw new BadInput(`--${name} takes a day such as 2026-03-31; "${typed}" is not one.`);
  return `${typed}T00:00:00Z`;
}

async function recordsNamed(paths: readonly string[]): Promise<CardRecord[]> {
  const files: string[] = [];
  for (const path of paths) {
    const isFolder = path !== '-' && (await stat(path).catch(() => null))?.isDirectory();
    if (!isFolder) {
      files.push(path);
      continue;
    }
    const inside = (await readdir(path)).filter((name) => name.endsWith('.json')).sort();
    if (inside.length === 0) throw new BadInput(`${path}: there is no record in this folder (*.json).`);
    files.push(...inside.map((name) => join(path, name)));
  }
  const records: CardRecord[] = [];
  const wrong: string[] = [];
  for (const file of files) {
    const parsed = parseRecord(await readJson(file));
    if (parsed.ok) records.push(parsed.record);
    else wrong.push(...parsed.issues.map((issue) => `${file}: ${issue.path}: ${issue.wrong} ${issue.todo}`));
  }
  if (wrong.length > 0) throw new BadInput(`Not every record can be used as it is.\n${wrong.join('\n')}`);
  const twice = records.find(({ id }, at) => records.findIndex((other) => other.id === id) < at);
  if (twice)
    throw new BadInput(`The record "${twice.id}" is there twice: name each card once, or it would count twice.`);
  return records;
}

/** Archived cards count: what is done with is just what teaches. One that cannot be read is told, and left out. */
function storedRecords(folder: string): CardRecord[] {
  if (!existsSync(join(folder, 'records.sqlite')))
    throw new BadInput(
      `${folder}: no records are kept here yet. Name record files or folders, or another folder with --data.`,
    );
  return withStore(folder, (store) =>
    store.list().flatMap(({ id }) => {
      const found = store.get(id);
      if (found.kind === 'found') return [found.stored.record];
      process.stderr.write(
        `${id}: this record cannot be read and is left out. The wizard shows what is wrong with it.\n`,
      );
      return [];
    }),
  );
}

function writeLearnt(folder: string, knowledge: Knowledge, { learnt, relapse }: RemediesAnswer): void {
  if (relapse.length === 0) {
    process.stderr.write('Nothing was learnt yet, so nothing was written.\n');
    return;
  }
  const known: Learnt = learnt;
  withStore(folder, (store) => {
    const before = store.shop();
    const after = before.ok ? store.putShop({ ...before.shop, learnt: known }) : before;
    if (!after.ok)
      throw new BadInput(`The shop profile could not be written:\n${after.problems.map(sayProblem).join('\n')}`);
  });
  process.stderr.write(
    `Written to ${join(folder, 'shop.json')} (the one before: shop.json.before), learnt with knowledge ${knowledge.version}. Take "learnt" out to go back to the book.\n`,
  );
}

function withStore<T>(folder: string, use: (store: Store) => T): T {
  let store: Store;
  try {
    store = openStore({ folder, shopTemplate: join(RULES_FOLDER, 'shop.json') });
  } catch (error) {
    throw new BadInput(
      `${folder}: this data folder cannot be used (${(error as Error).message}). Name another with --data.`,
    );
  }
  try {
    return use(store);
  } finally {
    store.close();
  }
}
