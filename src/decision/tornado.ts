/** One input at a time, from its 5 % to its 95 % point: which of them moves the best option most. */
import type { CardModel } from './card-model.ts';
import type { ConditionSet } from './condition-set.ts';
import { drawnCard } from './drawn-card.ts';
import type { Plan } from './plan.ts';
import { choosePlan, subjectOf } from './plans.ts';
import type { Verdict } from './treatment.ts';
import type { UncertainInput } from './uncertain-inputs.ts';
import type { Uncertainty } from './uncertainty.ts';

export interface Tornado {
  /** whose surplus moves: `subjectOf` the plans: the option chosen at the likely values, or, where that is scrap, the one that might rescue the card */
  readonly subject: Plan;
  readonly bars: readonly TornadoBar[];
}

export interface TornadoBar {
  readonly input: string;
  readonly unit: string;
  readonly likely: number;
  /** its 5 % and 95 % points */
  readonly low: number;
  readonly high: number;
  /** surplus of the subject with the input there */
  readonly atLow: number;
  readonly atHigh: number;
  /** the verdict with the input there */
  readonly verdictAtLow: Verdict;
  readonly verdictAtHigh: Verdict;
}

/** Bars shorter than this move nothing anybody would see, in units of money. */
const LEAST_MOVE = 1e-9;

/**
 * Bars of all inputs that move the subject's surplus, or the verdict; longest first, equal
 * ones by name. Findings' rows move the chance of what was seen. `plans` from `candidatePlans`. Cost: two evaluations per input, most of them
 * a sum over conditions per plan.
 */
export function tornado(
  model: CardModel,
  set: ConditionSet,
  belief: Float64Array,
  uncertainty: Uncertainty,
  plans: readonly Plan[],
): Tornado {
  const card = drawnCard(model, set, belief, uncertainty, plans);
  const chosen = choosePlan(plans);
  const subject = subjectOf(plans) ?? chosen;
  const at = plans.indexOf(subject);
  const look = (input: UncertainInput): { surplus: number; verdict: Verdict } =>
    card.evaluateOne(input)
      ? { surplus: card.plans[at]!.surplus, verdict: choosePlan(card.plans).verdict }
      : { surplus: subject.surplus, verdict: chosen.verdict };
  const bars: TornadoBar[] = [];
  for (const input of card.inputs) {
    const low = input.setPoint(0.05);
    const atLow = look(input);
    const high = input.setPoint(0.95);
    const atHigh = look(input);
    input.reset();
    const moves = Math.abs(atHigh.surplus - atLow.surplus) > LEAST_MOVE;
    if (!moves && atLow.verdict === chosen.verdict && atHigh.verdict === chosen.verdict) continue;
    bars.push({
      input: input.id,
      unit: input.unit,
      likely: input.likely,
      low,
      high,
      atLow: atLow.surplus,
      atHigh: atHigh.surplus,
      verdictAtLow: atLow.verdict,
      verdictAtHigh: atHigh.verdict,
    });
  }
  const length = (bar: TornadoBar) => Math.abs(bar.atHigh - bar.atLow);
  return { subject, bars: bars.sort((a, b) => length(b) - length(a) || (a.input < b.input ? -1 : 1)) };
}
