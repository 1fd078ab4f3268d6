/** What would have to be different for another advice, from the assessment's break-evens. */
import type { Assessed, BreakEven } from '../assessment.ts';
import type { Messages } from './messages/messages.ts';
import type { Say } from './say.ts';

const CHANGES_SHOWN = 3;
/** What an owner can judge comes first. */
const ORDER: readonly BreakEven['what'][] = ['working-value', 'price', 'chance-works', 'parts', 'labour-minutes'];

/** A card worth more than twice what it was taken for, or half of it, is another card; so with how often work succeeds (judgement). */
const MOST_TIMES = 2;
const WITHIN_REASON: readonly BreakEven['what'][] = ['working-value', 'chance-works'];
/** Minutes and parts are no reason to do or leave a return. */
const NOT_OF_A_RETURN: readonly BreakEven['what'][] = ['parts', 'labour-minutes'];

export function changesOf(
  assessed: Assessed,
  alreadyTold: readonly BreakEven['what'][],
  messages: Messages,
  say: Say,
): string[] {
  const subject = assessed.options.find(({ id }) => id === assessed.whatIf?.subject);
  const ofReturn = subject?.verdict === 'return';
  const told = ORDER.flatMap((what) => assessed.verdict.breakEvens.filter((even) => even.what === what))
    .filter(({ what }) => !alreadyTold.includes(what))
    .filter(({ what }) => !(assessed.ownStock && what === 'price'))
    .filter(({ what }) => !(assessed.verdict.kind === 'return' && NOT_OF_A_RETURN.includes(what)))
    .flatMap((even) => changeOf(even, ofReturn, messages, say) ?? [])
    .slice(0, CHANGES_SHOWN);
  return told;
}

function changeOf(
  { what, at, now, becomes }: BreakEven,
  ofReturn: boolean,
  messages: Messages,
  say: Say,
): string | null {
  if (at === null || becomes === null) return null;
  if (WITHIN_REASON.includes(what) && (at > now * MOST_TIMES || at * MOST_TIMES < now)) return null;
  const side = at > now ? 'more' : 'less';
  const then = messages.kinds[becomes];
  const { changes } = messages;
  switch (what) {
    case 'working-value':
      return changes.value(side, say.money(at).text, say.money(now).text, then);
    case 'chance-works':
      return (ofReturn ? changes.sound : changes.chance)(side, say.count(at).text, say.count(now).text, then);
    case 'price':
      // an open band is told by its ceiling; a closed one by what the shop needs (at) and what it is worth to the owner (now)
      return becomes === 'scrap'
        ? changes.ceiling(say.money(at).text)
        : changes.gap(say.money(at).text, say.money(Math.max(0, now)).text);
    case 'parts':
      return changes.parts(side, say.money(at).text, say.money(now).text, then);
    case 'labour-minutes':
      return changes.minutes(side, lastingOf(at, changes, say), lastingOf(now, changes, say), then);
  }
}

/** From here on nobody counts in minutes. */
const IN_HOURS_FROM = 180;

const lastingOf = (minutes: number, { minutesTold, hoursTold }: Messages['changes'], say: Say): string =>
  minutes < IN_HOURS_FROM ? minutesTold(say.number(minutes)) : hoursTold(say.number(Math.round(minutes / 60)));
