import { describe, expect, it } from 'vitest';
import { inducedChance, nothingNewIn, stillDormant } from '../../../src/decision/treatment.ts';

describe('time in service', () => {
  it('spares a card new faults at exp(-rate) a Julian year', () => {
    expect(nothingNewIn(365.25, 0.3)).toBeCloseTo(Math.exp(-0.3), 14);
    expect(nothingNewIn(-5, 0.3)).toBe(1);
  });

  it('leaves half of the masked faults asleep at the median, and one in sixteen at twice that with shape 2', () => {
    expect(stillDormant({ medianDays: 70, shape: 2 }, 70)).toBeCloseTo(0.5, 14);
    expect(stillDormant({ medianDays: 70, shape: 2 }, 140)).toBeCloseTo(1 / 16, 14);
    expect(stillDormant({ medianDays: 70, shape: 2 }, -1)).toBe(1);
  });

  it('multiplies damage by what the card has been through, short of certainty', () => {
    expect(inducedChance(0.1, 1.5)).toBeCloseTo(0.15, 14);
    expect(inducedChance(0.5, 4)).toBeLessThan(1);
  });
});
