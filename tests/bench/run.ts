/**
 * Every figure this project claims, measured anew. Nothing here passes or fails: limits are printed beside what was
 * measured, met or not.
 *
 *     npm run bench
 *     npm run bench -- --only decisions --cards 500
 */
import { parseArgs } from 'node:util';
import { decisionsOptions } from './decisions.ts';

interface Bench {
  readonly name: string;
  readonly question: string;
  /** imported only when it runs, so that each starts from a quiet process as far as one process can be quiet */
  readonly run: () => Promise<string>;
}

const BENCHES: readonly Bench[] = [
  {
    name: 'posterior',
    question: 'How long does it take to work out what is wrong with a card, and could it be much faster?',
    run: async () => (await import('./posterior.ts')).benchPosterior(),
  },
  {
    name: 'planning',
    question: 'How far from the best possible plan are the plans?',
    run: async () => (await import('./planning.ts')).benchPlanning(),
  },
  {
    name: 'assessment',
    question: 'How long does somebody wait for a whole assessment?',
    run: async () => (await import('./assessment.ts')).benchAssessment(),
  },
  {
    name: 'screen',
    question: 'How long from an answer to the new ranking on the screen?',
    run: async () => (await import('./answer-to-screen.ts')).benchAnswerToScreen(),
  },
  {
    name: 'sliders',
    question: 'Does the verdict change under the hand that moves a slider?',
    run: async () => (await import('./slider-to-frame.ts')).benchSliderToFrame(),
  },
  {
    name: 'decisions',
    question: 'Does a bench that follows the tool earn more than one that does not, and do stated chances come true?',
    run: async () => (await import('./decisions.ts')).benchDecisions(decisionsOptions(process.argv.slice(2))),
  },
];

const HELP = `npm run bench -- [--only NAME] [--cards N] [--disturbed-cards N] [--seed N]

  --only NAME           one of ${BENCHES.map(({ name }) => name).join(', ')}; may be given several times
  --cards N             simulated cards of "decisions" (default 10000)
  --disturbed-cards N   of them, those decided again with disturbed knowledge, at each strength of noise (default 2500)
  --seed N              seed of the simulated cards
`;

const values = options();

if (values === null) {
  process.exitCode = 1;
} else if (values.help) {
  process.stdout.write(HELP);
} else {
  const unknown = (values.only ?? []).filter((name) => !BENCHES.some((bench) => bench.name === name));
  if (unknown.length > 0) {
    process.stderr.write(`There is no bench called ${unknown.join(', ')}.\n\n${HELP}`);
    process.exitCode = 1;
  } else {
    try {
      // a number nobody can use is said before anything is measured
      decisionsOptions(process.argv.slice(2));
      for (const { name, question, run } of BENCHES) {
        if (values.only && !values.only.includes(name)) continue;
        console.log(`\n${question}   [${name}]\n${'='.repeat(question.length)}\n`);
        console.log(await run());
      }
    } catch (cause) {
      if (!(cause instanceof RangeError && cause.message.startsWith('--'))) throw cause;
      process.stderr.write(`${cause.message}\n\n${HELP}`);
      process.exitCode = 1;
    }
  }
}

function options() {
  try {
    return parseArgs({
      options: {
        only: { type: 'string', multiple: true },
        cards: { type: 'string' },
        'disturbed-cards': { type: 'string' },
        seed: { type: 'string' },
        help: { type: 'boolean', short: 'h' },
      },
    }).values;
  } catch (cause) {
    process.stderr.write(`${(cause as Error).message}\n\n${HELP}`);
    return null;
  }
}
