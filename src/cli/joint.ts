import type { JointAnswer } from '../ball-grid/answer.ts';
import { BALL_FIELDS, BALL_NUMBERS, readBallNumber, readVoids } from '../ball-grid/fields.ts';
import { judgeBalls } from '../ball-grid/judge-balls.ts';
import { USUAL_REFERENCE } from '../ball-grid/judge-life.ts';
import { ALLOYS, findAlloy } from '../joints/alloys.ts';
import type { BallNumber } from '../record/ball-bounds.ts';
import type { Balls } from '../record/balls.ts';
import { BadInput, type Command, type CommandInput, type Flag, printJson, stringFlag } from './command.ts';

const about: { readonly [name in BallNumber]: string } = {
  ballMillimetres: 'diameter of a ball before it melts',
  packagePadMillimetres: 'pad on the package, as far as solder wets it',
  boardPadMillimetres: 'pad on the board, as far as solder wets it',
  pitchMillimetres: 'from the middle of a ball to that of its neighbour',
  pasteCubicMillimetres: 'paste printed for one ball (half of it is metal: estimate)',
  leftMillimetres: 'how high old solder was left standing on both pads',
  imageMillimetres: 'across a ball in its X-ray image',
  swingKelvin: "from cold to hot in this card's use",
  hottestCelsius: 'the hottest of that use',
  cyclesPerDay: 'how often a day',
  referenceSwingKelvin: 'the same of what it is compared with',
  referenceHottestCelsius: 'its hottest',
  referenceCyclesPerDay: 'its cycles a day',
  referenceCycles: 'cycles by which 63.2 % have failed under the reference',
  referenceShape: 'Weibull shape of those lives',
  strainRange: 'cyclic shear strain range, for the median after Engelmaier (SnPb)',
  dwellMinutes: 'how long half a cycle rests at its end (with --strain)',
  activationElectronvolts: 'activation energy of a change that heat alone drives (Arrhenius), beside the cycles',
};

const TAKES: { readonly [quantity: string]: string } = {
  length: 'mm',
  volume: 'mm3',
  swing: 'K',
  temperature: 'C',
  minutes: 'min',
  energy: 'eV',
  ratio: 'n',
  count: 'n',
};

const numberFlags: Record<string, Flag> = Object.fromEntries(
  BALL_NUMBERS.map((name): [string, Flag] => {
    const { flag, quantity } = BALL_FIELDS[name];
    return [flag, { type: 'string', takes: TAKES[quantity] ?? 'n', about: about[name] }];
  }),
);

const LANGUAGES = ['en', 'de'] as const;

export const jointCommand: Command = {
  name: 'joint',
  usage: 'joint',
  about: 'a solder ball: stand-off, gap, land fit, mixed alloys, voids in X-ray, wear by heat cycles',
  more: [
    'Three questions, each by its own options, together or alone:',
    '  the joint   --ball --package-pad --board-pad, with --pitch for the gap, --paste, --left, --ball-alloy, --pad-alloy',
    '  the voids   --image with one --void for each, against the limits of IPC-A-610',
    '  the wear    --swing --hottest --cycles, leaded beside lead-free, against --reference-swing, -hottest and -cycles',
    `Lengths are in mm; 0.6, 0,6, 600 µm and 24 mil are read. Alloys: ${ALLOYS.map(({ id }) => id).join(', ')}.`,
    `Where no reference is stated, it is ${USUAL_REFERENCE.swing} K up to ${USUAL_REFERENCE.hottest} °C once a day: an estimate, and the answer says so.`,
    'Wear is a comparison with that reference and never a promise; with --reference-life and --reference-shape it is given in days.',
    'To keep the values with a card, put the `given` of --json into its record as "balls": { "core": ... } or "memory".',
  ],
  flags: {
    ...numberFlags,
    'ball-alloy': { type: 'string', takes: 'name', about: 'alloy of the balls, such as SAC305' },
    'pad-alloy': { type: 'string', takes: 'name', about: 'alloy of the paste and of what stays on the pads' },
    void: { type: 'string', takes: 'mm', multiple: true, about: 'across one void in that image (may be given again)' },
    language: { type: 'string', takes: LANGUAGES.join('|'), about: 'language of the answer (default en)' },
  },
  run: async (input) => {
    const language = languageOf(input);
    const read = readGiven(input, language);
    const answer: JointAnswer =
      read.problems.length > 0
        ? { kind: 'refused', format: 1, problems: read.problems }
        : withoutProblems(input, read.given, language);
    if (input.values.json === true) printJson(answer);
    else if (answer.kind === 'joint') process.stdout.write(`${textOf(answer)}\n`);
    if (answer.kind === 'joint') return 0;
    if (input.values.json !== true)
      throw new BadInput(answer.problems.map(({ field, wrong, todo }) => `${field}: ${wrong} ${todo}`).join('\n'));
    return 1;
  },
};

