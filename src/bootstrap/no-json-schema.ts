/**
 * Leaves out of the wizard the part of zod that writes JSON Schemas. Every schema carries it along, 8 kB compressed, and only the
 * command `schemas` asks for it: in the wizard each of its functions refuses.
 */
import type { Plugin } from 'vite';

const WRITERS = /[\\/]zod[\\/]v4[\\/]core[\\/](json-schema-processors|to-json-schema)\.js$/;
const EXPORTED = /^export (?:function|const) (\w+)/gm;
const REFUSE = '() => { throw new Error(\'The wizard writes no JSON Schemas: run the command "schemas".\'); }';

export function noJsonSchema(): Plugin {
  return {
    name: 'no-json-schema',
    enforce: 'pre',
    apply: 'build',
    transform(code, id) {
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
