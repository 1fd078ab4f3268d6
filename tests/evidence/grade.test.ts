/** From what was typed to a weight per state. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Graded, gradeReading } from '../../src/evidence/grade.ts';
import { normalCdf } from '../../src/evidence/normal.ts';
import type { Measured } from '../../src/record/schema.ts';
import { AT, CORE_LARGE, finding, SHOP, VOLTAGE_CORE } from './three-rails.ts';

const CORE = finding('resistance-core', ['normal', 'high', 'low', 'short']);
const CORE_VOLTS = finding('voltage-core', ['in-tolerance', 'low', 'high', 'absent']);

const measure = (typed: string, more: Partial<Measured> = {}): Measured => ({
  type: 'measured',
  at: AT,
  finding: 'resistance-core',
  typed,
  ...more,
});

function graded(result: Graded): Extract<Graded, { kind: 'graded' }> {
  if (result.kind !== 'graded') throw new Error(JSON.stringify(result));
  return result;
}
function refused(result: Graded): Extract<Graded, { kind: 'refused' }> {
  if (result.kind !== 'refused') throw new Error('it was graded');
  return result;
}
const byState = (result: Graded): { [state: string]: number } =>
  Object.fromEntries(CORE.states.map(({ id }, i) => [id, graded(result).weights[i]!]));

describe('a reading of the core rail on a large die', () => {
  test('is normal at a third of an ohm: the classic false short', () => {
    const weights = byState(gradeReading(measure('0.31'), CORE_LARGE, CORE, SHOP));
    expect(weights.normal).toBeGreaterThan(0.99);
    expect(weights.short).toBeLessThan(1e-6);
  });

  test('splits evenly on the edge between low and normal, to the last digit of the meter', () => {
    const weights = byState(gradeReading(measure('0.10'), CORE_LARGE, CORE, SHOP));
    expect(weights.normal! + weights.high!).toBeCloseTo(0.5, 14);
    expect(weights.low! + weights.short!).toBeCloseTo(0.5, 14);
  });

  test('moves a little from one count to the next, and never flips', () => {
    let before = byState(gradeReading(measure('0.01'), CORE_LARGE, CORE, SHOP));
    for (let counts = 2; counts < 60; counts += 1) {
      const now = byState(gradeReading(measure((counts / 100).toFixed(2)), CORE_LARGE, CORE, SHOP));
      for (const state of ['normal', 'high', 'low', 'short']) {
        // the steepest a normal distribution can rise in a step of one count: the meter alone is sqrt(a^2/3 + 1/12)
        // counts wide
        expect(Math.abs(now[state]! - before[state]!)).toBeLessThan(0.4 / 1.75 + 0.02);
      }
      before = now;
    }
  });

  test('over range is open, not zero', () => {
    const result = graded(gradeReading(measure('OL'), CORE_LARGE, CORE, SHOP));
    expect(byState(result)).toEqual({ normal: 0, high: 1, low: 0, short: 0 });
    expect(result.reading.value).toBe(Number.POSITIVE_INFINITY);
    expect(result.reading.typed).toBe('OL');
  });

  test('over range without a state of its own falls into the highest band', () => {
    const { overRange: _, ...window } = CORE_LARGE;
    expect(byState(gradeReading(measure('OL'), window, CORE, SHOP)).high).toBe(1);
  });

  test('keeps what was typed when it is no reading', () => {
    const { field, typed, wrong } = refused(gradeReading(measure('about a third'), CORE_LARGE, CORE, SHOP));
    expect([field, typed]).toEqual(['typed', 'about a third']);
    expect(wrong).toContain('not a number');
  });
});

describe('corrections', () => {
  test('takes the leads off unless the reading is four-wire', () => {
    const twoWire = graded(gradeReading(measure('0.31', { leads: '0.2' }), CORE_LARGE, CORE, SHOP));
    expect(twoWire.reading.value).toBeCloseTo(0.11, 12);
    const fourWire = graded(gradeReading(measure('0.31', { leads: '0.2', fourWire: true }), CORE_LARGE, CORE, SHOP));
    expect(fourWire.reading.value).toBe(0.31);
    expect(fourWire.reading.budget.map(({ component }) => component)).not.toContain('leads');
  });

  test("falls back on the shop's leads, and leaves voltages alone", () => {
    const shop = { ...SHOP, leadResistance: 0.15 };
    expect(graded(gradeReading(measure('0.31'), CORE_LARGE, CORE, shop)).reading.value).toBeCloseTo(0.16, 12);
    expect(graded(gradeReading(measure('0.31', { leads: '0' }), CORE_LARGE, CORE, shop)).reading.value).toBe(0.31);
    expect(graded(gradeReading(measure('0.9'), VOLTAGE_CORE, CORE_VOLTS, shop)).reading.value).toBe(0.9);
  });

  test('leads that measure a shade more than the reading leave zero; leads that measure much more are a mistake', () => {
    const close = graded(gradeReading(measure('0.19', { leads: '0.20' }), CORE_LARGE, CORE, SHOP));
    expect(close.reading.value).toBe(0);
    expect(byState(close).short).toBeGreaterThan(0.8);
    const far = refused(gradeReading(measure('0.05', { leads: '0.5' }), CORE_LARGE, CORE, SHOP));
    expect(far.wrong).toContain('leads measure more than the reading');
    expect(far.todo).toContain('Hold the tips together');
  });

  test('the leads may bring a reading two of its standard uncertainties below zero, and no further (about 95 %)', () => {
    // by hand: half-widths .5 % and 3 counts as rectangles, both displays' steps; about 25 milliohm together
    const u = (typed: number, leads: number) =>
      Math.hypot(...[typed, leads].flatMap((r) => [(0.005 * r + 0.03) / Math.sqrt(3), 0.01 / Math.sqrt(12)]));
    expect(0.04 / u(0.08, 0.12)).toBeLessThan(2);
    expect(graded(gradeReading(measure('0.08', { leads: '0.12' }), CORE_LARGE, CORE, SHOP)).reading.value).toBe(0);
    expect(0.06 / u(0.06, 0.12)).toBeGreaterThan(2);
    expect(0.06 / u(0.06, 0.12)).toBeLessThan(2.5);
    expect(refused(gradeReading(measure('0.06', { leads: '0.12' }), CORE_LARGE, CORE, SHOP)).field).toBe('typed');
  });

  test('an open lead is said to be one', () => {
    expect(refused(gradeReading(measure('0.3', { leads: 'OL' }), CORE_LARGE, CORE, SHOP)).field).toBe('leads');
  });

  test('brings a copper path to 20 degC, and counts the thermometer', () => {
    const copper = { ...CORE_LARGE, copper: true };
    const warm = graded(gradeReading(measure('0.31', { temperature: 50 }), copper, CORE, SHOP)).reading;
    expect(warm.value).toBeCloseTo(0.31 / (1 + 3.93e-3 * 30), 12);
    const thermometer = warm.budget.find(({ component }) => component === 'temperature')!.u;
    // by hand: +-2 counts of 1 K as a rectangle and the display's step, times R alpha / (1 + alpha dT)^2
    const kelvin = Math.sqrt(4 / 3 + 1 / 12);
    expect(thermometer).toBeCloseTo((0.31 * 3.93e-3 * kelvin) / (1 + 3.93e-3 * 30) ** 2, 12);
    expect(graded(gradeReading(measure('0.31', { temperature: 50 }), CORE_LARGE, CORE, SHOP)).reading.value).toBe(0.31);
  });

  test('adds meter, display, leads and repeats in quadrature (GUM 5.1.2)', () => {
    const { reading } = graded(
      gradeReading(measure('0.31', { leads: '0.10', repeatability: 0.02 }), CORE_LARGE, CORE, SHOP),
    );
    const meter = (0.005 * 0.31 + 0.03) / Math.sqrt(3);
    const display = 0.01 / Math.sqrt(12);
    const leads = Math.hypot((0.005 * 0.1 + 0.03) / Math.sqrt(3), display);
    expect(reading.uncertainty).toBeCloseTo(Math.hypot(meter, display, leads, 0.02), 14);
    expect(Math.hypot(...reading.budget.map(({ u }) => u))).toBeCloseTo(reading.uncertainty, 14);
  });

  test('a meter named in the record takes the place of the shop one', () => {
    const instrument = { percent: 0.05, digits: 1, resolution: 0.0001 };
    const { reading } = graded(gradeReading(measure('0.31', { instrument }), CORE_LARGE, CORE, SHOP));
    expect(reading.uncertainty).toBeCloseTo(
      Math.hypot((0.0005 * 0.31 + 0.0001) / Math.sqrt(3), 0.0001 / Math.sqrt(12)),
      14,
    );
  });
});

describe('a known-good board beats every window', () => {
  test('its reading sets the edges, and its own uncertainty widens them', () => {
    const { reading, weights } = graded(gradeReading(measure('0.20', { knownGood: '0.50' }), CORE_LARGE, CORE, SHOP));
    expect(reading.recentred).toBe(true);
    expect(reading.edges.map((edge) => Number(edge.toFixed(9)))).toEqual([0.1, 0.3, 1.25]);
    const u = (x: number): number => Math.hypot((0.005 * x + 0.03) / Math.sqrt(3), 0.01 / Math.sqrt(12));
    // by hand, the edge between low and normal at 0.6 x 0.50
    const meter = (0.2 - 0.3) / Math.hypot(u(0.2), 0.6 * u(0.5));
    const tolerance = Math.log(0.2 / 0.3) / 0.1;
    const z = -1 / Math.hypot(1 / meter, 1 / tolerance);
    expect(weights[0]! + weights[1]!).toBeCloseTo(normalCdf(z), 12);
  });

  test('the same reading is low beside a board of a half ohm and normal beside one of a fifth', () => {
    const beside = (knownGood: string) => byState(gradeReading(measure('0.20', { knownGood }), CORE_LARGE, CORE, SHOP));
    expect(beside('0.50').low).toBeGreaterThan(0.9);
    expect(beside('0.20').normal).toBeGreaterThan(0.9);
  });

  test('gives nothing to compare with when it reads open or zero, and says so', () => {
    for (const knownGood of ['OL', '0']) {
      const result = refused(gradeReading(measure('0.2', { knownGood }), CORE_LARGE, CORE, SHOP));
      expect([result.field, result.typed]).toEqual(['knownGood', knownGood]);
      expect(result.wrong).toContain('nothing to compare with');
    }
  });

  test('a window without relative edges keeps its own', () => {
    const { relative: _, ...window } = CORE_LARGE;
    const { reading } = graded(gradeReading(measure('0.2', { knownGood: '0.5' }), window, CORE, SHOP));
    expect(reading.recentred).toBe(false);
    expect(reading.edges).toEqual([0.03, 0.1, 4]);
  });
});

describe('laws of grading', () => {
  test('weights sum to one, and a larger reading is never more likely short', () => {
    const ohms = fc.integer({ min: 0, max: 2000 }).map((counts) => counts / 100);
    fc.assert(
      fc.property(ohms, ohms, (a, b) => {
        const [low, high] = [Math.min(a, b), Math.max(a, b)].map((x) =>
          graded(gradeReading(measure(x.toFixed(2)), CORE_LARGE, CORE, SHOP)),
        );
        expect(low!.weights.reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(1, 12);
        expect(high!.weights[3]!).toBeLessThanOrEqual(low!.weights[3]! + 1e-12);
        expect(high!.weights[3]! + high!.weights[2]!).toBeLessThanOrEqual(low!.weights[3]! + low!.weights[2]! + 1e-12);
      }),
      { seed: 11 },
    );
  });

  test('bands that bear the same state add up on it', () => {
    const window = { ...VOLTAGE_CORE, bands: ['absent', 'low', 'in-tolerance', 'low'] };
    const { weights } = graded(gradeReading(measure('1.25'), window, CORE_VOLTS, SHOP));
    expect(weights[0]).toBeCloseTo(0.5, 6);
    expect(weights[1]).toBeCloseTo(0.5, 6);
  });
});
