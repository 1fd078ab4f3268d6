/**
 * Readings as people type them at a bench: `0.31`, `.31`, `0,31`, `310m`, `1k2`, `4R7`, `12 kΩ`, `1V8`, `OL`.
 *
 * What could mean two things is refused, never guessed:
 * - `m` is milli and `M` is mega, in every spelling (`mohm`, `MΩ`); `u` and `µ` are micro; `k` and `K` both are kilo;
 * - a comma is a decimal comma, but `1,000` (one to three digits, then exactly three) could be a thousand: say `1k` or
 *   `1.0`; a point is always a decimal point, as a meter shows it; two separators are refused;
 * - `0L` with a zero could be zero milliohm (RKM code) or a mistyped OL: refused, because a short and an open are
 *   opposites; `0.L`, as displays draw it, has no such second reading and is over range;
 * - a length is in millimetres: `0.6`, `0.6 mm`, `600 µm`, `24 mil`; a bare `m` behind it is refused;
 * - `K` after a temperature is kelvin, and the number is taken as it stands: a difference of 1 K is one of 1 degC.
 *   An absolute temperature in kelvin falls outside the plausible range and is refused by that.
 */
import type { QUANTITIES } from '../knowledge/schema.ts';
import { type Refused, refuse } from './refusals.ts';

export type Quantity = (typeof QUANTITIES)[number];
/** What is measured of joints and their use, besides what findings are read in. */
export const JOINT_QUANTITIES = ['length', 'volume', 'swing', 'minutes', 'count', 'energy'] as const;
export type Typed = Quantity | (typeof JOINT_QUANTITIES)[number];

export type ParsedQuantity =
  | { readonly kind: 'value'; readonly value: number; readonly typed: string }
  | { readonly kind: 'over-range'; readonly typed: string }
  | (Refused & { readonly kind: 'error'; readonly typed: string });

interface Kind {
  /** spellings of the unit, in lower case */
  readonly units: readonly string[];
  /** the unit as written after a formatted value */
  readonly symbol: string;
  /** other units, in lower case, with what one of them is in the base unit */
  readonly others?: { readonly [unit: string]: number };
  /** letters that may stand in for the decimal mark: IEC 60062 for resistance, the habit of schematics for the rest */
  readonly marks: string;
  readonly prefixed: boolean;
  readonly overRange: boolean;
  /** what a graphics card can show on a bench; beyond it something was mistyped */
  readonly least: number;
  readonly most: number;
}

const KINDS: { readonly [quantity in Typed]: Kind } = {
  resistance: {
    units: ['ω', 'ohm', 'ohms', 'r'],
    symbol: 'Ω',
    marks: 'RrLmkKMG',
    prefixed: true,
    overRange: true,
    least: 0,
    most: 1e9,
  },
  voltage: {
    units: ['v', 'volt', 'volts'],
    symbol: 'V',
    marks: 'Vvmk',
    prefixed: true,
    overRange: true,
    least: 0,
    most: 60,
  },
  current: {
    units: ['a', 'amp', 'amps', 'ampere', 'amperes'],
    symbol: 'A',
    marks: 'Aam',
    prefixed: true,
    overRange: true,
    least: 0,
    most: 100,
  },
  temperature: {
    units: ['°c', 'c', '°', 'degc', 'deg c', 'k'],
    symbol: '°C',
    marks: '',
    prefixed: false,
    overRange: false,
    least: -40,
    most: 200,
  },
  percent: {
    units: ['%', 'percent'],
    symbol: '%',
    marks: '',
    prefixed: false,
    overRange: false,
    least: 0,
    most: 100,
  },
  ratio: {
    units: ['x', '×'],
    symbol: '',
    marks: '',
    prefixed: false,
    overRange: false,
    least: 0,
    most: 1000,
  },
  length: {
    units: ['mm', 'millimetre', 'millimetres', 'millimeter', 'millimeters'],
    symbol: 'mm',
    others: { um: 1e-3, µm: 1e-3, μm: 1e-3, micron: 1e-3, microns: 1e-3, mil: 0.0254, mils: 0.0254, cm: 10 },
    marks: '',
    prefixed: false,
    overRange: false,
    least: 0,
    most: 100,
  },
  volume: {
    units: ['mm3', 'mm³', 'mm^3', 'cubic mm'],
    symbol: 'mm³',
    marks: '',
    prefixed: false,
    overRange: false,
    least: 0,
    most: 1000,
  },
  swing: {
    units: ['k', 'kelvin', '°c', 'c', '°', 'degc', 'deg c'],
    symbol: 'K',
    marks: '',
    prefixed: false,
    overRange: false,
    least: 0,
    most: 300,
  },
  minutes: {
    units: ['min', 'mins', 'minute', 'minutes'],
    symbol: 'min',
    others: { h: 60, hour: 60, hours: 60, s: 1 / 60 },
    marks: '',
    prefixed: false,
    overRange: false,
    least: 0,
    most: 100_000,
  },
  energy: {
    units: ['ev', 'electronvolt', 'electronvolts'],
    symbol: 'eV',
    marks: '',
    prefixed: false,
    overRange: false,
    least: 0,
    most: 100,
  },
  count: {
    units: [],
    symbol: '',
    marks: 'kM',
    prefixed: true,
    overRange: false,
    least: 0,
    most: 1e12,
  },
};

