import { assess } from '../assess.ts';
import type { Assessment } from '../assessment.ts';
import { assessmentText } from './assess-text.ts';
import { BadInput, type Command, type CommandInput, printJson, wholeFlag } from './command.ts';
import { warnOfOpenWork } from './open-work-warning.ts';
import { KNOWLEDGE_FLAG, readJson, readKnowledge, readShop, recordPath, SHOP_FLAG } from './reading.ts';

export const assessFlags = {
  rules: KNOWLEDGE_FLAG,
  shop: SHOP_FLAG,
  'max-faults': { type: 'string', takes: 'K', about: 'most faults at once, 1 to 4 (default 3)' },
} as const;

/** The assessment of the record that the command line names. A bad record is bad input, with every issue. */
export async function assessNamed(
  input: CommandInput,
  command: string,
  draws: number,
  seed: number,
): Promise<{ assessment: Assessment; locale: string }> {
  const path = recordPath(input, command);
  const [record, knowledge] = await Promise.all([readJson(path), readKnowledge(input)]);
  const shop = await readShop(input, knowledge);
  const maxFaults = wholeFlag(input, 'max-faults', 3, 1, 4);
  const assessment = await assess(knowledge, shop, record, { maxFaults, draws, seed });
  if (assessment.kind === 'bad-record' && input.values.json !== true)
    throw new BadInput(`${path}: this record cannot be used as it is.\n${assessmentText(assessment, shop.locale)}`);
  warnOfOpenWork(record, knowledge);
  return { assessment, locale: shop.locale };
}

export const assessCommand: Command = {
  name: 'assess',
  usage: 'assess <record>',
  about: 'likely causes with reasons, the next check, and the verdict with cost, chance and price band',
  more: [
    'Reads a record (a JSON file, or - for standard input) and prints what it leads to. With --draws the verdict is tried',
    'against that many draws of every estimate it rests on; the same seed gives the same draws.',
  ],
  flags: {
    ...assessFlags,
    draws: { type: 'string', takes: 'N', about: 'parameter draws for how firm the verdict is (default 1000; 0: none)' },
    seed: { type: 'string', takes: 'S', about: 'seed of the draws (default 1)' },
  },
  run: async (input) => {
    const draws = wholeFlag(input, 'draws', 1000, 0, 100_000);
    const seed = wholeFlag(input, 'seed', 1, 0, 2 ** 31 - 1);
    const { assessment, locale } = await assessNamed(input, 'assess', draws, seed);
    if (input.values.json === true) printJson(assessment);
    else process.stdout.write(`${assessmentText(assessment, locale)}\n`);
    return assessment.kind === 'bad-record' ? 1 : 0;
  },
};
