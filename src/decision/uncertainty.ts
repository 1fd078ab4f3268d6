/**
 * What is uncertain about a card's assessment: every number with its spread, by index into the card's model. Likely values
 * stand in the model; here stand their equivalent sample sizes, log spreads and ranges.
 */
import type { Amount } from './draws.ts';

/** `id` names the input in results. */
interface Named {
  readonly id: string;
}

/** P(state | only this fault), or the leak: a Dirichlet with these means and equivalent sample size. */
export interface UncertainRow extends Named {
  readonly p: Float64Array;
  readonly n: number;
}

/** One observed finding: its weights per state and the rows it was weighed with. */
export interface UncertainFinding {
  readonly weights: Float64Array;
  readonly leak: UncertainRow;
  readonly given: readonly (UncertainRow & { readonly fault: number })[];
}

export type AmountOf =
  | {
      readonly of:
        | 'working'
        | 'asIs'
        | 'partsAfterWork'
        | 'labourPerHour'
        | 'consumablesPerHeatCycle'
        | 'comebackCost'
        | 'wronglySoundCost';
    }
  | { readonly of: 'part' | 'treatment-minutes' | 'preparation-minutes' | 'stop-minutes'; readonly index: number };

export interface Uncertainty {
  /** shares of arriving cards: Beta(p n, (1 - p) n) */
  readonly shares: readonly (Named & { readonly fault: number; readonly p: number; readonly n: number })[];
  /** history factors on a fault's odds: log-normal around `factor` */
  readonly factors: readonly (Named & { readonly fault: number; readonly factor: number; readonly spread: number })[];
  readonly findings: readonly UncertainFinding[];
  /** equivalent sample sizes of `effects` and `induces` of the model's treatments */
  readonly cures: readonly OfTreatment[];
  readonly masks: readonly OfTreatment[];
  readonly induces: readonly OfTreatment[];
  /** damage factors: log-normal around the treatment's `damage` */
  readonly damage: readonly (Named & { readonly treatment: number; readonly spread: number })[];
  /** relapse medians: log-normal, as the scale of a Weibull estimated from n relapses (spread 1 / (shape sqrt n)) */
  readonly relapses: readonly (Named & { readonly fault: number; readonly n: number })[];
  /** rate of new faults, as one estimated from n events (log spread 1 / sqrt n) */
  readonly newFaults?: Named & { readonly n: number };
  /** several ranges on one target add up their deviations (minutes of the work, minutes of its test) */
  readonly amounts: readonly (Named & { readonly unit: string; readonly target: AmountOf; readonly range: Amount })[];
}

interface OfTreatment extends Named {
  readonly treatment: number;
  readonly fault: number;
  readonly n: number;
}
