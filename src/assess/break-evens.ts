/** What would have to change for the verdict to change. */
import type { BreakEven } from '../assessment.ts';
import { breakEvens } from '../decision/break-even.ts';
import type { CardModel } from '../decision/card-model.ts';
import type { Plan } from '../decision/plan.ts';
import { lower } from './verdict.ts';
import type { Words } from './words.ts';

/** Each in a sentence. */
export function breakEvensView(
  model: CardModel,
  plans: readonly Plan[],
  nameOf: (plan: string) => string,
  words: Words,
): BreakEven[] {
  const { subject, breakEvens: found } = breakEvens(model, plans);
  if (!subject) return [];
  const name = lower(nameOf(subject.id));
  return found
    .filter((even) => withinReason(even, model))
    .map((even) => ({ ...even, sentence: sentence(even, name, subject.justified, words) }));
}

/** A change nobody could make says nothing: work in a third of the time, a price beyond the card's value. */
const LEAST_SHARE_OF_MINUTES = 1 / 3;

function withinReason({ what, at, now }: Omit<BreakEven, 'sentence'>, { money }: CardModel): boolean {
  if (at === null) return false;
  if (what === 'price') return at <= money.working && now > 0;
  if (what === 'labour-minutes') return at >= LEAST_SHARE_OF_MINUTES * now;
  return true;
}

function sentence(even: Omit<BreakEven, 'sentence'>, name: string, justified: boolean, words: Words): string {
  const { what, at, now, becomes } = even;
  const turns = becomes === null ? '' : `the verdict becomes ${becomes.replaceAll('-', ' ')}`;
  const side = at !== null && at > now ? 'above' : 'below';
  if (at === null) return '';
  switch (what) {
    case 'working-value':
      return `If the card were worth ${side === 'above' ? 'more' : 'less'} than ${words.money(at)} working, ${turns}.`;
    case 'chance-works':
      return `If the chance that it works (${name}) were ${side} ${words.percent(at)} instead of ${words.percent(now)}, ${turns}.`;
    case 'price':
      return justified
        ? `Above a price of ${words.money(at)} the owner is better off leaving the card.`
        : `To cover the shop, ${name} would have to cost the owner ${words.money(at)}; it is worth ${words.money(now)} to them.`;
    case 'parts':
      return `If the parts came to ${side === 'above' ? 'more' : 'less'} than ${words.money(at)} instead of ${words.money(now)}, ${turns}.`;
    case 'labour-minutes':
      return `If the work took ${side === 'above' ? 'more' : 'less'} than ${Math.round(at)} minutes instead of ${Math.round(now)}, ${turns}.`;
  }
}
