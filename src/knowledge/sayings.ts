/** Fills the sentences that assessments make, in whatever language the knowledge is. */
import { SAYINGS } from './english-sayings.ts';

export type SayingId = keyof typeof SAYINGS;

/** What carries the sentences: the knowledge, in whatever language it is. */
export interface Spoken {
  readonly language?: string | undefined;
  /** left out: English */
  readonly sayings?: { readonly [id: string]: string } | undefined;
}

const SLOT = /\{(\w+)(:lower)?\}/g;

export type Slots = { readonly [slot: string]: string | number };

/** The sentence with its slots filled. A slot nobody fills is a mistake in the code. */
export function say({ sayings }: Spoken, id: SayingId, slots: Slots = {}): string {
  return (sayings?.[id] ?? SAYINGS[id]).replace(SLOT, (_, slot: string, lowered: string | undefined) => {
    const value = slots[slot];
    if (value === undefined) throw new Error(`the sentence "${id}" has nothing to put for ${slot}`);
    return lowered === undefined ? String(value) : lower(String(value));
  });
}

export const slotsOf = (template: string): string[] => [
  ...new Set([...template.matchAll(SLOT)].map(([, slot]) => slot!)),
];

/** As it stands inside an English sentence. */
export function lower(text: string): string {
  const second = text.charAt(1);
  // an abbreviation such as PCIe or BGA keeps its capital
  return second !== '' && second === second.toUpperCase() && second !== second.toLowerCase()
    ? text
    : `${text.charAt(0).toLowerCase()}${text.slice(1)}`;
}

/** A thing without a name of its own language is said as its id in English, by its name elsewhere. */
export function sayThing(
  spoken: Spoken,
  things: readonly { readonly id: string; readonly name: string }[],
  id: string,
): string {
  const words = id.replaceAll('-', ' ');
  return spoken.language === undefined ? words : (things.find((thing) => thing.id === id)?.name ?? words);
}
