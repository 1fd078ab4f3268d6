/** The rails as rows of one table: resistance to ground and voltage of the same rail belong side by side. */
import type { FindingView } from './catalogue.ts';
import { messages } from './language.ts';

export interface Rail {
  readonly id: string;
  readonly name: string;
  readonly resistance: FindingView | null;
  readonly voltage: FindingView | null;
}

/** As a technician probes them, dearest first. */
const ORDER: readonly string[] = [
  'core',
  'core-second',
  'memory',
  'pcie-rail',
  '1v8',
  '3v3',
  '5v',
  '12v-slot',
  '12v-input',
  '12v-input-second',
];

const ID = /^(resistance|voltage)-(.+)$/;

/** A rail not named here comes last under its finding's name. */
export function railsOf(findings: readonly FindingView[]): readonly Rail[] {
  const rows = new Map<string, { resistance: FindingView | null; voltage: FindingView | null }>();
  for (const finding of findings) {
    const [, kind, rail] = ID.exec(finding.id) ?? [];
    if (rail === undefined || finding.reading === null) continue;
    const row = rows.get(rail) ?? { resistance: null, voltage: null };
    rows.set(rail, kind === 'voltage' ? { ...row, voltage: finding } : { ...row, resistance: finding });
  }
  const names: { readonly [rail: string]: string } = messages.value.readings.rails;
  const rank = (rail: string) => (ORDER.includes(rail) ? ORDER.indexOf(rail) : ORDER.length);
  return [...rows]
    .sort(([a], [b]) => rank(a) - rank(b))
    .map(([id, row]) => ({ id, name: names[id] ?? row.resistance?.name ?? row.voltage?.name ?? id, ...row }));
}

export const isRail = (finding: FindingView): boolean => finding.reading !== null && ID.test(finding.id);
