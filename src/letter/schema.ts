/** The owner's page as a plain value: every sentence already written, every figure kept beside its words. */
import { z } from 'zod';
import { BadRecord, VerdictKind } from '../assessment.ts';
import { Id, SITES } from '../knowledge/schema.ts';

export const LANGUAGES = ['en', 'de'] as const;
export const Language = z.enum(LANGUAGES);
export type Language = z.infer<typeof Language>;

export const PAPERS = ['a4', 'letter'] as const;
export const Paper = z.enum(PAPERS);
export type Paper = z.infer<typeof Paper>;

/**
 * repair: worth it · leave: not worth it · return: nothing wrong with the card · check-first: not enough known yet ·
 * contradiction: findings that cannot both be true
 */
export const OUTCOMES = ['repair', 'leave', 'return', 'check-first', 'contradiction'] as const;
export const Outcome = z.enum(OUTCOMES);
export type Outcome = z.infer<typeof Outcome>;

/** A text with its language: wordings of the rules stay in the language they are written in. */
export const Wording = z.strictObject({ text: z.string(), language: z.string() });
export type Wording = z.infer<typeof Wording>;

const Chance01 = z.number().min(0).max(1);
/** a chance as a natural frequency */
export const Count = z.strictObject({ chance: Chance01, of100: z.number().int().min(0).max(100), text: z.string() });
export type Count = z.infer<typeof Count>;

/** an amount of money as it is printed */
export const Money = z.strictObject({ amount: z.number(), text: z.string() });
export type Money = z.infer<typeof Money>;

const Day = z.strictObject({ iso: z.iso.date(), text: z.string() });

export const Price = z.discriminatedUnion('kind', [
  /** what the owner pays if the card works at hand-back */
  z.strictObject({ kind: z.literal('asked'), price: Money, text: z.string() }),
  /** no price suits both: what the shop needs, and what the repair is worth to the owner */
  z.strictObject({ kind: z.literal('none-fits'), needed: Money, worth: Money, text: z.string() }),
  z.strictObject({ kind: z.literal('nothing'), text: z.string() }),
  /** the shop's own card */
  z.strictObject({ kind: z.literal('own-stock'), text: z.string() }),
]);
export type Price = z.infer<typeof Price>;

export const Choice = z.strictObject({
  option: z.string(),
  verdict: VerdictKind,
  kind: z.enum(['repair', 'return', 'leave']),
  advised: z.boolean(),
  /** worth its cost; always true of a stop */
  worthIt: z.boolean(),
  what: Wording,
  note: z.string().nullable(),
  price: Price,
  /** null where nothing is done that could work */
  works: Count.nullable(),
  holds: Count.nullable(),
  ifItFails: z.string(),
});
export type Choice = z.infer<typeof Choice>;

export const Cause = z.strictObject({
  fault: Id,
  site: z.enum(SITES),
  what: Wording,
  sure: z.string(),
  count: Count,
  /** `saysLittle`: so wide that the page says so in place of its two ends */
  range: z.strictObject({ low: Count, high: Count, saysLittle: z.boolean(), text: z.string() }).nullable(),
});
export type Cause = z.infer<typeof Cause>;

/** What became of 100 cards: the three add up to 100. */
export const OutOf100 = z.strictObject({
  option: z.string(),
  title: z.string(),
  holds: z.number().int(),
  failsAgain: z.number().int(),
  fails: z.number().int(),
  legend: z.strictObject({ holds: z.string(), failsAgain: z.string(), fails: z.string() }),
  sentence: z.string(),
});
export type OutOf100 = z.infer<typeof OutOf100>;

/** A price that one side loses by, for the technician: never printed on the page. */
export const PriceWarning = z.strictObject({
  kind: z.enum(['below-floor', 'above-ceiling', 'no-band', 'no-price-asked']),
  loses: z.enum(['shop', 'owner', 'nobody']),
  price: z.number(),
  /** the edge of the band that the price is beyond */
  edge: z.number().nullable(),
  /** what the loser loses on average over many such cards */
  loss: z.number().nullable(),
  sentence: z.string(),
});
export type PriceWarning = z.infer<typeof PriceWarning>;

