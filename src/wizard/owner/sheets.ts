/** The papers the page is printed on, as a browser measures them. */
import type { Paper } from './page-choice.ts';

interface Sheet {
  /** as CSS names it */
  readonly size: string;
  /** pixels */
  readonly width: number;
  readonly height: number;
}

const PIXELS_PER_INCH = 96;
const MM_PER_INCH = 25.4;

export const SHEETS: { readonly [paper in Paper]: Sheet } = {
  a4: { size: 'A4', width: (210 / MM_PER_INCH) * PIXELS_PER_INCH, height: (297 / MM_PER_INCH) * PIXELS_PER_INCH },
  letter: { size: 'letter', width: 8.5 * PIXELS_PER_INCH, height: 11 * PIXELS_PER_INCH },
};

/** The margins are the page's own. */
export const printRule = (paper: Paper): string => `@page { size: ${SHEETS[paper].size} portrait; margin: 0 }`;

/** What the frame holds before the page is put into it. */
export const EMPTY_PAGE = '<!doctype html><title></title>';
