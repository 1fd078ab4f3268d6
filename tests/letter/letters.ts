/** Every worked case with its assessment and its letters in both languages, made once for all tests of the owner's page. */
import { assess } from '../../src/assess.ts';
import type { Assessed, Assessment } from '../../src/assessment.ts';
import type { Knowledge } from '../../src/knowledge/knowledge.ts';
import { type LetterOptions, type Tellable, writeLetter } from '../../src/letter/letter.ts';
import { type OwnerWordings, ownerWordings } from '../../src/letter/owner-wordings.ts';
import type { Letter } from '../../src/letter/schema.ts';
import type { Record as CardRecord } from '../../src/record/schema.ts';
import type { Shop } from '../../src/shop/schema.ts';
import { knowledgeAndShop, workedCases } from '../assess/worked-cases.ts';

export const TODAY = '2026-04-20';
const DRAWS = 30;

export interface Told {
  readonly id: string;
  readonly record: CardRecord;
  readonly assessed: Assessed;
  readonly letter: Letter;
  readonly german: Letter;
}

export interface Bench {
  readonly knowledge: Knowledge;
  readonly shop: Shop;
  readonly words: OwnerWordings;
  readonly told: readonly Told[];
  readonly write: (assessment: Tellable, more?: Partial<LetterOptions>) => Letter;
  readonly letterOf: (record: unknown, more?: Partial<LetterOptions>) => Promise<Letter>;
  readonly of: (id: string) => Told;
}

let opened: Promise<Bench> | undefined;

/** Assessed once for each test file. */
export function openBench(): Promise<Bench> {
  opened ??= open();
  return opened;
}

async function open(): Promise<Bench> {
  const { knowledge, shop } = await knowledgeAndShop();
  const words = ownerWordings(knowledge);
  const write: Bench['write'] = (assessment, more) => writeLetter(assessment, { shop, words, today: TODAY, ...more });
  const told: Told[] = [];
  for (const { record } of workedCases) {
    const assessed = await assess(knowledge, shop, record, { draws: DRAWS });
    if (assessed.kind !== 'assessed') throw new Error(`${record.id} is not assessed: ${JSON.stringify(assessed)}`);
    const letter = write(assessed, { record });
    const german = write(assessed, { record, language: 'de' });
    told.push({ id: record.id, record, assessed, letter, german });
  }
  return {
    knowledge,
    shop,
    words,
    told,
    write,
    letterOf: async (record, more) => write(tellable(await assess(knowledge, shop, record)), more),
    of: (id) => {
      const found = told.find((one) => one.id === id);
      if (!found) throw new Error(`there is no case "${id}"`);
      return found;
    },
  };
}

export function tellable(assessment: Assessment): Tellable {
  if (assessment.kind === 'bad-record') throw new Error(JSON.stringify(assessment.issues));
  return assessment;
}