export const NextCheck = z.strictObject({
  check: Id,
  what: Wording,
  minutes: z.number().int(),
  cost: Money,
  sentences: z.array(z.string()),
  /** what the results may lead to, likeliest first */
  leadsTo: z.array(z.strictObject({ verdict: VerdictKind, count: Count, sentence: z.string() })),
  /** rarer results, each too seldom for a line; null where the counts above are all of the 100 */
  rest: z.strictObject({ count: Count, sentence: z.string() }).nullable(),
});
export type NextCheck = z.infer<typeof NextCheck>;

/** A card that was worked on: what was done last, what came of it, and why. */
export const AfterWork = z.strictObject({
  remedy: Id,
  what: Wording,
  /** the day of the work; null where there is no record at hand */
  on: Day.nullable(),
  /** it failed again, or never worked: the page is about that */
  failed: z.boolean(),
  /** it failed in service, not on the bench */
  cameBack: z.boolean(),
  sentences: z.array(z.string()),
  /** what most likely happened, without hiding whose fault it was; null where nothing stands out */
  plainly: z.string().nullable(),
  /** what the same work would bring once more, and whether we would do it */
  again: z.array(z.string()),
  /** likeliest first; empty where the card works */
  reasons: z.array(
    z.strictObject({
      kind: z.enum(['wrong-thing', 'did-not-take', 'relapsed', 'damaged', 'new-fault']),
      count: Count,
      sentence: z.string(),
    }),
  ),
});
export type AfterWork = z.infer<typeof AfterWork>;

export const Letter = z.strictObject({
  kind: z.literal('letter'),
  format: z.literal(1),
  outcome: Outcome,
  language: Language,
  /** BCP 47, for numbers, dates and money */
  locale: z.string(),
  paper: Paper,
  shop: z.string(),
  record: Id,
  cardTitle: z.string(),
  invented: z.boolean(),
  ownStock: z.boolean(),
  /** version of the knowledge; null where nothing was worked out */
  knowledge: z.string().nullable(),
  date: Day,
  validUntil: Day.nullable(),
  /** how long "still works" looks ahead; null where nothing was worked out */
  horizon: z.strictObject({ days: z.number(), text: z.string() }).nullable(),
  title: z.string(),
  /** what is advised, in the words of the rules; null where there is nothing to name */
  advised: Wording.nullable(),
  lead: z.array(z.string()),
  cameIn: z.array(z.string()),
  afterWork: AfterWork.nullable(),
  found: z.strictObject({
    items: z.array(z.strictObject({ finding: Id, what: Wording, state: Wording, abnormal: z.boolean() })),
    others: z.string().nullable(),
  }),
  causes: z.array(Cause),
  /** what must be known to read the list of causes */
  causesNote: z.array(z.string()),
  sites: z.array(z.strictObject({ site: z.enum(SITES), chance: Chance01 })),
  choices: z.array(Choice),
  outOf100: OutOf100.nullable(),
  why: z.array(z.string()),
  changes: z.array(z.string()),
  ruledOut: z.array(z.strictObject({ remedies: z.array(Id), reason: Wording })),
  next: NextCheck.nullable(),
  rests: z.array(z.string()),
  cautions: z.array(z.strictObject({ id: Id, what: Wording })),
  consent: z.strictObject({ intro: z.string(), boxes: z.array(z.string()), sign: z.boolean() }),
  /** said at the foot where wordings of the rules are in another language than the page */
  languageNote: z.string().nullable(),
  warnings: z.array(PriceWarning),
});
export type Letter = z.infer<typeof Letter>;

/** What `letter --json` answers. */
export const LetterAnswer = z.discriminatedUnion('kind', [Letter, BadRecord]);
export type LetterAnswer = z.infer<typeof LetterAnswer>;
