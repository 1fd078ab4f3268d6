import { writeFile } from 'node:fs/promises';
import { assess } from '../assess.ts';
import { MOISTURE_LEVELS } from '../joints/bake.ts';
import { inLanguage } from '../knowledge/load.ts';
import { parseRecord } from '../record/parse.ts';
import { MoistureLevel, type PackageKnown } from '../record/schema.ts';
import { SHEET_LANGUAGES } from '../work-order/messages/messages.ts';
import { PAPERS, sheetHtml } from '../work-order/sheet-html.ts';
import { sheetText } from '../work-order/sheet-text.ts';
import { workOrder } from '../work-order/work-order.ts';
import { assessFlags } from './assess.ts';
import { assessmentText } from './assess-text.ts';
import { BadInput, type Command, type CommandInput, printJson, stringFlag, wholeFlag } from './command.ts';
import { packageFlags } from './package-flags.ts';
import { printPdf } from './print-pdf.ts';
import { readJson, readKnowledge, readShop, recordPath } from './reading.ts';
import { readWindow } from './window-file.ts';
import { recordAndPrint, records, stepFlags } from './worksheet-step.ts';

export const worksheetCommand: Command = {
  name: 'worksheet',
  usage: 'worksheet <record>',
  about: 'the work order: solder, bake, heat left, profile targets, hold points in order with what to record at each',
  more: [
    'Prints the job sheet for the work that has begun, else for the remedy the verdict advises, else for the one --remedy names;',
    'with --html or --pdf on paper with boxes to tick. What is not known of the package is assumed on the cautious',
    'side and said so: --level, --thickness, --side, --hours and --room tell. A failed hold point says what comes now.',
    'With --step it records a hold point and prints the record: worksheet card.json --step baked --outcome passed > next.json',
  ],
  flags: {
    ...assessFlags,
    remedy: { type: 'string', takes: 'id', about: 'this remedy instead of the advised one' },
    alloy: { type: 'string', takes: 'name', about: 'solder in place of the usual, such as Sn63Pb37 or SAC305' },
    level: { type: 'string', takes: 'level', about: 'moisture sensitivity level of the package: 1 2 2a 3 4 5 5a 6' },
    ...packageFlags,
    side: { type: 'string', takes: 'mm', about: 'longest side of the package' },
    hours: { type: 'string', takes: 'h', about: 'hours the package has been out of its dry bag' },
    room: { type: 'string', takes: 'within|worse', about: 'the room it lay in: up to 30 °C and 60 %, or worse' },
    language: { type: 'string', takes: SHEET_LANGUAGES.join('|'), about: 'language of the job sheet (default en)' },
    html: { type: 'string', takes: 'file', about: 'write the job sheet as one HTML file' },
    pdf: { type: 'string', takes: 'file', about: 'write the job sheet as PDF (needs a Chromium)' },
    paper: { type: 'string', takes: PAPERS.join('|'), about: 'paper of the printed sheet (default a4)' },
    ...stepFlags,
  },
  run: async (input) => {
    const path = recordPath(input, 'worksheet');
    const known = packageOf(input);
    const paper = paperOf(input);
    const language = languageOf(input);
    const recording = records(input);
    const windowFile = stringFlag(input, 'window');
    const window = windowFile === undefined ? undefined : await readWindow(windowFile);
    const maxFaults = wholeFlag(input, 'max-faults', 3, 1, 4);
    const [raw, rules] = await Promise.all([readJson(path), readKnowledge(input)]);
    const knowledge = language === undefined ? rules : await inLanguage(rules, language, stringFlag(input, 'rules'));
    const shop = await readShop(input, knowledge);
    const assessment = await assess(knowledge, shop, raw, { maxFaults, draws: 0 });
    if (assessment.kind !== 'assessed') {
      if (input.values.json !== true)
        throw new BadInput(
          `${path}: no order can be made from this record.\n${assessmentText(assessment, shop.locale)}`,
        );
      printJson(assessment);
      return 1;
    }
    const parsed = parseRecord(raw);
    if (!parsed.ok) throw new Error('an assessed record must parse');
    const order = workOrder(knowledge, shop, parsed.record, assessment, {
      remedy: stringFlag(input, 'remedy'),
      alloy: stringFlag(input, 'alloy'),
      package: known,
      window,
    });
    if (order.kind === 'no-order') {
      if (input.values.json === true) printJson(order);
      else
        throw new BadInput(
          `${order.because} ${order.todo}${input.values.remedy === undefined && input.values.alloy === undefined ? ' (--remedy <id>)' : ''}`,
        );
      return 1;
    }
    if (recording) {
      recordAndPrint(input, order, parsed.record, Object.keys(known).length > 0 ? known : undefined);
      return 0;
    }
    const html = stringFlag(input, 'html');
    const pdf = stringFlag(input, 'pdf');
    if (html !== undefined) await write(html, sheetHtml(order, paper));
    if (pdf !== undefined) await printPdf(sheetHtml(order, paper), pdf);
    for (const file of [html, pdf]) if (file !== undefined) process.stderr.write(`Wrote ${file}.\n`);
    if (input.values.json === true) printJson(order);
    else if (html === undefined && pdf === undefined) process.stdout.write(`${sheetText(order)}\n`);
    if (order.state.kind !== 'out-of-order') return 0;
    process.stderr.write(`${path}: ${order.state.sentence}\n`);
    return 1;
  },
};

