/** All that a letter says in words, part by part: what a reading level is measured on, and what is searched for jargon. */

import { sayLeads } from './next-check.ts';
import type { Letter } from './schema.ts';

export function proseOf(letter: Letter): string[] {
  const { outOf100, next } = letter;
  return [
    letter.title,
    ...(letter.advised ? [letter.advised.text] : []),
    ...letter.lead,
    ...(outOf100 ? [outOf100.title, ...Object.values(outOf100.legend)] : []),
    ...letter.cameIn,
    ...(letter.afterWork
      ? [
          letter.afterWork.what.text,
          ...letter.afterWork.sentences,
          ...(letter.afterWork.plainly ? [letter.afterWork.plainly] : []),
          ...letter.afterWork.reasons.map(({ sentence }) => sentence),
          ...letter.afterWork.again,
        ]
      : []),
    ...letter.found.items.map(({ what, state }) => `${what.text}: ${state.text}`),
    ...(letter.found.others ? [letter.found.others] : []),
    ...letter.causes.map(({ what, sure, count }) => `${sure}, ${count.text}: ${what.text}`),
    ...letter.causesNote,
    ...letter.choices.flatMap(({ what, note, ifItFails, price }) => [
      what.text,
      ...(note ? [note] : []),
      ...(letter.ownStock ? [] : [price.text]),
      ifItFails,
    ]),
    ...(next ? [...next.sentences, ...sayLeads(next)] : []),
    ...letter.why,
    ...letter.changes,
    ...letter.ruledOut.map(({ reason }) => reason.text),
    ...letter.rests,
    ...letter.cautions.map(({ what }) => what.text),
    letter.consent.intro,
    ...letter.consent.boxes,
  ];
}
