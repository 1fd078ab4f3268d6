/**
 * The full joint, by the definition of a MAX of independent causes and by nothing the product code does: every active
 * fault and the leak each draw a state of their own, and the finding shows the most abnormal of them.
 */
import type { Evidence, FindingNode, Network } from '../../src/belief/network.ts';

export interface Joint {
  readonly chanceOfEvidence: number;
  readonly marginals: number[];
  /** keyed by the members joined with commas; sets of chance 0 included */
  readonly conditions: Map<string, number>;
  /** chances of the states of each finding, given the evidence; evidence on the finding itself included */
  readonly states: number[][];
}

export function bruteForce(
  network: Network,
  odds: readonly number[],
  evidence: readonly Evidence[],
  most: number,
  empty = 1,
): Joint {
  const faults = network.faults.length;
  const weights = new Map<string, number>();
  const shown = new Map<string, number[][]>();
  let prior = 0;
  for (let bits = 0; bits < 2 ** faults; bits++) {
    const members = Array.from({ length: faults }, (_, f) => f).filter((f) => (bits >> f) & 1);
    if (members.length > most) continue;
    const weight = members.length === 0 ? empty : members.reduce((product, f) => product * odds[f]!, 1);
    prior += weight;
    const states = network.findings.map((node) => maximum(node, members));
    const fits = evidence.reduce(
      (product, { finding, weights: w }) => product * states[finding]!.reduce((sum, p, x) => sum + p * w[x]!, 0),
      1,
    );
    weights.set(members.join(), weight * fits);
    shown.set(members.join(), states);
  }
  const total = [...weights.values()].reduce((a, b) => a + b, 0);
  const conditions = new Map([...weights].map(([key, weight]) => [key, weight / total]));
  const marginals = Array.from({ length: faults }, (_, f) =>
    [...conditions].reduce((sum, [key, p]) => sum + (key.split(',').includes(String(f)) ? p : 0), 0),
  );
  const states = network.findings.map((node, j) =>
    node.states.map((_, x) => [...conditions].reduce((sum, [key, p]) => sum + p * shown.get(key)![j]![x]!, 0)),
  );
  return { chanceOfEvidence: total / prior, marginals, conditions, states };
}

/** Chances of the states of the maximum of independent draws: every combination of draws, one by one. */
function maximum(node: FindingNode, members: readonly number[]): number[] {
  const rows = [
    node.leak,
    ...node.given.filter(({ fault }) => members.includes(fault)).map((row) => row.cumulative),
  ].map((cumulative) => Array.from(cumulative, (c, x) => c - (x > 0 ? cumulative[x - 1]! : 0)));
  const result: number[] = node.states.map(() => 0);
  const draw = (at: number, chance: number, highest: number): void => {
    if (chance === 0) return;
    const row = rows[at];
    if (!row) result[highest]! += chance;
    else for (const [x, p] of row.entries()) draw(at + 1, chance * p, Math.max(highest, x));
  };
  draw(0, 1, 0);
  return result;
}
