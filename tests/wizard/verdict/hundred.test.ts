import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { eachOf, hundredOf } from '../../../src/wizard/verdict/hundred.ts';

describe('A hundred such cards', () => {
  it('are fifty-four that hold, twelve that come back and thirty-four that never work where 66.4 % work and 53.6 % hold', () => {
    expect(hundredOf(0.664, 0.536)).toEqual({ holds: 54, relapses: 12, fails: 34 });
  });

  it('are always a hundred, each counted once, and say of working and holding what the words beside them say', () => {
    const chance = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(chance, chance, (works, share) => {
        const holds = works * share;
        const hundred = hundredOf(works, holds);
        expect(eachOf(hundred)).toHaveLength(100);
        expect(Math.min(hundred.holds, hundred.relapses, hundred.fails)).toBeGreaterThanOrEqual(0);
        expect(hundred.holds + hundred.relapses).toBe(Math.round(100 * works));
        expect(hundred.holds).toBe(Math.round(100 * holds));
      }),
      { seed: 5 },
    );
  });
});
