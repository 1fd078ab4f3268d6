/** The owner's page from an assessment: the same facts as the technician's, in words for the owner of the card. */

import { saysLittle } from '../assess/says-little.ts';
import { likely } from '../assess/shop-and-card.ts';
import type { Assessed, Assessment, BreakEven, Option } from '../assessment.ts';
import { openQuote } from '../record/quote.ts';
import type { Record as CardRecord, Quoted } from '../record/schema.ts';
import type { Shop } from '../shop/schema.ts';
import { shopNameIn } from '../shop/shipped-name.ts';
import { afterWorkOf, failedAfterWork, triesAgain } from './after-work.ts';
import { cameInOf, causesIn, causesNoteOf, foundIn, foundOf, withoutStop } from './causes.ts';
import { changesOf } from './changes.ts';
import { choicesOf, chosenOption, type Offer, outOf100, repairInQuestion, repairWaits } from './choices.ts';
import { type Messages, messagesIn } from './messages/messages.ts';
import { nextCheckOf } from './next-check.ts';
import type { OwnerWordings } from './owner-wordings.ts';
import { warningsOf } from './price-warnings.ts';
import { daysAfter, localeFor, type Say, sayIn } from './say.ts';
import type { Choice, Language, Letter, Outcome, Paper } from './schema.ts';
import { whyOf } from './why.ts';

export const DEFAULT_QUOTE_DAYS = 14;
/** From this share of sound cards on, "nothing wrong" is said without "most likely". */
const SURELY_SOUND = 0.9;
/** Regions that print on US Letter. */
const LETTER_REGIONS = ['US', 'CA', 'MX', 'PH', 'CL', 'CO', 'VE'];

export interface LetterOptions {
  readonly shop: Shop;
  readonly words: OwnerWordings;
  /** the date on the page, ISO */
  readonly today: string;
  /** the record assessed: what came in, and what the card was taken to be worth */
  readonly record?: CardRecord | undefined;
  /** what the owner is asked for; without it what was quoted, else the middle of the price band */
  readonly price?: number | undefined;
  readonly paper?: Paper | undefined;
  readonly language?: Language | undefined;
}

/** A record that cannot be used has no letter. */
export type Tellable = Exclude<Assessment, { kind: 'bad-record' }>;

export function writeLetter(assessment: Tellable, options: LetterOptions): Letter {
  return assessment.kind === 'assessed'
    ? assessedLetter(assessment, options)
    : contradictionLetter(assessment, options);
}

export function outcomeOf(assessed: Assessed): Exclude<Outcome, 'contradiction'> {
  if (assessed.next.kind === 'check') return 'check-first';
  const { verdict } = chosenOption(assessed);
  return verdict === 'scrap' ? 'leave' : verdict === 'return' ? 'return' : 'repair';
}

/** Break-evens that speak of the repair itself, as "it". */
const OF_THE_REPAIR: readonly BreakEven['what'][] = ['price', 'chance-works', 'parts', 'labour-minutes'];

interface Setting {
  readonly language: Language;
  readonly messages: Messages;
  readonly say: Say;
}

function settingOf({ shop, language = 'en' }: LetterOptions, currency: string): Setting {
  const messages = messagesIn(language);
  return { language, messages, say: sayIn(localeFor(language, shop.locale), currency, messages.count) };
}

