import { writeFile } from 'node:fs/promises';
import { assess } from '../assess.ts';
import { inLanguage } from '../knowledge/load.ts';
import { letterHtml } from '../letter/html.ts';
import { writeLetter } from '../letter/letter.ts';
import { ownerWordings } from '../letter/owner-wordings.ts';
import { LANGUAGES, PAPERS } from '../letter/schema.ts';
import { letterText } from '../letter/text.ts';
import { parseRecord } from '../record/parse.ts';
import { assessFlags } from './assess.ts';
import { assessmentText } from './assess-text.ts';
import { amountFlag, BadInput, type Command, type CommandInput, printJson, stringFlag, wholeFlag } from './command.ts';
import { printPdf } from './print-pdf.ts';
import { readJson, readKnowledge, readShop, recordPath } from './reading.ts';

export const letterCommand: Command = {
  name: 'letter',
  usage: 'letter <record>',
  about: "the owner's page: what was found, the choices with price and chance, what is advised and why",
  more: [
    'Prints the page as plain text, or writes it with --html or --pdf (one side of paper; --pdf needs a Chromium). The price',
    'is the one quoted on the record, else the middle of the band that suits both sides, unless --price names another; outside',
    'the band it says which side loses.',
  ],
  flags: {
    ...assessFlags,
    html: { type: 'string', takes: 'file', about: 'write the page as one HTML file' },
    pdf: { type: 'string', takes: 'file', about: 'write the page as PDF' },
    paper: { type: 'string', takes: PAPERS.join('|'), about: "paper (default: the usual one of the shop's region)" },
    price: { type: 'string', takes: 'amount', about: 'what the owner is asked for if the card works' },
    language: { type: 'string', takes: LANGUAGES.join('|'), about: 'language of the page (default en)' },
    date: { type: 'string', takes: 'date', about: 'date on the page, such as 2026-03-31 (default today)' },
    draws: { type: 'string', takes: 'N', about: 'parameter draws for how firm the advice is (default 1000; 0: none)' },
    seed: { type: 'string', takes: 'S', about: 'seed of the draws (default 1)' },
  },
  run: async (input) => {
    const path = recordPath(input, 'letter');
    const paper = oneOf(input, 'paper', PAPERS);
    const language = oneOf(input, 'language', LANGUAGES);
    const price = amountFlag(input, 'price');
    const today = dateFlag(input);
    const draws = wholeFlag(input, 'draws', 1000, 0, 100_000);
    const seed = wholeFlag(input, 'seed', 1, 0, 2 ** 31 - 1);
    const maxFaults = wholeFlag(input, 'max-faults', 3, 1, 4);
    const [raw, rules] = await Promise.all([readJson(path), readKnowledge(input)]);
    const knowledge = language === undefined ? rules : await inLanguage(rules, language, stringFlag(input, 'rules'));
    const shop = await readShop(input, knowledge);
    const assessment = await assess(knowledge, shop, raw, { maxFaults, draws, seed });
    if (assessment.kind === 'bad-record') {
      if (input.values.json !== true)
        throw new BadInput(`${path}: this record cannot be used as it is.\n${assessmentText(assessment, shop.locale)}`);
      printJson(assessment);
      return 1;
    }
    const parsed = parseRecord(raw);
    const letter = writeLetter(assessment, {
      shop,
      words: ownerWordings(knowledge),
      record: parsed.ok ? parsed.record : undefined,
      today,
      price,
      paper,
      language,
    });
    for (const warning of letter.warnings) process.stderr.write(`${warning.sentence}\n`);
    const html = stringFlag(input, 'html');
    const pdf = stringFlag(input, 'pdf');
    if (html !== undefined) await write(html, letterHtml(letter));
    if (pdf !== undefined) await printPdf(letterHtml(letter), pdf);
    for (const file of [html, pdf]) if (file !== undefined) process.stderr.write(`Wrote ${file}.\n`);
    if (input.values.json === true) printJson(letter);
    else if (html === undefined && pdf === undefined) process.stdout.write(`${letterText(letter)}\n`);
    return 0;
  },
};

function oneOf<T extends string>(input: CommandInput, name: string, values: readonly T[]): T | undefined {
  const typed = stringFlag(input, name);
  if (typed === undefined) return undefined;
  const known = values.find((value) => value === typed.toLowerCase());
  if (!known) throw new BadInput(`--${name} takes ${values.join(' or ')}; "${typed}" is neither.`);
  return known;
}

function dateFlag(input: CommandInput): string {
  const typed = stringFlag(input, 'date');
  if (typed === undefined) return new Date().toLocaleDateString('sv-SE');
  const parsed = /^\d{4}-\d{2}-\d{2}$/.test(typed) ? new Date(`${typed}T00:00:00Z`) : null;
  if (!parsed || Number.isNaN(parsed.getTime()) || parsed.toISOString().slice(0, 10) !== typed)
    throw new BadInput(`--date takes a day as year-month-day, such as 2026-03-31; "${typed}" is not one.`);
  return typed;
}

async function write(file: string, text: string): Promise<void> {
  try {
    await writeFile(file, text);
  } catch (error) {
    throw new BadInput(
      `${file}: the page could not be written (${(error as Error).message}). Name a file in a folder that is there.`,
    );
  }
}
