/** New findings on a fold: the network sees what is active now, whatever led there. */

import type { Evidence, Network } from './network.ts';
import { factorAll } from './observe.ts';
import { activeOf, type Fold, settle } from './trajectory.ts';

/**
 * Weighs every trajectory by P(evidence | what is active now). Findings from before a treatment belong to the belief the fold
 * began with; after it the same check is new evidence. Null where no trajectory allows it: a contradiction. Cost: trajectories times findings times members.
 */
export function observeFold(fold: Fold, network: Network, evidence: readonly Evidence[]): Fold | null {
  // checks the evidence's shape; the odds play no part
  factorAll(network, new Float64Array(network.faults.length), evidence);
  const rows = evidence.map(({ finding }) => {
    const node = network.findings[finding]!;
    return { leak: node.leak, given: new Map(node.given.map(({ fault, cumulative }) => [fault, cumulative])) };
  });
  return settle(
    fold,
    fold.trajectories.map((trajectory) => {
      const active = activeOf(trajectory);
      let chance = trajectory.chance;
      evidence.forEach(({ weights }, j) => {
        const { leak, given } = rows[j]!;
        let below = 0;
        let likelihood = 0;
        for (let x = 0; x < weights.length; x++) {
          let cumulative = leak[x]!;
          for (const fault of active) cumulative *= given.get(fault)?.[x] ?? 1;
          likelihood += weights[x]! * (cumulative - below);
          below = cumulative;
        }
        chance *= Math.max(0, likelihood);
      });
      return { ...trajectory, chance };
    }),
  );
}