function assessedLetter(assessed: Assessed, options: LetterOptions): Letter {
  const { shop, words, record } = options;
  const setting = settingOf(options, assessed.currency);
  const { messages, say } = setting;
  const outcome = outcomeOf(assessed);
  const chosen = chosenOption(assessed);
  const question = repairInQuestion(assessed);
  const quote = quoteFor(record, question);
  const price = options.price ?? quote?.price;
  const offer: Offer = { assessed, shop, price, words, messages, say };
  const choices = choicesOf(offer);
  const asked = askedFor(choices, question);
  const next = nextCheckOf(offer);
  // a change in a repair that is not on the page would be one of nothing
  const onPage = question === null || choices.some(({ option }) => option === question.id);
  const notTold: readonly BreakEven['what'][] = [
    ...(outcome === 'leave' ? (['price'] as const) : []),
    ...(onPage ? [] : OF_THE_REPAIR),
  ];
  const causes = causesIn(assessed.ranking, words, messages, say);
  // while a check comes first, what some repair would do today decides nothing
  const pictured = chosen.verdict !== 'scrap' ? chosen : outcome === 'check-first' ? null : question;
  return {
    ...frameOf(options, setting, assessed),
    outcome,
    invented: assessed.invented,
    ownStock: assessed.ownStock,
    knowledge: assessed.knowledge,
    horizon: { days: assessed.horizonDays, text: messages.days(assessed.horizonDays) },
    validUntil:
      (outcome === 'repair' || outcome === 'leave') && !assessed.ownStock
        ? say.date(
            quote !== null && quote.price === price
              ? quote.validUntil
              : daysAfter(options.today, shop.quoteDays ?? DEFAULT_QUOTE_DAYS),
          )
        : null,
    title: titleOf(outcome, assessed, chosen, messages),
    advised:
      outcome === 'check-first'
        ? (next?.what ?? null)
        : outcome === 'repair'
          ? { text: chosen.owner, language: words.language }
          : null,
    lead: leadOf(outcome, offer, chosen, question, asked),
    cameIn: cameInOf(record, assessed.evidence, words, messages, say),
    afterWork: afterWorkOf(assessed, { words, messages, say, shop, record }),
    found: foundIn(assessed, words, messages),
    causes,
    causesNote: causesNoteOf(causes, messages),
    sites: assessed.sites.map(({ site, chance }) => ({ site, chance })),
    choices,
    outOf100: pictured ? outOf100(pictured, assessed.horizonDays, messages, pictured === chosen) : null,
    why: whyOf(outcome, offer, chosen, question, asked),
    changes: changesTold(outcome, changesOf(assessed, notTold, messages, say), messages),
    ruledOut: ruledOutOf(assessed, words, messages, setting.language),
    next,
    rests: restsOf(offer, options, pictured),
    cautions: cautionsOf(assessed, words),
    consent: consentFor(outcome, assessed, asked, messages),
    warnings: warningsOf(offer, question),
  };
}

/** What every letter has, whatever came out. */
function frameOf(
  { shop, words, record, today, paper }: LetterOptions,
  { language, messages, say }: Setting,
  assessment: Tellable,
): Pick<
  Letter,
  | 'kind'
  | 'format'
  | 'language'
  | 'locale'
  | 'paper'
  | 'shop'
  | 'record'
  | 'cardTitle'
  | 'invented'
  | 'date'
  | 'languageNote'
> {
  return {
    kind: 'letter',
    format: 1,
    language,
    locale: say.locale,
    paper: paper ?? paperFor(shop.locale),
    shop: shopNameIn(language, shop.name),
    record: assessment.record,
    cardTitle: assessment.title,
    invented: record?.invented ?? false,
    date: say.date(today),
    languageNote: words.language === language ? null : messages.page.languageNote(words.language),
  };
}

function paperFor(locale: string): Paper {
  const { region } = new Intl.Locale(locale);
  return region !== undefined && LETTER_REGIONS.includes(region) ? 'letter' : 'a4';
}

/** The price printed for the repair the letter is about, as text; null where none is asked. */
function askedFor(choices: readonly Choice[], question: Option | null): { amount: number; text: string } | null {
  const choice = choices.find(({ option }) => option === question?.id);
  return choice?.price.kind === 'asked' ? choice.price.price : null;
}

/** A price quoted for this repair is the price on the page; one quoted for another says nothing about it. */
function quoteFor(record: CardRecord | undefined, question: Option | null): Quoted | null {
  const quote = record === undefined ? null : openQuote(record);
  return quote !== null && quote.option === question?.id ? quote : null;
}

/** Nothing has failed since the last work on the card, as far as anybody knows. */
const worksNow = ({ comeback }: Assessed) => comeback !== undefined && comeback.attributions === null;

/** Below this share of the tries with other estimates that end in the same advice, it is a close call. */
const FIRM_ENOUGH = 2 / 3;

const isClose = ({ sensitivity }: Assessed) => sensitivity !== undefined && sensitivity.stands < FIRM_ENOUGH;

