/**
 * What is taken off every resistance of the card for the meter's leads. The record keeps it with each reading; at the
 * bench it is one setting, so it is changed on all of them at once.
 */
import type { Measured, Record } from '../record/schema.ts';

export type Leads = Pick<Measured, 'leads' | 'fourWire'>;

/** Drafts that hold the setting while there is no reading yet to keep it. */
export const LEADS_DRAFT = 'leads';
export const FOUR_WIRE_DRAFT = 'four-wire';

const isResistance = (finding: string): boolean => finding.startsWith('resistance-');

/** As the newest resistance was taken; nothing: as the shop profile says. */
export function leadsOf(record: Record, drafts: ReadonlyMap<string, string>): Leads {
  const newest = record.timeline.findLast((event) => event.type === 'measured' && isResistance(event.finding));
  if (newest?.type === 'measured') return leadsIn(newest);
  const leads = drafts.get(LEADS_DRAFT);
  return { ...(leads ? { leads } : {}), ...(drafts.get(FOUR_WIRE_DRAFT) === 'yes' ? { fourWire: true } : {}) };
}

function leadsIn({ leads, fourWire }: Measured): Leads {
  return { ...(leads === undefined ? {} : { leads }), ...(fourWire === undefined ? {} : { fourWire }) };
}

/** The same on every resistance since the last work. */
export function setLeads(record: Record, leads: Leads): Record {
  const start = record.timeline.findLastIndex((event) => event.type === 'treated') + 1;
  const timeline = record.timeline.map((event, index) => {
    if (index < start || event.type !== 'measured' || !isResistance(event.finding)) return event;
    const { leads: _leads, fourWire: _fourWire, ...rest } = event;
    return { ...rest, ...leads };
  });
  return { ...record, timeline };
}
