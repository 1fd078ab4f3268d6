/**
 * Readings as people type them at a bench: `0.31`, `.31`, `0,31`, `310m`, `1k2`, `4R7`, `12 kΩ`, `1V8`, `OL`.
 *
 * What could mean two things is refused, never guessed:
 * - `m` is milli and `M` is mega, in every spelling (`mohm`, `MΩ`); `u` and `µ` are micro; `k` and `K` both are kilo;
 * - a comma is a decimal comma, but `1,000` (one to three digits, then exactly three) could be a thousand: say `1k` or
 *   `1.0`; a point is always a decimal point, as a meter shows it; two separators are refused;
 * - `0L` with a zero could be zero milliohm (RKM code) or a mistyped OL: refused, because a short and an open are
 *   opposites; `0.L`, as displays draw it, has no such second reading and is over range;
 * - `K` after a temperature is kelvin, and the number is taken as it stands: a difference of 1 K is one of 1 degC.
 *   An absolute temperature in kelvin falls outside the plausible range and is refused by that.
 */
import type { QUANTITIES } from '../knowledge/schema.ts';

export type Quantity = (typeof QUANTITIES)[number];

export type ParsedQuantity =
  | { readonly kind: 'value'; readonly value: number; readonly typed: string }
  | { readonly kind: 'over-range'; readonly typed: string }
  | { readonly kind: 'error'; readonly wrong: string; readonly todo: string; readonly typed: string };

interface Kind {
  /** how the unit is said in a sentence */
  readonly says: string;
  /** spellings of the unit, in lower case */
  readonly units: readonly string[];
  /** the unit as written after a formatted value */
  readonly symbol: string;
  /** letters that may stand in for the decimal mark: IEC 60062 for resistance, the habit of schematics for the rest */
  readonly marks: string;
  readonly prefixed: boolean;
  readonly overRange: boolean;
  /** what a graphics card can show on a bench; beyond it something was mistyped */
  readonly least: number;
  readonly most: number;
  readonly example: string;
}

