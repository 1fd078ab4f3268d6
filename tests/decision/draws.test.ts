/**
 * Draws against the distribution functions of an independent library (jstat), by the Kolmogorov-Smirnov distance.
 * With 20,000 draws the distance exceeds 1.95 / sqrt(20,000) = 0.0138 once in a thousand seeds; the seeds are fixed.
 */
import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import {
  drawAmount,
  drawBeta,
  drawDirichlet,
  drawGamma,
  drawLogNormalFactor,
  drawNormal,
} from '../../src/decision/draws.ts';
import { createRandom, type Random } from '../../src/decision/random.ts';

interface Distributions {
  normal: { cdf(x: number, mean: number, sd: number): number };
  gamma: { cdf(x: number, shape: number, scale: number): number };
  beta: { cdf(x: number, alpha: number, beta: number): number };
  lognormal: { cdf(x: number, mu: number, sigma: number): number };
}
const jstat = createRequire(import.meta.url)('jstat') as Distributions;

const COUNT = 20_000;
const KS_999 = 1.95 / Math.sqrt(COUNT);

function distance(seed: number, draw: (random: Random) => number, cdf: (x: number) => number): number {
  const random = createRandom(seed);
  const sorted = Float64Array.from({ length: COUNT }, () => draw(random)).sort();
  let worst = 0;
  sorted.forEach((x, i) => {
    const at = cdf(x);
    worst = Math.max(worst, Math.abs(at - i / COUNT), Math.abs(at - (i + 1) / COUNT));
  });
  return worst;
}

describe('drawing uncertain inputs', () => {
  it('repeats a run from its seed and differs between seeds', () => {
    const first = createRandom(11);
    const again = createRandom(11);
    const other = createRandom(12);
    const numbers = Array.from({ length: 50 }, () => first.next());
    expect(Array.from({ length: 50 }, () => again.next())).toEqual(numbers);
    expect(Array.from({ length: 50 }, () => other.next())).not.toEqual(numbers);
    expect(() => createRandom(0.5)).toThrow(/whole number/);
  });

  it('draws uniform numbers without a pattern between neighbours', () => {
    expect(
      distance(
        1,
        (random) => random.next(),
        (x) => x,
      ),
    ).toBeLessThan(KS_999);
    // the product of neighbours U V has the distribution function x - x ln x
    expect(
      distance(
        2,
        (random) => random.next() * random.next(),
        (x) => x - x * Math.log(x),
      ),
    ).toBeLessThan(KS_999);
  });

  it('draws normal and log-normal quantities', () => {
    expect(distance(3, drawNormal, (x) => jstat.normal.cdf(x, 0, 1))).toBeLessThan(KS_999);
    expect(
      distance(
        4,
        (random) => drawLogNormalFactor(random, 0.7),
        (x) => jstat.lognormal.cdf(x, 0, 0.7),
      ),
    ).toBeLessThan(KS_999);
    expect(drawLogNormalFactor(createRandom(1), 0)).toBe(1);
  });

  it.each([0.05, 0.4, 1, 3.7, 60])('draws gamma quantities of shape %s', (shape) => {
    expect(
      distance(
        5,
        (random) => drawGamma(random, shape),
        (x) => jstat.gamma.cdf(x, shape, 1),
      ),
    ).toBeLessThan(KS_999);
  });

  it.each([
    [0.5, 2],
    [0.06, 20],
    [0.9, 5],
    [0.02, 10],
  ])('draws a chance of mean %s that rests on %s cards', (p, n) => {
    expect(
      distance(
        6,
        (random) => drawBeta(random, p, n),
        (x) => jstat.beta.cdf(x, p * n, (1 - p) * n),
      ),
    ).toBeLessThan(KS_999);
  });

  it('keeps impossible impossible and certain certain', () => {
    const random = createRandom(7);
    expect(drawBeta(random, 0, 5)).toBe(0);
    expect(drawBeta(random, 1, 5)).toBe(1);
    expect(() => drawBeta(random, 1.2, 5)).toThrow(/within 0\.\.1/);
    const out = new Float64Array(3);
    drawDirichlet(random, Float64Array.of(0.3, 0, 0.7), 4, out);
    expect(out[1]).toBe(0);
    expect(out[0]! + out[2]!).toBeCloseTo(1, 14);
  });

  it('draws rows whose single states are Beta, however small their mean', () => {
    const mean = Float64Array.of(0.002, 0.598, 0.4);
    for (const state of [0, 1, 2]) {
      expect(
        distance(
          8 + state,
          (random) => {
            const out = new Float64Array(3);
            drawDirichlet(random, mean, 5, out);
            return out[state]!;
          },
          // below 1e-300 a double cannot tell the draw from zero
          (x) => jstat.beta.cdf(Math.max(x, 1e-300), mean[state]! * 5, (1 - mean[state]!) * 5),
        ),
        `state ${state}`,
      ).toBeLessThan(KS_999);
    }
  });

  it('meets both ends and the middle of a range of minutes, lopsided or not', () => {
    const random = createRandom(9);
    const amount = { low: 8, likely: 10, high: 30 };
    const draws = Array.from({ length: COUNT }, () => drawAmount(random, amount));
    // three standard errors of a share
    const within = (share: number) => 3 * Math.sqrt((share * (1 - share)) / COUNT);
    for (const [point, share] of [
      [8, 0.05],
      [10, 0.5],
      [30, 0.95],
    ] as const) {
      const below = draws.filter((draw) => draw < point).length / COUNT;
      expect(Math.abs(below - share)).toBeLessThan(within(share));
    }
    expect(drawAmount(random, { low: 5, likely: 5, high: 5 })).toBe(5);
  });

  it('never draws minutes below zero', () => {
    const random = createRandom(10);
    const draws = Array.from({ length: 1000 }, () => drawAmount(random, { low: 0, likely: 1, high: 2 }));
    expect(Math.min(...draws)).toBe(0);
  });
});
