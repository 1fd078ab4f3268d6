/** Published answers on inference, run through the functions the product uses. The source stands beside each. */
import { describe, expect, it } from 'vitest';
import { marginals } from '../../src/belief/belief.ts';
import { enumerate, membersOf } from '../../src/belief/conditions.ts';
import type { Evidence, Network } from '../../src/belief/network.ts';
import { posterior } from '../../src/belief/observe.ts';
import { predict, stateLikelihoods } from '../../src/belief/predict.ts';
import { crisp, finding, yesNo } from '../belief/networks.ts';
import { type GeneralNetwork, query } from './general-network.ts';

const oddsOf = (...chances: number[]) => chances.map((p) => p / (1 - p));

function believe(network: Network, odds: readonly number[], evidence: readonly Evidence[], most = 5) {
  const observed = posterior(network, odds, evidence, most);
  if (observed.kind !== 'belief') throw new Error('expected a belief');
  return { ...observed, chances: [...marginals(observed.belief)], p: Math.exp(observed.logChance) };
}

describe('noisy-OR, the fever table (S. Russell, P. Norvig, Artificial Intelligence: A Modern Approach, Bayesian networks)', () => {
  const network: Network = {
    faults: ['cold', 'flu', 'malaria'],
    findings: [yesNo('fever', 0, { 0: 0.4, 1: 0.8, 2: 0.9 })],
  };
  const all = enumerate(3, 3);
  const noFever = stateLikelihoods(network, 0, all)[0]!;
  it.each([
    [[], 1],
    [[2], 0.1],
    [[1], 0.2],
    [[1, 2], 0.02],
    [[0], 0.6],
    [[0, 2], 0.06],
    [[0, 1], 0.12],
    [[0, 1, 2], 0.012],
  ])('gives P(no fever) with causes %j as %f', (causes, printed) => {
    const at = Array.from({ length: all.count }, (_, i) => i).find(
      (i) => membersOf(all, i).active.join() === causes.join(),
    );
    expect(noFever[at!]).toBeCloseTo(printed, 14);
  });
});

describe('two-level network of three faults (constructed; exact rational arithmetic)', () => {
  const network: Network = {
    faults: ['d1', 'd2', 'd3'],
    findings: [
      yesNo('F1', 0.01, { 0: 0.8, 1: 0.3 }),
      yesNo('F2', 0.02, { 0: 0.5, 2: 0.9 }),
      yesNo('F3', 0.01, { 1: 0.7, 2: 0.4 }),
    ],
  };
  const odds = oddsOf(0.1, 0.05, 0.02);
  it.each([
    ['F1+', [1], 0.102862, [0.7825727674, 0.1761777916, 0.02]],
    ['F1+ F2+', [1, 1], null, [0.9802414453, 0.0646528986, 0.0454055905]],
    ['F1+ F2+ F3-', [1, 1, 0], null, [0.9903435969, 0.0196677007, 0.0255433312]],
    ['all +', [1, 1, 1], 0.00300923533453, [0.847315595, 0.6565758806, 0.3067566189]],
    ['all -', [0, 0, 0], null, [0.010989011, 0.0109318064, 0.0012229923]],
  ])('%s', (_, states, p, wanted) => {
    const found = believe(
      network,
      odds,
      states.map((state, j) => crisp(network, j, state)),
    );
    if (p !== null) expect(Math.abs(found.p / p - 1)).toBeLessThan(1e-11);
    for (const [f, chance] of wanted.entries()) expect(Math.abs(found.chances[f]! - chance)).toBeLessThan(5.1e-11);
  });
});

// by hand: .97 * .1 = .097, .02 * .9 = .018, .01 * .2 = .002; together .117; .097/.117 .018/.117 .002/.117
describe('Bayes with three states of nature: prior .97 .02 .01, likelihood .1 .9 .2', () => {
  // two faults that exclude each other, K = 1: the odds against "none" are .02 / .97 and .01 / .97
  const network: Network = {
    faults: ['a', 'b'],
    findings: [finding('x', ['no', 'yes'], [0.9, 0.1], { 0: [0.1 / 0.9, 0.8 / 0.9], 1: [0.8 / 0.9, 0.1 / 0.9] })],
  };
  it('makes them .829 .154 .017', () => {
    const { belief } = believe(network, [0.02 / 0.97, 0.01 / 0.97], [crisp(network, 0, 1)], 1);
    const printed = [0.829, 0.154, 0.017];
    for (const [i, p] of printed.entries()) expect(Math.abs(belief.chance[i]! - p)).toBeLessThan(0.0005);
  });
  it('gives the same from soft evidence that carries the likelihoods as weights', () => {
    // one finding per fault that shows it with certainty; weights 1 : 9 : 2 scaled into [0, 1]
    const direct: Network = {
      faults: ['a', 'b'],
      findings: [finding('which', ['none', 'a', 'b'], [1, 0, 0], { 0: [0, 1, 0], 1: [0, 0, 1] })],
    };
    const { belief } = believe(
      direct,
      [0.02 / 0.97, 0.01 / 0.97],
      [{ finding: 0, weights: new Float64Array([0.1, 0.9, 0.2]) }],
      1,
    );
    const printed = [0.829, 0.154, 0.017];
    for (const [i, p] of printed.entries()) expect(Math.abs(belief.chance[i]! - p)).toBeLessThan(0.0005);
  });
});

