/** How easily an English text is read, by two published formulas. */
import { syllablesOf, syllablesOfNumber } from './syllables.ts';

export interface TextCounts {
  readonly words: number;
  readonly sentences: number;
  readonly syllables: number;
}

export interface ReadingLevel extends TextCounts {
  readonly ease: number;
  readonly grade: number;
}

/**
 * Flesch Reading Ease, 206.835 - 1.015 words per sentence - 84.6 syllables per word: 60 to 70 is plain English, more is easier.
 * R. Flesch, A new readability yardstick, Journal of Applied Psychology 32, 1948 (from memory; the formula seen as quoted by
 * the US Department of Veterans Affairs, Health Services Research, "Flesch Score").
 *
 * @example 6 words, 1 sentence, 6 syllables: 116.145
 */
export function readingEase({ words, sentences, syllables }: TextCounts): number {
  return 206.835 - 1.015 * (words / sentences) - 84.6 * (syllables / words);
}

/**
 * Flesch-Kincaid Grade Level, 0.39 words per sentence + 11.8 syllables per word - 15.59: years of school that are enough.
 * J. P. Kincaid, R. P. Fishburne, R. L. Rogers and B. S. Chissom, Research Branch Report 8-75, US Navy, 1975 (from memory; the
 * formula seen as quoted there, too).
 *
 * @example 6 words, 1 sentence, 6 syllables: -1.45
 */
export function gradeLevel({ words, sentences, syllables }: TextCounts): number {
  return 0.39 * (words / sentences) + 11.8 * (syllables / words) - 15.59;
}

/** Level of a text given as its parts: paragraphs, items of a list. Every part ends a sentence. Null without a word. */
export function readingLevel(parts: readonly string[]): ReadingLevel | null {
  const counts = parts.map(countText).reduce(add, { words: 0, sentences: 0, syllables: 0 });
  if (counts.words === 0) return null;
  return { ...counts, ease: readingEase(counts), grade: gradeLevel(counts) };
}

/**
 * Words, sentences and syllables of one part. Figures are words, with the syllables they are said with; a sign of a currency is
 * said, too. A full stop, question or exclamation mark ends a sentence where a space or nothing follows; colons do not.
 */
export function countText(text: string): TextCounts {
  let words = 0;
  let syllables = 0;
  let sentences = 0;
  for (const sentence of text.split(/(?<=[.!?])\s+/)) {
    const tokens = sentence.match(/\p{Sc}?\d[\d,.]*\d|\p{Sc}?\d|[\p{L}][\p{L}'’]*/gu) ?? [];
    if (tokens.length === 0) continue;
    sentences += 1;
    words += tokens.length;
    for (const token of tokens) syllables += /\d/.test(token) ? syllablesOfFigure(token) : syllablesOf(token);
  }
  return { words, sentences, syllables };
}

const CURRENCY_SYLLABLES = 2;

function syllablesOfFigure(token: string): number {
  const currency = /\p{Sc}/u.test(token) ? CURRENCY_SYLLABLES : 0;
  const [whole = '0', fraction] = token.replace(/[^\d.]/g, '').split('.');
  const digits =
    fraction === undefined ? 0 : 1 + [...fraction].reduce((sum, digit) => sum + syllablesOfNumber(Number(digit)), 0);
  return currency + syllablesOfNumber(Number(whole)) + digits;
}

function add(a: TextCounts, b: TextCounts): TextCounts {
  return { words: a.words + b.words, sentences: a.sentences + b.sentences, syllables: a.syllables + b.syllables };
}
