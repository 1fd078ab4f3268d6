/** The job sheet as plain text, for the bench and for a printer that knows no pages. */
import { ballMessages } from '../ball-grid/messages/messages.ts';
import { sayGiven } from '../ball-grid/say-joint.ts';
import { orderMessages } from './messages/messages.ts';
import { numberIn } from './order-steps.ts';
import { sayNote } from './say-note.ts';
import type { BakeLine, BallsLine, OrderStep, SolderLine, WorkOrder } from './schema.ts';

const WIDTH = 110;

export function sheetText(order: WorkOrder): string {
  const { sheet: words } = orderMessages(order.language);
  return [
    ...headOf(order),
    ...order.warnings.flatMap((warning) => wrap(warning, '! ', '  ')),
    ...(order.warnings.length > 0 ? [''] : []),
    ...factsOf(order),
    '',
    `${words.holdPoints.toUpperCase()}  ${words.eachOpens}`,
    ...wrap(order.state.sentence, '> ', '  '),
    ...order.steps.flatMap((step, i) => [
      ...(step.stage === order.steps[i - 1]?.stage ? [] : ['', words.stages[step.stage].toUpperCase()]),
      ...stepLines(order, step),
    ]),
    '',
    ...(order.notes.length > 0
      ? [
          words.toMind.toUpperCase(),
          ...order.notes.flatMap(({ text, from }) => wrap(`${text} (${from})`, '- ', '  ')),
          '',
        ]
      : []),
    words.cautions.toUpperCase(),
    ...order.cautions.flatMap(({ text }) => wrap(text, '- ', '  ')),
  ].join('\n');
}

function headOf(order: WorkOrder): string[] {
  const { sheet: words } = orderMessages(order.language);
  const { low, high } = order.minutes;
  return [
    `${words.order.toUpperCase()}  ${order.name}  [${order.remedy}]`,
    `${order.title}${order.invented ? `  (${words.invented})` : ''}`,
    `${words.card} ${order.record} · ${order.shop} · ${words.knowledge} ${order.knowledge} · ${words.minutes(String(low), String(high))}`,
    '',
  ];
}

function factsOf(order: WorkOrder): string[] {
  const { solder, balls, bake, heat, targets } = order;
  const { sheet: words, heat: heatWords, solder: solderWords } = orderMessages(order.language);
  const widest = Math.max(34, ...(targets?.rows.map(({ name }) => name.length) ?? []));
  const line = (name: string, first: string, ...more: string[]) => [
    ...wrap(first, name.padEnd(10), ' '.repeat(10)),
    ...more.flatMap((text) => wrap(text, ' '.repeat(10), ' '.repeat(10))),
  ];
  return [
    ...line(
      words.needs,
      [...order.equipment.map(({ name }) => name), ...order.parts.map(({ name }) => name)].join(' · ') ||
        words.nothingNeeded,
    ),
    ...(solder
      ? line(words.solder, `${solder.alloy}, ${sayMelting(order.language, solder)}.`, ...solder.words)
      : line(words.solder, solderWords.none)),
    ...(balls ? line(words.balls, ...ballLines(order.language, balls)) : []),
    ...line(words.bake, ...(bakeLines(order.language, bake) as [string, ...string[]])),
    ...(heat
      ? line(
          words.heat,
          heat.words[0]!,
          ...heat.words.slice(1),
          ...heat.allowances.map(
            ({ name, most, spent, takes, leftAfter }) =>
              `${heatWords.spent(name, spent, most, takes)}, ${leftAfter < 0 ? heatWords.beyond(-leftAfter) : heatWords.left(leftAfter)}`,
          ),
        )
      : line(words.heat, heatWords.untouched)),
    ...(targets
      ? [
          ...line(words.profile, targets.window),
          ...targets.rows.map(({ name, limit }) => `${' '.repeat(10)}${name.padEnd(widest)} ${limit}`),
          ...targets.words.flatMap((text) => wrap(text, ' '.repeat(10), ' '.repeat(10))),
        ]
      : solder
        ? line(words.profile, words.noTargets)
        : []),
  ];
}

/** What is measured of the balls, with a blank each where nobody has. */
const TO_MEASURE = ['ballMillimetres', 'packagePadMillimetres', 'boardPadMillimetres', 'pitchMillimetres'] as const;

