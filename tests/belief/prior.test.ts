import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { marginals } from '../../src/belief/belief.ts';
import { posterior } from '../../src/belief/observe.ts';
import {
  elementarySymmetric,
  excludedMass,
  priorShape,
  solveKappa,
  solvePopulation,
  startingOdds,
  wearFactor,
} from '../../src/belief/prior.ts';
import { SEED } from './networks.ts';

const arbitraryShares = fc
  .array(fc.integer({ min: 1, max: 600 }), { minLength: 2, maxLength: 49 })
  .map((parts) => parts.map((part) => part / 1000));

/** P(two or more) by listing every set of at most `most` faults. */
function severalByListing(odds: readonly number[], most: number): number {
  let one = 0;
  let several = 0;
  const extend = (from: number, size: number, product: number): void => {
    if (size >= 2) several += product;
    else one += product;
    if (size === most) return;
    for (let f = from; f < odds.length; f++) extend(f + 1, size + 1, product * odds[f]!);
  };
  extend(0, 0, 1);
  return several / (one + several);
}

describe('the factor common to all odds', () => {
  it('is the root of its quadratic for two equal shares', () => {
    // k^2 / (1 + k)^2 = .2: k = sqrt(.2) / (1 - sqrt(.2)) = (1 + sqrt 5) / 4
    expect(solveKappa([0.5, 0.5], 0.2, 2) / ((1 + Math.sqrt(5)) / 4)).toBeCloseTo(1, 13);
  });

  it('meets the stated share of cards with more than one fault', () => {
    fc.assert(
      fc.property(
        arbitraryShares,
        fc.integer({ min: 1, max: 999 }),
        fc.integer({ min: 2, max: 3 }),
        (shares, permille, most) => {
          const kappa = solveKappa(shares, permille / 1000, most);
          const odds = shares.map((s) => (kappa * s) / (1 - s));
          expect(severalByListing(odds, most) / (permille / 1000)).toBeCloseTo(1, 10);
        },
      ),
      { seed: SEED, numRuns: 40 },
    );
  });

  it('is found for shares and figures many powers of ten apart', () => {
    for (const share of [1e-9, 1e-3, 0.999]) {
      for (const several of [1e-9, 0.5, 1 - 1e-9]) {
        const kappa = solveKappa([share, share, share / 7], several, 3);
        const odds = [share, share, share / 7].map((s) => (kappa * s) / (1 - s));
        expect(severalByListing(odds, 3) / several).toBeCloseTo(1, 9);
      }
    }
  });

  it('keeps single faults at the odds they have with pairs, where no pair may be listed', () => {
    expect(solveKappa([0.1, 0.2, 0.3], 0.2, 0)).toBe(solveKappa([0.1, 0.2, 0.3], 0.2, 2));
    expect(solveKappa([0.1, 0.2, 0.3], 0.2, 1)).toBe(solveKappa([0.1, 0.2, 0.3], 0.2, 2));
  });

  it.each([
    ['a share of one', [1, 0.1], 0.2, 'share of fault 0 is 1'],
    ['a share that is not a number', [0.1, Number.NaN], 0.2, 'share of fault 1 is NaN'],
    ['a figure of nought', [0.1, 0.1], 0, 'more than one fault is 0'],
    ['a figure of one', [0.1, 0.1], 1, 'more than one fault is 1'],
    ['a single fault', [0.1, 0], 0.2, 'fewer than two faults'],
  ])('refuses %s', (_, shares, figure, words) => {
    expect(() => solveKappa(shares, figure, 3)).toThrow(words);
  });
});

describe('a population with a stated share of sound cards', () => {
  it('is fitted by hand for two equal shares', () => {
    // k^2 / 2k = .2 / .6: k = 2/3; empty / (4/3 + 4/9) = .2 / .8: empty = 4/9
    const { kappa, empty } = solvePopulation([0.5, 0.5], 0.2, 0.2, 2);
    expect(kappa).toBeCloseTo(2 / 3, 13);
    expect(empty).toBeCloseTo(4 / 9, 13);
  });

  it('has both shares as stated in the belief a card starts with', () => {
    fc.assert(
      fc.property(
        arbitraryShares,
        fc.integer({ min: 1, max: 60 }),
        fc.integer({ min: 1, max: 39 }),
        (shares, none, several) => {
          const { kappa, empty } = solvePopulation(shares, none / 100, several / 100, 2);
          const odds = startingOdds(
            shares,
            kappa,
            shares.map(() => 1),
          );
          const network = { faults: shares.map((_, f) => `f${f}`), findings: [] };
          const observed = posterior(network, odds, [], 2, undefined, empty);
          if (observed.kind !== 'belief') throw new Error('expected a belief');
          const { chance, conditions } = observed.belief;
          const pairs = chance.slice('levels' in conditions ? (conditions.levels as Int32Array)[2] : 0);
          expect(chance[0]! / (none / 100)).toBeCloseTo(1, 11);
          expect(pairs.reduce((a, b) => a + b, 0) / (several / 100)).toBeCloseTo(1, 10);
          const shape = priorShape(odds, 2, empty);
          expect(shape.none / (none / 100)).toBeCloseTo(1, 11);
          expect(shape.several / (several / 100)).toBeCloseTo(1, 10);
        },
      ),
      { seed: SEED, numRuns: 40 },
    );
  });

  it('has nothing but sound cards where no fault may be there', () => {
    const { kappa, empty } = solvePopulation([0.1, 0.2], 0.05, 0.2, 0);
    const network = { faults: ['f', 'g'], findings: [] };
    const observed = posterior(network, startingOdds([0.1, 0.2], kappa, [1, 1]), [], 0, undefined, empty);
    expect(observed.kind === 'belief' && [...observed.belief.chance]).toEqual([1]);
  });

  it('refuses shares that leave no card with a single fault', () => {
    expect(() => solvePopulation([0.1, 0.2], 0.5, 0.5, 3)).toThrow('together below 1');
  });
});

