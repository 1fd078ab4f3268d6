import { FORMAT_OF_A_NEW_RECORD, newRecord } from '../record/new-record.ts';
import { checkRecord, parseRecord } from '../record/parse.ts';
import { amountFlag, BadInput, type Command, printJson, stringFlag } from './command.ts';
import { KNOWLEDGE_FLAG, readKnowledge, readShop, SHOP_FLAG } from './reading.ts';

/** A fact's value as typed: yes/no, a number, a list with commas, else a word. */
function factValue(typed: string): string | number | boolean | string[] | null {
  if (typed === 'yes' || typed === 'true') return true;
  if (typed === 'no' || typed === 'false') return false;
  if (typed === "can't tell" || typed === 'null') return null;
  if (/^-?\d+(\.\d+)?$/.test(typed)) return Number(typed);
  return typed.includes(',') ? typed.split(',').map((part) => part.trim()) : typed;
}

export const newCommand: Command = {
  name: 'new',
  usage: 'new <id>',
  about: 'writes a new record to standard output, ready to be filled and assessed',
  more: [
    'Example: worth-the-heat new box-17 --title "Large die, dead after transport" --fact die-size=large --fact knocked=yes \\',
    '           --working 420 --as-is 90 --parts-after-work 60 > box-17.json',
    `The record has format ${FORMAT_OF_A_NEW_RECORD}. Facts are listed by \`worth-the-heat knowledge --facts\`.`,
  ],
  flags: {
    title: { type: 'string', takes: 'words', about: 'what the bench calls the card' },
    fact: {
      type: 'string',
      takes: 'id=value',
      multiple: true,
      about: 'a fact about the card; may be given many times',
    },
    working: { type: 'string', takes: 'money', about: 'what the card is worth working' },
    'as-is': { type: 'string', takes: 'money', about: 'what it is worth as it lies there' },
    'parts-after-work': { type: 'string', takes: 'money', about: 'what is left of it after work that failed' },
    'own-stock': { type: 'boolean', about: 'the shop owns the card' },
    rules: KNOWLEDGE_FLAG,
    shop: SHOP_FLAG,
  },
  run: async (input) => {
    const [id, ...more] = input.positionals;
    if (id === undefined)
      throw new BadInput('Name the card: worth-the-heat new <id>, in lower-case words joined by hyphens.');
    if (more.length > 0) throw new BadInput(`One card at a time: "${more[0]}" is one too many. Titles go to --title.`);
    const knowledge = await readKnowledge(input);
    const shop = await readShop(input, knowledge);
    const facts: Record<string, ReturnType<typeof factValue>> = {};
    for (const pair of (input.values.fact as readonly string[] | undefined) ?? []) {
      const cut = pair.indexOf('=');
      if (cut < 1) throw new BadInput(`--fact takes id=value; "${pair}" has no "=".`);
      const fact = pair.slice(0, cut);
      const value = factValue(pair.slice(cut + 1));
      const kind = knowledge.facts.find((known) => known.id === fact)?.type.kind;
      facts[fact] = kind === 'set' && typeof value === 'string' ? [value] : value;
    }
    const defaults = shop.defaultMoney;
    const working = amountFlag(input, 'working') ?? defaults.working;
    const asIs = amountFlag(input, 'as-is') ?? defaults.asIs;
    const partsAfterWork = amountFlag(input, 'parts-after-work') ?? defaults.partsAfterWork;
    const record = newRecord({
      id,
      title: stringFlag(input, 'title') ?? id,
      at: new Date().toISOString(),
      facts,
      money: { working, asIs, partsAfterWork, ...(input.values['own-stock'] === true ? { ownStock: true } : {}) },
    });
    const parsed = parseRecord(record);
    const issues = parsed.ok ? checkRecord(parsed.record, knowledge) : parsed.issues;
    if (issues.length > 0)
      throw new BadInput(issues.map((issue) => `${issue.path}: ${issue.wrong} ${issue.todo}`).join('\n'));
    printJson(record);
    return 0;
  },
};
