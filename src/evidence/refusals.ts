/**
 * What is refused of a record and of a typed reading: what is wrong and what to do, in English. Each refusal also says by which of
 * these it speaks, and of what, so that whoever shows it may say it in another language.
 */
import type { QUANTITIES } from '../knowledge/schema.ts';

type Quantity = (typeof QUANTITIES)[number] | 'length' | 'volume' | 'swing' | 'minutes' | 'count' | 'energy';

interface Sentences {
  readonly wrong: string;
  readonly todo: string;
}

type Slots = { readonly [slot: string]: string | number };

/** Which refusal, and what it is about. */
export interface Told {
  readonly id: RefusalId;
  readonly about: Slots;
}

export interface Refused extends Sentences {
  readonly told: Told;
}

/** How a unit is said in a sentence. */
const UNITS: Readonly<Record<Quantity, string>> = {
  resistance: 'ohm',
  voltage: 'volt',
  current: 'ampere',
  temperature: 'degrees Celsius',
  percent: 'percent',
  ratio: 'a plain ratio',
  length: 'millimetres',
  volume: 'cubic millimetres',
  swing: 'kelvin',
  minutes: 'minutes',
  count: 'a plain number',
  energy: 'electronvolts',
};

/** How a reading is typed. */
export const EXAMPLES: Readonly<Record<Quantity, readonly string[]>> = {
  resistance: ['0.31', '310m', '4R7', '1k2', 'OL'],
  voltage: ['1.35', '870m', '1V8'],
  current: ['0.42', '420m'],
  temperature: ['83', '83.5'],
  percent: ['18', '18 %'],
  ratio: ['0.85'],
  length: ['0.6', '600 µm', '24 mil'],
  volume: ['0.05'],
  swing: ['55', '55 K'],
  minutes: ['90', '1.5 h'],
  count: ['3000', '3k'],
  energy: ['0.7', '0.7 eV'],
};

/** `0.31, 310m or OL`, in any language that has a word for `or`. */
export const sayExamples = (quantity: Quantity, or: string): string => {
  const examples = EXAMPLES[quantity];
  return examples.length < 2 ? examples.join() : `${examples.slice(0, -1).join(', ')} ${or} ${examples.at(-1)}`;
};

const unit = ({ quantity }: { readonly quantity: Quantity }) => UNITS[quantity];
const typeIt = ({ quantity }: { readonly quantity: Quantity }) => `Type it as ${sayExamples(quantity, 'or')}.`;

