/** The shop profile: one JSON file in the data folder that the user edits. */
import { copyFileSync, existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { lineOf } from '../knowledge/line-of.ts';
import { NOT_UTF_8, readJson, textOf } from '../knowledge/load.ts';
import { parseShop } from '../shop/parse.ts';
import type { FoundShop } from './store.ts';

export interface ShopFile {
  read(): FoundShop;
  write(shop: unknown): FoundShop;
}

/** Opens the profile at `path`; where there is none yet, it starts as a copy of `template`. */
export function openShopFile(path: string, template: string): ShopFile {
  if (!existsSync(path)) seed(path, template);
  return {
    read() {
      let text: string | null;
      try {
        text = textOf(readFileSync(path));
      } catch (cause) {
        const wrong = `the shop profile cannot be read (${(cause as Error).message})`;
        const todo = 'Put the file back, or remove it and start again: a new one is made.';
        return { ok: false, problems: [{ file: path, path: '', kind: 'no-file', wrong, todo }] };
      }
      if (text === null) return { ok: false, problems: [{ file: path, path: '', kind: 'bad-encoding', ...NOT_UTF_8 }] };
      const json = readJson(text);
      if (json.ok) return withLines(parseShop(path, json.value), text);
      return {
        ok: false,
        problems: [{ file: path, path: '', kind: 'bad-json', wrong: json.wrong, todo: json.todo, told: json.told }],
      };
    },
    write(shop) {
      const parsed = parseShop(path, shop);
      if (!parsed.ok) return parsed;
      // what was edited by hand stays beside it, and a crash leaves one of the two whole
      if (existsSync(path)) copyFileSync(path, `${path}.before`);
      replaceFile(path, parsed.shop);
      return parsed;
    },
  };
}

/** The file is edited by hand: what is wrong in it is said with its line. */
function withLines(found: FoundShop, text: string): FoundShop {
  if (found.ok) return found;
  return { ok: false, problems: found.problems.map((problem) => ({ ...problem, line: lineOf(text, problem.path) })) };
}

function seed(path: string, template: string): void {
  const { $schema: _, ...profile } = JSON.parse(readFileSync(template, 'utf8'));
  replaceFile(path, profile);
}

function replaceFile(path: string, value: unknown): void {
  const fresh = `${path}.new`;
  writeFileSync(fresh, `${JSON.stringify(value, null, 2)}\n`, { flush: true });
  renameSync(fresh, path);
}
