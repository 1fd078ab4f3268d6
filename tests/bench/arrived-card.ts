/** Cards as they arrive: faults drawn from the starting belief of the full knowledge, findings drawn from the network. */
import { populationOf } from '../../src/assess/starting-belief.ts';
import { enumerate, membersOf } from '../../src/belief/conditions.ts';
import type { Evidence, FindingNode, Network } from '../../src/belief/network.ts';
import { startingOdds } from '../../src/belief/prior.ts';
import type { Random } from '../../src/decision/random.ts';
import type { Knowledge } from '../../src/knowledge/knowledge.ts';
import { loadKnowledge } from '../../src/knowledge/load.ts';

export interface Posed {
  readonly network: Network;
  readonly odds: Float64Array;
  /** weight of the condition without any fault */
  readonly empty: number;
  readonly evidence: readonly Evidence[];
}

export async function fullKnowledge(): Promise<Knowledge> {
  const parsed = await loadKnowledge();
  if (!parsed.ok) throw new Error(`the knowledge does not load: ${JSON.stringify(parsed.problems[0])}`);
  return parsed.knowledge;
}

/** One card with up to `most` faults and crisp answers of `observations` findings chosen at random. */
export function arrivedCard(knowledge: Knowledge, random: Random, observations: number, most: number): Posed {
  const { network } = knowledge;
  const shares = knowledge.faults.map((fault) => fault.share.p);
  const { kappa, empty } = populationOf(knowledge, most);
  const odds = startingOdds(
    shares,
    kappa,
    shares.map(() => 1),
  );
  const faults = drawFaults(odds, empty, most, random);
  const order = shuffled(network.findings.keys(), random).slice(0, observations);
  return { network, odds, empty, evidence: order.map((finding) => drawFinding(network, finding, faults, random)) };
}

/** What a card with these faults shows: the most abnormal of what the leak and every fault show on their own. */
export function drawFinding(network: Network, finding: number, faults: readonly number[], random: Random): Evidence {
  const node = network.findings[finding]!;
  let shown = drawState(node.leak, random);
  for (const { fault, cumulative } of node.given) {
    if (faults.includes(fault)) shown = Math.max(shown, drawState(cumulative, random));
  }
  return { finding, weights: Float64Array.from(node.states, (_, x) => (x === shown ? 1 : 0)) };
}

export function shuffled(values: Iterable<number>, random: Random): number[] {
  const order = [...values];
  for (let i = order.length - 1; i > 0; i--) {
    const j = Math.floor(random.next() * (i + 1));
    [order[i], order[j]] = [order[j]!, order[i]!];
  }
  return order;
}

export const median = (values: readonly number[]): number => {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
};

function drawFaults(odds: Float64Array, empty: number, most: number, random: Random): number[] {
  const all = enumerate(odds.length, most);
  const weights = Float64Array.from({ length: all.count }, (_, i) =>
    i === 0 ? empty : membersOf(all, i).active.reduce((product, fault) => product * odds[fault]!, 1),
  );
  let left = random.next() * weights.reduce((a, b) => a + b, 0);
  let at = 0;
  while (at < all.count - 1 && left >= weights[at]!) left -= weights[at++]!;
  return membersOf(all, at).active;
}

function drawState(cumulative: FindingNode['leak'], random: Random): number {
  const u = random.next();
  let state = 0;
  while (u >= cumulative[state]!) state++;
  return state;
}
