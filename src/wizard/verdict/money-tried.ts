import type { Axis } from '../../assess/what-if.ts';
import type { WhatIf } from '../../assessment.ts';
import type { Money, Record } from '../../record/schema.ts';

/** What the record holds; an hour's price is the shop's, minutes and chances are the rules'. */
export const OF_THE_CARD: readonly Axis[] = ['working', 'asIs', 'partsTimes'];

/** The figures tried, as the record states them: parts are those of the repair the sliders are about. */
export function moneyTried(
  whatIf: WhatIf,
  figures: ReadonlyMap<Axis, number>,
  { money }: Pick<Record, 'money'>,
): Partial<Money> {
  const [working, asIs, partsCost] = [figures.get('working'), figures.get('asIs'), figures.get('partsTimes')];
  const { partPrices, partIds = [] } = whatIf.money;
  const of = whatIf.plans.find(({ id }) => id === whatIf.subject);
  const now = of?.parts.reduce((sum, { part, pieces }) => sum + pieces * partPrices[part]!, 0) ?? 0;
  const prices =
    partsCost === undefined || of === undefined || now <= 0
      ? []
      : of.parts.flatMap(({ part }) => {
          const id = partIds[part];
          return id === undefined ? [] : [[id, Math.round((100 * partPrices[part]! * partsCost) / now) / 100] as const];
        });
  return {
    ...(working === undefined ? {} : { working }),
    ...(asIs === undefined ? {} : { asIs }),
    ...(prices.length === 0 ? {} : { parts: { ...money?.parts, ...Object.fromEntries(prices) } }),
  };
}