const PREFIXES: readonly (readonly [RegExp, number])[] = [
  [/^(?:[Mm]ega|[Mm]eg|M)/, 1e6],
  [/^(?:milli|m)/, 1e-3],
  [/^(?:micro|u|µ|μ)/, 1e-6],
  [/^(?:kilo|k|K)/, 1e3],
  [/^G/, 1e9],
];

const MARK_FACTORS: { readonly [letter: string]: number } = {
  R: 1,
  r: 1,
  V: 1,
  v: 1,
  A: 1,
  a: 1,
  L: 1e-3,
  m: 1e-3,
  k: 1e3,
  K: 1e3,
  M: 1e6,
  G: 1e9,
};

const OVER_RANGE = /^(?:o\.?l|\.ol|0\.l|open|inf(?:inite|inity)?|∞|over-?range|overload)\.?$/i;

/**
 * Reads what was typed for a quantity into its base unit (ohm, V, A, degC, percent, 1; of joints mm, mm3, K, min, eV).
 *
 * Decimal point or comma, SI prefix (u m k M G), unit, the letter as decimal mark of IEC 60062 (`4R7` = 4.7 ohm, `R47`,
 * `1k2` = 1200 ohm, `2M2`, `L47` = 0.47 milliohm; by habit also `4m7`, `1V8`), exponent (`3.1e-1`), over range (`OL`,
 * `O.L`, `open`, `inf`). A sign is allowed where the quantity can be negative. Anything else, or a value no card can
 * show, is an error that keeps what was typed.
 *
 * @example parseQuantity('4R7', 'resistance') // { kind: 'value', value: 4.7, typed: '4R7' }
 */
export function parseQuantity(typed: string, quantity: Typed): ParsedQuantity {
  const kind = KINDS[quantity];
  const text = typed
    .trim()
    .replace(/[\s\u00a0\u202f]+/g, ' ')
    .replace(/[−–]/g, '-')
    .replace(/\u2126/g, 'Ω');
  const error = (refused: Refused): ParsedQuantity => ({ kind: 'error', ...refused, typed });

  if (text === '') return error(refuse('nothing-typed', { quantity }));
  if (isOverRange(text)) {
    if (kind.overRange) return { kind: 'over-range', typed };
    return error(refuse('over-range-here', { quantity }));
  }
  if (/^0l$/i.test(text)) return error(refuse('zero-or-over-range', {}));
  const read = readMarked(text, kind) ?? readPlain(text, quantity);
  return read.kind === 'refused' ? error(read.refused) : plausible(read.value, quantity, typed, error);
}

/**
 * Writes a value as `parseQuantity` reads it: SI prefix, up to `digits` significant digits, unit.
 *
 * @example formatQuantity(0.31, 'resistance') // '310 mΩ'
 */
export function formatQuantity(value: number, quantity: Typed, digits = 4): string {
  const kind = KINDS[quantity];
  if (!Number.isFinite(value)) return 'OL';
  const [prefix, factor] = kind.prefixed ? prefixFor(value, digits) : (['', 1] as const);
  const number = Number((value / factor).toPrecision(digits));
  const unit = `${prefix}${kind.symbol}`;
  return unit === '' ? `${number}` : `${number} ${unit}`;
}

type Read = { readonly kind: 'read'; readonly value: number } | { readonly kind: 'refused'; readonly refused: Refused };

const refused = (...told: Parameters<typeof refuse>): Read => ({ kind: 'refused', refused: refuse(...told) });

function isOverRange(text: string): boolean {
  const withoutUnit = text.replace(/ ?[kM]?(?:Ω|ohm|V|A)$/i, '');
  return OVER_RANGE.test(text) || OVER_RANGE.test(withoutUnit);
}

