/**
 * The meter that the card's readings are taken with. The record keeps the meter's figures with each reading; at the bench it
 * is one setting, so it is changed on all of them at once.
 */
import type { Quantity } from '../evidence/quantity.ts';
import type { Instrument, Measured, Record } from '../record/schema.ts';
import type { Meter } from '../shop/schema.ts';

/** Draft that holds the setting while there is no reading yet to keep it. */
export const METER_DRAFT = 'meter';

/** `usual`: the shop profile's instruments · `other`: readings carry figures of a meter that is not on the list */
export type MeterChoice = { readonly kind: 'usual' } | { readonly kind: 'other'; readonly name: string } | ListedMeter;
type ListedMeter = { readonly kind: 'listed'; readonly meter: Meter };

type QuantityOf = (finding: string) => Quantity | undefined;

/** The figures a meter states for a quantity; none: it does not take that. */
export function figuresOf(choice: MeterChoice, quantity: Quantity): Instrument | undefined {
  if (choice.kind !== 'listed') return undefined;
  if (quantity === 'resistance' || quantity === 'voltage' || quantity === 'current') return choice.meter[quantity];
  return undefined;
}

/** As the newest reading was taken; before the first, as it was set. */
export function meterOf(
  record: Record,
  drafts: ReadonlyMap<string, string>,
  meters: readonly Meter[],
  quantityOf: QuantityOf,
): MeterChoice {
  const newest = record.timeline.findLast((event) => event.type === 'measured' && takes(quantityOf(event.finding)));
  if (newest?.type !== 'measured') {
    const meter = meters.find(({ id }) => id === drafts.get(METER_DRAFT));
    return meter === undefined ? { kind: 'usual' } : { kind: 'listed', meter };
  }
  if (newest.instrument === undefined) return { kind: 'usual' };
  const quantity = quantityOf(newest.finding)!;
  const figures = JSON.stringify(newest.instrument, Object.keys(newest.instrument).sort());
  const meter = meters.find((one) => {
    const stated = figuresOf({ kind: 'listed', meter: one }, quantity);
    return stated !== undefined && JSON.stringify(stated, Object.keys(stated).sort()) === figures;
  });
  return meter === undefined ? { kind: 'other', name: newest.instrument.name ?? '' } : { kind: 'listed', meter };
}

/** The same on every reading since the last work. */
export function setMeter(record: Record, choice: MeterChoice, quantityOf: QuantityOf): Record {
  const start = record.timeline.findLastIndex((event) => event.type === 'treated') + 1;
  const timeline = record.timeline.map((event, index) => {
    const quantity = event.type === 'measured' ? quantityOf(event.finding) : undefined;
    if (index < start || event.type !== 'measured' || quantity === undefined || !takes(quantity)) return event;
    const { instrument: _before, ...rest } = event;
    const instrument = figuresOf(choice, quantity);
    return (instrument === undefined ? rest : { ...rest, instrument }) satisfies Measured;
  });
  return { ...record, timeline };
}

const takes = (quantity: Quantity | undefined): boolean =>
  quantity === 'resistance' || quantity === 'voltage' || quantity === 'current';
