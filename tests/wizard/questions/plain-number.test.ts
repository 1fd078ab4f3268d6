import { describe, expect, it } from 'vitest';
import { plainNumber } from '../../../src/wizard/questions/plain-number.ts';

const HOURS = 200_000;
const YEARS = 40;

describe('A figure typed into a question', () => {
  it('has its decimals after a point or a comma', () => {
    expect(['3.5', '3,5', ' 12 ', '.5', '-1'].map((text) => plainNumber(text, YEARS))).toEqual([3.5, 3.5, 12, 0.5, -1]);
  });

  it('may have its thousands marked where it is counted in thousands, as the question itself writes them', () => {
    for (const text of ['8,760', '8.760', '8 760', '8’760', '8760', '8.76k', '8,76 k'])
      expect(plainNumber(text, HOURS), text).toBe(8_760);
    expect(plainNumber('4k', HOURS)).toBe(4_000);
    expect(plainNumber('1,234,567', HOURS)).toBe(1_234_567);
  });

  it('has no thousands where nobody counts in them', () => {
    expect(plainNumber('2.500', YEARS)).toBe(2.5);
    expect(plainNumber('4k', YEARS)).toBeNaN();
  });

  it('is none where it is not one', () => {
    for (const text of ['', 'x', '1.2.3', '4k5', '12,34,567', 'k']) expect(plainNumber(text, HOURS), text).toBeNaN();
  });
});
