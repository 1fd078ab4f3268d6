/** Faults and findings as the numeric two-layer network that inference runs on. */
import type { FindingNode, Network } from '../belief/network.ts';
import type { Fault, Finding, Row } from './schema.ts';

/** `faults` and `findings` give the order of the indices. */
export function compileNetwork(faults: readonly Fault[], findings: readonly Finding[]): Network {
  const index = new Map(faults.map((fault, i) => [fault.id, i]));
  return { faults: faults.map(({ id }) => id), findings: findings.map((finding) => compileFinding(finding, index)) };
}

function compileFinding(finding: Finding, index: ReadonlyMap<string, number>): FindingNode {
  const states = finding.states.map(({ id }) => id);
  const given = Object.entries(finding.given)
    .map(([fault, row]) => ({ fault: index.get(fault)!, cumulative: accumulate(row, states) }))
    .sort((a, b) => a.fault - b.fault);
  return {
    id: finding.id,
    states,
    leak: accumulate(finding.leak, states),
    given,
    ...(finding.ofTheWork ? { ofTheWork: true } : {}),
  };
}

/**
 * The cumulative row F(x) = P(X <= x): F(x) = min(1, p(first) + ... + p(x)), states in the order of the finding, those
 * the row leaves out counting 0. One entry per state; never falls; exactly 1 from the last state with a share on (a sum
 * of decimals may miss it by rounding; 1 is what makes an unobserved finding drop out, and a state without a share impossible). The row must sum to one. O(states).
 *
 * @example accumulate({ p: { normal: 0.7, short: 0.3 }, ... }, ['normal', 'low', 'short']) is [0.7, 0.7, 1]
 */
export function accumulate(row: Row, states: readonly string[]): Float64Array {
  const cumulative = new Float64Array(states.length);
  const last = states.findLastIndex((state) => (row.p[state] ?? 0) > 0);
  let sum = 0;
  states.forEach((state, i) => {
    sum += row.p[state] ?? 0;
    // from the last state that has a share on, all of it is there: rounding must not leave a trace in states that cannot be
    cumulative[i] = i >= last ? 1 : Math.min(1, sum);
  });
  return cumulative;
}
