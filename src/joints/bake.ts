/** Floor life of moisture sensitive packages and the bake that dries them. */
import type { Cited, Seen } from './cited.ts';

export const MOISTURE_LEVELS = ['1', '2', '2a', '3', '4', '5', '5a', '6'] as const;
export type MoistureLevel = (typeof MOISTURE_LEVELS)[number];
export type BakeCelsius = 125 | 90 | 40;

/** J-STD-020 table 5-1, in hours at up to 30 degC and 60 % (level 1: 85 %). Level 6 is baked before every use and used within its label's time. */
export const FLOOR_LIFE_CITED: Cited = { source: 'j-std-020d', place: 'table 5-1', seen: 'seen' };
export const FLOOR_LIFE_HOURS: Readonly<Record<MoistureLevel, number | 'unlimited' | 'as labelled'>> = {
  '1': 'unlimited',
  '2': 365 * 24,
  '2a': 4 * 7 * 24,
  '3': 168,
  '4': 72,
  '5': 48,
  '5a': 24,
  '6': 'as labelled',
};

/** Hours of drying: wet through (30 degC, 85 %), and floor life passed by 72 hours at most. */
interface Cell {
  readonly saturated: number;
  readonly justPassed: number;
  readonly seen: Seen;
}

interface DryingRow {
  /** body thickness in millimetres: above (not included) to (included) */
  readonly thickness: readonly [number, number];
  readonly level: MoistureLevel;
  readonly hours: Readonly<Partial<Record<BakeCelsius, Cell>>>;
}

export const DRYING_CITED: Cited = { source: 'j-std-033', place: 'table 4-1', seen: 'quoted' };
const DAY = 24;
const cell = (saturated: number, justPassed: number, seen: Seen = 'quoted'): Cell => ({ saturated, justPassed, seen });

/**
 * J-STD-033 table 4-1, packages mounted or not: 125 degC; 90 degC and 40 degC at 5 % humidity or less. A cell that is not here was not
 * seen: it is no nought.
 */
export const DRYING: readonly DryingRow[] = [
  thin('2a', cell(5, 3), cell(17, 11), cell(8 * DAY, 5 * DAY)),
  thin('3', cell(9, 7), cell(33, 23), cell(13 * DAY, 9 * DAY)),
  thin('4', cell(11, 7), cell(37, 23), cell(15 * DAY, 9 * DAY)),
  thin('5', cell(12, 7), cell(41, 24), cell(17 * DAY, 10 * DAY)),
  thin('5a', cell(16, 10), cell(54, 24), cell(22 * DAY, 10 * DAY)),
  middle('2a', cell(21, 16), cell(3 * DAY, 2 * DAY), cell(29 * DAY, 22 * DAY)),
  middle('3', cell(27, 17), cell(4 * DAY, 2 * DAY), cell(37 * DAY, 23 * DAY)),
  middle('4', cell(34, 20), cell(5 * DAY, 3 * DAY), cell(47 * DAY, 28 * DAY)),
  middle('5', cell(40, 25), cell(6 * DAY, 4 * DAY), cell(57 * DAY, 35 * DAY)),
  ...(['2a', '3', '4', '5', '5a'] as const).map(
    (level): DryingRow => ({ thickness: [2, 4.5], level, hours: { 125: cell(48, 48, 'memory') } }),
  ),
];

/** Ball grids larger than 17 mm a side, or with stacked dies: one time for all levels, from memory. */
export const LARGE_GRID_HOURS = 96;
export const LARGE_GRID_MILLIMETRES = 17;

export interface Exposure {
  readonly level: MoistureLevel;
  /** thickness of the package body in millimetres */
  readonly bodyMillimetres: number;
  /** out of its dry bag, in hours; unknown for a card that comes in from the street */
  readonly hours: number | 'unknown';
  /** the room: up to 30 degC and 60 %, worse than that, or not known */
  readonly room: 'within' | 'worse' | 'unknown';
  /** longest side of a ball grid package, in millimetres */
  readonly gridMillimetres?: number;
}

export interface BakeChoice {
  readonly celsius: BakeCelsius;
  readonly hours: number;
  readonly seen: Seen;
  readonly cited: Cited;
}

/** Why, as data: `because` is the same in words. */
export interface BakeReason {
  readonly id: 'no-limit' | 'within' | 'every-use' | 'exposure-unknown' | 'room-unknown' | 'room-worse' | 'passed';
  /** a second thing that decides, or that keeps the table from saying more */
  readonly besides?: 'large-grid' | 'no-row' | 'too-thick' | 'row-unseen';
}

export type BakeNeed = { readonly reason: BakeReason } & (
  | { readonly kind: 'none'; readonly because: string; readonly hoursLeft: number | 'unlimited' }
  | {
      readonly kind: 'bake';
      readonly because: string;
      readonly taken: 'saturated' | 'just-passed';
      /** hottest first; one of them is enough */
      readonly choices: readonly BakeChoice[];
    }
  | { readonly kind: 'no-cell'; readonly because: string; readonly todo: string }
);