const KINDS: { readonly [quantity in Quantity]: Kind } = {
  resistance: {
    says: 'ohm',
    units: ['ω', 'ohm', 'ohms', 'r'],
    symbol: 'Ω',
    marks: 'RrLmkKMG',
    prefixed: true,
    overRange: true,
    least: 0,
    most: 1e9,
    example: '0.31, 310m, 4R7, 1k2 or OL',
  },
  voltage: {
    says: 'volt',
    units: ['v', 'volt', 'volts'],
    symbol: 'V',
    marks: 'Vvmk',
    prefixed: true,
    overRange: true,
    least: 0,
    most: 60,
    example: '1.35, 870m or 1V8',
  },
  current: {
    says: 'ampere',
    units: ['a', 'amp', 'amps', 'ampere', 'amperes'],
    symbol: 'A',
    marks: 'Aam',
    prefixed: true,
    overRange: true,
    least: 0,
    most: 100,
    example: '0.42 or 420m',
  },
  temperature: {
    says: 'degrees Celsius',
    units: ['°c', 'c', '°', 'degc', 'deg c', 'k'],
    symbol: '°C',
    marks: '',
    prefixed: false,
    overRange: false,
    least: -40,
    most: 200,
    example: '83 or 83.5',
  },
  percent: {
    says: 'percent',
    units: ['%', 'percent'],
    symbol: '%',
    marks: '',
    prefixed: false,
    overRange: false,
    least: 0,
    most: 100,
    example: '18 or 18 %',
  },
  ratio: {
    says: 'a plain ratio',
    units: ['x', '×'],
    symbol: '',
    marks: '',
    prefixed: false,
    overRange: false,
    least: 0,
    most: 1000,
    example: '0.85',
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
 * Reads what was typed for a quantity into its base unit (ohm, V, A, degC, percent, 1).
 *
 * Decimal point or comma, SI prefix (u m k M G), unit, the letter as decimal mark of IEC 60062 (`4R7` = 4.7 ohm, `R47`,
 * `1k2` = 1200 ohm, `2M2`, `L47` = 0.47 milliohm; by habit also `4m7`, `1V8`), exponent (`3.1e-1`), over range (`OL`,
 * `O.L`, `open`, `inf`). A sign is allowed where the quantity can be negative. Anything else, or a value no card can
 * show, is an error that keeps what was typed.
 *
 * @example parseQuantity('4R7', 'resistance') // { kind: 'value', value: 4.7, typed: '4R7' }
 */
export function parseQuantity(typed: string, quantity: Quantity): ParsedQuantity {
  const kind = KINDS[quantity];
  const text = typed
    .trim()
    .replace(/[\s\u00a0\u202f]+/g, ' ')
    .replace(/[−–]/g, '-')
    .replace(/\u2126/g, 'Ω');
  const error = (wrong: string, todo = `Type it as ${kind.example}.`): ParsedQuantity => ({
    kind: 'error',
    wrong,
    todo,
    typed,
  });

  if (text === '') return error('Nothing is typed here.');
  if (isOverRange(text)) {
    if (kind.overRange) return { kind: 'over-range', typed };
    return error(`Over range says nothing where ${kind.says} is wanted.`);
  }
  if (/^0l$/i.test(text)) {
    return error(
      '"0L" with a zero can mean zero milliohm or a mistyped OL, and those are opposites.',
      'Type OL (letter O) for over range, or 0 for a dead short.',
    );
  }
  const read = readMarked(text, kind) ?? readPlain(text, quantity);
  if (typeof read === 'string') return error(read);
  if (read.kind === 'refused') return error(read.wrong, read.todo);
  return plausible(read.value, kind, typed, error);
}

/**
 * Writes a value as `parseQuantity` reads it: SI prefix, up to `digits` significant digits, unit.
 *
 * @example formatQuantity(0.31, 'resistance') // '310 mΩ'
 */
export function formatQuantity(value: number, quantity: Quantity, digits = 4): string {
  const kind = KINDS[quantity];
  if (!Number.isFinite(value)) return 'OL';
  const [prefix, factor] = kind.prefixed ? prefixFor(value, digits) : (['', 1] as const);
  const number = Number((value / factor).toPrecision(digits));
  const unit = `${prefix}${kind.symbol}`;
  return unit === '' ? `${number}` : `${number} ${unit}`;
}

type Read =
  | { readonly kind: 'read'; readonly value: number }
  | { readonly kind: 'refused'; readonly wrong: string; readonly todo: string };

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

/** A plain number with an optional prefix and unit; a string says what cannot be read. */
function readPlain(text: string, quantity: Quantity): Read | string {
  const match = /^([+-]? ?)((?:\d[\d.,']*|[.,]\d[\d.,']*)(?:[eE][+-]?\d+)?) ?(.*)$/.exec(text);
  if (!match) return `"${text}" is not a number.`;
  const [, sign = '', digits = '', suffix = ''] = match;
  const number = readDigits(digits);
  if (typeof number !== 'number') return number;
  const factor = readSuffix(suffix, quantity);
  if (factor === undefined) return unreadSuffix(suffix, quantity);
  return { kind: 'read', value: scale(sign.startsWith('-') ? -number : number, factor) };
}

function readDigits(digits: string): number | Read {
  const marks = digits.replace(/[^.,']/g, '');
  if (marks.length > 1 || marks === "'") {
    return {
      kind: 'refused',
      wrong: `"${digits}" holds more than one separator.`,
      todo: 'Leave out separators of thousands: 12k or 12000.',
    };
  }
  if (/^[1-9]\d{0,2},\d{3}$/.test(digits)) {
    const thousand = digits.replace(',', '');
    return {
      kind: 'refused',
      wrong: `"${digits}" can be read as ${digits.replace(',', '.')} or as ${thousand}.`,
      todo: `Type ${digits.replace(',', '.')} or ${thousand}.`,
    };
  }
  return Number(digits.replace(',', '.'));
}

/** The factor of prefix and unit together; undefined where they are not of this quantity. */
function readSuffix(suffix: string, quantity: Quantity): number | undefined {
  const kind = KINDS[quantity];
  if (suffix === '' || kind.units.includes(suffix.toLowerCase())) return 1;
  if (!kind.prefixed) return undefined;
  for (const [prefix, factor] of PREFIXES) {
    const found = prefix.exec(suffix);
    if (!found) continue;
    const unit = suffix.slice(found[0].length).trim().toLowerCase();
    if (unit === '' || kind.units.includes(unit)) return factor;
  }
  return undefined;
}

function unreadSuffix(suffix: string, quantity: Quantity): Read | string {
  const other = (Object.keys(KINDS) as Quantity[]).find((q) => q !== quantity && readSuffix(suffix, q) !== undefined);
  const wanted = KINDS[quantity].says;
  if (!other) return `"${suffix}" is not a unit or prefix known here.`;
  return {
    kind: 'refused',
    wrong: `"${suffix}" is ${KINDS[other].says}, but this reading is in ${wanted}.`,
    todo: `Type it as ${KINDS[quantity].example}, or put it where readings in ${KINDS[other].says} go.`,
  };
}

function plausible(
  value: number,
  kind: Kind,
  typed: string,
  error: (wrong: string, todo?: string) => ParsedQuantity,
): ParsedQuantity {
  if (!Number.isFinite(value)) return error(`"${typed}" is not a finite number.`);
  if (value < 0 && kind.least === 0) {
    return error(
      `${typed} is negative: no reading here can be below zero.`,
      'Zero the meter or swap the probes, and measure again.',
    );
  }
  if (value < kind.least || value > kind.most) {
    return error(
      `${typed} is ${value} ${kind.says}, beyond anything a card shows (${kind.least} to ${kind.most}).`,
      'Check the prefix (m is milli, M is mega) and the unit; type OL for over range.',
    );
  }
  // -0.000 on a display is zero.
  return { kind: 'value', value: value === 0 ? 0 : value, typed };
}

/** Multiplies by a power of ten the way the decimal digits say it: 310 x 1e-3 is 0.31, not 0.31000000000000005. */
function scale(number: number, factor: number): number {
  return factor < 1 ? number / Math.round(1 / factor) : number * factor;
}

function prefixFor(value: number, digits: number): readonly [string, number] {
  const size = Math.abs(Number(value.toPrecision(digits)));
  if (size === 0 || (size >= 1 && size < 1e3)) return ['', 1];
  if (size >= 1e6) return ['M', 1e6];
  if (size >= 1e3) return ['k', 1e3];
  return size >= 1e-3 ? ['m', 1e-3] : ['u', 1e-6];
}
