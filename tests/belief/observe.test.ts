import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { marginals } from '../../src/belief/belief.ts';
import { membersOf } from '../../src/belief/conditions.ts';
import type { Network } from '../../src/belief/network.ts';
import { type Observed, posterior, posteriorOver } from '../../src/belief/observe.ts';
import { bruteForce } from './brute-force.ts';
import { arbitraryProblem, crisp, type Drawn, finding, SEED, yesNo } from './networks.ts';

/** absolute, on chances; brute force and product differ by rounding of at most some hundred operations */
const EQUAL = 1e-10;

const believed = (observed: Observed) => {
  if (observed.kind !== 'belief') throw new Error('expected a belief');
  return observed;
};

describe('against the full joint, drawn cause by cause', () => {
  const compare = (most: (faults: number) => number, empty = 1) =>
    fc.assert(
      fc.property(arbitraryProblem(), ({ network, odds, evidence }) => {
        const limit = most(network.faults.length);
        const joint = bruteForce(network, odds, evidence, limit, empty);
        const observed = posterior(network, odds, evidence, limit, undefined, empty);
        if (observed.kind === 'contradiction') {
          expect(joint.chanceOfEvidence).toBeLessThan(1e-15);
          return;
        }
        // rounding in the brute force can leave 1e-17 where the truth is 0, never the other way round
        fc.pre(joint.chanceOfEvidence > 1e-12);
        expect(Math.exp(observed.logChance)).toBeCloseTo(joint.chanceOfEvidence, 10);
        const found = marginals(observed.belief);
        for (const [f, p] of joint.marginals.entries()) expect(Math.abs(found[f]! - p)).toBeLessThan(EQUAL);
        for (let i = 0; i < observed.belief.conditions.count; i++) {
          const key = membersOf(observed.belief.conditions, i).active.join();
          expect(Math.abs(observed.belief.chance[i]! - joint.conditions.get(key)!)).toBeLessThan(EQUAL);
        }
        expect(joint.conditions.size).toBe(observed.belief.conditions.count);
      }),
      { seed: SEED, numRuns: 600 },
    );

  it('finds every chance when any number of faults may be there', () => compare((faults) => faults));
  it('finds every chance when at most one fault may be there', () => compare(() => 1));
  it('finds every chance when at most two faults may be there', () => compare(() => 2));
  it('finds every chance when at most three faults may be there', () => compare(() => 3));
  it('finds every chance when sound cards have a share of their own', () => compare(() => 3, 0.2));
  it('leaves only the sound card when no fault may be there', () => compare(() => 0));
});

describe('laws', () => {
  const law = (check: (drawn: Drawn) => void) =>
    fc.assert(fc.property(arbitraryProblem(5, 5), check), { seed: SEED, numRuns: 300 });

  it('gives chances that sum to one', () =>
    law(({ network, odds, evidence }) => {
      const observed = posterior(network, odds, evidence, 3);
      if (observed.kind === 'belief') expect(Math.abs(total(observed.belief.chance) - 1)).toBeLessThan(1e-13);
    }));

  it('does not care in which order findings were made', () =>
    law(({ network, odds, evidence }) => {
      const forward = posterior(network, odds, evidence, 3);
      const backward = posterior(network, odds, evidence.toReversed(), 3);
      expect(backward.kind).toBe(forward.kind);
      if (forward.kind !== 'belief' || backward.kind !== 'belief') return;
      expectClose(backward.belief.chance, forward.belief.chance);
      expect(backward.logChance).toBeCloseTo(forward.logChance, 10);
    }));

  it('is unmoved by a finding that every state fits equally well', () =>
    law(({ network, odds, evidence }) => {
      const blank = finding('blank', ['a', 'b', 'c'], [0.2, 0.5, 0.3], { 0: [0.1, 0.1, 0.8] });
      const wider: Network = { ...network, findings: [...network.findings, blank] };
      const before = posterior(network, odds, evidence, 3);
      const after = posterior(
        wider,
        odds,
        [...evidence, { finding: network.findings.length, weights: new Float64Array([0.4, 0.4, 0.4]) }],
        3,
      );
      expect(after.kind).toBe(before.kind);
      if (before.kind !== 'belief' || after.kind !== 'belief') return;
      expectClose(after.belief.chance, before.belief.chance);
      expect(after.logChance - before.logChance).toBeCloseTo(Math.log(0.4), 10);
    }));

  it('is unmoved by what only ever comes from the leak', () =>
    law(({ network, odds, evidence }) => {
      const leakOnly = finding('leak-only', ['a', 'b'], [0.7, 0.3], {});
      const wider: Network = { ...network, findings: [...network.findings, leakOnly] };
      const before = posterior(network, odds, evidence, 3);
      const after = posterior(wider, odds, [...evidence, crisp(wider, network.findings.length, 1)], 3);
      expect(after.kind).toBe(before.kind);
      if (before.kind !== 'belief' || after.kind !== 'belief') return;
      expectClose(after.belief.chance, before.belief.chance);
      expect(after.logChance - before.logChance).toBeCloseTo(Math.log(0.3), 10);
    }));

  it('relabels the answer when the faults are relabelled', () =>
    law(({ network, odds, evidence }) => {
      const n = odds.length;
      const turned: Network = {
        faults: network.faults.toReversed(),
        findings: network.findings.map((node) => ({
          ...node,
          given: node.given.map((row) => ({ ...row, fault: n - 1 - row.fault })),
        })),
      };
      const straight = posterior(network, odds, evidence, 3);
      const reversed = posterior(turned, odds.toReversed(), evidence, 3);
      expect(reversed.kind).toBe(straight.kind);
      if (straight.kind !== 'belief' || reversed.kind !== 'belief') return;
      expectClose(marginals(reversed.belief).toReversed(), marginals(straight.belief));
    }));

  it('conserves the mass of a fault that is split in two, one fault at a time', () =>
    law(({ network, odds, evidence }) => {
      const { split, splitOdds } = splitFirst(network, odds, odds[0]! * 0.3, odds[0]! * 0.7);
      const whole = posterior(network, odds, evidence, 1);
      const halves = posterior(split, splitOdds, evidence, 1);
      expect(halves.kind).toBe(whole.kind);
      if (whole.kind !== 'belief' || halves.kind !== 'belief') return;
      const found = marginals(halves.belief);
      expect(Math.abs(found[0]! + found[odds.length]! - marginals(whole.belief)[0]!)).toBeLessThan(EQUAL);
    }));

  it('writes the same chances into an array it is given, whatever that held', () =>
    law(({ network, odds, evidence }) => {
      const fresh = posterior(network, odds, evidence, 2);
      if (fresh.kind !== 'belief') return;
      const kept = new Float64Array(fresh.belief.chance.length).fill(7);
      const again = posterior(network, odds, evidence, 2, kept);
      expect(again.kind === 'belief' && again.belief.chance).toBe(kept);
      expect(kept).toEqual(fresh.belief.chance);
    }));

  it('gives the posterior of a chosen list as that of all sets, conditioned on the list', () =>
    law(({ network, odds, evidence }) => {
      const observed = posterior(network, odds, evidence, 3);
      if (observed.kind !== 'belief') return;
      const { conditions } = observed.belief;
      expectClose(posteriorOver(network, odds, evidence, conditions)!, observed.belief.chance);
      const rarer = posterior(network, odds, evidence, 3, undefined, 0.2);
      const chances = posteriorOver(network, odds, evidence, conditions, 0.2);
      if (rarer.kind === 'belief') expectClose(chances!, rarer.belief.chance);
    }));
});