/** The thickest body the table has a row for. */
export const TABLE_ENDS_MILLIMETRES = 4.5;
const JUST_PASSED_HOURS = 72;
const ASK_MAKER =
  'Ask the maker of the package, or look the cell up in the standard; until then treat the part as wet.';

/**
 * Whether a package has to be dried before heat, and how: floor life by level (J-STD-020 table 5-1), drying by level and
 * body thickness (J-STD-033 table 4-1). Up to 72 hours past the floor life the shorter time holds; past that, with an
 * exposure that is not known, or in a room that is worse or not known, the package counts as wet through. Level 6 is
 * baked before every use. Where the table has no cell, or none was seen, that is the answer, with what to do instead.
 *
 * A board bears only what its weakest part bears: connectors, labels and cells may not stand 125 degC. The choice
 * between the temperatures is the bench's. Thickness and hours below nought are errors. Constant time.
 *
 * @example bakeNeeded({ level: '3', bodyMillimetres: 1.2, hours: 200, room: 'within' }).choices[0].hours // 7
 */
export function bakeNeeded(exposure: Exposure): BakeNeed {
  const { level, bodyMillimetres, hours, room } = exposure;
  if (!(bodyMillimetres > 0)) throw new RangeError(`A package body is thicker than nought, not ${bodyMillimetres} mm.`);
  if (hours !== 'unknown' && !(hours >= 0))
    throw new RangeError(`An exposure lasts nought hours or more, not ${hours}.`);
  const floor = FLOOR_LIFE_HOURS[level];
  if (floor === 'unlimited')
    return {
      kind: 'none',
      reason: { id: 'no-limit' },
      because: 'level 1 has no limit to its floor life',
      hoursLeft: 'unlimited',
    };
  const known = hours !== 'unknown' && room === 'within';
  if (known && floor !== 'as labelled' && hours <= floor)
    return {
      kind: 'none',
      reason: { id: 'within' },
      because: `${hours} of ${floor} hours of floor life are used`,
      hoursLeft: floor - hours,
    };
  const justPassed = known && floor !== 'as labelled' && hours <= floor + JUST_PASSED_HOURS;
  const id =
    floor === 'as labelled'
      ? 'every-use'
      : known
        ? 'passed'
        : hours === 'unknown'
          ? 'exposure-unknown'
          : room === 'worse'
            ? 'room-worse'
            : 'room-unknown';
  const because =
    floor === 'as labelled'
      ? 'level 6 is baked before every use'
      : !known
        ? `${hours === 'unknown' ? 'how long it was exposed' : 'the room it lay in'} is ${hours !== 'unknown' && room === 'worse' ? 'worse than the table assumes' : 'not known'}, so it counts as wet through`
        : `its floor life of ${floor} hours is passed by ${hours - floor} hours`;
  if ((exposure.gridMillimetres ?? 0) > LARGE_GRID_MILLIMETRES && level !== '6') {
    const choice: BakeChoice = { celsius: 125, hours: LARGE_GRID_HOURS, seen: 'memory', cited: DRYING_CITED };
    return {
      kind: 'bake',
      reason: { id, besides: 'large-grid' },
      because: `${because}; a ball grid above ${LARGE_GRID_MILLIMETRES} mm`,
      taken: 'saturated',
      choices: [choice],
    };
  }
  const row = DRYING.find(
    (one) => one.level === level && bodyMillimetres > one.thickness[0] && bodyMillimetres <= one.thickness[1],
  );
  if (row === undefined)
    return {
      kind: 'no-cell',
      reason: {
        id,
        besides: level === '6' ? 'no-row' : bodyMillimetres > TABLE_ENDS_MILLIMETRES ? 'too-thick' : 'row-unseen',
      },
      because: `${because}, but ${whyNoRow(level, bodyMillimetres)}`,
      todo: ASK_MAKER,
    };
  const choices = ([125, 90, 40] as const).flatMap((celsius): BakeChoice[] => {
    const found = row.hours[celsius];
    if (found === undefined) return [];
    return [{ celsius, hours: justPassed ? found.justPassed : found.saturated, seen: found.seen, cited: DRYING_CITED }];
  });
  return { kind: 'bake', reason: { id }, because, taken: justPassed ? 'just-passed' : 'saturated', choices };
}

function whyNoRow(level: MoistureLevel, bodyMillimetres: number): string {
  if (level === '6') return 'the table has no row for level 6: the label says how';
  if (bodyMillimetres > TABLE_ENDS_MILLIMETRES)
    return `the table ends at ${TABLE_ENDS_MILLIMETRES} mm, this body has ${bodyMillimetres} mm`;
  return `the row for level ${level} at ${bodyMillimetres} mm was not seen`;
}

function thin(level: MoistureLevel, at125: Cell, at90: Cell, at40: Cell): DryingRow {
  return { thickness: [0, 1.4], level, hours: { 125: at125, 90: at90, 40: at40 } };
}

function middle(level: MoistureLevel, at125: Cell, at90: Cell, at40: Cell): DryingRow {
  return { thickness: [1.4, 2], level, hours: { 125: at125, 90: at90, 40: at40 } };
}
