import { describe, expect, it } from 'vitest';
import { calibrate, estimate, estimateInGroups } from './paired.ts';

describe('means and intervals of a benchmark', () => {
  it('states the interval of five readings as worked by hand', () => {
    // mean 3, standard deviation sqrt(10 / 4) = 1.5811, error / sqrt 5 = 0.70711, t(4) = 2.776
    const { mean, half } = estimate([1, 2, 3, 4, 5]);
    expect(mean).toBe(3);
    expect(half).toBeCloseTo(2.776 * Math.SQRT1_2, 10);
  });

  it('takes groups of one card each for single cards', () => {
    const cards = [1, 2, 3, 4, 7.5];
    const grouped = estimateInGroups(cards.map((card) => [card]));
    expect(grouped.mean).toBeCloseTo(estimate(cards).mean, 12);
    expect(grouped.half).toBeCloseTo(estimate(cards).half, 12);
  });

  it('does not take cards that share their luck for so many independent ones', () => {
    // two groups of equal cards: as good as two values, 0 and 2, whose error is 1; t(1) = 12.706
    const { mean, half } = estimateInGroups([Array(50).fill(0), Array(50).fill(2)]);
    expect(mean).toBe(1);
    expect(half).toBeCloseTo(12.706, 10);
    expect(half).toBeGreaterThan(10 * estimate([...Array(50).fill(0), ...Array(50).fill(2)]).half);
  });
});

describe('calibration of stated chances', () => {
  it('is worked by hand for two bins', () => {
    // .2 stated four times, came once: gap .05; .9 stated twice, came once: gap .4
    const forecasts = [0.2, 0.2, 0.2, 0.2, 0.9, 0.9].map((stated, at) => ({ stated, came: at === 0 || at === 4 }));
    const { error, brier, brierOfShare, stated, came, bins } = calibrate(forecasts);
    expect(error).toBeCloseTo((4 * 0.05 + 2 * 0.4) / 6, 12);
    expect(brier).toBeCloseTo((0.64 + 3 * 0.04 + 0.01 + 0.81) / 6, 12);
    expect(came).toBeCloseTo(1 / 3, 12);
    expect(brierOfShare).toBeCloseTo(2 / 9, 12);
    expect(stated).toBeCloseTo(2.6 / 6, 12);
    expect(bins.map(({ count }) => count)).toEqual([4, 2]);
  });

  it('puts a stated certainty into the last bin', () => {
    expect(calibrate([{ stated: 1, came: true }]).bins).toEqual([{ from: 0.9, to: 1, count: 1, stated: 1, came: 1 }]);
  });
});
