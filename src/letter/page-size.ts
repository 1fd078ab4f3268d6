/** Size of the type, so that the page fills one side and no more: the largest whose estimated height leaves room. */

import { sayLeads } from './next-check.ts';
import type { Letter, Paper } from './schema.ts';

/** From comfortable to the least that is still easily read on paper. */
const POINTS = [9.5, 9.25, 9, 8.75, 8.5, 8.25, 8] as const;
const POINTS_PER_MM = 72 / 25.4;
/** Inside the margins of the page, in points. */
const SHEET: Readonly<Record<Paper, { readonly width: number; readonly height: number }>> = {
  a4: { width: (210 - 26) * POINTS_PER_MM, height: (297 - 17) * POINTS_PER_MM },
  letter: { width: 612 - 26 * POINTS_PER_MM, height: 792 - 17 * POINTS_PER_MM },
};
/** Mean width of a character, in sizes of the type; bold ones and ragged lines included. */
const CHARACTER = 0.49;
/** A bold text is this much wider. */
const BOLD = 1.08;
/** The estimate knows no font: this much of the page is kept free. */
const SPARE = 0.02;

export function pointsFor(letter: Letter): number {
  const { width, height } = SHEET[letter.paper];
  return (
    POINTS.find((points) => estimatedHeight(letter, width / points) * points <= height * (1 - SPARE)) ?? POINTS.at(-1)!
  );
}

/** Height of the letter in sizes of the type, for a text that is `width` sizes wide. */
export function estimatedHeight(letter: Letter, width: number): number {
  const lines = (texts: readonly string[], wide: number) =>
    texts.reduce((sum, text) => sum + Math.max(1, Math.ceil((text.length * CHARACTER) / wide)), 0);
  const section = (texts: readonly string[], wide: number, perLine = 1.34) =>
    texts.length === 0 ? 0 : 1.6 + perLine * lines(texts, wide);

  const head = 1.7 + 1.34 * Math.max(3, letter.invented ? 4 : 3);
  const picture = letter.outOf100 ? 11.2 : 0;
  const beside = width - 3.1 - (letter.outOf100 ? 23 : 0);
  const advised = letter.advised ? [letter.advised.text] : [];
  const advice = 1.7 + Math.max(picture, 3.8 + 1.46 * lines([...advised, ...letter.lead], beside));
  const left = ((width - 2) * 5) / 12;
  const right = width - 2 - left - 15.7 - 1.75;
  const found = letter.found.items.map(({ what, state }) => `${what.text}: ${state.text}`);
  const looked = Math.max(
    section([letter.cameIn.join(' ')], left) +
      section(
        letter.afterWork
          ? [
              `${' '.repeat(letter.afterWork.on ? 40 : 18)}${letter.afterWork.what.text} ${letter.afterWork.sentences.join(' ')}`,
              // in bold, which is wider
              ...(letter.afterWork.plainly
                ? [letter.afterWork.plainly.padEnd(letter.afterWork.plainly.length * BOLD)]
                : []),
              ...letter.afterWork.reasons.map(({ sentence }) => sentence),
              ...(letter.afterWork.again.length > 0 ? [letter.afterWork.again.join(' ')] : []),
            ]
          : [],
        left - 1,
      ) +
      section([...found, ...(letter.found.others ? [letter.found.others] : [])], left - 1),
    letter.causes.length === 0
      ? 0
      : Math.max(
          14,
          1.5 +
            letter.causes.reduce(
              (sum, { what, sure, count, range }) =>
                sum +
                0.3 +
                1.26 * (lines([`${sure}, ${count.text} (${range?.text ?? ''})`], right) + lines([what.text], right)),
              0,
            ) +
            1.14 * lines(letter.causesNote.length > 0 ? [letter.causesNote.join(' ')] : [], (right + 15.7) * 1.1),
        ),
  );
  const choices =
    letter.choices.length === 0
      ? 0
      : 3 +
        letter.choices.reduce((sum, { what, price, ifItFails, advised: tagged, worthIt }) => {
          const tag = tagged || !worthIt ? 18 : 0;
          const tall = Math.max(
            lines([what.text + ' '.repeat(tag)], width * 0.36),
            lines([price.text], width * 0.15),
            lines([ifItFails], width * 0.16),
          );
          return sum + 0.6 + 1.26 * tall;
        }, 0);
  const half = (width - 2) / 2 - 1;
  const columns =
    (section(letter.next ? [letter.next.sentences.join(' '), ...sayLeads(letter.next)] : [], half) +
      section(letter.why, half) +
      section(letter.changes, half) +
      section(
        letter.ruledOut.map(({ reason }) => reason.text),
        half * 1.05,
        1.26,
      ) +
      section(letter.rests, half * 1.05, 1.26) +
      section(
        letter.cautions.map(({ what }) => what.text),
        half * 1.05,
        1.26,
      )) /
    2;
  // the tallest section does not break, so columns are never quite even
  const reasons = columns === 0 ? 0 : columns + 1.2;
  const consent = 3.9 + 1.6 * letter.consent.boxes.length + (letter.consent.sign ? 4 : 0);
  const foot = lines([letter.invented ? ' '.repeat(90) : '', letter.languageNote ?? '', ' '.repeat(60)], width * 1.2);
  return head + advice + looked + choices + reasons + consent + foot + 6 * 0.85;
}
