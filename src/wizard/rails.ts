/** The rails as rows of one table: resistance to ground and voltage of the same rail belong side by side. */
import type { FindingView } from './catalogue.ts';

export interface Rail {
  readonly id: string;
  readonly name: string;
  readonly resistance: FindingView | null;
  readonly voltage: FindingView | null;
}

const NAMES: { readonly [rail: string]: string } = {
  core: 'Core',
  'core-second': 'Second core rail',
  memory: 'Memory',
  'pcie-rail': 'PCIe rail',
  '1v8': '1.8 V',
  '3v3': '3.3 V',
  '5v': '5 V',
  '12v-slot': '12 V slot',
  '12v-input': '12 V input',
  '12v-input-second': '12 V second input',
};

const ID = /^(resistance|voltage)-(.+)$/;

/** Rows in the order in which a technician probes them, dearest first; a rail not named here comes last under its finding's name. */
export function railsOf(findings: readonly FindingView[]): readonly Rail[] {
  const rows = new Map<string, { resistance: FindingView | null; voltage: FindingView | null }>();
  for (const finding of findings) {
    const [, kind, rail] = ID.exec(finding.id) ?? [];
    if (rail === undefined || finding.reading === null) continue;
    const row = rows.get(rail) ?? { resistance: null, voltage: null };
    rows.set(rail, kind === 'voltage' ? { ...row, voltage: finding } : { ...row, resistance: finding });
  }
  const order = Object.keys(NAMES);
  const rank = (rail: string) => (order.includes(rail) ? order.indexOf(rail) : order.length);
  return [...rows]
    .sort(([a], [b]) => rank(a) - rank(b))
    .map(([id, row]) => ({ id, name: NAMES[id] ?? row.resistance?.name ?? row.voltage?.name ?? id, ...row }));
}

export const isRail = (finding: FindingView): boolean => finding.reading !== null && ID.test(finding.id);
