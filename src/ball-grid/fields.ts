/** What is asked of a ball joint and its use, and how it is typed: at the bench, on the command line, in the wizard. */
import { type ParsedQuantity, parseQuantity, type Typed } from '../evidence/quantity.ts';
import type { Told } from '../evidence/refusals.ts';
import { ALLOYS } from '../joints/alloys.ts';
import { BALL_BOUNDS, type BallBound, type BallNumber } from '../record/ball-bounds.ts';
import { ballMessages } from './messages/messages.ts';

export interface BallField {
  readonly flag: string;
  readonly quantity: Typed;
  readonly unit: string;
}

/** A pure number is read as a ratio is. */
export const BALL_FIELDS: { readonly [name in BallNumber]: BallField } = {
  ballMillimetres: { flag: 'ball', quantity: 'length', unit: 'mm' },
  packagePadMillimetres: { flag: 'package-pad', quantity: 'length', unit: 'mm' },
  boardPadMillimetres: { flag: 'board-pad', quantity: 'length', unit: 'mm' },
  pitchMillimetres: { flag: 'pitch', quantity: 'length', unit: 'mm' },
  pasteCubicMillimetres: { flag: 'paste', quantity: 'volume', unit: 'mm³' },
  leftMillimetres: { flag: 'left', quantity: 'length', unit: 'mm' },
  imageMillimetres: { flag: 'image', quantity: 'length', unit: 'mm' },
  swingKelvin: { flag: 'swing', quantity: 'swing', unit: 'K' },
  hottestCelsius: { flag: 'hottest', quantity: 'temperature', unit: '°C' },
  cyclesPerDay: { flag: 'cycles', quantity: 'ratio', unit: '' },
  referenceSwingKelvin: { flag: 'reference-swing', quantity: 'swing', unit: 'K' },
  referenceHottestCelsius: { flag: 'reference-hottest', quantity: 'temperature', unit: '°C' },
  referenceCyclesPerDay: { flag: 'reference-cycles', quantity: 'ratio', unit: '' },
  referenceCycles: { flag: 'reference-life', quantity: 'count', unit: '' },
  referenceShape: { flag: 'reference-shape', quantity: 'ratio', unit: '' },
  strainRange: { flag: 'strain', quantity: 'ratio', unit: '' },
  dwellMinutes: { flag: 'dwell', quantity: 'minutes', unit: 'min' },
  activationElectronvolts: { flag: 'activation', quantity: 'energy', unit: 'eV' },
};

export const BALL_NUMBERS = Object.keys(BALL_FIELDS) as readonly BallNumber[];

export const ALLOY_NAMES: readonly string[] = ALLOYS.map(({ id }) => id);

export interface FieldRefused {
  readonly wrong: string;
  readonly todo: string;
  /** where the refusal is one of the reading's own, so that it can be said in another language */
  readonly told?: Told;
}

type Unread = Extract<ParsedQuantity, { kind: 'error' }>;

interface NotRead {
  readonly ok: false;
  readonly refused: FieldRefused;
}

export type FieldRead = { readonly ok: true; readonly value: number } | NotRead;
export type VoidsRead = { readonly ok: true; readonly values: readonly number[] } | NotRead;

/** What was typed for one field, in its unit and within its bounds, or what is wrong with it and what to do. */
export function readBallNumber(typed: string, name: BallNumber, language: string): FieldRead {
  const parsed = parseQuantity(typed, BALL_FIELDS[name].quantity);
  if (parsed.kind === 'value')
    return isWithin(parsed.value, BALL_BOUNDS[name])
      ? { ok: true, value: parsed.value }
      : outside(typed, name, language);
  return parsed.kind === 'over-range' || OF_A_METER.has(parsed.told.id)
    ? outside(typed, name, language)
    : refused(parsed, language);
}

/** Voids are typed one after the other: `0.15 0.2`, `0,15; 0,2`, `150 µm, 200 µm`. */
export function readVoids(typed: string, language: string): VoidsRead {
  const parts = typed.trim().split(/\s*;\s*|,\s+|\s+(?=[-+]?[\d.,])/);
  const values: number[] = [];
  for (const part of parts.filter((one) => one !== '')) {
    const parsed = parseQuantity(part, 'length');
    if (parsed.kind === 'value' && parsed.value <= MOST_VOID) {
      values.push(parsed.value);
      continue;
    }
    if (parsed.kind === 'error' && !OF_A_METER.has(parsed.told.id)) return refused(parsed, language);
    return { ok: false, refused: ballMessages(language).refused.voidOutside(part, String(MOST_VOID)) };
  }
  return { ok: true, values };
}

const MOST_VOID = 10;

/** What a refusal of these says is of thousands of ohms. */
const OF_THOUSANDS: ReadonlySet<string> = new Set(['separators', 'space-inside']);

/** What a refusal of these says is of a meter's reading and not of a length or a count. */
const OF_A_METER: ReadonlySet<string> = new Set(['negative', 'beyond', 'not-finite', 'over-range-here']);

function isWithin(value: number, bound: BallBound): boolean {
  return value <= bound.most && ('above' in bound ? value > bound.above : value >= bound.least);
}

function outside(typed: string, name: BallNumber, language: string): NotRead {
  const words = ballMessages(language);
  const bound: BallBound = BALL_BOUNDS[name];
  const number = new Intl.NumberFormat(language, { useGrouping: false });
  const [unit, most] = [BALL_FIELDS[name].unit, number.format(bound.most)];
  const up = unit === '' ? most : `${most} ${unit}`;
  const todo =
    'above' in bound
      ? words.refused.above(number.format(bound.above), up)
      : words.refused.from(number.format(bound.least), up);
  return { ok: false, refused: { wrong: words.refused.outside(typed.trim(), words.fields[name]), todo } };
}

function refused({ wrong, todo, told, typed }: Unread, language: string): NotRead {
  if (OF_THOUSANDS.has(told.id))
    return { ok: false, refused: ballMessages(language).refused.notOneNumber(typed.trim()) };
  return { ok: false, refused: { wrong, todo, told } };
}
