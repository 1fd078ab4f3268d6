/** Warnings to the technician about the price chosen: which side loses, how much, and why. */
import type { Option } from '../assessment.ts';
import { isRepair, type Offer } from './choices.ts';
import { isPriced, lossesAt } from './price.ts';
import type { PriceWarning } from './schema.ts';

export function warningsOf({ assessed, shop, price, messages, say }: Offer, question: Option | null): PriceWarning[] {
  if (price === undefined) return [];
  const { warnings } = messages;
  const asked = say.exactly(price).text;
  const unused = { kind: 'no-price-asked', loses: 'nobody', price, edge: null, loss: null } as const;
  if (assessed.ownStock) return [{ ...unused, sentence: warnings.ownStock(asked) }];
  if (!question || !isRepair(question) || !isPriced(question))
    return [{ ...unused, sentence: warnings.nothingSold(asked) }];
  const { floor, ceiling } = question;
  const losses = lossesAt(question, price, shop.policy.kind === 'diagnostic-fee' ? shop.policy.fee : 0);
  const list: PriceWarning[] = [];
  if (price < floor)
    list.push({
      kind: 'below-floor',
      loses: 'shop',
      price,
      edge: floor,
      loss: losses.shop,
      sentence: warnings.below(asked, say.exactly(round(floor)).text, say.exactly(round(losses.shop)).text),
    });
  if (price > ceiling)
    list.push({
      kind: 'above-ceiling',
      loses: 'owner',
      price,
      edge: ceiling,
      loss: losses.owner,
      sentence: warnings.above(
        asked,
        say.exactly(round(Math.max(0, ceiling))).text,
        say.exactly(round(losses.owner)).text,
      ),
    });
  if (ceiling < floor)
    list.push({
      kind: 'no-band',
      loses: 'nobody',
      price,
      edge: null,
      loss: null,
      sentence: warnings.noBand(say.money(floor).text, say.money(Math.max(0, ceiling)).text),
    });
  return list;
}

/** An edge of the band is told to the cent, so that a price just beyond it is seen to be beyond. */
function round(amount: number): number {
  return Math.round(amount * 100) / 100;
}