describe('closed forms', () => {
  it('multiplies the odds of one fault by the likelihood ratio', () => {
    // odds .25, P(yes | fault) = 1 - .9 * .2 = .82 with the leak, P(yes | none) = .1: posterior odds .25 * 8.2
    const network: Network = { faults: ['f'], findings: [yesNo('x', 0.1, { 0: 0.8 })] };
    const { belief, logChance } = believed(posterior(network, [0.25], [crisp(network, 0, 1)], 1));
    expect(belief.chance[1]! / belief.chance[0]!).toBeCloseTo(0.25 * 8.2, 12);
    expect(Math.exp(logChance)).toBeCloseTo((0.1 + 0.25 * 0.82) / 1.25, 12);
  });

  it('leaves faults independent while everything seen is normal', () => {
    // each fault's odds are multiplied by its chance of leaving the finding normal; nothing couples them
    const network: Network = {
      faults: ['f', 'g'],
      findings: [yesNo('x', 0.1, { 0: 0.8, 1: 0.5 }), yesNo('y', 0.2, { 1: 0.25 })],
    };
    const { belief } = believed(posterior(network, [0.5, 2], [crisp(network, 0, 0), crisp(network, 1, 0)], 2));
    const [f, g] = marginals(belief);
    expect(f! / (1 - f!)).toBeCloseTo(0.5 * 0.2, 12);
    expect(g! / (1 - g!)).toBeCloseTo(2 * 0.5 * 0.75, 12);
  });

  it('conserves the mass of a fault that is split in two, any number at a time, where two halves show what one does', () => {
    // rows of 0 and 1 are idempotent: both halves at once look like one. (1 + a)(1 + b) = 1 + o
    const network: Network = {
      faults: ['f', 'g'],
      findings: [finding('x', ['a', 'b', 'c'], [0.5, 0.3, 0.2], { 0: [0, 1, 0], 1: [0.2, 0.5, 0.3] })],
    };
    const a = 0.4;
    const b = (1 + 1.5) / (1 + a) - 1;
    const { split, splitOdds } = splitFirst(network, [1.5, 0.7], a, b);
    const evidence = [{ finding: 0, weights: new Float64Array([0.1, 1, 0.3]) }];
    const whole = believed(posterior(network, [1.5, 0.7], evidence, 3));
    const halves = believed(posterior(split, splitOdds, evidence, 3));
    const { conditions, chance } = halves.belief;
    let either = 0;
    for (let i = 0; i < conditions.count; i++) {
      const { active } = membersOf(conditions, i);
      if (active.includes(0) || active.includes(2)) either += chance[i]!;
    }
    expect(either).toBeCloseTo(marginals(whole.belief)[0]!, 12);
    expect(halves.logChance).toBeCloseTo(whole.logChance, 12);
  });
});

