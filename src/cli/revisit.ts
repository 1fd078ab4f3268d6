import { lifeline } from '../assess/timeline.ts';
import { wordsFor } from '../assess/words.ts';
import { assess } from '../assess.ts';
import type { RevisitAnswer } from '../lifeline.ts';
import { assessFlags } from './assess.ts';
import { assessmentText, comebackLines, nextLines, verdictLines } from './assess-text.ts';
import { BadInput, type Command, printJson, wholeFlag } from './command.ts';
import { warnOfOpenWork } from './open-work-warning.ts';
import { readJson, readKnowledge, readShop, recordPath } from './reading.ts';
import { lifelineLines, secondAttemptLines } from './revisit-text.ts';

export const revisitCommand: Command = {
  name: 'revisit',
  usage: 'revisit <record>',
  about:
    'a card after work: its life with the belief under it, why it fails again, and whether a second attempt is justified',
  more: [
    'The record holds what was done: an event "treated" (remedy, and whether the card worked afterwards), and where it left the',
    'bench "handed-back" (with what was paid), "still-working" and "came-back" (with workedDays where known). The five',
    'explanations sum to one.',
  ],
  flags: assessFlags,
  run: async (input) => {
    const path = recordPath(input, 'revisit');
    const [record, knowledge] = await Promise.all([readJson(path), readKnowledge(input)]);
    const shop = await readShop(input, knowledge);
    const maxFaults = wholeFlag(input, 'max-faults', 3, 1, 4);
    const assessment = await assess(knowledge, shop, record, { maxFaults, draws: 0 });
    const life = await lifeline(knowledge, shop, record, { maxFaults });
    if (assessment.kind === 'bad-record' || life.kind === 'bad-record') {
      if (input.values.json !== true)
        throw new BadInput(`${path}: this record cannot be used as it is.\n${assessmentText(assessment, shop.locale)}`);
      printJson(assessment);
      return 1;
    }
    if (assessment.kind === 'assessed' && !assessment.comeback)
      throw new BadInput(
        'No work on the card is recorded: there is nothing to revisit. `worth-the-heat assess` judges it as it arrived.',
      );
    warnOfOpenWork(record, knowledge);
    if (input.values.json === true) {
      printJson({ kind: 'revisit', format: 1, assessment, lifeline: life } satisfies RevisitAnswer);
      return 0;
    }
    const say = wordsFor(shop.locale, shop.currency);
    const lines =
      assessment.kind === 'contradiction'
        ? [assessmentText(assessment, shop.locale), '', ...lifelineLines(life, say, shop.locale)]
        : [
            assessment.title,
            '',
            ...lifelineLines(life, say, shop.locale),
            '',
            ...comebackLines(assessment, say),
            ...secondAttemptLines(assessment, say, shop.locale),
            '',
            ...verdictLines(assessment, say),
            '',
            ...nextLines(assessment, say),
          ];
    process.stdout.write(`${lines.join('\n')}\n`);
    return 0;
  },
};