describe('chest clinic (S. L. Lauritzen, D. J. Spiegelhalter, J. R. Statist. Soc. B 50, 1988)', () => {
  const yes = (p: number) => [1 - p, p];
  const clinic: GeneralNetwork = [
    { name: 'asia', parents: [], rows: () => yes(0.01) },
    { name: 'smoke', parents: [], rows: () => yes(0.5) },
    { name: 'tub', parents: ['asia'], rows: (asia) => yes(asia ? 0.05 : 0.01) },
    { name: 'lung', parents: ['smoke'], rows: (smoke) => yes(smoke ? 0.1 : 0.01) },
    { name: 'bronc', parents: ['smoke'], rows: (smoke) => yes(smoke ? 0.6 : 0.3) },
    { name: 'either', parents: ['tub', 'lung'], rows: (tub, lung) => yes(tub || lung ? 1 : 0) },
    { name: 'xray', parents: ['either'], rows: (either) => yes(either ? 0.98 : 0.05) },
    {
      name: 'dysp',
      parents: ['bronc', 'either'],
      rows: (bronc, either) => yes(bronc ? (either ? 0.9 : 0.8) : either ? 0.7 : 0.1),
    },
  ];

  it.each([
    [{ xray: 1 }, { tub: 0.0924108832, smoke: 0.6877538534, lung: 0.4887114013, bronc: 0.506326156 }],
    [{ dysp: 1 }, { smoke: 0.6339968796, lung: 0.1027592228, bronc: 0.8339673363 }],
    [
      { asia: 1, xray: 1, dysp: 1 },
      { tub: 0.39171172, lung: 0.4442705078, bronc: 0.628821776 },
    ],
  ])('is answered by the enumerator that stands behind these tests: %j', (seen, wanted) => {
    const { chance } = query(clinic, seen);
    for (const [name, p] of Object.entries(wanted)) expect(Math.abs(chance(name) - p)).toBeLessThan(5.1e-11);
  });

  // What a two-layer network can say of the clinic: tuberculosis and cancer as faults (independent before anything is seen, at their
  // marginals), "either" as a finding that shows each with certainty, bronchitis and the X-ray's own error folded in.
  const tub = query(clinic, {}).chance('tub');
  const lung = query(clinic, {}).chance('lung');
  const layer: Network = {
    faults: ['tub', 'lung'],
    findings: [yesNo('culture', 0, { 0: 1 }), yesNo('either', 0, { 0: 1, 1: 1 })],
  };

  it('has the same chances in our network for an X-ray that shows a shadow', () => {
    // an X-ray of "either" with 98 % and 5 % is "either" itself seen with weights .05 and .98
    const found = believe(layer, oddsOf(tub, lung), [{ finding: 1, weights: new Float64Array([0.05, 0.98]) }]);
    expect(found.p).toBeCloseTo(0.11029004, 12);
    expect(found.chances[0]).toBeCloseTo(0.0924108832, 9);
    expect(found.chances[1]).toBeCloseTo(0.4887114013, 9);
  });

  it('says that tuberculosis without "either" is impossible, where a general library answers 0', () => {
    expect(query(clinic, { tub: 1, either: 0 }).chanceOfEvidence).toBe(0);
    expect(posterior(layer, oddsOf(tub, lung), [crisp(layer, 0, 1), crisp(layer, 1, 0)], 2)).toEqual({
      kind: 'contradiction',
      finding: 1,
      against: [0],
    });
  });
});

describe('polybox (J. de Kleer, B. C. Williams, Artificial Intelligence 32, 1987), one component at a time', () => {
  // X = AC (M1), Y = BD (M2), Z = CE (M3), F = X + Y (A1), G = Y + Z (A2). F is 10 where 12 is right; G is right.
  // A wrong part makes what hangs on it wrong. Two wrong parts can cancel out, which a MAX cannot say: hence K = 1.
  const network: Network = {
    faults: ['A1', 'A2', 'M1', 'M2', 'M3'],
    findings: [
      yesNo('F wrong', 0, { 0: 1, 2: 1, 3: 1 }),
      yesNo('G wrong', 0, { 1: 1, 3: 1, 4: 1 }),
      yesNo('X wrong', 0, { 2: 1 }),
      yesNo('Y wrong', 0, { 3: 1 }),
      yesNo('Z wrong', 0, { 4: 1 }),
    ],
  };
  const seen = [crisp(network, 0, 1), crisp(network, 1, 0)];
  const { belief } = believe(network, [0.01, 0.01, 0.01, 0.01, 0.01], seen, 1);

  it('leaves the single diagnoses A1 and M1', () => {
    const left = Array.from({ length: belief.conditions.count }, (_, i) => i).filter((i) => belief.chance[i]! > 0);
    expect(left.map((i) => membersOf(belief.conditions, i).active.map((f) => network.faults[f]))).toEqual([
      ['A1'],
      ['M1'],
    ]);
  });

  it('finds X the best place to probe', () => {
    const bits = [2, 3, 4].map((j) =>
      predict(network, j, belief).reduce((sum, p) => sum - (p > 0 ? p * Math.log2(p) : 0), 0),
    );
    expect(bits).toEqual([1, 0, 0]);
  });
});
