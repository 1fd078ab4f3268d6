/** The Beta distribution against closed forms and an independent library (jstat, which agrees with SciPy to about 1e-14). */
import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import { betaCumulative, betaQuantile, logGamma } from '../../../src/decision/beta-distribution.ts';

const jstat = createRequire(import.meta.url)('jstat') as {
  beta: { cdf(x: number, a: number, b: number): number; inv(q: number, a: number, b: number): number };
};

describe('the Beta distribution', () => {
  it('has the logarithm of (n - 1)! as ln Gamma(n), and ln of the root of pi at a half', () => {
    expect(logGamma(6)).toBeCloseTo(Math.log(120), 13);
    expect(logGamma(0.5)).toBeCloseTo(Math.log(Math.sqrt(Math.PI)), 13);
  });

  it('has the points of a uniform chance at p = 1/2, n = 2', () => {
    expect(betaQuantile(0.05, 0.5, 2)).toBeCloseTo(0.05, 12);
    expect(betaQuantile(0.95, 0.5, 2)).toBeCloseTo(0.95, 12);
  });

  it('has the points of x^a where b is 1: q^(1/a), down to chances far below a millionth', () => {
    // Beta(a, 1) has p = a / (a + 1), n = a + 1
    for (const a of [0.05, 0.5, 3, 40]) {
      expect(betaQuantile(0.05, a / (a + 1), a + 1) / 0.05 ** (1 / a)).toBeCloseTo(1, 9);
    }
  });

  it('agrees with an independent library', () => {
    for (const [a, b] of [
      [0.6, 9.4],
      [2, 3],
      [12, 8],
      [300, 700],
    ] as const) {
      // the library stops its continued fraction at 3e-7: at x = .2 of Beta(.6, 9.4) it is 1.6e-9 off the series below
      for (const x of [0.01, 0.2, 0.5, 0.9]) expect(betaCumulative(x, a, b)).toBeCloseTo(jstat.beta.cdf(x, a, b), 8);
      for (const q of [0.05, 0.5, 0.95]) {
        // the library's quantiles are good to 1e-9
        expect(betaQuantile(q, a / (a + b), a + b)).toBeCloseTo(jstat.beta.inv(q, a, b), 8);
      }
    }
  });

  it('has the binomial sum of whole shapes, in exact fractions', () => {
    // I_x(a, b) = sum over j >= a of C(a + b - 1, j) x^j (1 - x)^(a + b - 1 - j)
    expect(betaCumulative(0.5, 12, 8)).toBeCloseTo(0.1796417236328125, 14);
    expect(betaCumulative(0.2, 12, 8) / 4.978921025044483e-5).toBeCloseTo(1, 13);
    expect(betaCumulative(0.2, 300, 700) / 3.328240872606518e-14).toBeCloseTo(1, 11);
  });

  it('has its power series where shapes are not whole', () => {
    // x^a / (a B(a, b)) * sum of (1 - b)_k x^k a / ((a + k) k!), at a .6, b 9.4
    expect(betaCumulative(0.01, 0.6, 9.4)).toBeCloseTo(0.25922021122865807, 14);
    expect(betaCumulative(0.2, 0.6, 9.4)).toBeCloseTo(0.9436528054654968, 13);
  });

  it('has the 95 % interval of 437 of 980 births (Gelman et al., Bayesian Data Analysis, 3rd edition, 2.4)', () => {
    // uniform prior: Beta(438, 544)
    expect(betaQuantile(0.025, 438 / 982, 982)).toBeCloseTo(0.41506549, 8);
    expect(betaQuantile(0.975, 438 / 982, 982)).toBeCloseTo(0.47719977, 8);
  });

  it('keeps a chance of 0 or 1 as it is', () => {
    expect(betaQuantile(0.05, 0, 10)).toBe(0);
    expect(betaQuantile(0.95, 1, 10)).toBe(1);
  });
});
