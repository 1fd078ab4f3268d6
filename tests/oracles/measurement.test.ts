/**
 * Published answers on measurement. JCGM 100:2008 (GUM), JCGM 106:2012: the clause stands beside each test. Student's t
 * comes from an independent library (jstat).
 */
import { createRequire } from 'node:module';
import { describe, expect, test } from 'vitest';
import { bandWeights } from '../../src/evidence/bands.ts';
import { conformance, inspectionRisks } from '../../src/evidence/conformance.ts';
import { formatQuantity, parseQuantity } from '../../src/evidence/quantity.ts';
import {
  COPPER_PER_KELVIN,
  combine,
  copperAtReference,
  correlation,
  covarianceOfMeans,
  effectiveDegreesOfFreedom,
  fromAsymmetricBounds,
  fromExpanded,
  fromHalfWidth,
  fromRepeats,
  fromResolution,
  meterHalfWidth,
  propagate,
} from '../../src/evidence/uncertainty.ts';

const jstat = createRequire(import.meta.url)('jstat') as {
  studentt: { inv: (p: number, degreesOfFreedom: number) => number };
};

/** As printed: rounded to so many significant digits. */
const printed = (value: number, digits: number): number => Number(value.toPrecision(digits));

describe('standard uncertainty, after the GUM', () => {
  test('reads a voltmeter specification as a rectangle (4.3.7 example 2) and adds the repeats in quadrature (5.1.5)', () => {
    // 14e-6 of the reading + 2e-6 of the 1 V range
    const halfWidth = meterHalfWidth(0.928571, { percent: 14e-4, digits: 2, resolution: 1e-6 });
    expect(printed(halfWidth, 2)).toBe(15e-6);
    const u = fromHalfWidth(halfWidth);
    expect(printed(u, 2)).toBe(8.7e-6);
    const combined = combine([12e-6, u]);
    expect(printed(combined, 2)).toBe(15e-6);
    expect(printed(combined / 0.928571, 2)).toBe(16e-6);
  });

  test('takes bounds at unlike distances at the rectangle they span (4.3.8)', () => {
    expect(printed(fromAsymmetricBounds(0.12e-6, 0.4e-6), 2)).toBe(0.15e-6);
  });

  test('takes a certificate at 99 % back to one standard uncertainty (4.3.4)', () => {
    expect(printed(fromExpanded(129e-6, 0.99), 2)).toBe(50e-6);
  });

  test('finds mean, spread and spread of the mean of twenty temperatures (4.4.3)', () => {
    const temperatures = [
      96.9, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68, 100.95, 101.11,
      101.2, 101.57, 101.84, 102.36, 102.72,
    ];
    const { mean, deviation, uncertainty, degreesOfFreedom } = fromRepeats(temperatures);
    expect(printed(mean, 5)).toBe(100.14);
    expect(printed(deviation, 3)).toBe(1.49);
    expect(printed(uncertainty, 2)).toBe(0.33);
    expect(degreesOfFreedom).toBe(19);
  });

  test('takes the step of a display as 0.29 of it (F.2.2.1)', () => {
    expect(printed(fromResolution(1), 2)).toBe(0.29);
  });

  test('finds the effective degrees of freedom of a product of three and what covers 95 % (G.4.1)', () => {
    const components = [
      { u: 0.25, degreesOfFreedom: 9 },
      { u: 0.57, degreesOfFreedom: 4 },
      { u: 0.82, degreesOfFreedom: 14 },
    ];
    const combined = combine(components.map(({ u }) => u));
    expect(printed(combined, 3)).toBe(1.03);
    const effective = effectiveDegreesOfFreedom(components);
    expect(printed(effective, 3)).toBe(19.0);
    const t95 = jstat.studentt.inv(0.975, effective);
    expect(printed(t95, 3)).toBe(2.09);
    expect(printed(t95 * combined, 2)).toBe(2.2);
  });

  test('propagates five simultaneous readings of an impedance with their correlations (H.2)', () => {
    const volts = [5.007, 4.994, 5.005, 4.99, 4.999];
    const amperes = [19.663e-3, 19.639e-3, 19.64e-3, 19.685e-3, 19.678e-3];
    const radians = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433];
    const [v, i, phase] = [volts, amperes, radians].map((row) => fromRepeats(row).mean) as [number, number, number];
    const z = v / i;
    const [r, x] = [z * Math.cos(phase), z * Math.sin(phase)];
    const covariance = propagate(
      [
        [r / v, -r / i, -x],
        [x / v, -x / i, r],
        [z / v, -z / i, 0],
      ],
      covarianceOfMeans([volts, amperes, radians]),
    );
    expect([r, x, z].map((value) => Number(value.toFixed(3)))).toEqual([127.732, 219.847, 254.26]);
    const u = [0, 1, 2].map((k) => Math.sqrt(covariance[k]![k]!));
    // the guide allows one in the last digit: it rounds on the way
    for (const [k, expected] of [0.071, 0.295, 0.236].entries())
      expect(Math.abs(u[k]! - expected)).toBeLessThan(0.0015);
    expect(Math.abs(correlation(covariance, 0, 1) - -0.588)).toBeLessThan(0.0015);
    expect(Math.abs(correlation(covariance, 0, 2) - -0.485)).toBeLessThan(0.0015);
    expect(Math.abs(correlation(covariance, 1, 2) - 0.993)).toBeLessThan(0.0015);
  });
});

