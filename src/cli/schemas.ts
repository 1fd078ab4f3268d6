import { publishedSchemas } from '../knowledge/published.ts';
import { writeSchemas } from '../knowledge/write-schemas.ts';
import { BadInput, type Command, printJson } from './command.ts';

export const schemasCommand: Command = {
  name: 'schemas',
  usage: 'schemas [name]',
  about: 'prints the JSON Schema of a kind of file or answer; with --write, renews rules/schemas/',
  more: ['Without a name: the names. With one, such as `assessment` or `record`: its JSON Schema.'],
  flags: { write: { type: 'boolean', about: 'write all of them to rules/schemas/' } },
  run: async (input) => {
    if (input.values.write === true) {
      const written = await writeSchemas();
      process.stderr.write(`Wrote ${written.length} schemas to rules/schemas/.\n`);
      return 0;
    }
    const schemas = publishedSchemas();
    const [name] = input.positionals;
    if (name === undefined) {
      const names = [...schemas.keys()];
      if (input.values.json === true) printJson(names);
      else process.stdout.write(`${names.join('\n')}\n`);
      return 0;
    }
    const schema = schemas.get(name);
    if (!schema) throw new BadInput(`There is no schema "${name}". There are: ${[...schemas.keys()].join(', ')}.`);
    printJson(schema);
    return 0;
  },
};
