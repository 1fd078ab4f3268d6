/**
 * The normal distribution against its own series and continued fraction, and against an independent library (jstat).
 */
import { createRequire } from 'node:module';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { erfc, normalCdf, normalDensity, normalQuantile, normalUpper } from '../../src/evidence/normal.ts';

const jstat = createRequire(import.meta.url)('jstat') as {
  normal: {
    cdf: (x: number, mean: number, sd: number) => number;
    inv: (p: number, mean: number, sd: number) => number;
  };
};

/** Abramowitz & Stegun 26.2.11: 1/2 + density x sum of z^(2k+1) / (1 3 5 ... (2k+1)). */
function bySeries(z: number): number {
  let term = z;
  let sum = z;
  for (let k = 1; k < 200; k += 1) {
    term *= (z * z) / (2 * k + 1);
    sum += term;
  }
  return 0.5 + normalDensity(z) * sum;
}

/** Abramowitz & Stegun 26.2.14: density / (z + 1/(z + 2/(z + 3/(z + ...)))). */
function byContinuedFraction(z: number): number {
  let denominator = z;
  for (let k = 400; k >= 1; k -= 1) denominator = z + k / denominator;
  return normalDensity(z) / denominator;
}

const relative = (a: number, b: number): number => Math.abs(a / b - 1);

describe('the normal distribution', () => {
  test('agrees with its power series near the middle', () => {
    for (let z = -2; z <= 5; z += 0.0137) expect(relative(normalCdf(z), bySeries(z))).toBeLessThan(2e-14);
  });

  test('keeps its digits in the tail, where its continued fraction is the reference', () => {
    // The density's own exp rounds z^2/2: that costs the reference up to z^2/2 ulp, and nothing more is allowed here.
    for (let z = 3; z < 37; z += 0.0713) {
      expect(relative(normalUpper(z), byContinuedFraction(z))).toBeLessThan((2 + z * z) * 2 ** -53 * 2);
    }
  });

  test('agrees with jstat between -5 and 5', () => {
    for (let z = -5; z <= 5; z += 0.0713) {
      expect(Math.abs(normalCdf(z) - jstat.normal.cdf(z, 0, 1))).toBeLessThan(1e-14);
    }
  });

  test('both tails and the complementary error function are one function', () => {
    fc.assert(
      fc.property(fc.double({ min: -30, max: 30, noNaN: true }), (z) => {
        expect(normalCdf(z) + normalUpper(z)).toBeCloseTo(1, 14);
        expect(erfc(z / Math.SQRT2)).toBeCloseTo(2 * normalUpper(z), 14);
      }),
      { seed: 31 },
    );
  });

  test('the quantile is the inverse, down to chances of one in 10^300', () => {
    for (let exponent = -300; exponent < 0; exponent += 7.3) {
      const p = 10 ** exponent;
      expect(relative(normalCdf(normalQuantile(p)), p)).toBeLessThan(1e-12);
    }
    for (let p = 0.001; p < 1; p += 0.0173) {
      expect(Math.abs(normalQuantile(p) - jstat.normal.inv(p, 0, 1))).toBeLessThan(1e-9);
    }
  });

  test('ends where it must: certainty, impossibility, and nonsense that stays nonsense', () => {
    expect(normalCdf(Number.NEGATIVE_INFINITY)).toBe(0);
    expect(normalCdf(Number.POSITIVE_INFINITY)).toBe(1);
    expect(normalCdf(0)).toBe(0.5);
    expect(normalCdf(Number.NaN)).toBeNaN();
    expect(normalQuantile(0)).toBe(Number.NEGATIVE_INFINITY);
    expect(normalQuantile(1)).toBe(Number.POSITIVE_INFINITY);
    expect(normalQuantile(0.5)).toBe(0);
    expect(normalQuantile(1.1)).toBeNaN();
    expect(normalQuantile(Number.NaN)).toBeNaN();
  });
});