/** The letter as decimal mark; nothing where the text is not of that form. */
function readMarked(text: string, kind: Kind): Read | undefined {
  if (kind.marks === '') return undefined;
  const match = new RegExp(`^(-?)(\\d*)([${kind.marks}])(\\d+) ?(.*)$`).exec(text);
  if (!match) return undefined;
  const [, sign = '', whole = '', mark = '', fraction = '', rest = ''] = match;
  if (rest !== '' && !kind.units.includes(rest.toLowerCase())) return undefined;
  // A leading prefix letter of the plain kind (`m5`, `k5`) is as likely a slip as a code; IEC 60062 prints R47, L47,
  // K47, M47.
  if (whole === '' && !/[RLKMVA]/.test(mark)) return undefined;
  const factor = MARK_FACTORS[mark] ?? Number.NaN;
  return { kind: 'read', value: scale(Number(`${sign}${whole === '' ? '0' : whole}.${fraction}`), factor) };
}

/** A plain number with an optional prefix and unit. */
function readPlain(text: string, quantity: Typed): Read {
  const match = /^([+-]? ?)((?:\d[\d.,']*|[.,]\d[\d.,']*)(?:[eE][+-]?\d+)?) ?(.*)$/.exec(text);
  if (!match) return refused('not-a-number', { text, quantity });
  const [, sign = '', digits = '', suffix = ''] = match;
  const number = readDigits(digits);
  if (typeof number !== 'number') return number;
  if (/^\d/.test(suffix)) return refused('space-inside', { text });
  const factor = readSuffix(suffix, quantity);
  if (factor === undefined) return unreadSuffix(suffix, quantity);
  return { kind: 'read', value: scale(sign.startsWith('-') ? -number : number, factor) };
}

function readDigits(digits: string): number | Read {
  const marks = digits.replace(/[^.,']/g, '');
  if (marks.length > 1 || marks === "'") {
    return refused('separators', { digits });
  }
  if (/^[1-9]\d{0,2},\d{3}$/.test(digits)) {
    const thousand = digits.replace(',', '');
    return refused('thousand-or-decimal', { digits, decimal: digits.replace(',', '.'), thousand });
  }
  return Number(digits.replace(',', '.'));
}

/** The factor of prefix and unit together; undefined where they are not of this quantity. */
function readSuffix(suffix: string, quantity: Typed): number | undefined {
  const kind = KINDS[quantity];
  if (suffix === '' || kind.units.includes(suffix.toLowerCase())) return 1;
  const other = kind.others?.[suffix.toLowerCase()];
  if (other !== undefined) return other;
  if (!kind.prefixed) return undefined;
  for (const [prefix, factor] of PREFIXES) {
    const found = prefix.exec(suffix);
    if (!found) continue;
    const unit = suffix.slice(found[0].length).trim().toLowerCase();
    if (unit === '' || kind.units.includes(unit)) return factor;
  }
  return undefined;
}

function unreadSuffix(suffix: string, quantity: Typed): Read {
  // a bare prefix belongs to no quantity of its own
  const bare = PREFIXES.some(([prefix]) => prefix.exec(suffix)?.[0] === suffix);
  const other = bare
    ? undefined
    : (Object.keys(KINDS) as Typed[]).find((q) => q !== quantity && readSuffix(suffix, q) !== undefined);
  return other ? refused('other-unit', { suffix, other, quantity }) : refused('unknown-unit', { suffix, quantity });
}

function plausible(
  value: number,
  quantity: Typed,
  typed: string,
  error: (refused: Refused) => ParsedQuantity,
): ParsedQuantity {
  const { least, most } = KINDS[quantity];
  if (!Number.isFinite(value)) return error(refuse('not-finite', { typed, quantity }));
  if (value < 0 && least === 0) return error(refuse('negative', { typed }));
  if (value < least || value > most) return error(refuse('beyond', { typed, value, least, most, quantity }));
  // -0.000 on a display is zero.
  return { kind: 'value', value: value === 0 ? 0 : value, typed };
}

/** Multiplies by a power of ten the way the decimal digits say it: 310 x 1e-3 is 0.31, not 0.31000000000000005. */
function scale(number: number, factor: number): number {
  const parts = Math.round(1 / factor);
  return factor < 1 && Math.abs(parts * factor - 1) < 1e-9 ? number / parts : number * factor;
}

function prefixFor(value: number, digits: number): readonly [string, number] {
  const size = Math.abs(Number(value.toPrecision(digits)));
  if (size === 0 || (size >= 1 && size < 1e3)) return ['', 1];
  if (size >= 1e6) return ['M', 1e6];
  if (size >= 1e3) return ['k', 1e3];
  return size >= 1e-3 ? ['m', 1e-3] : ['u', 1e-6];
}
