/** Why this is advised, in a few sentences, with the money behind it. */
import type { Option } from '../assessment.ts';
import { type Offer, repairWaits, rivalsOf } from './choices.ts';
import { chanceKept, isPriced } from './price.ts';
import type { Outcome } from './schema.ts';

export function whyOf(
  outcome: Exclude<Outcome, 'contradiction'>,
  offer: Offer,
  chosen: Option,
  question: Option | null,
  asked: { readonly amount: number } | null,
): string[] {
  switch (outcome) {
    case 'repair':
      return whyRepair(offer, chosen, asked);
    case 'leave':
      return whyLeave(offer, question);
    case 'return':
      return whyReturn(offer);
    case 'check-first':
      return whyCheck(offer);
  }
}

function whyRepair(
  { assessed, shop, messages, say }: Offer,
  chosen: Option,
  asked: { readonly amount: number } | null,
) {
  const { why } = messages;
  const list: string[] = [];
  if (assessed.ownStock) list.push(why.ownStock(say.money(chosen.cost.total).text, say.money(chosen.surplus).text));
  else if (asked && isPriced(chosen)) {
    const fee = shop.policy.kind === 'diagnostic-fee' ? shop.policy.fee : 0;
    const gain = Math.round(chanceKept(chosen, fee) * (chosen.ceiling - asked.amount));
    if (gain > 0) list.push(why.gain(say.money(gain).text));
    else list.push(gain < 0 ? why.worse(say.money(-gain).text) : why.even);
  }
  list.push(rivalsOf(assessed, chosen).length === 0 ? why.only : assessed.ownStock ? why.bestOwnStock : why.best);
  list.push(why.leaving);
  return list;
}

function whyLeave({ assessed, messages, say }: Offer, question: Option | null): string[] {
  const { why } = messages;
  const list: string[] = [];
  if (question && assessed.ownStock) list.push(why.ownStockGap(say.money(question.cost.total).text));
  else if (question && isPriced(question)) {
    const needed = say.money(question.floor).text;
    list.push(question.ceiling > 0 ? why.gap(needed, say.money(question.ceiling).text) : why.gapAtAll(needed));
  }
  if (!question && !repairWaits(assessed)) list.push(why.noRepair);
  if (!assessed.ownStock) list.push(why.honest);
  return list;
}

function whyReturn({ messages }: Offer): string[] {
  return [messages.why.returnHarm];
}

function whyCheck({ assessed, messages, say }: Offer): string[] {
  const { why } = messages;
  const { next, checks, certificate } = assessed;
  if (next.kind !== 'check') return [];
  const advice = checks.find(({ check }) => check === next.check);
  if (!advice) return [];
  const gain = certificate.value - certificate.now;
  if (advice.worth > 0)
    return [worthTelling(advice.worth) ? why.checkWorth(say.money(advice.worth).text) : why.checkEven];
  return worthTelling(gain) ? [why.checkOpens, why.checkOpensWorth(say.money(gain).text)] : [why.checkOpens];
}

/** Less than half a unit of money would be printed as nothing. */
const worthTelling = (amount: number) => Math.round(amount) > 0;
