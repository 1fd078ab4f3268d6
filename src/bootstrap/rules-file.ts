/**
 * Gives the wizard's worker the rules as one file of data beside the script. They are parsed and audited here, once, so
 * that a browser loads neither the schemas nor the audit; a build with rules that do not pass fails and says why.
 */
import { createHash } from 'node:crypto';
import { join } from 'node:path';
import type { Plugin } from 'vite';
import { loadKnowledge, loadShop } from '../knowledge/load.ts';
import { packKnowledge } from '../knowledge/packed.ts';
import { sayProblem } from '../knowledge/say-problem.ts';

const NAME = 'virtual:rules';

/** `folder`: the rules. The worker is built apart from the page and needs a plugin of its own; the page's emits the file. */
export function rulesFile(folder: string, use: 'page' | 'worker'): Plugin {
  let building = false;
  return {
    name: 'rules-file',
    configResolved({ command }) {
      building = command === 'build';
    },
    async buildStart() {
      if (!building || use !== 'page') return;
      const text = await readRules(folder);
      this.emitFile({ type: 'asset', fileName: `assets/${nameOf(text)}`, source: text });
    },
    resolveId: (id) => (id === NAME ? `\0${NAME}` : null),
    async load(id) {
      if (id !== `\0${NAME}`) return null;
      const text = await readRules(folder);
      if (!building) return `export const readRules = async () => (${text});`;
      return `export const readRules = async () => (await fetch(new URL(${JSON.stringify(nameOf(text))}, self.location.href))).json();`;
    },
  };
}

const nameOf = (text: string): string => `rules-${createHash('sha256').update(text).digest('hex').slice(0, 8)}.json`;

async function readRules(folder: string): Promise<string> {
  const [parsed, shop] = await Promise.all([loadKnowledge(folder), loadShop(join(folder, 'shop.json'))]);
  const problems = [...(parsed.ok ? [] : parsed.problems), ...(shop.ok ? [] : shop.problems)];
  if (!parsed.ok || !shop.ok) throw new Error(problems.map(sayProblem).join('\n'));
  return JSON.stringify({ knowledge: packKnowledge(parsed.knowledge), shop: shop.shop });
}
