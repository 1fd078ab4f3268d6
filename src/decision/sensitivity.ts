/** How far a verdict and its numbers can be trusted, given how little the numbers behind them are known. */
import type { CardModel } from './card-model.ts';
import { activeChances, type ConditionSet } from './condition-set.ts';
import { drawnCard } from './drawn-card.ts';
import type { Plan } from './plan.ts';
import { choosePlan } from './plans.ts';
import { createRandom } from './random.ts';
import type { Verdict } from './treatment.ts';
import type { Uncertainty } from './uncertainty.ts';

export const DEFAULT_DRAWS = 1000;
/** Plans worked out in every draw: enough that the winner of nearly every draw is among them. */
export const MOST_CANDIDATES = 30;

/** Central 90 % of the draws. */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

export interface Sensitivity {
  /** draws that counted; those whose rows forbid what was seen are drawn again, up to twice as many in all */
  readonly draws: number;
  readonly seed: number;
  /** the verdict at the likely values, and the share of draws in which it wins */
  readonly verdict: Verdict;
  readonly stands: number;
  /** most frequent first */
  readonly winners: readonly { readonly verdict: Verdict; readonly share: number }[];
  /** per fault of the model: the chance that it is active */
  readonly faults: readonly Interval[];
  /** in the order of the candidates given */
  readonly plans: readonly { readonly works: Interval; readonly holds: Interval; readonly surplus: Interval }[];
}

/** The stops, the best plan of each verdict and then the best plans, `most` at most, in the order given (best first). */
export function candidatePlans(plans: readonly Plan[], most = MOST_CANDIDATES): Plan[] {
  const taken = new Set<Plan>(plans.filter((plan) => plan.stop !== null));
  const verdicts = new Set<Verdict>();
  for (const plan of plans) {
    if (!verdicts.has(plan.verdict)) taken.add(plan);
    verdicts.add(plan.verdict);
  }
  for (const plan of plans) if (taken.size < most) taken.add(plan);
  return plans.filter((plan) => taken.has(plan));
}

/**
 * Draws every uncertain input that matters, independently, and works out the posterior over the set and the candidate
 * plans anew each time. `belief` sums to one over the set; `plans` from `candidatePlans`.
 *
 * Deterministic for a seed. Cost: per draw a pass over conditions for each observed finding and each start of a plan;
 * about half a millisecond for 400 conditions, 20 findings and 30 plans.
 */
export function sensitivity(
  model: CardModel,
  set: ConditionSet,
  belief: Float64Array,
  uncertainty: Uncertainty,
  plans: readonly Plan[],
  seed: number,
  draws = DEFAULT_DRAWS,
): Sensitivity {
  const card = drawnCard(model, set, belief, uncertainty, plans);
  const random = createRandom(seed);
  const verdict = choosePlan(plans).verdict;
  const faults = Array.from(model.host, () => new Float64Array(draws));
  const numbers = plans.map(() => ({
    works: new Float64Array(draws),
    holds: new Float64Array(draws),
    surplus: new Float64Array(draws),
  }));
  const wins = new Map<Verdict, number>();
  let counted = 0;
  for (let attempt = 0; counted < draws && attempt < 2 * draws; attempt++) {
    for (const input of card.inputs) input.draw(random);
    if (!card.evaluate()) continue;
    const winner = choosePlan(card.plans).verdict;
    wins.set(winner, (wins.get(winner) ?? 0) + 1);
    activeChances(set, card.belief, faults.length).forEach((chance, fault) => {
      faults[fault]![counted] = chance;
    });
    card.plans.forEach((plan, k) => {
      numbers[k]!.works[counted] = plan.works;
      numbers[k]!.holds[counted] = plan.held;
      numbers[k]!.surplus[counted] = plan.surplus;
    });
    counted++;
  }
  const interval = (values: Float64Array) => centralInterval(values.subarray(0, counted));
  return {
    draws: counted,
    seed,
    verdict,
    stands: counted === 0 ? 0 : (wins.get(verdict) ?? 0) / counted,
    winners: [...wins]
      .map(([winner, count]) => ({ verdict: winner, share: count / counted }))
      .sort((a, b) => b.share - a.share || (a.verdict < b.verdict ? -1 : 1)),
    faults: faults.map(interval),
    plans: numbers.map(({ works, holds, surplus }) => ({
      works: interval(works),
      holds: interval(holds),
      surplus: interval(surplus),
    })),
  };
}

/**
 * 5 % and 95 % points of a sample, linear between order statistics (R's type 7: Hyndman & Fan, The American Statistician
 * 50, 1996). Sorts in place. NaN for an empty sample.
 */
export function centralInterval(values: Float64Array): Interval {
  values.sort();
  const at = (q: number) => {
    const place = q * (values.length - 1);
    const below = Math.floor(place);
    const low = values[below] ?? Number.NaN;
    return low + (place - below) * ((values[below + 1] ?? low) - low);
  };
  return { low: at(0.05), high: at(0.95) };
}
