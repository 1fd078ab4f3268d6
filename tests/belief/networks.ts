/** Small networks for tests, written by hand or drawn at random. */
import fc from 'fast-check';
import type { Evidence, FindingNode, Network } from '../../src/belief/network.ts';

export const SEED = 20240611;

/** A finding from plain rows: chances of its states, from normal to most abnormal. */
export function finding(
  id: string,
  states: readonly string[],
  leak: readonly number[],
  given: Readonly<Record<number, readonly number[]>>,
): FindingNode {
  return {
    id,
    states,
    leak: cumulate(leak),
    given: Object.entries(given).map(([fault, row]) => ({ fault: Number(fault), cumulative: cumulate(row) })),
  };
}

/** A finding with two states from chances of the abnormal one. */
export const yesNo = (id: string, leak: number, given: Readonly<Record<number, number>>): FindingNode =>
  finding(
    id,
    ['no', 'yes'],
    [1 - leak, leak],
    Object.fromEntries(Object.entries(given).map(([fault, p]) => [fault, [1 - p, p]])),
  );

export const crisp = (network: Network, index: number, state: number): Evidence => ({
  finding: index,
  weights: Float64Array.from(network.findings[index]!.states, (_, x) => (x === state ? 1 : 0)),
});

export function cumulate(row: readonly number[]): Float64Array {
  const cumulative = new Float64Array(row.length);
  let sum = 0;
  for (const [x, p] of row.entries()) {
    sum += p;
    cumulative[x] = sum;
  }
  // the states from the last possible one on are certain to be enough; rounding must not make a later one possible
  let last = row.length - 1;
  while (last > 0 && row[last] === 0) last--;
  cumulative.fill(1, last);
  return cumulative;
}

export interface Drawn {
  readonly network: Network;
  readonly odds: number[];
  readonly evidence: Evidence[];
}

const arbitraryRow = (states: number): fc.Arbitrary<Float64Array> =>
  fc
    .array(
      fc.oneof({ weight: 4, arbitrary: fc.integer({ min: 1, max: 1000 }) }, { weight: 1, arbitrary: fc.constant(0) }),
      {
        minLength: states,
        maxLength: states,
      },
    )
    .map((parts) => {
      const whole = parts.reduce((a, b) => a + b, 0);
      return cumulate(whole === 0 ? parts.map((_, x) => (x === 0 ? 1 : 0)) : parts.map((part) => part / whole));
    });

const arbitraryWeights = (states: number): fc.Arbitrary<Float64Array> =>
  fc.oneof(
    fc.nat(states - 1).map((state) => Float64Array.from({ length: states }, (_, x) => (x === state ? 1 : 0))),
    fc
      .array(fc.integer({ min: 0, max: 100 }), { minLength: states, maxLength: states })
      .map((parts) => Float64Array.from(parts, (part) => part / 100)),
  );

/** Random faults, findings and evidence on some of the findings: zeros in rows and weights included. */
export const arbitraryProblem = (mostFaults = 5, mostFindings = 5): fc.Arbitrary<Drawn> =>
  fc.integer({ min: 1, max: mostFaults }).chain((faults) => {
    const arbitraryFinding = fc
      .integer({ min: 2, max: 4 })
      .chain((states) =>
        fc
          .tuple(
            arbitraryRow(states),
            fc.array(fc.option(arbitraryRow(states)), { minLength: faults, maxLength: faults }),
            fc.option(arbitraryWeights(states)),
          )
          .map(([leak, rows, weights]) => ({ states, leak, rows, weights })),
      );
    return fc
      .tuple(
        fc.array(fc.integer({ min: 1, max: 300 }), { minLength: faults, maxLength: faults }),
        fc.array(arbitraryFinding, { minLength: 1, maxLength: mostFindings }),
      )
      .map(([odds, findings]) => ({
        network: {
          faults: odds.map((_, f) => `fault-${f}`),
          findings: findings.map(({ states, leak, rows }, j) => ({
            id: `finding-${j}`,
            states: Array.from({ length: states }, (_, x) => `state-${x}`),
            leak,
            given: rows.flatMap((cumulative, fault) => (cumulative ? [{ fault, cumulative }] : [])),
          })),
        },
        odds: odds.map((o) => o / 100),
        evidence: findings.flatMap(({ weights }, j) => (weights ? [{ finding: j, weights }] : [])),
      }));
  });
