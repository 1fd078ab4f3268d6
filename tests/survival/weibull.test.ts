import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/decision/random.ts';
import { follow, type Row } from '../../src/survival/followed.ts';
import { fitWeibull, NoWeibullFit } from '../../src/survival/weibull.ts';

const SEED = 20_260_302;
const row = fc.record({
  time: fc.integer({ min: 1, max: 400 }),
  failed: fc.integer({ min: 0, max: 2 }),
  censored: fc.integer({ min: 0, max: 3 }),
});
/** at least two different times of failure */
const rows = fc
  .array(row, { minLength: 3, maxLength: 25 })
  .filter((list) => new Set(list.filter((r) => r.failed > 0).map((r) => r.time)).size > 1);
const check = (...property: Parameters<typeof fc.assert>) => fc.assert(property[0], { seed: SEED, numRuns: 200 });

function logLikelihood(list: readonly Row[], shape: number, scale: number): number {
  return list.reduce((sum, { time, failed, censored }) => {
    const hazard = (time / scale) ** shape;
    const density = Math.log(shape / scale) + (shape - 1) * Math.log(time / scale);
    return sum + failed * (density - hazard) - censored * hazard;
  }, 0);
}

describe('a Weibull law fitted to times in service', () => {
  it('has no better neighbour, and reports the likelihood that the law gives the data', () =>
    check(
      fc.property(rows, (list) => {
        const fit = fitWeibull(follow(list));
        const best = logLikelihood(list, fit.shape, fit.scale);
        expect(fit.logLikelihood).toBeCloseTo(best, 7);
        for (const [k, s] of [
          [1.001, 1],
          [0.999, 1],
          [1, 1.001],
          [1, 0.999],
        ] as const)
          expect(logLikelihood(list, fit.shape * k, fit.scale * s)).toBeLessThan(best + 1e-9);
      }),
    ));

  it('in other units of time changes its scale with them, and nothing else', () =>
    check(
      fc.property(rows, fc.double({ min: 1e-6, max: 1e6, noNaN: true }), (list, unit) => {
        const fit = fitWeibull(follow(list));
        const other = fitWeibull(follow(list.map((r) => ({ ...r, time: r.time * unit }))));
        expect(other.shape / fit.shape).toBeCloseTo(1, 9);
        expect(other.scale / (fit.scale * unit)).toBeCloseTo(1, 9);
        expect(other.shapeError / fit.shapeError).toBeCloseTo(1, 6);
        expect(other.scaleError / (fit.scaleError * unit)).toBeCloseTo(1, 6);
      }),
    ));

  it('has the standard errors of the curvature of its likelihood', () => {
    const list = [5, 9, 14, 30, 44].map((time) => ({ time, failed: 1, censored: 1 }));
    const fit = fitWeibull(follow(list));
    // second differences of the likelihood written out above
    const h = 1e-4;
    const at = (i: number, j: number) => logLikelihood(list, fit.shape * (1 + i * h), fit.scale * (1 + j * h));
    const kk = (at(1, 0) - 2 * at(0, 0) + at(-1, 0)) / (h * fit.shape) ** 2;
    const ss = (at(0, 1) - 2 * at(0, 0) + at(0, -1)) / (h * fit.scale) ** 2;
    const ks = (at(1, 1) - at(1, -1) - at(-1, 1) + at(-1, -1)) / (4 * h * h * fit.shape * fit.scale);
    const determinant = kk * ss - ks * ks;
    expect(fit.shapeError).toBeCloseTo(Math.sqrt(-ss / determinant), 4);
    expect(fit.scaleError).toBeCloseTo(Math.sqrt(-kk / determinant), 3);
    expect(fit.covariance).toBeCloseTo(ks / determinant, 3);
  });

  it('of shape 1 held would be total time over failures: with exactly exponential quantiles it is near', () => {
    // closed form of the scale at the fitted shape
    const list = [3, 8, 21].map((time) => ({ time, failed: 1, censored: 2 }));
    const fit = fitWeibull(follow(list));
    const sum = list.reduce((total, { time }) => total + 3 * time ** fit.shape, 0);
    expect(fit.scale).toBeCloseTo((sum / 3) ** (1 / fit.shape), 9);
  });

  it('finds the law again behind 4,000 invented times, a third of them cut short', () => {
    const random = createRandom(41);
    const list = Array.from({ length: 4000 }, () => {
      const life = 80 * (-Math.log(1 - random.next())) ** (1 / 1.4);
      const followed = 20 + 200 * random.next();
      return { time: Math.min(life, followed), failed: life <= followed ? 1 : 0, censored: life <= followed ? 0 : 1 };
    });
    const fit = fitWeibull(follow(list));
    // within four of its own standard errors
    expect(Math.abs(fit.shape - 1.4)).toBeLessThan(4 * fit.shapeError);
    expect(Math.abs(fit.scale - 80)).toBeLessThan(4 * fit.scaleError);
    expect(fit.scaleError).toBeLessThan(2);
  });

  it('does not overflow where cards outlive their remedy by decades', () => {
    const fit = fitWeibull(
      follow([
        { time: 1e300, failed: 1, censored: 0 },
        { time: 1.1e300, failed: 1, censored: 0 },
      ]),
    );
    expect(fit.shape).toBeGreaterThan(10);
    expect(fit.scale).toBeGreaterThan(1e300);
  });

  it('is refused with the reason where the data cannot bear one', () => {
    const refuse = (list: readonly Row[], words: string) => {
      expect(() => fitWeibull(follow(list))).toThrow(NoWeibullFit);
      expect(() => fitWeibull(follow(list))).toThrow(words);
    };
    refuse([{ time: 9, failed: 0, censored: 4 }], 'Nothing failed');
    refuse(
      [
        { time: 0, failed: 2, censored: 0 },
        { time: 4, failed: 1, censored: 0 },
      ],
      '2 failed at time 0',
    );
    refuse(
      [
        { time: 7, failed: 5, censored: 3 },
        { time: 2, failed: 0, censored: 3 },
      ],
      'All failed at one time',
    );
  });
});
