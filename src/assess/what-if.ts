/** The verdict of an assessment formed anew with other money or other work, and what the assessment carries so that it can be. */
import type { WhatIf } from '../assessment.ts';
import type { CardModel } from '../decision/card-model.ts';
import type { Plan } from '../decision/plan.ts';
import { subjectOf } from '../decision/plans.ts';
import { type VerdictRegion, verdictRegions } from '../decision/verdict-regions.ts';
import { type Changes, type PlanAnew, reconsider, whatIfOf } from '../decision/what-if.ts';
import type { Id } from '../knowledge/schema.ts';

export type { Axis, VerdictRegion } from '../decision/verdict-regions.ts';
export type { Changes, PlanAnew } from '../decision/what-if.ts';

export type PlanOfWhatIf = WhatIf['plans'][number];
/** A plan as the assessment carries it, with its money under the changes. */
export type Reconsidered = PlanOfWhatIf & PlanAnew;

/** `plans` best first: all those the verdict may rest on. `parts`: ids in the order of the model's prices. */
export function whatIfView(
  model: CardModel,
  parts: readonly Id[],
  plans: readonly Plan[],
  nameOf: (plan: string) => string,
): WhatIf {
  const { money, plans: summed, subject } = whatIfOf(model, plans, subjectOf(plans));
  return {
    money: { ...money, margin: { ...money.margin }, partPrices: [...money.partPrices], partIds: [...parts] },
    plans: summed.map((plan) => ({ ...plan, name: nameOf(plan.id), parts: plan.parts.map((part) => ({ ...part })) })),
    subject,
  };
}

/** What would be advised under the changes, and how the plan stands that break-evens are about; null: there is none. */
export function thinkOtherwise(
  whatIf: WhatIf,
  changes: Changes,
): { readonly advised: Reconsidered; readonly subject: Reconsidered | null } {
  const anew = reconsider(whatIf, changes);
  const at = (index: number): Reconsidered => ({ ...whatIf.plans[index]!, ...anew.plans[index]! });
  const subject = whatIf.plans.findIndex(({ id }) => id === whatIf.subject);
  return { advised: at(anew.chosen), subject: subject < 0 ? null : at(subject) };
}

/** Along one figure: where which verdict wins. */
export function regionsAlong(
  whatIf: WhatIf,
  changes: Changes,
  axis: keyof Changes,
  from: number,
  to: number,
): readonly VerdictRegion[] {
  return verdictRegions(whatIf, changes, axis, from, to);
}