function packageOf(input: CommandInput): PackageKnown {
  const level = stringFlag(input, 'level');
  const parsed = level === undefined ? undefined : MoistureLevel.safeParse(level.toLowerCase());
  if (parsed && !parsed.success)
    throw new BadInput(`--level takes one of ${MOISTURE_LEVELS.join(', ')}; "${level}" is none of them.`);
  const room = stringFlag(input, 'room');
  if (room !== undefined && room !== 'within' && room !== 'worse')
    throw new BadInput(`--room takes within or worse; "${room}" is neither.`);
  const numbers = {
    bodyMillimetres: numberFlag(input, 'thickness', 20),
    bodyCubicMillimetres: numberFlag(input, 'volume', 100_000),
    gridMillimetres: numberFlag(input, 'side', 200),
    exposureHours: numberFlag(input, 'hours', Number.MAX_SAFE_INTEGER, true),
  };
  const told = Object.fromEntries(Object.entries(numbers).filter(([, value]) => value !== undefined));
  return { ...told, ...(parsed ? { moistureLevel: parsed.data } : {}), ...(room === undefined ? {} : { room }) };
}

function numberFlag(input: CommandInput, name: string, most: number, orNought = false): number | undefined {
  const typed = stringFlag(input, name);
  if (typed === undefined) return undefined;
  const value = typed.trim() === '' ? Number.NaN : Number(typed);
  if (Number.isFinite(value) && value <= most && (orNought ? value >= 0 : value > 0)) return value;
  const bound = most === Number.MAX_SAFE_INTEGER ? '' : ` up to ${most}`;
  throw new BadInput(`--${name} takes a number ${orNought ? 'from' : 'above'} nought${bound}; "${typed}" is not one.`);
}

function paperOf(input: CommandInput): (typeof PAPERS)[number] {
  const typed = stringFlag(input, 'paper')?.toLowerCase() ?? 'a4';
  const paper = PAPERS.find((one) => one === typed);
  if (!paper) throw new BadInput(`--paper takes ${PAPERS.join(' or ')}; "${typed}" is neither.`);
  return paper;
}

function languageOf(input: CommandInput): string | undefined {
  const typed = stringFlag(input, 'language');
  const known = SHEET_LANGUAGES.find((one) => one === typed?.toLowerCase());
  if (typed !== undefined && known === undefined)
    throw new BadInput(`--language takes ${SHEET_LANGUAGES.join(' or ')}; "${typed}" is neither.`);
  return known;
}

async function write(file: string, text: string): Promise<void> {
  try {
    await writeFile(file, text);
  } catch (error) {
    throw new BadInput(
      `${file}: the sheet could not be written (${(error as Error).message}). Name a file in a folder that is there.`,
    );
  }
}
