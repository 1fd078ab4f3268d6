/** What became of the last work on the card, why it failed if it did, and what the same work would bring once more. */
import type { Assessed } from '../assessment.ts';
import type { Record as CardRecord } from '../record/schema.ts';
import type { Shop } from '../shop/schema.ts';
import type { Messages } from './messages/messages.ts';
import type { OwnerWordings } from './owner-wordings.ts';
import type { Say } from './say.ts';
import type { AfterWork } from './schema.ts';

type Comeback = NonNullable<Assessed['comeback']>;
type Kind = AfterWork['reasons'][number]['kind'];

/** A reason less likely than this is not worth a line. */
const LEAST_CHANCE_SHOWN = 0.05;
/** From this share on one reason is said without the others. */
const STANDS_OUT = 0.5;
/** From this chance on the owner is told that our own work may have done harm, whatever is likelier. */
const MAY_BE_OURS = 0.15;
/** A harm rarer than this is no argument against heat. */
const HARM_SHOWN = 0.1;

export interface AfterWorkWords {
  readonly words: OwnerWordings;
  readonly messages: Messages;
  readonly say: Say;
  readonly shop: Shop;
  readonly record: CardRecord | undefined;
}

/** Under warranty the owner is better off if the shop tries again at no new price than with the money back. */
export function triesAgain({ comeback, next }: Assessed): boolean {
  return comeback?.second.settlement === 'try-again' && next.kind === 'act';
}

/** The card failed again, or never worked: a page about that. */
export const failedAfterWork = ({ comeback }: Assessed): boolean =>
  comeback !== undefined && comeback.attributions !== null;

export function afterWorkOf(
  assessed: Assessed,
  { words, messages, say, shop, record }: AfterWorkWords,
): AfterWork | null {
  const { comeback } = assessed;
  if (!comeback) return null;
  const { attributions } = comeback;
  const reasons = (Object.entries(attributions ?? {}) as [Kind, number][])
    .filter(([, chance]) => chance >= LEAST_CHANCE_SHOWN)
    .sort((a, b) => b[1] - a[1])
    .map(([kind, chance]) => {
      const count = say.count(chance);
      return { kind, count, sentence: messages.afterWork.reasons[kind](count.text) };
    });
  return {
    remedy: comeback.lastRemedy,
    what: { text: words.remedies[comeback.lastRemedy] ?? comeback.lastRemedyName, language: words.language },
    on: dayOfWork(record, say),
    failed: attributions !== null,
    cameBack: comeback.cameBack,
    sentences: happened(assessed, comeback, { words, messages, say, shop, record }),
    plainly: plainlyOf(attributions, messages),
    again: attributions === null ? [] : againOf(assessed, comeback, messages, say),
    reasons,
  };
}

/** What lies after the last work; empty where there is no record at hand. */
function sinceWork(record: CardRecord | undefined): CardRecord['timeline'] {
  const at = record?.timeline.findLastIndex(({ type }) => type === 'treated') ?? -1;
  return at < 0 ? [] : record!.timeline.slice(at);
}

function dayOfWork(record: CardRecord | undefined, say: Say): AfterWork['on'] {
  const [work] = sinceWork(record);
  return work ? say.date(work.at.slice(0, 10)) : null;
}

/** It went out again as it was and came back again: said with its days, since a card that comes and goes is another matter. */
function cameBackOften({ returns }: Comeback, { messages: { afterWork }, say, record }: AfterWorkWords): string[] {
  if (returns < 2) return [];
  const days = sinceWork(record).flatMap(({ type, at }) =>
    type === 'came-back' ? [say.date(at.slice(0, 10)).text] : [],
  );
  return [
    afterWork.cameBackOften(returns, say.number(returns), days.length === returns ? say.list(days) : null),
    afterWork.asItWas,
  ];
}

function happened(assessed: Assessed, comeback: Comeback, around: AfterWorkWords): string[] {
  const { messages, say, shop } = around;
  const { verdict, warrantyDays, ownStock } = assessed;
  const { afterWork, days } = messages;
  const { workedDays, cameBack, attributions, second } = comeback;
  const sentences: string[] = [];
  if (cameBack && workedDays !== null) {
    const whole = Math.floor(workedDays);
    sentences.push(afterWork.failedAgain(whole, say.number(whole)));
  } else if (cameBack) sentences.push(afterWork.failedAgainUnknown);
  else sentences.push(attributions ? afterWork.neverWorked : afterWork.works);
  sentences.push(...cameBackOften(comeback, around));
  if (ownStock || !attributions) return sentences;
  const { warranty, paid } = second;
  if (!cameBack) {
    // what never left the bench was never paid for, unless the shop takes a fee
    if (comeback.second.paid.inAll === null && shop.policy.kind === 'no-fix-no-fee')
      sentences.push(afterWork.nothingPaid);
    return sentences;
  }
  const running = warranty?.running === true;
  if (paid.last !== null) {
    const price = say.exactly(paid.last).text;
    sentences.push(running ? afterWork.paid(price) : afterWork.paidPast(price));
  }
  // where the card is sound, it was not the repair that failed
  if (verdict.kind === 'return' || warranty === null) return sentences;
  const told = !running ? afterWork.afterWarranty : triesAgain(assessed) ? afterWork.warrantyAgain : afterWork.warranty;
  sentences.push(told(days(warrantyDays)));
  return sentences;
}

function plainlyOf(attributions: Comeback['attributions'], { afterWork }: Messages): string | null {
  if (attributions === null) return null;
  const ranked = (Object.entries(attributions) as [Kind, number][]).sort((a, b) => b[1] - a[1]);
  const [kind, chance] = ranked[0]!;
  const plainly = chance >= STANDS_OUT ? [afterWork.plainly[kind]] : [];
  if (attributions.damaged >= MAY_BE_OURS && (kind !== 'damaged' || chance < STANDS_OUT))
    plainly.push(afterWork.mayBeOurs);
  return plainly.length === 0 ? null : plainly.join(' ');
}

/** Nothing where the same work is what is advised: then it stands among the choices. */
function againOf(assessed: Assessed, { lastRemedy, second }: Comeback, messages: Messages, say: Say): string[] {
  const { afterWork, days } = messages;
  const { again, againClosed, damage } = second;
  if (assessed.verdict.kind === 'return') return [];
  const advised = assessed.options.find(({ id }) => id === assessed.verdict.option);
  if (advised?.steps.includes(lastRemedy)) return [];
  if (again === null) return againClosed.length > 0 ? [afterWork.againClosed] : [];
  const { works, holds, justified, heatCycles } = again.option;
  const sentences = [afterWork.again(say.count(works).text, say.count(holds).text, days(assessed.horizonDays))];
  if (heatCycles > 0 && damage.onceMore >= HARM_SHOWN)
    sentences.push(afterWork.againHarm(say.count(damage.onceMore).text));
  if (!justified) sentences.push(afterWork.againNot);
  return sentences;
}
