/** What benches call the rails in their own sheets, in both languages of the screen: a sheet does not change with the switch. */
const CALLED: { readonly [rail: string]: readonly string[] } = {
  core: ['core', 'core rail', 'vcore', 'gpu', 'gpu core', 'Kern', 'Kernversorgung'],
  'core-second': ['second core rail', 'second core', 'core 2', 'core second', 'Zweite Kernversorgung', 'Kern 2'],
  memory: ['memory', 'memory rail', 'mem', 'vmem', 'vram', 'Speicher', 'Speicherversorgung'],
  'pcie-rail': ['PCIe rail', 'PCIe', 'PEX', 'PCIe-Versorgung'],
  '1v8': ['1.8 V', '1V8', '1.8 V rail', '1V8 rail'],
  '3v3': ['3.3 V', '3V3', '3.3 V rail', '3V3 rail'],
  '5v': ['5 V', '5V0', '5 V rail'],
  '12v-slot': ['12 V slot', 'slot 12 V', '12 V of the slot', '12 V Steckplatz', 'Steckplatz 12 V'],
  '12v-input': ['12 V input', '12 V in', '12 V connector', '12 V Eingang', 'Eingang 12 V'],
  '12v-input-second': [
    '12 V second input',
    'second 12 V input',
    '12 V input 2',
    '12 V zweiter Eingang',
    '12 V Eingang 2',
  ],
};

/** 1.8 V, 1,8V and "1.8 V to ground" are one name; the mark stays, so that 1.8 V is not 18 V. */
const plain = (name: string): string =>
  name
    .toLowerCase()
    .replace(/,/g, '.')
    .replace(/\b(to (ground|gnd)|gegen masse)\b/g, '')
    .replace(/[^\p{L}\d.]/gu, '');

const RAILS: ReadonlyMap<string, string> = new Map(
  Object.entries(CALLED).flatMap(([rail, names]) => names.map((name) => [plain(name), rail] as const)),
);

/** Which rail a label in a sheet names; null: none that is known. */
export const railCalled = (label: string): string | null => RAILS.get(plain(label)) ?? null;