function titleOf(outcome: Outcome, assessed: Assessed, chosen: Option, messages: Messages): string {
  if (failedAfterWork(assessed) && (outcome === 'repair' || outcome === 'leave')) return messages.titlesAgain[outcome];
  if (outcome === 'repair' && isClose(assessed)) return messages.titleClose;
  if (outcome !== 'return') return messages.titles[outcome];
  if (worksNow(assessed)) return messages.titleWorks;
  return chosen.works < SURELY_SOUND ? messages.titleReturnUnsure : messages.titles.return;
}

function leadOf(
  outcome: Exclude<Outcome, 'contradiction'>,
  { assessed, shop, messages, say }: Offer,
  chosen: Option,
  question: Option | null,
  asked: { text: string } | null,
): string[] {
  const { lead, fails, days } = messages;
  const after = days(assessed.horizonDays);
  const works = say.count(chosen.works).text;
  switch (outcome) {
    case 'repair': {
      const chances = lead.repair(numberOf(works), numberOf(say.count(chosen.holds).text), after);
      const close = isClose(assessed) ? [lead.close] : [];
      if (asked === null) return [chances, ...close];
      const fee = shop.policy.kind === 'no-fix-no-fee' ? fails.noFee : fails.fee(say.money(shop.policy.fee).text);
      const warranty =
        assessed.warrantyDays > 0 ? `${fails.warranty(days(assessed.warrantyDays))} ${fails.later}` : fails.noWarranty;
      return [chances, ...close, lead.price(asked.text), fee, warranty];
    }
    case 'leave':
      return [
        assessed.ownStock ? lead.leaveOwnStock : lead.leave,
        question
          ? lead.bestRepair(say.count(question.works).text)
          : repairWaits(assessed)
            ? lead.repairWaits
            : lead.noRepair,
      ];
    case 'return':
      return [worksNow(assessed) ? lead.works : lead.return(numberOf(works))];
    case 'check-first':
      return [lead.checkFirst, lead.stands(messages.kinds[chosen.verdict])];
  }
}

/** "Of 100 cards ... 55" says the hundred already. */
function numberOf(count: string): string {
  return count.replace(/ (of|von) 100$/, '');
}

function ruledOutOf(
  assessed: Assessed,
  words: OwnerWordings,
  messages: Messages,
  language: Language,
): Letter['ruledOut'] {
  const byReason = new Map<string, { remedies: string[]; language: string }>();
  for (const { id, reasons } of assessed.closedRemedies) {
    for (const reason of reasons) {
      // a reason that no rule gives is the shop's: a missing tool or price
      const told = reason in words.reasons ? words.reasons[reason] : messages.ruledOut.shop;
      if (!told) continue;
      const own = reason in words.reasons ? words.language : language;
      const entry = byReason.get(told) ?? { remedies: [], language: own };
      if (!entry.remedies.includes(id)) entry.remedies.push(id);
      byReason.set(told, entry);
    }
  }
  return [...byReason].map(([text, { remedies, language: own }]) => ({ remedies, reason: { text, language: own } }));
}

function changesTold(outcome: Outcome, changes: readonly string[], messages: Messages): string[] {
  if (outcome === 'check-first') return [messages.changes.firstTheStep, ...changes];
  return changes.length > 0 ? [...changes] : [messages.changes.nothing];
}

/** What this caution says, "what this rests on" says in the letter's own language. */
const TOLD_ANYWAY = 'figures-are-estimates';

function cautionsOf(assessed: Assessed, words: OwnerWordings): Letter['cautions'] {
  return assessed.cautions.flatMap(({ id }) => {
    const text = words.cautions[id];
    return text && id !== TOLD_ANYWAY ? [{ id, what: { text, language: words.language } }] : [];
  });
}