describe('findings that cannot all be true', () => {
  const network: Network = {
    faults: ['open-fuse', 'dead-core'],
    findings: [
      yesNo('rails-missing', 0, { 0: 1 }),
      yesNo('fuse-open', 0, { 0: 1 }),
      yesNo('no-image', 0.1, { 0: 1, 1: 0.9 }),
    ],
  };

  it('names the finding that breaks it and the earlier one it breaks against', () => {
    const observed = posterior(
      network,
      [0.1, 0.1],
      [crisp(network, 2, 1), crisp(network, 1, 1), crisp(network, 0, 0)],
      2,
    );
    expect(observed).toEqual({ kind: 'contradiction', finding: 0, against: [1] });
  });

  it('names a finding that no condition allows by itself', () => {
    const never: Network = { faults: ['f'], findings: [finding('x', ['a', 'b'], [1, 0], { 0: [1, 0] })] };
    expect(posterior(never, [0.1], [crisp(never, 0, 1)], 1)).toEqual({
      kind: 'contradiction',
      finding: 0,
      against: [],
    });
  });

  it('needs two earlier findings where neither alone forbids the third', () => {
    // at most one fault: x shows f, y shows g; both together are impossible only because z says there is no h
    const three: Network = {
      faults: ['f', 'g', 'h'],
      findings: [yesNo('x', 0, { 0: 1, 2: 1 }), yesNo('y', 0, { 1: 1, 2: 1 }), yesNo('z', 0, { 2: 1 })],
    };
    const observed = posterior(three, [1, 1, 1], [crisp(three, 2, 0), crisp(three, 0, 1), crisp(three, 1, 1)], 1);
    expect(observed).toEqual({ kind: 'contradiction', finding: 1, against: [2, 0] });
  });

  it('says so where odds of 0 rule out the only fault that could explain it', () => {
    expect(posterior(network, [0, 0.1], [crisp(network, 1, 1)], 2).kind).toBe('contradiction');
  });

  it('keeps to what is possible where the chance is far below what a double can hold', () => {
    // 80 findings of chance 1e-6 each: P(e) = 1e-480, and still the fault explains half of them ten times better
    const many: Network = {
      faults: ['f'],
      findings: Array.from({ length: 80 }, (_, j) => yesNo(`x${j}`, 1e-6, j < 3 ? { 0: 1e-5 } : {})),
    };
    const { belief, logChance } = believed(
      posterior(
        many,
        [1],
        many.findings.map((_, j) => crisp(many, j, 1)),
        1,
      ),
    );
    const ratio = ((1 - (1 - 1e-6) * (1 - 1e-5)) / 1e-6) ** 3;
    expect(belief.chance[1]! / belief.chance[0]! / ratio).toBeCloseTo(1, 9);
    expect(logChance).toBeCloseTo(80 * Math.log(1e-6) + Math.log((1 + ratio) / 2), 6);
  });
});

describe('malformed evidence', () => {
  const network: Network = { faults: ['f'], findings: [yesNo('link', 0.1, { 0: 0.8 })] };
  const evidence = (weights: number[], index = 0) => [{ finding: index, weights: Float64Array.from(weights) }];

  it.each([
    ['weights of the wrong number', evidence([1]), 'link has 2 states and was given 1 weights'],
    ['a weight that is not a number', evidence([Number.NaN, 1]), 'link: weight of no is NaN'],
    ['a weight above one', evidence([0, 1.5]), 'link: weight of yes is 1.5'],
    ['a finding that does not exist', evidence([0, 1], 7), 'there is no finding number 7'],
    ['the same finding twice', [...evidence([0, 1]), ...evidence([1, 0])], 'link has two pieces of evidence'],
  ])('refuses %s', (_, bad, words) => {
    expect(() => posterior(network, [0.1], bad, 1)).toThrow(words);
  });

  it('refuses odds that are not a number for each fault', () => {
    expect(() => posterior(network, [], [], 1)).toThrow('1 faults and 0 odds');
    expect(() => posterior(network, [Number.POSITIVE_INFINITY], [], 1)).toThrow('odds of f are Infinity');
  });
});

function splitFirst(network: Network, odds: readonly number[], a: number, b: number) {
  const split: Network = {
    faults: [...network.faults, 'other-half'],
    findings: network.findings.map((node) => ({
      ...node,
      given: [
        ...node.given,
        ...node.given.filter((row) => row.fault === 0).map((row) => ({ ...row, fault: odds.length })),
      ],
    })),
  };
  return { split, splitOdds: [a, ...odds.slice(1), b] };
}

const total = (values: Float64Array) => values.reduce((a, b) => a + b, 0);

function expectClose(found: Float64Array, wanted: Float64Array): void {
  expect(found.length).toBe(wanted.length);
  for (let i = 0; i < wanted.length; i++) expect(Math.abs(found[i]! - wanted[i]!)).toBeLessThan(EQUAL);
}
