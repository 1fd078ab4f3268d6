/** What the card-specific decision part works on: numbers and indices only. `assess.ts` makes it from knowledge, shop and record. */
import { type Treatment, type TreatmentTable, treatmentTable, type Weibull } from './treatment.ts';

export interface Money {
  /** V: the card working */
  readonly working: number;
  /** A: as it lies there */
  readonly asIs: number;
  /** S: what is left after failed work */
  readonly partsAfterWork: number;
  readonly labourPerHour: number;
  readonly consumablesPerHeatCycle: number;
  readonly comebackCost: number;
  /** what it costs besides to call a card sound that is not */
  readonly wronglySoundCost: number;
  /** what the owner pays when the card does not work at hand-back; 0: no fix, no fee */
  readonly feeWhenNotFixed: number;
  readonly warrantyDays: number;
  readonly horizonDays: number;
  readonly margin: { readonly fixed: number; readonly shareOfCost: number };
  /** price per piece; treatments refer to it by index */
  readonly partPrices: readonly number[];
  /** the shop owns the card: one purse, no price */
  readonly ownStock: boolean;
}

export interface StopOption {
  readonly id: string;
  readonly verdict: 'return' | 'scrap';
  readonly value: 'working-if-sound' | 'as-is' | 'parts';
  readonly minutes: number;
}

export interface CardModel {
  /** 1 where the fault is not one of the card; its length is the number of faults */
  readonly host: Uint8Array;
  /** per fault; null where no remedy can mask it */
  readonly relapse: readonly (Weibull | null)[];
  readonly newFaultsPerYear: number;
  /** those that are open for this card */
  readonly treatments: readonly Treatment[];
  /** `lasts` false: the test after a remedy undoes it (the cooler goes back on), so a further remedy pays for it anew */
  readonly preparations: readonly { readonly id: string; readonly minutes: number; readonly lasts: boolean }[];
  readonly stops: readonly StopOption[];
  readonly money: Money;
}

/** A set of faults that are active now and of faults that sleep; indices of faults, in any order. */
export interface CardCondition {
  readonly active: readonly number[];
  readonly dormant: readonly number[];
}

export function tableOf(model: CardModel): TreatmentTable {
  const { host, relapse, newFaultsPerYear, treatments, money } = model;
  return treatmentTable(treatments, host, relapse, newFaultsPerYear, money.horizonDays, money.warrantyDays);
}
