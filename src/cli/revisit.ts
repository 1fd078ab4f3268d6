import { wordsFor } from '../assess/words.ts';
import { assessFlags, assessNamed } from './assess.ts';
import { assessmentText, comebackLines, nextLines, verdictLines } from './assess-text.ts';
import { BadInput, type Command, printJson } from './command.ts';

export const revisitCommand: Command = {
  name: 'revisit',
  usage: 'revisit <record>',
  about:
    'a card after work: why it fails again, the first diagnosis restated, and whether a second attempt is justified',
  more: [
    'The record holds what was done: an event "treated" (remedy, and whether the card worked afterwards), and where it left the',
    'bench "handed-back", "still-working" and "came-back" (with workedDays where known). The five explanations sum to one.',
  ],
  flags: assessFlags,
  run: async (input) => {
    const { assessment, locale } = await assessNamed(input, 'revisit', 0, 1);
    if (assessment.kind === 'assessed' && !assessment.comeback)
      throw new BadInput(
        'No work on the card is recorded: there is nothing to revisit. `worth-the-heat assess` judges it as it arrived.',
      );
    if (input.values.json === true) printJson(assessment);
    else if (assessment.kind !== 'assessed') process.stdout.write(`${assessmentText(assessment, locale)}\n`);
    else {
      const say = wordsFor(locale, assessment.currency);
      process.stdout.write(
        `${[assessment.title, '', ...comebackLines(assessment, say), ...verdictLines(assessment, say), '', ...nextLines(assessment, say)].join('\n')}\n`,
      );
    }
    return assessment.kind === 'bad-record' ? 1 : 0;
  },
};