function restsOf(
  { assessed, shop, messages, say }: Offer,
  { record }: LetterOptions,
  pictured: Option | null,
): string[] {
  const { rests, why } = messages;
  const list = [rests.estimate];
  const works = pictured?.worksInterval;
  const holds = pictured?.holdsInterval;
  if (works && holds) {
    const text = (chance: number) => say.number(Math.round(100 * chance));
    const known = text(works.low) === text(works.high);
    list.push(
      saysLittle(works) || saysLittle(holds)
        ? rests.rangeSaysLittle
        : known
          ? rests.rangeHolds(text(holds.low), text(holds.high))
          : rests.range(text(works.low), text(works.high), text(holds.low), text(holds.high)),
    );
  }
  if (assessed.sensitivity) {
    // while a check comes first the page advises the check; what was tried is what one would do without it
    const firm = assessed.next.kind === 'check' ? why.firmToday : why.firm;
    list.push(firm(say.count(assessed.sensitivity.stands).text));
  }
  const money = record ? (record.money ?? shop.defaultMoney) : null;
  if (money) list.push(rests.values(say.money(likely(money.working)).text, say.money(likely(money.asIs)).text));
  if (!assessed.ownStock) list.push(rests.law);
  return list;
}

function consentFor(
  outcome: Outcome,
  assessed: Assessed,
  asked: { text: string } | null,
  messages: Messages,
): Letter['consent'] {
  const { consent } = messages;
  if (worksNow(assessed)) return { intro: consent.nothingToDo, boxes: [], sign: false };
  if (triesAgain(assessed))
    return { intro: consent.repair, boxes: [consent.repairAgainBox, consent.moneyBackBox], sign: true };
  const usual = consentOf(outcome, assessed.ownStock, asked, messages);
  const settlement = assessed.comeback?.second.settlement;
  if (settlement !== 'refund' && settlement !== 'refund-and-offer') return usual;
  return { ...usual, boxes: usual.boxes.map((box) => (box === consent.giveBackBox ? consent.moneyBackBox : box)) };
}

function consentOf(
  outcome: Outcome,
  ownStock: boolean,
  asked: { text: string } | null,
  { consent }: Messages,
): Letter['consent'] {
  if (ownStock) return { intro: consent.ownStock, boxes: [], sign: false };
  switch (outcome) {
    case 'repair':
      return asked
        ? { intro: consent.repair, boxes: [consent.repairBox(asked.text), consent.giveBackBox], sign: true }
        : { intro: consent.repair, boxes: [consent.giveBackBox], sign: true };
    case 'check-first':
      return { intro: consent.repair, boxes: [consent.checkBox, consent.giveBackBox], sign: true };
    case 'leave':
      return {
        intro: consent.repair,
        boxes: [consent.giveBackBox, consent.partsBox, ...(asked ? [consent.repairAnywayBox(asked.text)] : [])],
        sign: true,
      };
    case 'return':
      return { intro: consent.repair, boxes: [consent.returned], sign: true };
    case 'contradiction':
      return { intro: consent.nothing, boxes: [], sign: false };
  }
}

function contradictionLetter(contradiction: Exclude<Tellable, Assessed>, options: LetterOptions): Letter {
  const { shop, words, record } = options;
  const setting = settingOf(options, shop.currency);
  const { messages, say } = setting;
  const items = contradiction.evidence
    .filter(({ finding }) => finding === contradiction.finding || contradiction.against.includes(finding))
    .flatMap((item) => foundOf(item, words) ?? []);
  const said = (id: string) => {
    const item = items.find(({ finding }) => finding === id);
    const name = contradiction.evidence.find(({ finding }) => finding === id)?.name ?? id;
    return item ? `${item.what.text}: ${withoutStop(item.state.text)}` : name;
  };
  const others = contradiction.against.map(said);
  return {
    ...frameOf(options, setting, contradiction),
    outcome: 'contradiction',
    ownStock: record?.money?.ownStock ?? false,
    knowledge: null,
    horizon: null,
    validUntil: null,
    title: messages.titles.contradiction,
    advised: null,
    lead: [messages.lead.contradiction, messages.lead.contradictionThen],
    cameIn: cameInOf(record, contradiction.evidence, words, messages, say),
    afterWork: null,
    found: { items, others: null },
    causes: [],
    causesNote: [],
    sites: [],
    choices: [],
    outOf100: null,
    why: [
      contradiction.finding === null
        ? messages.why.contradictionOfWork
        : others.length > 0
          ? messages.why.contradiction(said(contradiction.finding), others.join('; '))
          : messages.why.contradictionAlone(said(contradiction.finding)),
    ],
    changes: [],
    ruledOut: [],
    next: null,
    rests: [messages.rests.law],
    cautions: [],
    consent: consentOf('contradiction', false, null, messages),
    warnings: [],
  };
}
