/** Solder alloys: melting range, density, what is in them. */
import type { Cited } from './cited.ts';

export type AlloyClass = 'snpb' | 'lead-free';

export interface Alloy {
  readonly id: string;
  /** shares of mass; they sum to one */
  readonly mass: Readonly<Partial<Record<'Sn' | 'Pb' | 'Ag' | 'Cu' | 'Bi', number>>>;
  readonly solidusCelsius: number;
  readonly liquidusCelsius: number;
  /** null where the table names none */
  readonly gramsPerCubicCentimetre: number | null;
  /** the class of J-STD-020 it is soldered as; null where the standard has none for it */
  readonly class: AlloyClass | null;
}

export const ALLOYS_CITED: Cited = { source: 'solder-alloy-table', place: 'solidus, liquidus, density', seen: 'seen' };

/** Other tables give 188 to 190 degC as the liquidus of Sn60Pb40. */
export const ALLOYS: readonly Alloy[] = [
  alloy('Sn63Pb37', { Sn: 0.63, Pb: 0.37 }, 183, 183, 8.4, 'snpb'),
  alloy('Sn60Pb40', { Sn: 0.6, Pb: 0.4 }, 183, 191, 8.5, 'snpb'),
  alloy('SAC305', { Sn: 0.965, Ag: 0.03, Cu: 0.005 }, 217, 220, 7.38, 'lead-free'),
  alloy('SAC405', { Sn: 0.955, Ag: 0.04, Cu: 0.005 }, 217, 220, 7.44, 'lead-free'),
  alloy('SAC105', { Sn: 0.985, Ag: 0.01, Cu: 0.005 }, 215, 227, 7.32, 'lead-free'),
  alloy('SnCu0.7', { Sn: 0.993, Cu: 0.007 }, 227, 227, 7.31, 'lead-free'),
  alloy('SnAg3.5', { Sn: 0.965, Ag: 0.035 }, 221, 221, 7.37, 'lead-free'),
  alloy('Sn42Bi58', { Sn: 0.42, Bi: 0.58 }, 138, 138, null, null),
];

/** The alloy of a name, however it is capitalised; undefined where the table has none. */
export function findAlloy(name: string): Alloy | undefined {
  const plain = name.trim().toLowerCase();
  return ALLOYS.find(({ id }) => id.toLowerCase() === plain);
}

function alloy(
  id: string,
  mass: Alloy['mass'],
  solidusCelsius: number,
  liquidusCelsius: number,
  gramsPerCubicCentimetre: number | null,
  of: AlloyClass | null,
): Alloy {
  return { id, mass, solidusCelsius, liquidusCelsius, gramsPerCubicCentimetre, class: of };
}
