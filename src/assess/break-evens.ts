/** What would have to change for the verdict to change. */
import type { BreakEven } from '../assessment.ts';
import { breakEvens } from '../decision/break-even.ts';
import type { CardModel } from '../decision/card-model.ts';
import type { Plan } from '../decision/plan.ts';
import { LEAST_SOUND } from './verdict.ts';
import type { Words } from './words.ts';

/** Each in a sentence. */
export function breakEvensView(
  model: CardModel,
  plans: readonly Plan[],
  /** chance that nothing is wrong with the card */
  sound: number,
  nameOf: (plan: string) => string,
  words: Words,
): BreakEven[] {
  const { subject, breakEvens: found } = breakEvens(model, plans);
  if (!subject) return [];
  const name = nameOf(subject.id);
  return (
    found
      .filter((even) => withinReason(even, model))
      // a card that is hardly sound does not become so by being worth more
      .filter(({ becomes }) => becomes !== 'return' || sound >= LEAST_SOUND)
      .map((even) => ({ ...even, sentence: sentence(even, name, subject.justified, words) }))
  );
}

/** A change nobody could make says nothing: work in a third of the time, a price beyond the card's value. */
const LEAST_SHARE_OF_MINUTES = 1 / 3;

function withinReason({ what, at, now }: Omit<BreakEven, 'sentence'>, { money }: CardModel): boolean {
  if (at === null) return false;
  if (what === 'price') return at <= money.working && now > 0;
  if (what === 'labour-minutes') return at >= LEAST_SHARE_OF_MINUTES * now;
  return true;
}

function sentence(
  { what, at, now, becomes }: Omit<BreakEven, 'sentence'>,
  option: string,
  justified: boolean,
  { say, money, percent }: Words,
): string {
  if (at === null) return '';
  const turns = becomes === null ? '' : say('verdict-becomes', { verdict: say(`verdict-${becomes}`) });
  const more = at > now;
  switch (what) {
    case 'working-value':
      return say(more ? 'if-worth-more' : 'if-worth-less', { money: money(at), turns });
    case 'chance-works':
      return say(more ? 'if-chance-above' : 'if-chance-below', { option, at: percent(at), now: percent(now), turns });
    case 'price':
      return justified
        ? say('price-above', { money: money(at) })
        : say('price-to-cover', { option, at: money(at), now: money(now) });
    case 'parts':
      return say(more ? 'if-parts-more' : 'if-parts-less', { at: money(at), now: money(now), turns });
    case 'labour-minutes':
      return say(more ? 'if-work-more' : 'if-work-less', { at: Math.round(at), now: Math.round(now), turns });
  }
}
