import { describe, expect, it } from 'vitest';
import { marginals } from '../../src/belief/belief.ts';
import { posterior } from '../../src/belief/observe.ts';
import { solveKappa, solvePopulation, startingOdds } from '../../src/belief/prior.ts';
import { type ExportedKnowledge, exportKnowledge } from '../../src/knowledge/export.ts';
import type { Knowledge } from '../../src/knowledge/knowledge.ts';
import { loadKnowledge } from '../../src/knowledge/load.ts';
import { parseKnowledge } from '../../src/knowledge/parse.ts';
import { brokenIn, smallKnowledge } from './small-knowledge.ts';

type Weights = { readonly [finding: string]: readonly number[] };

/** The posterior by brute force, from the exported JSON and its docstring alone. */
function bruteForce(
  exported: ExportedKnowledge,
  odds: { [fault: string]: number },
  empty: number,
  weights: Weights,
  most: number,
) {
  let sets: string[][] = [[]];
  for (const { id } of exported.faults) sets = sets.flatMap((set) => (set.length < most ? [set, [...set, id]] : [set]));
  const joint = sets.map((set) => {
    let product = set.length === 0 ? empty : set.reduce((all, fault) => all * odds[fault]!, 1);
    for (const { id, states, leak, given } of exported.findings) {
      if (weights[id] === undefined) continue;
      const upTo = (row: readonly number[], x: number) => row.slice(0, x + 1).reduce((a, b) => a + b, 0);
      const below = states.map((_, x) =>
        set.reduce((all, fault) => all * (given[fault] ? upTo(given[fault], x) : 1), upTo(leak, x)),
      );
      product *= below.reduce((sum, c, x) => sum + weights[id]![x]! * (c - (below[x - 1] ?? 0)), 0);
    }
    return product;
  });
  const total = joint.reduce((a, b) => a + b, 0);
  const chance = (id: string) => joint.reduce((sum, p, i) => sum + (sets[i]!.includes(id) ? p : 0), 0) / total;
  return exported.faults.map(({ id }) => chance(id));
}

/** kappa by bisection and the weight of the empty set, from the definition in the docstring. */
function brutePopulation(exported: ExportedKnowledge, most: number): { kappa: number; empty: number } {
  const { moreThanOneFault, noFault } = exported.population;
  const shapes = (kappa: number) => {
    const byCount = new Array<number>(most + 1).fill(0);
    byCount[0] = 1;
    for (const { odds } of exported.faults)
      for (let k = most; k > 0; k--) byCount[k] = byCount[k]! + byCount[k - 1]! * odds * kappa;
    const several = byCount.slice(2).reduce((a, b) => a + b, 0);
    const faulty = several + byCount[1]!;
    const empty = noFault === null ? 1 : (faulty * noFault) / (1 - noFault);
    return { several: several / (empty + faulty), empty };
  };
  let [low, high] = [1e-6, 1e6];
  for (let i = 0; i < 200; i++) {
    const middle = Math.sqrt(low * high);
    if (shapes(middle).several < moreThanOneFault) low = middle;
    else high = middle;
  }
  return { kappa: low, empty: shapes(low).empty };
}

describe('The exported knowledge', () => {
  it('gives a posterior that can be worked out by hand', async () => {
    const exported = JSON.parse(JSON.stringify(exportKnowledge(await smallKnowledge()))) as ExportedKnowledge;
    const odds = { 'core-joint-crack': 0.1, 'core-stage-short': 0.2, 'host-supply': 0.05 };
    // One fault at most, core rail measured short. P(short | no stage short) = 0.01; with it 1 - 0.99 * 0.1 = 0.901.
    // Weights of {}, crack, stage short, supply: 0.01, 0.001, 0.1802, 0.0005; they sum to 0.1917.
    const chances = bruteForce(exported, odds, 1, { 'resistance-core': [0, 0, 1] }, 1);
    const byHand = [0.001 / 0.1917, 0.1802 / 0.1917, 0.0005 / 0.1917];
    chances.forEach((chance, i) => {
      expect(chance).toBeCloseTo(byHand[i]!, 14);
    });
  });

  it.each([
    ['the empty set weighs as the product leaves it', undefined],
    ['a share of cards without any fault is stated', { p: 0.3, n: 20, basis: 'estimate' }],
  ])('is enough to recompute by brute force what the program infers, to 1e-9, where %s', async (_, noFault) => {
    const files = brokenIn('population.json', (population) => {
      if (noFault) population.noFault = noFault;
    });
    const parsed = await parseKnowledge(files);
    if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
    const exported = JSON.parse(JSON.stringify(exportKnowledge(parsed.knowledge))) as ExportedKnowledge;
    const weights: Weights = { 'start-up': [0.1, 1, 0.3], 'resistance-core': [1, 0, 0], 'host-swap': [0, 1] };
    agree(parsed.knowledge, exported, weights, 3);
  });

  it('is enough for the real knowledge too, with two faults at once', async () => {
    const loaded = await loadKnowledge();
    if (!loaded.ok) throw new Error('the rules do not pass their audit: see the test of the real rules');
    const exported = JSON.parse(JSON.stringify(exportKnowledge(loaded.knowledge))) as ExportedKnowledge;
    const weights = Object.fromEntries(
      exported.findings
        .filter((_, j) => j % 4 === 0)
        .map(({ id, states }, j) => [id, states.map((_, x) => 1 / (1 + ((x + j) % 3)))]),
    );
    agree(loaded.knowledge, exported, weights, 2);
  });
});

function agree(knowledge: Knowledge, exported: ExportedKnowledge, weights: Weights, most: number): void {
  const { kappa, empty } = brutePopulation(exported, most);
  const odds = Object.fromEntries(exported.faults.map((fault) => [fault.id, fault.odds * kappa]));
  const { population, faults, network } = knowledge;
  const shares = faults.map(({ share }) => share.p);
  const { p: several } = population.moreThanOneFault;
  const fitted = population.noFault
    ? solvePopulation(shares, population.noFault.p, several, most)
    : { kappa: solveKappa(shares, several, most), empty: 1 };
  expect(kappa).toBeCloseTo(fitted.kappa, 9);
  expect(empty).toBeCloseTo(fitted.empty, 9);
  const evidence = network.findings.flatMap(({ id }, finding) =>
    weights[id] ? [{ finding, weights: Float64Array.from(weights[id]) }] : [],
  );
  const inferred = posterior(
    network,
    startingOdds(
      shares,
      fitted.kappa,
      shares.map(() => 1),
    ),
    evidence,
    most,
    undefined,
    fitted.empty,
  );
  if (inferred.kind !== 'belief') throw new Error('the evidence is possible');
  const chances = marginals(inferred.belief);
  bruteForce(exported, odds, empty, weights, most).forEach((chance, i) => {
    expect(Math.abs(chance - chances[i]!)).toBeLessThan(1e-9);
  });
}