export const REFUSALS = {
  'not-a-record': ({ is }: { is: string }) => ({
    wrong: `A record is an object with fields, not ${is}.`,
    todo: 'Give the whole record, from { to }.',
  }),
  'no-format': ({ format }: { format: number }) => ({
    wrong: 'The record does not say which format it is in.',
    todo: `Add "format": ${format}.`,
  }),
  'newer-format': ({ format, reads }: { format: number; reads: number }) => ({
    wrong: `The record is in format ${format}; this version reads up to ${reads}.`,
    todo: 'Open it with the newer version that wrote it.',
  }),
  'never-a-format': ({ format, reads }: { format: number; reads: number }) => ({
    wrong: `There was never a format ${format}.`,
    todo: `Set "format" to ${reads}.`,
  }),
  missing: ({ field, kind }: { field: string; kind: string }) => ({
    wrong: `"${field}" is missing.`,
    todo: `Add it: ${kind}.`,
  }),
  'other-type': ({ field, is, kind }: { field: string; is: string; kind: string }) => ({
    wrong: `"${field}" is ${is}.`,
    todo: `Give ${kind}.`,
  }),
  'stray-field': ({ field }: { field: string }) => ({
    wrong: `"${field}" is not a field that belongs here.`,
    todo: 'Correct its spelling or take it out.',
  }),
  'other-value': ({ field, is, values }: { field: string; is: string; values: string }) => ({
    wrong: `"${field}" is ${is}.`,
    todo: `Give one of ${values}.`,
  }),
  empty: ({ field }: { field: string }) => ({ wrong: `"${field}" is empty.`, todo: 'Type something.' }),
  'too-small': ({ field, least }: { field: string; least: string }) => ({
    wrong: `"${field}" is too small.`,
    todo: `Give at least ${least}.`,
  }),
  'too-large': ({ field, most }: { field: string; most: string }) => ({
    wrong: `"${field}" is too large.`,
    todo: `Give at most ${most}.`,
  }),
  'no-time': ({ field }: { field: string }) => ({
    wrong: `"${field}" is not a date with time and zone.`,
    todo: 'Write it as 2025-03-01T09:30:00+01:00, or ending in Z.',
  }),
  'no-day': ({ field }: { field: string }) => ({
    wrong: `"${field}" is not a day.`,
    todo: 'Write it as year-month-day, such as 2025-03-01.',
  }),
  'not-above': ({ field, least }: { field: string; least: string }) => ({
    wrong: `"${field}" is too small.`,
    todo: `Give more than ${least}.`,
  }),
  'not-below': ({ field, most }: { field: string; most: string }) => ({
    wrong: `"${field}" is too large.`,
    todo: `Give less than ${most}.`,
  }),
  'no-id-there': ({ field, is }: { field: string; is: string }) => ({
    wrong: `"${field}" is ${is}, which is no id.`,
    todo: 'Write it as lower-case words joined by hyphens.',
  }),
  'no-id': ({ field }: { field: string }) => ({
    wrong: `"${field}" is not an id.`,
    todo: 'Write it as lower-case words joined by hyphens.',
  }),
  'no-event-type': ({ kinds }: { kinds: string }) => ({
    wrong: 'An event of the timeline does not say what kind it is.',
    todo: `Set its "type" to one of ${kinds}.`,
  }),
  'no-amount': ({ field }: { field: string }) => ({
    wrong: `"${field}" does not fit.`,
    todo: 'Give one amount, or its range as low, likely and high.',
  }),
  'does-not-fit': ({ field, message }: { field: string; message: string }) => ({
    wrong: `"${field}" does not fit: ${message}.`,
    todo: 'Correct it.',
  }),

  'work-backwards': ({ at, before }: { at: string; before: string }) => ({
    wrong: `${at} is before ${before}, the hold point above it: the work runs backwards.`,
    todo: 'Put hold points in the order they were recorded, or correct the time.',
  }),
  'step-unrecorded': ({ step }: { step: string }) => ({
    wrong: `No work before this finding has recorded the hold point "${step}".`,
    todo: 'Leave "step" out, or record the hold point in the process of the work.',
  }),
  'never-treated': (_: Slots) => ({
    wrong: 'The card came back here, but no work on it is recorded before.',
    todo: 'Record what was done first (an event "treated"); a card never worked on here begins with "arrived".',
  }),
  'worked-longer-already': ({ days, heard }: { days: string; heard: string }) => ({
    wrong: `It worked for ${days} days, less than the ${heard} days after which it still worked, as written above.`,
    todo: 'Correct the days or the date of that word, or put null where nobody can tell how long it worked.',
  }),
  'timeline-backwards': ({ at, before }: { at: string; before: string }) => ({
    wrong: `${at} is before ${before}, the event above it: the timeline runs backwards.`,
    todo: 'Put events in the order they happened, or correct the date.',
  }),
  'no-yes-or-no': ({ typed, name }: { typed: string; name: string }) => ({
    wrong: `${typed} is no answer to "${name}".`,
    todo: `Answer true or false. "Can't tell" is null.`,
  }),
  'no-number': ({ typed, name, kind, least, most, unit: of }: NoNumber) => ({
    wrong: `${typed} is no answer to "${name}".`,
    todo: `Give ${kind} from ${least} to ${most}${of === '' ? '' : ` ${of}`}. "Can't tell" is null.`,
  }),
  'no-choice': ({ typed, name, values }: { typed: string; name: string; values: string }) => ({
    wrong: `${typed} is no answer to "${name}".`,
    todo: `Choose one of ${values}. "Can't tell" is null.`,
  }),
  'no-list': ({ typed, name, values }: { typed: string; name: string; values: string }) => ({
    wrong: `${typed} is no answer to "${name}".`,
    todo: `Give a list of any of ${values}. "Can't tell" is null.`,
  }),
  'no-weight': ({ name }: { name: string }) => ({
    wrong: `No state of "${name}" has any weight: something was seen, so one of them must be possible.`,
    todo: 'Give the states that are possible a weight above 0, or leave the weights out and set the state to null for "can\'t tell".',
  }),
  'unknown-of-few': ({ id, kind, of, ids }: Unknown) => ({
    wrong: `"${id}" is not a ${kind}${of === '' ? '' : ` of ${of}`} that is known here.`,
    todo: `Choose one of ${ids}.`,
  }),
  'unknown-of-many': ({ id, kind, of, ids }: Unknown) => ({
    wrong: `"${id}" is not a ${kind}${of === '' ? '' : ` of ${of}`} that is known here.`,
    todo: `Nearest are ${ids}.`,
  }),

  'not-read': ({ name, states }: { name: string; states: string }) => ({
    wrong: `"${name}" is not read as a number.`,
    todo: `Choose one of its states: ${states}.`,
  }),
  'nothing-typed': (about: { quantity: Quantity }) => ({ wrong: 'Nothing is typed here.', todo: typeIt(about) }),
  'over-range-here': (about: { quantity: Quantity }) => ({
    wrong: `Over range says nothing where ${unit(about)} is wanted.`,
    todo: typeIt(about),
  }),
  'zero-or-over-range': (_: Slots) => ({
    wrong: '"0L" with a zero can mean zero milliohm or a mistyped OL, and those are opposites.',
    todo: 'Type OL (letter O) for over range, or 0 for a dead short.',
  }),
  'not-a-number': (about: { text: string; quantity: Quantity }) => ({
    wrong: `"${about.text}" is not a number.`,
    todo: typeIt(about),
  }),
  'space-inside': ({ text }: { text: string }) => ({
    wrong: `"${text}" holds a space inside the number.`,
    todo: 'Leave out separators of thousands: 12k or 12000.',
  }),
  separators: ({ digits }: { digits: string }) => ({
    wrong: `"${digits}" holds more than one separator.`,
    todo: 'Leave out separators of thousands: 12k or 12000.',
  }),
  'thousand-or-decimal': ({ digits, decimal, thousand }: { digits: string; decimal: string; thousand: string }) => ({
    wrong: `"${digits}" can be read as ${decimal} or as ${thousand}.`,
    todo: `Type ${decimal} or ${thousand}.`,
  }),
  'unknown-unit': (about: { suffix: string; quantity: Quantity }) => ({
    wrong: `"${about.suffix}" is not a unit or prefix known here.`,
    todo: typeIt(about),
  }),
  'other-unit': (about: { suffix: string; other: Quantity; quantity: Quantity }) => ({
    wrong: `"${about.suffix}" is ${UNITS[about.other]}, but this reading is in ${unit(about)}.`,
    todo: `Type it as ${sayExamples(about.quantity, 'or')}, or put it where readings in ${UNITS[about.other]} go.`,
  }),
  'not-finite': (about: { typed: string; quantity: Quantity }) => ({
    wrong: `"${about.typed}" is not a finite number.`,
    todo: typeIt(about),
  }),
  negative: ({ typed }: { typed: string }) => ({
    wrong: `${typed} is negative: no reading here can be below zero.`,
    todo: 'Zero the meter or swap the probes, and measure again.',
  }),
  beyond: (about: { typed: string; value: number; least: number; most: number; quantity: Quantity }) => ({
    wrong: `${about.typed} is ${about.value} ${unit(about)}, beyond anything a card shows (${about.least} to ${about.most}).`,
    todo: 'Check the prefix (m is milli, M is mega) and the unit; type OL for over range.',
  }),
  'leads-broken': (_: Slots) => ({
    wrong: 'The leads read over range when held together: a lead is broken.',
    todo: 'Change the leads, hold the tips together and type what the meter shows.',
  }),
  'no-reference': ({ typed }: { typed: string }) => ({
    wrong: `A known-good board that reads ${typed} gives nothing to compare with.`,
    todo: 'Measure the same point on the known-good board again, or leave its reading out.',
  }),
  'leads-exceed': ({ typed, left }: { typed: string; left: string }) => ({
    wrong: `${typed} less the leads is ${left}: the leads measure more than the reading does.`,
    todo: 'Hold the tips together, type what the meter shows as leads (0 if it was zeroed), and measure again.',
  }),
};

interface NoNumber {
  readonly typed: string;
  readonly name: string;
  readonly kind: string;
  readonly least: number;
  readonly most: number;
  readonly unit: string;
}

interface Unknown {
  readonly id: string;
  readonly kind: string;
  readonly of: string;
  readonly ids: string;
}

export type Refusals = typeof REFUSALS;
export type RefusalId = keyof Refusals;

/** The refusal in English, and as what it may be said otherwise. */
export function refuse<Name extends RefusalId>(id: Name, about: Parameters<Refusals[Name]>[0] & Slots): Refused {
  return { ...sayRefusal(REFUSALS, { id, about }), told: { id, about } };
}

/** In the words of that catalogue. */
export function sayRefusal(refusals: Refusals, { id, about }: Told): Sentences {
  return (refusals[id] as (about: Slots) => Sentences)(about);
}
