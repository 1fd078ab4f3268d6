/** Gives the wizard's worker the rules as one file of data beside the script, fetched and parsed as data. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import type { Plugin } from 'vite';

const NAME = 'virtual:rules';
const SCHEMAS = 'schemas/';

/** `folder`: the rules. The worker is built apart from the page and needs a plugin of its own; the page's emits the file. */
export function rulesFile(folder: string, use: 'page' | 'worker'): Plugin {
  const text = JSON.stringify(rulesIn(folder));
  const file = `rules-${createHash('sha256').update(text).digest('hex').slice(0, 8)}.json`;
  let building = false;
  return {
    name: 'rules-file',
    configResolved({ command }) {
      building = command === 'build';
    },
    buildStart() {
      if (building && use === 'page') this.emitFile({ type: 'asset', fileName: `assets/${file}`, source: text });
    },
    resolveId: (id) => (id === NAME ? `\0${NAME}` : null),
    load(id) {
      if (id !== `\0${NAME}`) return null;
      if (!building) return `export const readRules = async () => (${JSON.stringify(rulesIn(folder))});`;
      return `export const readRules = async () => (await fetch(new URL(${JSON.stringify(file)}, self.location.href))).json();`;
    },
  };
}

/** Content by path under the rules' folder. */
function rulesIn(folder: string): { readonly [path: string]: unknown } {
  const paths = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.json'))
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .filter((path) => !path.startsWith(SCHEMAS))
    .sort();
  return Object.fromEntries(paths.map((path) => [path, JSON.parse(readFileSync(join(folder, path), 'utf8'))]));
}