type Problem = Extract<JointAnswer, { kind: 'refused' }>['problems'][number];

/** Everything that was typed, or everything that is wrong with it. */
function readGiven(input: CommandInput, language: string): { readonly given: Balls; readonly problems: Problem[] } {
  const problems: Problem[] = [];
  const given: Balls = {};
  for (const name of BALL_NUMBERS) {
    const { flag } = BALL_FIELDS[name];
    const typed = stringFlag(input, flag);
    if (typed === undefined) continue;
    const read = readBallNumber(typed, name, language);
    if (read.ok) given[name] = read.value;
    else problems.push({ field: `--${flag}`, wrong: read.refused.wrong, todo: read.refused.todo, typed });
  }
  const typedVoids = input.values.void;
  if (Array.isArray(typedVoids)) {
    given.voidsMillimetres = [];
    for (const typed of typedVoids as string[]) {
      const read = readVoids(typed, language);
      if (read.ok) given.voidsMillimetres.push(...read.values);
      else problems.push({ field: '--void', wrong: read.refused.wrong, todo: read.refused.todo, typed });
    }
  }
  for (const [flag, name] of [
    ['ball-alloy', 'ballAlloy'],
    ['pad-alloy', 'padAlloy'],
  ] as const) {
    const typed = stringFlag(input, flag);
    if (typed !== undefined) given[name] = findAlloy(typed)?.id ?? typed;
  }
  return { given, problems };
}

/** What was begun must be whole, and no two values may contradict each other. */
function withoutProblems(input: CommandInput, given: Balls, language: string): JointAnswer {
  if (Object.keys(given).length === 0)
    throw new BadInput(
      'Nothing was asked. Give --ball, --package-pad and --board-pad, or --image and --void, or --swing, --hottest and --cycles.\nTry: worth-the-heat joint --help',
    );
  const joint = judgeBalls(given, language);
  const problems: Problem[] = [
    ...joint.problems.map(({ field, wrong, todo }) => ({
      field: `--${flagOf(field)}`,
      wrong,
      todo,
      typed: typedAt(input, flagOf(field)),
    })),
    ...joint.missing.flatMap(({ fields }) =>
      fields.map((field) => ({
        field: `--${flagOf(field)}`,
        wrong: 'It is missing.',
        todo: `Give it: ${helpOf(flagOf(field))}.`,
        typed: null,
      })),
    ),
    ...(given.padAlloy !== undefined && given.ballAlloy === undefined
      ? [{ field: '--ball-alloy', wrong: 'It is missing.', todo: 'Name the alloy of the balls, too.', typed: null }]
      : []),
  ];
  return problems.length === 0 ? joint : { kind: 'refused', format: 1, problems };
}

const OTHER_FLAGS: { readonly [field: string]: string } = {
  ballAlloy: 'ball-alloy',
  padAlloy: 'pad-alloy',
  voidsMillimetres: 'void',
};

function flagOf(field: string): string {
  return OTHER_FLAGS[field] ?? BALL_FIELDS[field as BallNumber].flag;
}

function helpOf(flag: string): string {
  return jointCommand.flags[flag]!.about;
}

function typedAt(input: CommandInput, flag: string): string | null {
  const typed = input.values[flag];
  return typed === undefined ? null : Array.isArray(typed) ? typed.join(' ') : String(typed);
}

function languageOf(input: CommandInput): (typeof LANGUAGES)[number] {
  const typed = stringFlag(input, 'language')?.toLowerCase() ?? 'en';
  const known = LANGUAGES.find((one) => one === typed);
  if (known === undefined) throw new BadInput(`--language takes ${LANGUAGES.join(' or ')}; "${typed}" is neither.`);
  return known;
}

function textOf({ words }: Extract<JointAnswer, { kind: 'joint' }>): string {
  return words.map(({ heading, lines }) => [heading, ...lines.map((line) => `  ${line}`)].join('\n')).join('\n\n');
}
