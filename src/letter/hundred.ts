/** 100 small cards as a picture of a chance: each is counted once. */
import { escapeHtml } from './escape.ts';
import type { OutOf100 } from './schema.ts';

const COLUMNS = 20;
const STEP_X = 15;
const STEP_Y = 13.5;

/** Told apart by shape as well as by colour: full, half full, empty with a stroke through it. */
const SYMBOLS =
  '<symbol id="holds" viewBox="0 0 12 10"><rect x="0.6" y="0.6" width="10.8" height="8.8" rx="1.6" fill="#17603c" stroke="#17603c" stroke-width="1.2"/><path d="M3 5.2 5.2 7.4 9.2 2.9" fill="none" stroke="#fff" stroke-width="1.5" stroke-linecap="round" stroke-linejoin="round"/></symbol>' +
  '<symbol id="fails-again" viewBox="0 0 12 10"><rect x="0.6" y="0.6" width="10.8" height="8.8" rx="1.6" fill="#fff" stroke="#7a4a00" stroke-width="1.2"/><path d="M0.6 2.2A1.6 1.6 0 0 1 2.2.6H6v8.8H2.2A1.6 1.6 0 0 1 .6 7.8z" fill="#f2ae24" stroke="#7a4a00" stroke-width="1.2"/></symbol>' +
  '<symbol id="fails" viewBox="0 0 12 10"><rect x="0.6" y="0.6" width="10.8" height="8.8" rx="1.6" fill="#fff" stroke="#7d888a" stroke-width="1.2"/><path d="M3.4 2.8 8.6 7.2M8.6 2.8 3.4 7.2" fill="none" stroke="#7d888a" stroke-width="1.2" stroke-linecap="round"/></symbol>';

export type Kind = 'holds' | 'fails-again' | 'fails';

export function drawHundred(parts: OutOf100): string {
  const kinds: Kind[] = [
    ...Array.from({ length: parts.holds }, (): Kind => 'holds'),
    ...Array.from({ length: parts.failsAgain }, (): Kind => 'fails-again'),
    ...Array.from({ length: parts.fails }, (): Kind => 'fails'),
  ];
  const cards = kinds
    .map((kind, i) => {
      const [x, y] = [(i % COLUMNS) * STEP_X, Math.floor(i / COLUMNS) * STEP_Y];
      return `<use href="#${kind}" x="${x}" y="${y}" width="12" height="10"/>`;
    })
    .join('');
  const [width, height] = [COLUMNS * STEP_X - 3, Math.ceil(kinds.length / COLUMNS) * STEP_Y - 3];
  return `<svg class="hundred" xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" role="img" aria-labelledby="hundred-title"><title id="hundred-title">${escapeHtml(parts.sentence)}</title><defs>${SYMBOLS}</defs>${cards}</svg>`;
}

/** One of the small cards, for the legend. */
export function drawOne(kind: Kind): string {
  return `<svg class="one" viewBox="0 0 12 10" aria-hidden="true"><use href="#${kind}"/></svg>`;
}
