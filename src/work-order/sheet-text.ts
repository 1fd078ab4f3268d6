/** The job sheet as plain text, for the bench and for a printer that knows no pages. */
import type { BakeLine, OrderStep, WorkOrder } from './schema.ts';
import { sayMelting } from './solder-line.ts';

const WIDTH = 110;
const STAGE_WORDS: Readonly<Record<OrderStep['stage'], string>> = {
  prepare: 'PREPARE',
  'take-off': 'TAKE OFF',
  'make-ready': 'MAKE READY',
  join: 'JOIN',
  clean: 'CLEAN',
  prove: 'PROVE: RESISTANCE, THEN VOLTAGE, THEN IMAGE',
};

export function sheetText(order: WorkOrder): string {
  return [
    ...headOf(order),
    ...order.warnings.flatMap((warning) => wrap(warning, '! ', '  ')),
    ...(order.warnings.length > 0 ? [''] : []),
    ...factsOf(order),
    '',
    'HOLD POINTS  each opens only when the one before it is recorded',
    ...wrap(order.state.sentence, '> ', '  '),
    ...order.steps.flatMap((step, i) => [
      ...(step.stage === order.steps[i - 1]?.stage ? [] : ['', STAGE_WORDS[step.stage]]),
      ...stepLines(order, step),
    ]),
    '',
    ...(order.notes.length > 0
      ? ['TO BEAR IN MIND', ...order.notes.flatMap(({ text, from }) => wrap(`${text} (${from})`, '- ', '  ')), '']
      : []),
    'CAUTIONS',
    ...order.cautions.flatMap(({ text }) => wrap(text, '- ', '  ')),
  ].join('\n');
}

function headOf(order: WorkOrder): string[] {
  return [
    `WORK ORDER  ${order.name}  [${order.remedy}]`,
    `${order.title}${order.invented ? '  (an invented card)' : ''}`,
    `Card ${order.record} · ${order.shop} · knowledge ${order.knowledge} · ${order.minutes.low} to ${order.minutes.high} attended minutes (estimate)`,
    '',
  ];
}

function factsOf(order: WorkOrder): string[] {
  const { solder, bake, heat, targets } = order;
  const line = (name: string, first: string, ...more: string[]) => [
    ...wrap(first, name.padEnd(10), ' '.repeat(10)),
    ...more.flatMap((text) => wrap(text, ' '.repeat(10), ' '.repeat(10))),
  ];
  return [
    ...line(
      'Needs',
      [...order.equipment.map(({ name }) => name), ...order.parts.map(({ name }) => name)].join(' · ') ||
        'nothing besides the usual',
    ),
    ...(solder
      ? line('Solder', `${solder.alloy}, ${sayMelting(solder)}.`, ...solder.words)
      : line('Solder', 'No joints of a package are melted.')),
    ...line('Bake', ...(bakeLines(bake) as [string, ...string[]])),
    ...(heat
      ? line(
          'Heat',
          heat.words[0]!,
          ...heat.words.slice(1),
          ...heat.allowances.map(
            ({ name, most, spent, takes, leftAfter }) =>
              `${name}: ${spent} of ${most} spent, this work takes ${takes}, ${leftAfter < 0 ? `${-leftAfter} beyond` : `${leftAfter} left`}`,
          ),
        )
      : line('Heat', 'No package is brought to melting: the heat budget is not touched.')),
    ...(targets
      ? [
          ...line('Profile', targets.window),
          ...targets.rows.map(({ name, limit }) => `${' '.repeat(10)}${name.padEnd(34)} ${limit}`),
          ...targets.words.flatMap((text) => wrap(text, ' '.repeat(10), ' '.repeat(10))),
        ]
      : solder
        ? line('Profile', 'No class of the standard fits this alloy: use a window of your own.')
        : []),
  ];
}

/** Every line of the bake, the cautious one included. */
export function bakeLines(bake: BakeLine): string[] {
  const say = (choices: BakeLine['choices']) =>
    choices
      .map(
        ({ celsius, hours, cited }) => `${hours} h at ${celsius} °C${cited.seen === 'memory' ? ' (from memory)' : ''}`,
      )
      .join(', or ');
  const cautious = say(bake.cautious);
  return [
    ...bake.words,
    ...(bake.choices.length > 0
      ? [`${say(bake.choices)} (J-STD-033 table 4-1); no hotter than the weakest part on the board bears.`]
      : []),
    ...(cautious !== '' && cautious !== say(bake.choices)
      ? [`Cautious, were it level ${bake.cautiousLevel}: ${cautious}.`]
      : []),
    ...(cautious !== '' && cautious === say(bake.choices)
      ? [`The cautious level ${bake.cautiousLevel} asks for the same.`]
      : []),
    ...bake.assumed.map((text) => `Assumed: ${text}`),
  ];
}

function stepLines(order: WorkOrder, step: OrderStep): string[] {
  const now = order.state.steps.find((one) => one.step === step.id)!;
  const box =
    now.standing === 'passed' ? '[x]' : now.standing === 'failed' ? '[!]' : now.standing === 'left-out' ? '[-]' : '[ ]';
  const inner = '       ';
  const figures = step.figures.map(({ text, from }) => `${text}: ${from}`);
  return [
    `${box} ${String(step.number).padStart(2)} ${step.name}${step.power ? ` · power: ${step.power === 'limited' ? 'limited supply' : 'host'}` : ''}`,
    ...step.howTo.flatMap((text) => wrap(text, inner, inner)),
    ...wrap(step.passes, `${inner}Must be so: `, `${inner}  `),
    ...step.record.flatMap((text) => wrap(`${text}: ____________`, `${inner}Record: `, `${inner}  `)),
    ...wrap(step.ifItFails.say, `${inner}If not: `, `${inner}  `),
    ...(step.mayBeLeftOut ? wrap(step.mayBeLeftOut, `${inner}May be left out: `, `${inner}  `) : []),
    ...(step.why ? wrap(`${step.why.text} (${step.why.from})`, `${inner}Why: `, `${inner}  `) : []),
    ...(figures.length > 0 ? wrap(figures.join('; '), `${inner}Figures: `, `${inner}  `) : []),
    ...(now.at
      ? wrap(`${now.standing}, ${now.at}${now.note ? `: ${now.note}` : ''}`, `${inner}Recorded: `, `${inner}  `)
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
