/**
 * Leaves out of the wizard what every zod schema carries along and no record needs: the part that writes JSON Schemas (8 kB
 * compressed; only the command `schemas` asks for it, and here each of its functions refuses), the one that follows
 * cycles (what was parsed from JSON has none), and its own sentences (`record/parse.ts` has better ones).
 */
import type { Plugin } from 'vite';

const WRITERS = /[\\/]zod[\\/]v4[\\/]core[\\/](json-schema-processors|to-json-schema)\.js$/;
const CYCLES = /[\\/]zod[\\/]v4[\\/]core[\\/]memoizer\.js$/;
const NO_CYCLES =
  'export const memoizer = () => undefined, isBackEdge = () => false, isRecursiveSchema = () => false;\n';
const SENTENCES = /[\\/]zod[\\/]v4[\\/]locales[\\/]en\.js$/;
const NO_SENTENCES = "export default () => ({ localeError: () => 'it does not fit' });\n";
const EXPORTED = /^export (?:function|const) (\w+)/gm;
const REFUSE = '() => { throw new Error(\'The wizard writes no JSON Schemas: run the command "schemas".\'); }';

export function leanParser(): Plugin {
  return {
    name: 'lean-parser',
    enforce: 'pre',
    apply: 'build',
    transform(code, id) {
      // zod does without where there is none
      if (CYCLES.test(id)) return { code: NO_CYCLES, map: null };
      if (SENTENCES.test(id)) return { code: NO_SENTENCES, map: null };
      if (!WRITERS.test(id)) return null;
      const names = [...code.matchAll(EXPORTED)].map(([, name]) => name!);
      // the two makers of methods are called when a schema is made; what they make is not
      const stand = names.map(
        (name) => `export const ${name} = ${name.startsWith('create') ? '() => refuse' : 'refuse'};`,
      );
      return { code: `const refuse = ${REFUSE};\n${stand.join('\n')}\n`, map: null };
    },
  };
}
