/** How firm the verdict is: parameter draws, and the inputs that move it most. */
import type { Assessed } from '../assessment.ts';
import type { ConditionSet } from '../decision/condition-set.ts';
import type { Plan } from '../decision/plan.ts';
import { candidatePlans, type Interval, sensitivity } from '../decision/sensitivity.ts';
import { tornado } from '../decision/tornado.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { Diagnosis } from './diagnosis.ts';
import type { CardAtThisShop } from './shop-and-card.ts';
import { uncertaintyOf } from './uncertain.ts';

const BARS_SHOWN = 12;

export interface Firmness {
  readonly view: NonNullable<Assessed['sensitivity']>;
  /** per fault in the network's order */
  readonly faults: readonly Interval[];
  /** by plan id */
  readonly plans: ReadonlyMap<
    string,
    { readonly works: Interval; readonly holds: Interval; readonly surplus: Interval }
  >;
}

export function firmnessOf(
  knowledge: Knowledge,
  card: CardAtThisShop,
  diagnosis: Diagnosis,
  set: ConditionSet,
  belief: Float64Array,
  plans: readonly Plan[],
  draws: number,
  seed: number,
): Firmness {
  const { model } = card;
  const named = uncertaintyOf(knowledge, card, diagnosis);
  const candidates = candidatePlans(plans);
  const drawn = sensitivity(model, set, belief, named.uncertainty, candidates, seed, draws);
  const { bars } = tornado(model, set, belief, named.uncertainty, candidates);
  return {
    view: {
      draws: drawn.draws,
      seed: drawn.seed,
      stands: drawn.stands,
      winners: drawn.winners.map(({ verdict, share }) => ({ verdict, share })),
      tornado: bars.slice(0, BARS_SHOWN).map((bar) => ({
        input: bar.input,
        name: named.names.get(bar.input) ?? bar.input,
        low: bar.low,
        high: bar.high,
        atLow: bar.atLow,
        atHigh: bar.atHigh,
        unit: bar.unit,
      })),
    },
    faults: drawn.faults,
    plans: new Map(candidates.map((plan, at) => [plan.id, drawn.plans[at]!])),
  };
}
