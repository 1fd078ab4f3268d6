import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lineOf } from '../../src/knowledge/line-of.ts';

const PROFILE = `{
  "name": "A \\"bench\\", {with} [marks]",
  "parts": {
    "fuse": 1,
    "core-donor": {
      "low": 45,
      "likely": "ninety"
    }
  },
  "equipment": [
    "microscope",
    17
  ]
}`;

describe('where in a file a figure stands', () => {
  it('is the line of the value itself', () => {
    expect(lineOf(PROFILE, 'parts.core-donor.likely')).toBe(7);
    expect(lineOf(PROFILE, 'equipment[1]')).toBe(12);
    expect(lineOf(PROFILE, 'name')).toBe(2);
    expect(lineOf(PROFILE, '')).toBe(1);
  });

  it('is the line of what would hold it where it is missing', () => {
    expect(lineOf(PROFILE, 'parts.core-donor.high')).toBe(5);
    expect(lineOf(PROFILE, 'locale')).toBe(1);
  });

  it('is found in whatever JSON is written down, one value a line', () => {
    fc.assert(
      fc.property(fc.array(fc.jsonValue(), { minLength: 1, maxLength: 6 }), fc.nat(), (values, pick) => {
        const index = pick % values.length;
        const text = `[\n${values.map((value) => JSON.stringify(value)).join(',\n')}\n]`;
        expect(lineOf(text, `[${index}]`.replace(/^\[(\d+)\]$/, '$1'))).toBe(index + 2);
      }),
      { seed: 11 },
    );
  });
});
