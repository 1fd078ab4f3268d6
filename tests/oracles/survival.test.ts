/** Published answers on survival with losses from sight. The source stands beside each test. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { follow, type Row } from '../../src/survival/followed.ts';
import { gammaQuantile } from '../../src/survival/gamma-distribution.ts';
import { medianTime } from '../../src/survival/median-time.ts';
import { logLogLimits, productLimit } from '../../src/survival/product-limit.ts';
import { fitWeibull } from '../../src/survival/weibull.ts';

/**
 * Lifetimes of graphics processors in one large installation, grouped by quarter year. The head of the file names the data set (open data of
 * Ostrouchov et al., SC20, 2020) and how its last two columns were computed (R 4.2, survival::survfit and survreg).
 */
const QUARTERS = readFileSync(new URL('data/gpu-lifetimes-by-quarter.csv', import.meta.url), 'utf8');

describe('18,837 graphics processors by quarter year (open data, R survival 4.2)', () => {
  const rows = QUARTERS.split(/\r?\n/)
    .filter((line) => /^\d/.test(line))
    .map((line) => line.split(',').map(Number) as [number, number, number, number, number, number]);
  const followed = follow(rows.map(([time, failed, censored]) => ({ time, failed, censored })));
  const curve = productLimit(followed);

  test('the file was read whole', () => {
    expect(rows).toHaveLength(23);
    expect(rows[0]![3]).toBe(18_837);
  });

  test.each(rows)('after %f years: %i failed, %i lost, %i at risk, survival %f, standard error %f', (...row) => {
    const [time, failed, censored, atRisk, survival, error] = row;
    const at = curve.time.indexOf(time);
    expect([curve.failed[at], curve.censored[at], curve.atRisk[at]]).toEqual([failed, censored, atRisk]);
    // eight digits are printed: half of the last one
    expect(Math.abs(curve.survival[at]! - survival)).toBeLessThan(0.51e-8);
    expect(Math.abs(Math.sqrt(curve.variance[at]!) - error)).toBeLessThan(0.51e-8);
  });

  test('the Weibull law fitted to them is the one in the head of the file, to its last digit', () => {
    const [, shape, scale, logLikelihood] = /shape ([\d.]+), scale ([\d.]+) years, log likelihood (-[\d.]+)\./.exec(
      QUARTERS,
    )!;
    const fit = fitWeibull(followed);
    expect(fit.shape.toFixed(6)).toBe(shape);
    expect(fit.scale.toFixed(6)).toBe(scale);
    expect(fit.logLikelihood.toFixed(2)).toBe(logLikelihood);
  });
});

/**
 * Weeks in remission under 6-MP, 21 patients: Freireich et al., Blood 21 (1963) 699. The times were seen as printed in Introductory Biostatistics
 * (example 11.1, page 385: "6, 6, 6, 7, 10, 13, 16, 22, 23, 6+, 9+, 10+, 11+, 17+, 19+, 20+, 25+, 32+, 32+, 34+, 35+").
 */
const REMISSION: readonly Row[] = [
  ...[6, 6, 6, 7, 10, 13, 16, 22, 23].map((time) => ({ time, failed: 1, censored: 0 })),
  ...[6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35].map((time) => ({ time, failed: 0, censored: 1 })),
];

describe('remission times of the 6-MP trial (Freireich et al. 1963)', () => {
  const curve = productLimit(follow(REMISSION));

  // as tabulated in Kalbfleisch & Prentice and in Klein & Moeschberger, table 4.1 (digits from memory; each is redone by hand below)
  test.each([
    [6, 21, 0.857, 0.0764],
    [7, 17, 0.807, 0.0869],
    [10, 15, 0.753, 0.0963],
    [13, 12, 0.69, 0.1068],
    [16, 11, 0.627, 0.1141],
    [22, 7, 0.538, 0.1282],
    [23, 6, 0.448, 0.1346],
  ])('after %i weeks: %i at risk, survival %f with standard error %f', (time, atRisk, survival, error) => {
    const at = curve.time.indexOf(time);
    expect(curve.atRisk[at]).toBe(atRisk);
    expect(Math.abs(curve.survival[at]! - survival)).toBeLessThan(0.00051);
    expect(Math.abs(Math.sqrt(curve.variance[at]!) - error)).toBeLessThan(0.000051);
  });

  test('the figures after 6 and 7 weeks are those worked by hand', () => {
    // 18/21; 18/21 16/17. Variance: S^2 (3 / (21 18) + 1 / (17 16))
    expect(curve.survival[0]).toBeCloseTo(6 / 7, 14);
    expect(curve.survival[1]).toBeCloseTo((6 / 7) * (16 / 17), 14);
    expect(curve.variance[1]).toBeCloseTo(((6 / 7) * (16 / 17)) ** 2 * (3 / 378 + 1 / 272), 14);
  });

  test('the log(-log) interval after 6 weeks is the one worked by hand', () => {
    // s = 0.076360 / (0.857143 0.154151) = 0.577917; exp(1.959964 s) = 3.10446; 0.857143^3.10446 = 0.6197, 0.857143^(1/3.10446) = 0.9516
    const { low, high } = logLogLimits(curve, 0);
    expect(low).toBeCloseTo(0.6197, 4);
    expect(high).toBeCloseTo(0.9516, 4);
  });

  test('half have relapsed after 23 weeks; the interval begins at 13 weeks and has no end in these data', () => {
    // the lower limits are 0.503 after 10 weeks and 0.432 after 13; no upper limit falls below a half
    expect(medianTime(curve)).toEqual({ median: 23, low: 13, high: null });
    // plain: 0.690 - 1.96 0.1068 = 0.481 after 13 weeks, 0.753 - 1.96 0.0963 = 0.564 after 10
    expect(medianTime(curve, 'plain')).toEqual({ median: 23, low: 13, high: null });
  });

  test('the Weibull law fitted to them is that of an independent library', () => {
    // scipy 1.17.1: weibull_min's density and survival, likelihood maximised by Nelder-Mead to 1e-13
    const fit = fitWeibull(follow(REMISSION));
    expect(fit.shape).toBeCloseTo(1.35373454, 6);
    expect(fit.scale).toBeCloseTo(33.76515, 4);
    expect(fit.logLikelihood).toBeCloseTo(-41.65867847688, 9);
  });
});

describe('the Gamma distribution', () => {
  // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4, critical values of chi-square (from memory): 2 Gamma(df / 2)
  test.each([
    [1, 0.95, 3.841],
    [10, 0.975, 20.483],
    [10, 0.025, 3.247],
    [100, 0.975, 129.561],
    [100, 0.025, 74.222],
  ])('chi-square with %i degrees of freedom stays below its %f point %f', (freedom, chance, point) => {
    expect(Math.abs(2 * gammaQuantile(freedom / 2, chance) - point)).toBeLessThan(0.00051);
  });
});
