import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { explain } from '../../src/belief/explain.ts';
import type { Network } from '../../src/belief/network.ts';
import { posterior } from '../../src/belief/observe.ts';
import { bruteForce } from './brute-force.ts';
import { arbitraryProblem, crisp, finding, SEED, yesNo } from './networks.ts';

const decibels = (now: number, before: number) => 10 * Math.log10(now / (1 - now) / (before / (1 - before)));

describe('weight of evidence', () => {
  it('is ten times the logarithm of the likelihood ratio for one fault', () => {
    // P(yes | fault) = 1 - .9 * .2 = .82, P(yes | none) = .1: a factor of 8.2
    const network: Network = { faults: ['f'], findings: [yesNo('x', 0.1, { 0: 0.8 })] };
    const { decibels: weights, conflict, conflictOf } = explain(network, [0.25], [crisp(network, 0, 1)], 1);
    expect(weights[0]![0]).toBeCloseTo(10 * Math.log10(8.2), 11);
    expect(conflict).toBeCloseTo(0, 13);
    expect(conflictOf[0]).toBeCloseTo(0, 13);
  });

  it('is the odds with a finding over the odds without it, for every finding and fault', () => {
    fc.assert(
      fc.property(arbitraryProblem(4, 4), fc.constantFrom(1, 0.2), ({ network, odds, evidence }, empty) => {
        const whole = bruteForce(network, odds, evidence, 3, empty);
        fc.pre(whole.chanceOfEvidence > 1e-9);
        const found = explain(network, odds, evidence, 3, empty);
        let alone = 0;
        for (const [j, piece] of evidence.entries()) {
          const without = bruteForce(network, odds, evidence.toSpliced(j, 1), 3, empty);
          const only = bruteForce(network, odds, [piece], 3, empty);
          alone += Math.log2(only.chanceOfEvidence);
          const adds = Math.log2((only.chanceOfEvidence * without.chanceOfEvidence) / whole.chanceOfEvidence);
          expect(found.conflictOf[j]).toBeCloseTo(adds, 8);
          for (const f of odds.keys()) {
            const [now, before] = [whole.marginals[f]!, without.marginals[f]!];
            // near 0 and 1 the brute force itself has no digits left
            if (Math.min(now, before, 1 - now, 1 - before) < 1e-6) continue;
            expect(Math.abs(found.decibels[j]![f]! - decibels(now, before))).toBeLessThan(1e-7);
          }
        }
        if (evidence.length > 0) expect(found.conflict).toBeCloseTo(alone - Math.log2(whole.chanceOfEvidence), 8);
      }),
      { seed: SEED, numRuns: 300 },
    );
  });

  it('is endless for what makes certain, endless the other way for what rules out, and nothing where both were settled', () => {
    const network: Network = {
      faults: ['f', 'g'],
      findings: [
        finding('only-f', ['no', 'yes'], [1, 0], { 0: [0.5, 0.5] }),
        finding('never-g', ['no', 'yes'], [1, 0], { 1: [0, 1] }),
        yesNo('also-never-g', 0, { 1: 1 }),
      ],
    };
    const one = explain(network, [0.5, 0.5], [crisp(network, 0, 1), crisp(network, 1, 0)], 2);
    expect(one.decibels[0]![0]).toBe(Number.POSITIVE_INFINITY);
    expect(one.decibels[0]![1]).toBe(0);
    expect(one.decibels[1]![1]).toBe(Number.NEGATIVE_INFINITY);
    const two = explain(network, [0.5, 0.5], [crisp(network, 1, 0), crisp(network, 2, 0)], 2);
    expect([two.decibels[0]![1], two.decibels[1]![1]]).toEqual([0, 0]);
  });

  it('rises above nought bits of conflict where two findings want faults that exclude each other', () => {
    const network: Network = {
      faults: ['f', 'g'],
      findings: [yesNo('x', 0.01, { 0: 0.9 }), yesNo('y', 0.01, { 1: 0.9 }), yesNo('z', 0.01, { 0: 0.9 })],
    };
    const against = explain(network, [0.1, 0.1], [crisp(network, 0, 1), crisp(network, 1, 1)], 1);
    const along = explain(network, [0.1, 0.1], [crisp(network, 0, 1), crisp(network, 2, 1)], 1);
    expect(against.conflict).toBeGreaterThan(1);
    expect(along.conflict).toBeLessThan(-1);
  });

  it('still weighs findings whose joint chance no double can hold', () => {
    // x: 1e-6 by the leak, 120 of them; the last tells f apart by a factor the others do not touch
    const network: Network = {
      faults: ['f'],
      findings: Array.from({ length: 120 }, (_, j) => yesNo(`x${j}`, 1e-6, j === 7 ? { 0: 0.5 } : {})),
    };
    const evidence = network.findings.map((_, j) => crisp(network, j, 1));
    expect(posterior(network, [1], evidence, 1).kind).toBe('belief');
    const found = explain(network, [1], evidence, 1);
    expect(found.decibels[7]![0]).toBeCloseTo(10 * Math.log10((1 - (1 - 1e-6) * 0.5) / 1e-6), 8);
    expect(found.decibels[8]![0]).toBeCloseTo(0, 9);
  });

  it('weighs findings where only a far-fetched condition survives them all', () => {
    // 30 normal findings, each 2^-30 under f and under g; then one that only f can show and one that only g can
    const quiet = (j: number) => yesNo(`quiet${j}`, 0, { 0: 1 - 2 ** -30, 1: 1 - 2 ** -30 });
    const network: Network = {
      faults: ['f', 'g', 'h'],
      findings: [...Array.from({ length: 30 }, (_, j) => quiet(j)), yesNo('x', 0, { 0: 1 }), yesNo('y', 0, { 1: 1 })],
    };
    const evidence = [...network.findings.keys()].map((j) => crisp(network, j, j < 30 ? 0 : 1));
    const observed = posterior(network, [0.1, 0.1, 0.1], evidence, 3);
    if (observed.kind !== 'belief') throw new Error('expected a belief');
    // 60 factors of 2^-30 and the prior of f and g, with or without h: .01 * 1.1 / 1.1^3
    expect(observed.logChance).toBeCloseTo(-1800 * Math.LN2 + Math.log(0.01 / 1.1 ** 2), 9);
    const found = explain(network, [0.1, 0.1, 0.1], evidence, 3);
    // without y, g is as unlikely as thirty findings make it; with it, certain
    expect(found.decibels[31]![1]).toBe(Number.POSITIVE_INFINITY);
    expect(found.decibels[31]![2]).toBeCloseTo(0, 9);
  });

  it('refuses to explain what cannot be', () => {
    const network: Network = { faults: ['f'], findings: [yesNo('x', 0, {})] };
    expect(() => explain(network, [0.5], [crisp(network, 0, 1)], 1)).toThrow('this evidence is impossible');
  });
});