describe('conformity, after JCGM 106', () => {
  test('a breakdown voltage of -5.47 V conforms to at most -5.40 V with 0.92 (7.3.3 example 1)', () => {
    expect(printed(conformance(-5.47, 0.05, { upper: -5.4 }), 2)).toBe(0.92);
  });

  test('a pressure of 509.7 kPa conforms to at least 490 kPa with 0.99 (7.3.3 example 2)', () => {
    expect(printed(conformance(509.7, 8.6, { lower: 490 }), 2)).toBe(0.99);
  });

  test('a value near the middle of a narrow interval conforms with 0.66 (7.4)', () => {
    expect(printed(conformance(13.6, 1.8, { lower: 12.5, upper: 16.3 }), 2)).toBe(0.66);
  });

  test('a value known exactly conforms or does not, a limit itself being inside (by definition, no published figure)', () => {
    const limits = { lower: 490, upper: 510 };
    expect([489.9, 490, 500, 510, 510.1].map((value) => conformance(value, 0, limits))).toEqual([0, 1, 1, 1, 0]);
  });

  test('a guard band of two standard uncertainties leaves a risk of at most 2.3 % (8.3.2)', () => {
    const risk = 1 - conformance(10 - 2 * 0.3, 0.3, { upper: 10 });
    expect(risk).toBeLessThanOrEqual(0.023);
    expect(printed(risk, 2)).toBe(0.023);
  });

  test('a guarded inspection of resistors accepts 84 in a hundred, 83 of them good (9.5.3)', () => {
    const risks = inspectionRisks({
      process: { mean: 1500, deviation: 0.12 },
      measurement: { uncertainty: 0.04 },
      tolerance: { lower: 1499.8, upper: 1500.2 },
      acceptance: { lower: 1499.82, upper: 1500.18 },
    });
    const percent = (share: number): number => Math.round(100 * share);
    expect(percent(risks.conforming)).toBe(90);
    expect(percent(risks.consumer)).toBe(1);
    expect(percent(risks.producer)).toBe(7);
    // the guide counts with these whole percents: of 90 good 7 are thrown away, and 1 bad one passes
    const good = percent(risks.conforming) - percent(risks.producer);
    expect(good).toBe(83);
    expect(good + percent(risks.consumer)).toBe(84);
    // closed form: what is measured is normal with both variances together
    const measured = conformance(1500, Math.hypot(0.12, 0.04), { lower: 1499.82, upper: 1500.18 });
    expect(risks.accepted).toBeCloseTo(measured, 10);
  });

  test('the bands of a reading with sharp edges are those same conformance probabilities (7.4)', () => {
    const [, inside] = bandWeights(13.6, 1.8, [
      { at: 12.5, tolerance: 0 },
      { at: 16.3, tolerance: 0 },
    ]);
    expect(inside).toBeCloseTo(conformance(13.6, 1.8, { lower: 12.5, upper: 16.3 }), 14);
  });
});

describe('meters, copper and codes', () => {
  test('+-(1 % + 2 digits) at 100.0 V reads 98.8 to 101.2 V (university laboratory hand-out)', () => {
    const halfWidth = meterHalfWidth(100, { percent: 1, digits: 2, resolution: 0.1 });
    expect(100 - halfWidth).toBeCloseTo(98.8, 12);
    expect(100 + halfWidth).toBeCloseTo(101.2, 12);
  });

  test('copper gains 3.93e-3 of its 20 degC resistance per kelvin, and 1/58 ohm mm2/m in a one-ounce sheet is 0.495 milliohm per square (IEC 60028)', () => {
    expect(COPPER_PER_KELVIN).toBe(3.93e-3);
    const metres = 34.8e-6;
    const perSquare = 1e-6 / 58 / metres;
    expect(printed(perSquare, 3)).toBe(0.495e-3);
    const warm = perSquare * (1 + 3.93e-3 * (65 - 20));
    expect(copperAtReference(warm, 65)).toBeCloseTo(perSquare, 15);
    expect(copperAtReference(warm, 20)).toBe(warm);
  });

  test.each([
    ['R47', 0.47, '470 mΩ'],
    ['4R7', 4.7, '4.7 Ω'],
    ['470R', 470, '470 Ω'],
    ['4K7', 4700, '4.7 kΩ'],
    ['47K', 47e3, '47 kΩ'],
    ['4M7', 4.7e6, '4.7 MΩ'],
  ])('the letter stands for the decimal mark: %s is %d ohm (IEC 60062, closed form)', (typed, ohms, written) => {
    expect(parseQuantity(typed, 'resistance')).toEqual({ kind: 'value', value: ohms, typed });
    expect(formatQuantity(ohms, 'resistance')).toBe(written);
  });
});
