/** The window a profile is judged against: a class of J-STD-020, or the shop's own. */
import type { AlloyClass } from './alloys.ts';
import type { Cited } from './cited.ts';
import type { Limit } from './graded-limit.ts';
import type { Measure, ProfileLevels } from './profile.ts';

/** One row: what is limited, where the figure comes from, and what suffers on either side. */
export interface WindowRow {
  readonly measure: Measure;
  readonly limit: Limit;
  readonly cited: Cited | null;
}

export interface ReflowWindow {
  readonly kind: 'package-class' | 'shop';
  readonly name: string;
  readonly levels: ProfileLevels;
  /**
   * Where the package's size is not known, its ceiling may be as high as this: `levels.ceiling` is then the lowest one
   * possible, and between the two the peak cannot be judged.
   */
  readonly ceilingAtMost?: number;
  readonly rows: readonly WindowRow[];
  readonly spreadAtPeakAtMost?: number;
}

/** Said wherever a profile is judged by the standard. */
export const CLASSES_ARE_CEILINGS =
  'J-STD-020 classifies packages: its figures are what a part was tested to bear, ceilings for the board, not a recipe for it.';

interface ClassRows {
  readonly soakFrom: number;
  readonly soakTo: number;
  readonly liquidus: number;
  readonly soakSeconds: Limit;
  readonly averageRise: Limit;
  readonly secondsAboveLiquidus: Limit;
  readonly secondsNearCeiling: Limit;
  readonly fall: Limit;
  readonly secondsToPeak: Limit;
}

export const CLASS_REVISION = 'J-STD-020D';
const TABLE: Cited = { source: 'j-std-020d', place: 'table 5-2', seen: 'quoted' };

/** J-STD-020D table 5-2. The ramp up is an average from the liquidus to the peak. */
export const REFLOW_CLASSES: Readonly<Record<AlloyClass, ClassRows>> = {
  snpb: {
    soakFrom: 100,
    soakTo: 150,
    liquidus: 183,
    soakSeconds: { atLeast: 60, atMost: 120 },
    averageRise: { atMost: 3 },
    secondsAboveLiquidus: { atLeast: 60, atMost: 150 },
    secondsNearCeiling: { atMost: 20 },
    fall: { atMost: 6 },
    secondsToPeak: { atMost: 6 * 60 },
  },
  'lead-free': {
    soakFrom: 150,
    soakTo: 200,
    liquidus: 217,
    soakSeconds: { atLeast: 60, atMost: 120 },
    averageRise: { atMost: 3 },
    secondsAboveLiquidus: { atLeast: 60, atMost: 150 },
    secondsNearCeiling: { atMost: 30 },
    fall: { atMost: 6 },
    secondsToPeak: { atMost: 8 * 60 },
  },
};

/** Where the revision before differs, as quoted; its other figures are not stored. */
export const REVISION_C_DIFFERS = {
  cited: { source: 'j-std-020c', place: 'table 5-2', seen: 'quoted' } satisfies Cited,
  leadFreeSoakSeconds: { atLeast: 60, atMost: 180 },
};

interface CeilingRow {
  /** body thickness in millimetres: from (included) to (not included) */
  readonly thickness: readonly [number, number];
  /** degC by volume in cubic millimetres: below 350, 350 to 2000, above 2000 */
  readonly celsius: readonly [number, number, number];
}

/** Classification temperatures Tc: table 4-2 (lead-free, quoted), table 4-1 (SnPb: its cells from memory, its range quoted). */
export const CEILINGS: Readonly<Record<AlloyClass, { readonly cited: Cited; readonly rows: readonly CeilingRow[] }>> = {
  'lead-free': {
    cited: { source: 'j-std-020d', place: 'table 4-2', seen: 'quoted' },
    rows: [
      { thickness: [0, 1.6], celsius: [260, 260, 260] },
      { thickness: [1.6, 2.5], celsius: [260, 250, 245] },
      { thickness: [2.5, Number.POSITIVE_INFINITY], celsius: [250, 245, 245] },
    ],
  },
  snpb: {
    cited: { source: 'j-std-020d', place: 'table 4-1', seen: 'memory' },
    rows: [
      { thickness: [0, 2.5], celsius: [235, 220, 220] },
      { thickness: [2.5, Number.POSITIVE_INFINITY], celsius: [220, 220, 220] },
    ],
  },
};

export interface PackageSize {
  /** of the package body, in millimetres */
  readonly thickness?: number;
  /** of the body in cubic millimetres, without balls and loose heat sinks */
  readonly volume?: number;
}

export interface Ceiling {
  /** Tc in degC: lowest and highest the size as known allows; equal where it is known */
  readonly lowest: number;
  readonly highest: number;
  readonly cited: Cited;
}

/**
 * The classification temperature Tc of a package by thickness and volume. What is not known is not guessed: the lowest
 * and highest Tc of all cells that remain possible come back. A thickness or volume of nought or less is an error.
 *
 * @example packageCeiling('lead-free', { thickness: 1.8, volume: 400 }).lowest // 250
 */
export function packageCeiling(rated: AlloyClass, size: PackageSize): Ceiling {
  for (const [what, value] of [
    ['thickness', size.thickness],
    ['volume', size.volume],
  ] as const)
    if (value !== undefined && !(value > 0)) throw new RangeError(`A package's ${what} is above nought, not ${value}.`);
  const { cited, rows } = CEILINGS[rated];
  const { thickness, volume } = size;
  const possible = rows
    .filter(({ thickness: [from, to] }) => thickness === undefined || (thickness >= from && thickness < to))
    .flatMap(({ celsius }) => (volume === undefined ? celsius : [celsius[volume < 350 ? 0 : volume <= 2000 ? 1 : 2]!]));
  return { lowest: Math.min(...possible), highest: Math.max(...possible), cited };
}

/**
 * The window of J-STD-020D for a solder class and a package. The package may be rated for another class than it is
 * soldered with (a lead-free core on leaded balls): its ceiling follows `rated`, the rest the solder. For the user of a
 * package Tp and tp are maxima: the peak at most Tc, the time above Tc - 5 K at most tp. The ramp down is judged by the
 * steepest fall, since the table names no span for it.
 */
export function packageWindow(solder: AlloyClass, size: PackageSize, rated: AlloyClass = solder): ReflowWindow {
  const rows = REFLOW_CLASSES[solder];
  const ceiling = packageCeiling(rated, size);
  const row = (measure: Measure, limit: Limit, cited: Cited = TABLE): WindowRow => ({ measure, limit, cited });
  const rating = rated === solder ? '' : `, package rated ${rated === 'snpb' ? 'SnPb' : 'lead-free'}`;
  return {
    kind: 'package-class',
    name: `${CLASS_REVISION} ${solder === 'snpb' ? 'SnPb' : 'lead-free'}${rating}`,
    levels: { soakFrom: rows.soakFrom, soakTo: rows.soakTo, liquidus: rows.liquidus, ceiling: ceiling.lowest },
    ...(ceiling.highest > ceiling.lowest ? { ceilingAtMost: ceiling.highest } : {}),
    rows: [
      row('soakSeconds', rows.soakSeconds),
      row('averageRise', rows.averageRise),
      row('secondsAboveLiquidus', rows.secondsAboveLiquidus),
      row('peak', { atMost: ceiling.lowest }, ceiling.cited),
      row('secondsNearCeiling', REFLOW_CLASSES[rated].secondsNearCeiling),
      row('steepestFall', rows.fall),
      row('secondsToPeak', rows.secondsToPeak),
    ],
  };
}
