/** The choices side by side: the advised one first, then other repairs worth talking about, a return, leaving the card. */
import type { Assessed, Option } from '../assessment.ts';
import type { FeePolicy, Shop } from '../shop/schema.ts';
import { triesAgain } from './after-work.ts';
import type { Messages } from './messages/messages.ts';
import type { OwnerWordings } from './owner-wordings.ts';
import { isPriced, middlePrice } from './price.ts';
import type { Say } from './say.ts';
import type { Choice, OutOf100, Price } from './schema.ts';

const CHOICES_SHOWN = 4;
/** A return is a choice where the card is sound at least this often. */
const LEAST_HOPE_OF_RETURN = 0.05;

export interface Offer {
  readonly assessed: Assessed;
  readonly shop: Shop;
  /** the technician's price, for the option the letter is about */
  readonly price: number | undefined;
  readonly words: OwnerWordings;
  readonly messages: Messages;
  readonly say: Say;
}

export function isRepair(option: Option): boolean {
  return option.verdict !== 'return' && option.verdict !== 'scrap';
}

export function chosenOption(assessed: Assessed): Option {
  const chosen = assessed.options.find(({ id }) => id === assessed.verdict.option);
  if (!chosen) throw new Error(`the assessment of ${assessed.record} does not list its own verdict's option`);
  return chosen;
}

/** The repair the letter talks about: the advised one or, where none is, the one that break-evens are about. */
export function repairInQuestion(assessed: Assessed): Option | null {
  const chosen = chosenOption(assessed);
  if (isRepair(chosen)) return chosen;
  const subject = assessed.options.find(({ id }) => id === assessed.whatIf?.subject);
  return subject && isRepair(subject) ? subject : null;
}

export function choicesOf(offer: Offer): Choice[] {
  const { assessed } = offer;
  const chosen = chosenOption(assessed);
  const question = repairInQuestion(assessed);
  const listed: Option[] = [chosen];
  const add = (option: Option | null | undefined) => {
    if (option && !listed.includes(option)) listed.push(option);
  };
  // while a check comes first, a repair that is not worth its price today decides nothing
  if (assessed.next.kind !== 'check' || question?.justified === true) add(question);
  const stops = assessed.options.filter((option) => !isRepair(option) && option !== chosen);
  const leaving = stops.find(({ id }) => id === 'leave-as-it-is') ?? stops.find(({ verdict }) => verdict === 'scrap');
  const returning = stops.find(({ verdict, works }) => verdict === 'return' && works >= LEAST_HOPE_OF_RETURN);
  const kept = [returning, isRepair(chosen) ? leaving : undefined].filter((stop) => stop !== undefined);
  for (const option of rivalsOf(assessed, chosen)) if (listed.length + kept.length < CHOICES_SHOWN) add(option);
  for (const stop of kept) add(stop);
  return listed.map((option) => choiceOf(offer, option, option === chosen, option === question));
}

function choiceOf(offer: Offer, option: Option, advised: boolean, inQuestion: boolean): Choice {
  const { assessed, shop, words, messages, say } = offer;
  const kind = isRepair(option) ? 'repair' : option.verdict === 'return' ? 'return' : 'leave';
  return {
    option: option.id,
    verdict: option.verdict,
    kind,
    advised,
    worthIt: option.justified,
    what: { text: option.owner, language: words.language },
    note: waits(option) ? messages.note.waits : null,
    price: priceOf(offer, option, inQuestion ? offer.price : undefined),
    works: kind === 'leave' ? null : say.count(option.works),
    holds: kind === 'leave' ? null : say.count(option.holds),
    ifItFails: ifItFails(kind, assessed.ownStock, shop.policy, messages, say),
  };
}

/**
 * Other repairs that are worth their price, best first. Beside a return there are none: work on a sound card is no choice; and
 * the advised work cut short or drawn out says nothing new.
 */
export function rivalsOf({ options }: Assessed, chosen: Option): Option[] {
  if (chosen.verdict === 'return') return [];
  return options
    .filter((option) => option !== chosen && isRepair(option) && option.justified && !waits(option))
    .filter(({ mendsTooLittle }) => !mendsTooLittle)
    .filter(({ steps }) => steps[0] !== chosen.steps[0])
    .sort((a, b) => b.surplus - b.margin - (a.surplus - a.margin));
}

/** Some repair might be worth it once more has been looked at. */
export function repairWaits({ options }: Assessed): boolean {
  return options.some((option) => isRepair(option) && waits(option));
}

function waits(option: Option): boolean {
  return option.waitsFor !== undefined && option.waitsFor.length > 0;
}

export function priceOf({ assessed, messages, say }: Offer, option: Option, wanted: number | undefined): Price {
  if (assessed.ownStock) return { kind: 'own-stock', text: messages.price.ownStock };
  if (!isRepair(option) || !isPriced(option)) return { kind: 'nothing', text: messages.price.nothing };
  // what was paid for the first attempt is the price of the second
  if (triesAgain(assessed) && option.id === assessed.verdict.option)
    return { kind: 'nothing', text: messages.price.nothingNew };
  const price = wanted ?? middlePrice(option);
  if (price !== null) {
    const asked = say.exactly(price);
    return { kind: 'asked', price: asked, text: asked.text };
  }
  const needed = say.money(option.floor);
  const worth = say.money(Math.max(0, option.ceiling));
  const text =
    option.ceiling > 0 ? messages.price.noneFits(needed.text, worth.text) : messages.price.noneFitsAtAll(needed.text);
  return { kind: 'none-fits', needed: say.money(option.floor), worth: say.money(option.ceiling), text };
}

function ifItFails(kind: Choice['kind'], ownStock: boolean, policy: FeePolicy, messages: Messages, say: Say): string {
  if (kind === 'leave') return messages.ifItFails.leave;
  if (kind === 'return') return messages.ifItFails.return;
  if (ownStock) return messages.ifItFails.ownStock;
  return policy.kind === 'no-fix-no-fee'
    ? messages.ifItFails.noFee
    : messages.ifItFails.fee(say.money(policy.fee).text);
}

/** What becomes of 100 cards; each card is counted once, so the parts add up. */
export function outOf100(option: Option, horizonDays: number, messages: Messages, advised: boolean): OutOf100 {
  const works = Math.round(100 * option.works);
  const holds = Math.round(100 * option.holds);
  const after = messages.days(horizonDays);
  const [failsAgain, fails] = [works - holds, 100 - works];
  return {
    option: option.id,
    title: !isRepair(option)
      ? messages.outOf100.titleReturn
      : advised
        ? messages.outOf100.titleAdvised
        : messages.outOf100.titleBest,
    holds,
    failsAgain,
    fails,
    legend: {
      holds: messages.outOf100.holds(holds, after),
      failsAgain: messages.outOf100.failsAgain(failsAgain, after),
      fails: messages.outOf100.fails(fails),
    },
    sentence: messages.outOf100.sentence(holds, failsAgain, fails, after),
  };
}
