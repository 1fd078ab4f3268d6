/** Readings near edges. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bandWeights, deviationsAbove, type UncertainEdge } from '../../src/evidence/bands.ts';
import { normalCdf, normalDensity } from '../../src/evidence/normal.ts';

const sum = (weights: readonly number[]): number => weights.reduce((total, weight) => total + weight, 0);

const edges = fc
  .array(fc.tuple(fc.double({ min: 0.01, max: 3, noNaN: true }), fc.double({ min: 0, max: 0.6, noNaN: true })), {
    minLength: 1,
    maxLength: 4,
  })
  .map((steps): UncertainEdge[] => {
    let at = 0;
    return steps.map(([step, tolerance]) => {
      at += step;
      return { at, tolerance };
    });
  });
const reading = fc.double({ min: 0, max: 20, noNaN: true });
const uncertainty = fc.double({ min: 1e-6, max: 1, noNaN: true });

describe('bands', () => {
  test('a reading exactly on an edge splits evenly, whatever the edge and the meter are like', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 1e6, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 1e-6, max: 10, noNaN: true }),
        (at, tolerance, u) => {
          expect(bandWeights(at, u, [{ at, tolerance }])).toEqual([0.5, 0.5]);
        },
      ),
      { seed: 1 },
    );
  });

  test('weights are chances that sum to one', () => {
    fc.assert(
      fc.property(reading, uncertainty, edges, (value, u, list) => {
        const weights = bandWeights(value, u, list);
        expect(weights).toHaveLength(list.length + 1);
        for (const weight of weights) expect(weight).toBeGreaterThanOrEqual(0);
        expect(sum(weights)).toBeCloseTo(1, 12);
      }),
      { seed: 2, numRuns: 500 },
    );
  });

  test('a larger reading never adds to what lies below an edge, with a meter of percent and counts', () => {
    const meter = (value: number, percent: number, counts: number): number =>
      Math.hypot(percent * value + counts, counts / 2);
    fc.assert(
      fc.property(
        reading,
        reading,
        fc.double({ min: 0, max: 0.2, noNaN: true }),
        fc.double({ min: 1e-4, max: 0.5, noNaN: true }),
        edges,
        (a, b, percent, counts, list) => {
          const [low, high] = [Math.min(a, b), Math.max(a, b)];
          const below = (value: number): number[] => {
            let total = 0;
            return bandWeights(value, meter(value, percent, counts), list).map((weight) => {
              total += weight;
              return total;
            });
          };
          const [first, second] = [below(low), below(high)];
          for (const [band, share] of second.entries()) expect(share).toBeLessThanOrEqual(first[band]! + 1e-12);
        },
      ),
      { seed: 3, numRuns: 500 },
    );
  });

  test('with a sharp edge only the meter matters, with an exact reading only the edge', () => {
    expect(deviationsAbove(12.7, 0.05, { at: 12.6, tolerance: 0 })).toBeCloseTo(0.1 / 0.05, 12);
    expect(deviationsAbove(0.12, 0, { at: 0.1, tolerance: 0.3 })).toBeCloseTo(Math.log(1.2) / 0.3, 12);
    expect(bandWeights(13, 0, [{ at: 12.6, tolerance: 0 }])).toEqual([0, 1]);
  });

  test('a kilohm is not doubtfully short because one percent of it is many edges wide', () => {
    const [short] = bandWeights(10_000, 100, [{ at: 10, tolerance: 0.3 }]);
    expect(short).toBeLessThan(1e-9);
  });

  test('a reading of zero is as far below the edge as the meter can tell', () => {
    expect(bandWeights(0, 0.02, [{ at: 0.03, tolerance: 0.3 }])[0]).toBeCloseTo(normalCdf(1.5), 12);
  });

  test('just below an edge and just above it differ a little: nothing flips', () => {
    const edge = { at: 0.1, tolerance: 0.3 };
    const below = bandWeights(0.0999, 0.004, [edge]);
    const above = bandWeights(0.1001, 0.004, [edge]);
    expect(Math.abs(below[0]! - above[0]!)).toBeLessThan(0.01);
  });

  test('the reference of a re-centred edge widens it', () => {
    const alone = deviationsAbove(0.12, 0.003, { at: 0.1, tolerance: 0 });
    const referred = deviationsAbove(0.12, 0.003, { at: 0.1, tolerance: 0, uncertainty: 0.004 });
    expect(alone).toBeCloseTo(0.02 / 0.003, 12);
    expect(referred).toBeCloseTo(0.02 / 0.005, 12);
  });

  test('an edge at zero with a logarithmic tolerance is a fault of the knowledge', () => {
    expect(() => bandWeights(1, 0.1, [{ at: 0, tolerance: 0.1 }])).toThrow('cannot have a logarithmic tolerance');
    expect(bandWeights(-1, 0.1, [{ at: 0, tolerance: 0 }])[0]).toBeCloseTo(1, 12);
  });

  test('stays within 0.03 of the full convolution of a normal reading with a log-normal edge', () => {
    let worst = 0;
    for (const tolerance of [0.05, 0.1, 0.2, 0.3, 0.5]) {
      for (const u of [0.001, 0.01, 0.05, 0.1, 0.3]) {
        for (let value = 0.05; value < 8; value *= 1.11) {
          const exact = convolved(value, u, tolerance);
          const ours = normalCdf(deviationsAbove(value, u, { at: 1, tolerance }));
          worst = Math.max(worst, Math.abs(exact - ours));
        }
      }
    }
    expect(worst).toBeLessThan(0.03);
  });
});

/**
 * P(true value > edge) with the true value N(value, u^2) and ln edge N(0, tolerance^2), by the trapezium rule over the
 * edge.
 */
function convolved(value: number, u: number, tolerance: number): number {
  const step = Math.min(0.02, u / tolerance / 4);
  let total = 0;
  for (let t = -8; t <= 8; t += step)
    total += normalDensity(t) * normalCdf((value - Math.exp(tolerance * t)) / u) * step;
  return total;
}