describe('wear', () => {
  it('doubles the odds at twice the reference age where the hazard grows in proportion to age', () => {
    expect(wearFactor(6, 3, 2)).toBe(2);
  });
  it('leaves a fault that does not wear alone', () => expect(wearFactor(9, 3, 1)).toBe(1));
  it('makes early failures less likely on an old card', () => expect(wearFactor(12, 3, 0.5)).toBe(0.5));
  it('trusts the curve one decade either side of the reference and no further', () => {
    expect(wearFactor(1000, 3, 2)).toBe(10);
    expect(wearFactor(0, 3, 2)).toBe(0.1);
  });
  it('refuses an age below nought', () => expect(() => wearFactor(-1, 3, 2)).toThrow('none may be negative'));
});

describe('odds of one card', () => {
  it('are the population odds times the factors of its history', () => {
    const [first, second] = startingOdds([0.5, 0.2], 0.8, [2, 1]);
    expect(first).toBeCloseTo(1.6, 14);
    expect(second).toBeCloseTo(0.2, 14);
  });
  it('needs a factor for every fault', () =>
    expect(() => startingOdds([0.5], 1, [])).toThrow('1 shares and 0 factors'));
});

describe('what the cap leaves out', () => {
  it('is the chance of both for two even faults and a cap of one', () =>
    expect(excludedMass([1, 1], 1)).toBeCloseTo(0.25, 15));

  it('is the upper tail of a binomial for equal faults', () => {
    // n = 49, p = .01: P(X > 3) = sum of C(49, k) p^k q^(49 - k), k = 4..49
    let tail = 0;
    let choose = 1;
    for (let k = 0; k <= 49; k++) {
      if (k > 3) tail += choose * 0.01 ** k * 0.99 ** (49 - k);
      choose = (choose * (49 - k)) / (k + 1);
    }
    expect(excludedMass(new Float64Array(49).fill(1 / 99), 3) / tail).toBeCloseTo(1, 12);
  });

  it('keeps its digits where almost nothing is left out', () => {
    // four faults of odds 1e-5, cap three: all four at once, 1e-20 / (1 + 1e-5)^4
    expect(excludedMass([1e-5, 1e-5, 1e-5, 1e-5], 3) / (1e-20 / (1 + 1e-5) ** 4)).toBeCloseTo(1, 12);
  });

  it('is nothing when every fault may be there at once', () => expect(excludedMass([0.3, 2, 0.1], 3)).toBe(0));

  it('agrees with the prior that the posterior starts from', () => {
    const odds = [0.3, 2, 0.1, 0.05, 0.6];
    const network = { faults: odds.map((_, f) => `f${f}`), findings: [] };
    const observed = posterior(network, odds, [], 2);
    if (observed.kind !== 'belief') throw new Error('expected a belief');
    const { none, several, excluded } = priorShape(odds, 2);
    expect(observed.logChance).toBeCloseTo(0, 13);
    expect(observed.belief.chance[0]).toBeCloseTo(none, 14);
    expect(several).toBeCloseTo(severalByListing(odds, 2), 14);
    const all = odds.reduce((product, o) => product * (1 + o), 1);
    const kept = [...elementarySymmetric(odds, 2)].reduce((a, b) => a + b, 0);
    expect(excluded).toBeCloseTo(1 - kept / all, 13);
    // without the cap each fault is there with o / (1 + o)
    const free = posterior(network, odds, [], 5);
    if (free.kind !== 'belief') throw new Error('expected a belief');
    for (const [f, p] of marginals(free.belief).entries()) expect(p).toBeCloseTo(odds[f]! / (1 + odds[f]!), 13);
  });

  it('refuses endless odds', () =>
    expect(() => priorShape([Number.POSITIVE_INFINITY], 1)).toThrow('odds of fault 0 are Infinity'));
});
