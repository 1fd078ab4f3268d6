import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Belief,
  chanceAnyOf,
  chanceNoneOf,
  groupChances,
  marginals,
  restrict,
  topConditions,
} from '../../src/belief/belief.ts';
import { enumerate, membersOf, pick } from '../../src/belief/conditions.ts';
import { posterior } from '../../src/belief/observe.ts';
import { predict, stateLikelihoods } from '../../src/belief/predict.ts';
import { bruteForce } from './brute-force.ts';
import { arbitraryProblem, SEED } from './networks.ts';

describe('the list of conditions', () => {
  it('holds every set of at most two of three faults, the sound card first', () => {
    const all = enumerate(3, 2);
    const sets = Array.from({ length: all.count }, (_, i) => membersOf(all, i).active);
    expect(sets).toEqual([[], [0], [1], [2], [0, 1], [0, 2], [1, 2]]);
  });

  it.each([
    [49, 3, 19650],
    [49, 0, 1],
    [49, 2, 1226],
    [5, 5, 32],
    [2, 5, 4],
    [20, 5, 21700],
  ])('holds the binomial number of sets: %i faults, at most %i', (faults, most, count) => {
    const all = enumerate(faults, most);
    expect(all.count).toBe(count);
    const keys = Array.from({ length: count }, (_, i) => membersOf(all, i).active.join());
    expect(new Set(keys).size).toBe(count);
  });

  it.each([
    [3, 17],
    [3, -1],
    [3, 1.5],
  ])('refuses %i faults with at most %f at once', (faults, most) => {
    expect(() => enumerate(faults, most)).toThrow('give a whole number from 0 to 16');
  });
});

it('refuses a list that would not fit, and says what to do', () => {
  expect(() => enumerate(200, 5)).toThrow('allow fewer at once');
});

/** Four conditions of three faults, one with a dormant member: fault 1 sleeps beside an active 2. */
const asleep: Belief = (() => {
  const conditions = pick(enumerate(3, 2), [0, 1, 4, 6]);
  conditions.dormant[3] = 0b01;
  return { conditions, chance: new Float64Array([0.1, 0.2, 0.3, 0.4]) };
})();

describe('what can be read off a belief', () => {
  it('counts a dormant fault as not active', () => {
    expect(membersOf(asleep.conditions, 3)).toEqual({ active: [2], dormant: [1] });
    const [a, b, c] = marginals(asleep);
    expect(a).toBeCloseTo(0.5, 15);
    expect(b).toBeCloseTo(0.3, 15);
    expect(c).toBeCloseTo(0.4, 15);
  });

  it('says how likely none, or any, of some faults is active', () => {
    expect(chanceNoneOf(asleep, [1, 1, 0])).toBeCloseTo(0.5, 15);
    expect(chanceAnyOf(asleep, [1, 1, 0])).toBeCloseTo(0.5, 15);
    expect(chanceNoneOf(asleep, [0, 0, 0])).toBeCloseTo(1, 15);
  });

  it('counts a site once where two of its faults are active', () => {
    const [board, host] = groupChances(asleep, [0, 0, 1], 2);
    expect(board).toBeCloseTo(0.5, 15);
    expect(host).toBeCloseTo(0.4, 15);
  });

  it('leaves a dormant fault out of what a finding will show', () => {
    const network = {
      faults: ['a', 'b', 'c'],
      findings: [
        {
          id: 'x',
          states: ['no', 'yes'],
          leak: new Float64Array([1, 1]),
          given: [{ fault: 1, cumulative: new Float64Array([0, 1]) }],
        },
      ],
    };
    // only the third condition has fault 1 awake
    expect([...stateLikelihoods(network, 0, asleep.conditions)[1]!]).toEqual([0, 0, 1, 0]);
    expect(predict(network, 0, asleep)[1]).toBeCloseTo(0.3, 15);
  });

  it('agrees with plain loops over random beliefs', () => {
    fc.assert(
      fc.property(arbitraryProblem(5, 4), fc.integer({ min: 0, max: 4 }), ({ network, odds, evidence }, most) => {
        const observed = posterior(network, odds, evidence, most);
        if (observed.kind !== 'belief') return;
        const { belief } = observed;
        const mask = odds.map((_, f) => f % 2);
        let none = 0;
        for (let i = 0; i < belief.conditions.count; i++) {
          if (membersOf(belief.conditions, i).active.every((f) => mask[f] === 0)) none += belief.chance[i]!;
        }
        expect(chanceNoneOf(belief, mask)).toBeCloseTo(none, 13);
        expect(chanceAnyOf(belief, mask)).toBeCloseTo(1 - none, 13);
        expect(groupChances(belief, mask, 2)[1]).toBeCloseTo(1 - none, 13);
        const joint = bruteForce(network, odds, evidence, most);
        fc.pre(joint.chanceOfEvidence > 1e-12);
        for (const j of network.findings.keys()) {
          if (evidence.some(({ finding }) => finding === j)) continue;
          const shown = predict(network, j, belief);
          for (const [x, p] of joint.states[j]!.entries()) expect(Math.abs(shown[x]! - p)).toBeLessThan(1e-10);
        }
      }),
      { seed: SEED, numRuns: 300 },
    );
  });
});

describe('the likeliest conditions', () => {
  it('come likeliest first, ties in the order of the list', () => {
    expect(topConditions(asleep, 2)).toEqual([
      { active: [2], dormant: [1], chance: 0.4 },
      { active: [0, 1], dormant: [], chance: 0.3 },
    ]);
  });

  it('cover the wanted mass with as few as can be, keep their proportions and say what they cover', () => {
    const kept = restrict(asleep, 0.65, 10);
    expect([...kept.index]).toEqual([3, 2]);
    expect(kept.coverage).toBeCloseTo(0.7, 15);
    expect(kept.chance[0]).toBeCloseTo(4 / 7, 15);
    expect(kept.conditions.dormant[0]).toBe(1);
  });

  it('stop at the most that is wanted, and say that they fall short', () => {
    expect(restrict(asleep, 0.99, 1).coverage).toBeCloseTo(0.4, 15);
  });

  it('agree with sorting everything, for any belief and any number wanted', () => {
    const arbitraryBelief = fc.array(fc.integer({ min: 0, max: 20 }), { minLength: 22, maxLength: 22 });
    fc.assert(
      fc.property(
        arbitraryBelief,
        fc.integer({ min: 1, max: 30 }),
        fc.integer({ min: 1, max: 100 }),
        (parts, most, percent) => {
          const whole = parts.reduce((a, b) => a + b, 0);
          fc.pre(whole > 0);
          const belief = { conditions: enumerate(6, 2), chance: Float64Array.from(parts, (part) => part / whole) };
          const order = parts.map((_, i) => i).filter((i) => parts[i]! > 0);
          order.sort((a, b) => parts[b]! - parts[a]! || a - b);
          expect(topConditions(belief, most).map(({ chance }) => chance)).toEqual(
            order.slice(0, most).map((i) => belief.chance[i]),
          );
          const kept = restrict(belief, percent / 100, most);
          expect([...kept.index]).toEqual(order.slice(0, kept.index.length));
          const shorter = order.slice(0, kept.index.length - 1).reduce((sum, i) => sum + belief.chance[i]!, 0);
          expect(shorter).toBeLessThan(percent / 100);
          if (kept.index.length < Math.min(most, order.length))
            expect(kept.coverage).toBeGreaterThanOrEqual(percent / 100 - 1e-12);
        },
      ),
      { seed: SEED, numRuns: 300 },
    );
  });
});
