/** The next check, where it comes before a decision: what is done, what it costs, and what its results may lead to. */
import type { VerdictKind } from '../assessment.ts';
import type { Offer } from './choices.ts';
import type { Count, NextCheck } from './schema.ts';

const LEADS_SHOWN = 3;
/** A lead rarer than this is not worth a line. */
const LEAST_CHANCE_SHOWN = 0.02;

export function nextCheckOf({ assessed, shop, words, messages, say }: Offer): NextCheck | null {
  const { next, checks, verdict, ownStock } = assessed;
  if (next.kind !== 'check') return null;
  const advice = checks.find(({ check }) => check === next.check);
  if (!advice) throw new Error(`the assessment of ${assessed.record} does not list its own next check`);
  const minutes = Math.round(advice.minutes);
  const cost = say.money(advice.cost);
  const paid = ownStock
    ? messages.next.ownStock
    : shop.policy.kind === 'no-fix-no-fee'
      ? messages.next.free
      : messages.next.fee(say.money(shop.policy.fee).text);
  const byVerdict = new Map<VerdictKind, number>();
  for (const outcome of advice.outcomes)
    byVerdict.set(outcome.verdict, (byVerdict.get(outcome.verdict) ?? 0) + outcome.chance);
  const leadsTo = [...byVerdict]
    .sort((a, b) => b[1] - a[1])
    .filter(([, chance]) => chance >= LEAST_CHANCE_SHOWN)
    .slice(0, LEADS_SHOWN)
    .map(([kind, chance]) => {
      const count = say.count(Math.min(1, chance));
      const sentence = kind === verdict.kind ? messages.next.same : messages.next.leadsTo;
      return { verdict: kind, count, sentence: sentence(count.text, messages.kinds[kind]) };
    });
  return {
    check: advice.check,
    what: { text: words.checks[advice.check] ?? advice.name, language: words.language },
    minutes,
    cost,
    sentences: [
      // what rounds to nothing is not said as a sum of nothing
      Math.round(cost.amount) === 0 ? messages.next.takesCheaply(minutes) : messages.next.takes(minutes, cost.text),
      paid,
    ],
    leadsTo,
    rest: restOf(leadsTo.map(({ count }) => count)),
  };

  /** What is not listed, so that the counts on the page add up to the 100 they speak of. */
  function restOf(listed: readonly Count[]): NextCheck['rest'] {
    const left = 100 - listed.reduce((sum, { of100 }) => sum + of100, 0);
    if (left < 1) return null;
    const count = say.count(left / 100);
    return { count, sentence: messages.next.rest(count.text) };
  }
}

/** What the results may lead to, all 100 of them, a sentence each. */
export const sayLeads = ({ leadsTo, rest }: NextCheck): readonly string[] =>
  [...leadsTo, ...(rest === null ? [] : [rest])].map(({ sentence }) => sentence);
