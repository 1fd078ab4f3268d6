/**
 * Gives the wizard's worker the rules as one file of data beside the script, and each translation of them as another that is
 * loaded only where it is read. All is parsed and audited here, once, so that a browser loads neither the schemas nor the
 * audit; a build with rules that do not pass fails and says why.
 */
import { createHash } from 'node:crypto';
import { join } from 'node:path';
import type { Plugin } from 'vite';
import { SAYINGS } from '../knowledge/english-sayings.ts';
import { loadKnowledge, loadShop, loadTranslations } from '../knowledge/load.ts';
import { packKnowledge } from '../knowledge/packed.ts';
import { sayProblem } from '../knowledge/say-problem.ts';

const NAME = 'virtual:rules';

/** `folder`: the rules. The worker is built apart from the page and needs a plugin of its own; the page's emits the files. */
export function rulesFile(folder: string, use: 'page' | 'worker'): Plugin {
  let building = false;
  return {
    name: 'rules-file',
    configResolved({ command }) {
      building = command === 'build';
    },
    async buildStart() {
      if (!building || use !== 'page') return;
      const { rules, translations } = await readAll(folder);
      for (const text of [rules, ...translations.values()])
        this.emitFile({ type: 'asset', fileName: `assets/${nameOf(text)}`, source: text });
    },
    resolveId: (id) => (id === NAME ? `\0${NAME}` : null),
    async load(id) {
      if (id !== `\0${NAME}`) return null;
      const { rules, translations } = await readAll(folder);
      if (!building)
        return [
          `export const readRules = async () => (${rules});`,
          `const translations = {${[...translations].map(([language, text]) => `${JSON.stringify(language)}:${text}`).join(',')}};`,
          'export const readTranslation = async (language) => translations[language] ?? null;',
        ].join('\n');
      const files = Object.fromEntries([...translations].map(([language, text]) => [language, nameOf(text)]));
      return [
        'const read = async (file) => (await fetch(new URL(file, self.location.href))).json();',
        `export const readRules = () => read(${JSON.stringify(nameOf(rules))});`,
        `const files = ${JSON.stringify(files)};`,
        'export const readTranslation = async (language) => language in files ? read(files[language]) : null;',
      ].join('\n');
    },
  };
}

const nameOf = (text: string): string => `rules-${createHash('sha256').update(text).digest('hex').slice(0, 8)}.json`;

async function readAll(
  folder: string,
): Promise<{ readonly rules: string; readonly translations: ReadonlyMap<string, string> }> {
  const [parsed, shop] = await Promise.all([loadKnowledge(folder), loadShop(join(folder, 'shop.json'))]);
  const spoken = parsed.ok ? await loadTranslations(parsed.knowledge, folder) : { translations: [], problems: [] };
  const problems = [...(parsed.ok ? [] : parsed.problems), ...(shop.ok ? [] : shop.problems), ...spoken.problems];
  if (!parsed.ok || !shop.ok || problems.length > 0) throw new Error(problems.map(sayProblem).join('\n'));
  return {
    rules: JSON.stringify({ knowledge: { ...packKnowledge(parsed.knowledge), sayings: SAYINGS }, shop: shop.shop }),
    translations: new Map(spoken.translations.map((one) => [one.language, JSON.stringify(one)])),
  };
}
