/** One size of the comparison with bayesjs, in a process of its own: arguments are how many faults, and the seed. */
import bayesjs from 'bayesjs';
import { marginals } from '../../src/belief/belief.ts';
import type { Evidence, FindingNode, Network } from '../../src/belief/network.ts';
import { posterior } from '../../src/belief/observe.ts';
import { createRandom } from '../../src/decision/random.ts';
import { arrivedCard, drawFinding, fullKnowledge, shuffled } from './arrived-card.ts';

export interface LibraryRound {
  readonly findings: number;
  /** rows of the full tables of all findings together */
  readonly rows: number;
  readonly observed: number;
  /** milliseconds per round, evidence never seen before, network known */
  readonly reference: readonly number[];
  readonly ours: readonly number[];
  /** largest absolute difference of any fault's chance in any round */
  readonly difference: number;
}

const ROUNDS = 3;
const OBSERVED = 20;
/** our posteriors are too short for the clock one by one */
const BATCH = 50;

const [faults, seed] = process.argv.slice(2).map(Number) as [number, number];
process.stdout.write(JSON.stringify(await compare(faults, seed)));

async function compare(size: number, fromSeed: number): Promise<LibraryRound> {
  const knowledge = await fullKnowledge();
  const random = createRandom(fromSeed + size);
  const odds = arrivedCard(knowledge, random, 0, 3).odds.slice(0, size);
  const network = firstFaults(knowledge.network, size);
  const tables = asTables(network, odds);
  const reference: number[] = [];
  const ours: number[] = [];
  let difference = 0;
  let observed = 0;
  // round 0 is not counted: the library builds its junction tree, both are compiled
  for (let round = 0; round <= ROUNDS; round++) {
    const sick = network.faults.map((_, f) => f).filter((f) => random.next() < odds[f]! / (1 + odds[f]!));
    const chosen = shuffled(network.findings.keys(), random).slice(0, OBSERVED);
    const evidence = chosen.map((finding) => drawFinding(network, finding, sick, random));
    observed = evidence.length;
    const start = performance.now();
    const theirs = libraryPosterior(tables, network, evidence);
    const between = performance.now();
    let found = new Float64Array(0);
    for (let i = 0; i < BATCH; i++) found = believe(network, odds, evidence);
    const end = performance.now();
    if (round > 0) {
      reference.push(between - start);
      ours.push((end - between) / BATCH);
    }
    for (const [f, p] of theirs.entries()) difference = Math.max(difference, Math.abs(p - found[f]!));
  }
  const rows = network.findings.reduce((sum, node) => sum + 2 ** node.given.length, 0);
  return { findings: network.findings.length, rows, observed, reference, ours, difference };
}

function believe(network: Network, odds: Float64Array, evidence: readonly Evidence[]): Float64Array<ArrayBuffer> {
  const observed = posterior(network, odds, evidence, network.faults.length);
  if (observed.kind !== 'belief') throw new Error('a simulated card contradicts the network it was drawn from');
  return Float64Array.from(marginals(observed.belief));
}

function libraryPosterior(tables: Tables, network: Network, evidence: readonly Evidence[]): number[] {
  const given: Record<string, string> = {};
  for (const { finding, weights } of evidence) {
    const node = network.findings[finding]!;
    given[node.id] = node.states[weights.indexOf(1)]!;
  }
  return network.faults.map((fault) => bayesjs.inferences.junctionTree.infer(tables, { [fault]: 'yes' }, given));
}

/** The first faults of the network, and the findings that see any of them. */
function firstFaults(network: Network, size: number): Network {
  const findings = network.findings
    .map((node) => ({ ...node, given: node.given.filter(({ fault }) => fault < size) }))
    .filter((node) => node.given.length > 0);
  return { faults: network.faults.slice(0, size), findings };
}

type Tables = Parameters<typeof bayesjs.infer>[0];

function asTables(network: Network, odds: Float64Array): Tables {
  const tables: Tables = {};
  for (const [f, id] of network.faults.entries()) {
    const yes = odds[f]! / (1 + odds[f]!);
    tables[id] = { id, states: ['no', 'yes'], parents: [], cpt: { no: 1 - yes, yes } };
  }
  for (const node of network.findings) {
    const parents = node.given.map(({ fault }) => network.faults[fault]!);
    const cpt = Array.from({ length: 2 ** parents.length }, (_, bits) => ({
      // biome-ignore lint/suspicious/noThenProperty: the library's name for the chances of a row
      then: chances(node, bits),
      when: Object.fromEntries(parents.map((parent, i) => [parent, (bits >> i) & 1 ? 'yes' : 'no'])),
    }));
    tables[node.id] = { id: node.id, states: [...node.states], parents, cpt };
  }
  return tables;
}

function chances(node: FindingNode, bits: number): Record<string, number> {
  const below = node.given.reduce(
    (product, { cumulative }, i) => ((bits >> i) & 1 ? product.map((p, x) => p * cumulative[x]!) : product),
    Float64Array.from(node.leak),
  );
  return Object.fromEntries(node.states.map((state, x) => [state, below[x]! - (x > 0 ? below[x - 1]! : 0)]));
}
