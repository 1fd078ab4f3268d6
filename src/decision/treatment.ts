/**
 * What remedies do to conditions, as plain numbers, and how long what they leave behind holds.
 *
 * Under one remedy every fault goes its own way: an active one is cured, masked or stays; a dormant one is cured or stays
 * dormant (replacing the core takes away what slept in it, too); an absent one may be induced. Because faults do not
 * meet, a whole course of remedies factorises over faults, and nothing has to be lumped: see `course.ts`.
 */

export const DAYS_PER_YEAR = 365.25;

export type RemedyKind = 'reflow' | 'reball' | 'component-swap' | 'core-swap' | 'service';
export type Verdict = RemedyKind | 'return' | 'scrap';

/** Time in service until a masked fault is back. */
export interface Weibull {
  readonly medianDays: number;
  readonly shape: number;
}

export interface Treatment {
  readonly id: string;
  readonly kind: RemedyKind;
  /** bench minutes, the test that tells whether the card works included; preparations are not */
  readonly minutes: number;
  /** indices into `Money.partPrices`, one entry per piece used */
  readonly parts: readonly number[];
  readonly heatCycles: number;
  /** indices into `CardModel.preparations` */
  readonly preparations: readonly number[];
  /** per fault at most one entry; `cures + masks <= 1` */
  readonly effects: readonly { readonly fault: number; readonly cures: number; readonly masks: number }[];
  /** chance to cause a fault that is absent, before `damage` */
  readonly induces: readonly { readonly fault: number; readonly chance: number }[];
  /** factor on every `induces` chance (gates and history); the product is capped at 1 */
  readonly damage: number;
}

/** The numbers of all treatments laid out flat; index `treatment * faults + fault`. Filled anew for every parameter draw. */
export interface TreatmentTable {
  readonly treatments: number;
  readonly faults: number;
  /** 1 where the fault is not one of the card (a dead host supply): the card works all the same */
  readonly host: Uint8Array;
  readonly cures: Float64Array;
  readonly masks: Float64Array;
  readonly induces: Float64Array;
  /** per treatment: faults it acts on in any way, host faults left out, ascending */
  readonly touched: readonly Int32Array[];
  /** per fault: chance that it is still dormant at the horizon, and at the end of the warranty */
  readonly dormantAtHorizon: Float64Array;
  readonly dormantAtWarranty: Float64Array;
  /** [0]: chance that no new fault strikes until the horizon, [1]: until the end of the warranty */
  readonly nothingNew: Float64Array;
}

/** A chance of 1 to do damage is held this far below it, so that the share of cards left undamaged can be divided by. */
const LEAST_UNDAMAGED = 1e-12;

/**
 * Survival of a dormant fault: `exp(-ln 2 (days / median)^shape)`, 0.5 at the median. Days < 0 count as 0.
 * Source: the Weibull distribution by its median (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.6.8).
 */
export function stillDormant(relapse: Weibull, days: number): number {
  return Math.exp(-Math.LN2 * (Math.max(0, days) / relapse.medianDays) ** relapse.shape);
}

/** Chance that no new fault strikes in `days`: `exp(-rate days / 365.25)`, rate per year. */
export function nothingNewIn(days: number, newFaultsPerYear: number): number {
  return Math.exp((-newFaultsPerYear * Math.max(0, days)) / DAYS_PER_YEAR);
}

/** Chance that a treatment causes an absent fault: `chance * damage`, at most (nearly) 1. */
export function inducedChance(chance: number, damage: number): number {
  return Math.min(1 - LEAST_UNDAMAGED, chance * damage);
}

/**
 * Lays treatments out flat. Throws where a treatment can mask a fault that has no relapse time: a mask that never
 * relapses is a cure and must be stated as one.
 */
export function treatmentTable(
  treatments: readonly Treatment[],
  host: Uint8Array,
  relapse: readonly (Weibull | null)[],
  newFaultsPerYear: number,
  horizonDays: number,
  warrantyDays: number,
): TreatmentTable {
  const faults = host.length;
  const cures = new Float64Array(treatments.length * faults);
  const masks = new Float64Array(treatments.length * faults);
  const induces = new Float64Array(treatments.length * faults);
  const touched = treatments.map((treatment, t) => {
    const acts = new Set<number>();
    for (const { fault, cures: c, masks: m } of treatment.effects) {
      if (m > 0 && !relapse[fault]) {
        throw new RangeError(`${treatment.id} can mask fault ${fault}, which has no relapse time: give it one.`);
      }
      cures[t * faults + fault] = c;
      masks[t * faults + fault] = m;
      acts.add(fault);
    }
    for (const { fault, chance } of treatment.induces) {
      induces[t * faults + fault] = inducedChance(chance, treatment.damage);
      acts.add(fault);
    }
    return Int32Array.from([...acts].filter((f) => host[f] === 0).sort((a, b) => a - b));
  });
  const survive = (days: number) => Float64Array.from(relapse, (w) => (w ? stillDormant(w, days) : 1));
  return {
    treatments: treatments.length,
    faults,
    host,
    cures,
    masks,
    induces,
    touched,
    dormantAtHorizon: survive(horizonDays),
    dormantAtWarranty: survive(warrantyDays),
    nothingNew: Float64Array.of(
      nothingNewIn(horizonDays, newFaultsPerYear),
      nothingNewIn(warrantyDays, newFaultsPerYear),
    ),
  };
}