/** Every line of the balls: what was measured, what becomes of it, what contradicts itself; else blanks to write on. */
export function ballLines(language: string, { joint }: BallsLine): [string, ...string[]] {
  const { sheet: words } = orderMessages(language);
  const { fields } = ballMessages(language);
  if (joint === null) return [words.ballsOpen, TO_MEASURE.map((field) => `${fields[field]}: ________ mm`).join(' · ')];
  return [
    sayGiven(joint.given, language),
    ...joint.problems.map(({ wrong, todo }) => `${wrong} ${todo}`),
    ...joint.words.flatMap(({ heading, lines }) => [`${heading}:`, ...lines]),
  ];
}

/** Every line of the bake, the cautious one included. */
export function bakeLines(language: string, bake: BakeLine): string[] {
  const { bake: words } = orderMessages(language);
  const number = numberIn({ language });
  const say = (choices: BakeLine['choices']) =>
    choices
      .map(
        ({ celsius, hours, cited }) =>
          `${words.choice(number(hours), number(celsius))}${cited.seen === 'memory' ? words.fromMemory : ''}`,
      )
      .join(words.or);
  const cautious = say(bake.cautious);
  return [
    ...bake.words,
    ...(bake.choices.length > 0 ? [words.by(say(bake.choices))] : []),
    ...(cautious !== '' && cautious !== say(bake.choices) ? [words.cautious(bake.cautiousLevel ?? '', cautious)] : []),
    ...(cautious !== '' && cautious === say(bake.choices) ? [words.cautiousSame(bake.cautiousLevel ?? '')] : []),
    ...bake.assumed.map((text) => words.assumed(text)),
  ];
}

/** `melts at 183 °C`, or the range of an alloy that has one. */
export function sayMelting(language: string, { solidusCelsius, liquidusCelsius }: SolderLine): string {
  const { solder: words } = orderMessages(language);
  const number = numberIn({ language });
  return solidusCelsius === liquidusCelsius
    ? words.melts(number(liquidusCelsius))
    : words.meltsFrom(number(solidusCelsius), number(liquidusCelsius));
}

function stepLines(order: WorkOrder, step: OrderStep): string[] {
  const { sheet: words } = orderMessages(order.language);
  const now = order.state.steps.find((one) => one.step === step.id)!;
  const box =
    now.standing === 'passed' ? '[x]' : now.standing === 'failed' ? '[!]' : now.standing === 'left-out' ? '[-]' : '[ ]';
  const inner = '       ';
  const figures = step.figures.map(({ text, from }) => `${text}: ${from}`);
  return [
    `${box} ${String(step.number).padStart(2)} ${step.name}${step.power ? ` · ${words.power[step.power]}` : ''}`,
    ...step.howTo.flatMap((text) => wrap(text, inner, inner)),
    ...wrap(step.passes, `${inner}${words.mustBeSo}: `, `${inner}  `),
    ...step.record.flatMap((text) => wrap(`${text}: ____________`, `${inner}${words.record}: `, `${inner}  `)),
    ...wrap(step.ifItFails.say, `${inner}${words.ifNot}: `, `${inner}  `),
    ...(step.mayBeLeftOut ? wrap(step.mayBeLeftOut, `${inner}${words.mayBeLeftOut}: `, `${inner}  `) : []),
    ...(step.why ? wrap(`${step.why.text} (${step.why.from})`, `${inner}${words.why}: `, `${inner}  `) : []),
    ...(figures.length > 0 ? wrap(figures.join('; '), `${inner}${words.figures}: `, `${inner}  `) : []),
    ...(now.at
      ? wrap(
          `${words.standing[now.standing]}, ${now.at}${now.note ? `: ${sayNote(step, now.note)}` : ''}`,
          `${inner}${words.recorded}: `,
          `${inner}  `,
        )
      : []),
  ];
}

function wrap(text: string, first: string, rest: string): string[] {
  const lines: string[] = [];
  let line = first;
  let empty = true;
  for (const word of text.split(' ')) {
    if (!empty && line.length + 1 + word.length > WIDTH) {
      lines.push(line);
      line = rest;
      empty = true;
    }
    line += empty ? word : ` ${word}`;
    empty = false;
  }
  return [...lines, line];
}
