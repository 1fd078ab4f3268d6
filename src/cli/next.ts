import { wordsFor } from '../assess/words.ts';
import { assessFlags, assessNamed } from './assess.ts';
import { assessmentText, checkLines, nextLines } from './assess-text.ts';
import { type Command, printJson } from './command.ts';

export const nextCommand: Command = {
  name: 'next',
  usage: 'next <record>',
  about: 'what to do next, and every check with its worth, closed ones with the reason',
  more: [
    'The check with the best worth, what each of its results would do to the verdict, and those not worth their minutes.',
  ],
  flags: assessFlags,
  run: async (input) => {
    const { assessment, locale } = await assessNamed(input, 'next', 0, 1);
    if (input.values.json === true) {
      printJson(
        assessment.kind === 'assessed'
          ? {
              kind: 'next',
              format: 1,
              record: assessment.record,
              next: assessment.next,
              checks: assessment.checks,
              certificate: assessment.certificate,
            }
          : assessment,
      );
    } else if (assessment.kind !== 'assessed') {
      process.stdout.write(`${assessmentText(assessment, locale)}\n`);
    } else {
      const say = wordsFor(locale, assessment.currency);
      process.stdout.write(
        `${[...nextLines(assessment, say), '', ...checkLines(assessment.checks, say)].join('\n')}\n`,
      );
    }
    return assessment.kind === 'bad-record' ? 1 : 0;
  },
};
