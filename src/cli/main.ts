/** argv -> command -> exit code: 0 done, 1 bad input, 2 a fault of ours. Answers go to stdout, commentary to stderr. */
import { parseArgs } from 'node:util';
import packageFile from '../../package.json' with { type: 'json' };
import { assessCommand } from './assess.ts';
import { auditCommand } from './audit.ts';
import { BadInput, type Command, type CommandInput, type Flag } from './command.ts';
import { jointCommand } from './joint.ts';
import { knowledgeCommand } from './knowledge.ts';
import { letterCommand } from './letter.ts';
import { newCommand } from './new.ts';
import { nextCommand } from './next.ts';
import { profileCommand } from './profile.ts';
import { remediesCommand } from './remedies.ts';
import { revisitCommand } from './revisit.ts';
import { schemasCommand } from './schemas.ts';
import { serveCommand } from './serve.ts';
import { worksheetCommand } from './worksheet.ts';

const COMMANDS: readonly Command[] = [
  assessCommand,
  nextCommand,
  letterCommand,
  revisitCommand,
  worksheetCommand,
  remediesCommand,
  newCommand,
  profileCommand,
  jointCommand,
  serveCommand,
  auditCommand,
  knowledgeCommand,
  schemasCommand,
];

const { version: VERSION } = packageFile;

const EVERYWHERE: Readonly<Record<string, Flag>> = {
  json: { type: 'boolean', about: 'print the value itself as JSON (its JSON Schema: `worth-the-heat schemas <name>`)' },
  help: { type: 'boolean', short: 'h', about: 'this help' },
};

function flagLines(flags: Readonly<Record<string, Flag>>): string[] {
  return Object.entries(flags).map(([name, flag]) => {
    const shown = `--${name}${flag.type === 'string' ? ` <${flag.takes ?? 'value'}>` : ''}`;
    return `  ${shown.padEnd(28)} ${flag.about}`;
  });
}

function helpOverall(): string {
  return [
    'worth-the-heat: a dead graphics card in, a justified verdict out.',
    '',
    'usage: worth-the-heat <command> [options]',
    '',
    ...COMMANDS.map((command) => `  ${command.usage.padEnd(28)} ${command.about}`),
    '',
    'options everywhere',
    ...flagLines(EVERYWHERE),
    '  --version                    the version of this program (without a command)',
    '',
    'A record is a JSON file, or - for standard input. Begin with `worth-the-heat new my-card > my-card.json`,',
    'or try a worked case: `worth-the-heat assess cases/<one>.json`. `worth-the-heat <command> --help` tells more.',
    'Exit code: 0 done, 1 bad input, 2 a fault of this program. Figures are estimates, not promises.',
  ].join('\n');
}

function helpFor(command: Command): string {
  return [
    `usage: worth-the-heat ${command.usage} [options]`,
    '',
    command.about,
    ...(command.more.length > 0 ? ['', ...command.more] : []),
    '',
    'options',
    ...flagLines({ ...command.flags, ...EVERYWHERE }),
  ].join('\n');
}

function readInput(command: Command, args: string[]): CommandInput {
  const options = Object.fromEntries(
    Object.entries({ ...command.flags, ...EVERYWHERE }).map(([name, flag]) => [
      name,
      {
        type: flag.type,
        ...(flag.short === undefined ? {} : { short: flag.short }),
        ...(flag.multiple === true ? { multiple: true as const } : {}),
      },
    ]),
  );
  try {
    const { values, positionals, tokens } = parseArgs({
      args: withNegatives(args, options),
      options,
      allowPositionals: true,
      strict: true,
      tokens: true,
    });
    const given = new Set<string>();
    for (const token of tokens) {
      if (token.kind !== 'option' || token.value === undefined || options[token.name]?.multiple === true) continue;
      if (given.has(token.name))
        throw new BadInput(`${token.rawName} is given more than once, and only the last would count. Give it once.`);
      given.add(token.name);
    }
    if (positionals.length > 0 && command.usage === command.name)
      throw new BadInput(`${command.name} takes options only, and "${positionals[0]}" is none.`);
    return { positionals, values: values as CommandInput['values'] };
  } catch (error) {
    throw new BadInput(`${(error as Error).message}\nTry: worth-the-heat ${command.name} --help`);
  }
}

/** A figure below nought after an option belongs to it: what is wrong with the figure is the option's to say. */
function withNegatives(
  args: readonly string[],
  options: Readonly<Record<string, { readonly type: Flag['type'] }>>,
): string[] {
  const joined: string[] = [];
  for (const arg of args) {
    const before = joined.at(-1) ?? '';
    if (/^-[\d.,]/.test(arg) && before.startsWith('--') && options[before.slice(2)]?.type === 'string')
      joined[joined.length - 1] = `${before}=${arg}`;
    else joined.push(arg);
  }
  return joined;
}

export async function main(argv: readonly string[]): Promise<number> {
  const [first, ...others] = argv;
  // "help assess" is "assess --help"
  const [name, ...rest] = first === 'help' && others.length > 0 ? [...others, '--help'] : argv;
  if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
    process.stdout.write(`${helpOverall()}\n`);
    return name === undefined ? 1 : 0;
  }
  if (name === '--version') {
    process.stdout.write(`${VERSION}\n`);
    return 0;
  }
  const command = COMMANDS.find((known) => known.name === name);
  if (!command) {
    process.stderr.write(
      `There is no command "${name}". Commands: ${COMMANDS.map((known) => known.name).join(', ')}. Try: worth-the-heat --help\n`,
    );
    return 1;
  }
  try {
    const input = readInput(command, rest);
    if (input.values.help === true) {
      process.stdout.write(`${helpFor(command)}\n`);
      return 0;
    }
    return await command.run(input);
  } catch (error) {
    if (error instanceof BadInput) {
      process.stderr.write(`${error.message}\n`);
      return 1;
    }
    process.stderr.write(
      `This is a fault of the program, not of your input: please keep the record and these lines.\n${(error as Error).stack ?? String(error)}\n`,
    );
    return 2;
  }
}

process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  // the reader of a pipe may leave early (`| head`)
  if (error.code === 'EPIPE') process.exit(0);
  process.stderr.write(`The answer cannot be written (${error.message}). Make room there, or send it elsewhere.\n`);
  process.exit(1);
});
process.exitCode = await main(process.argv.slice(2));
