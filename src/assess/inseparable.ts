/** Likely causes that what is known does not tell apart yet, and the open check that would. */
import type { Assessed, CheckAdvice, RankedFault } from '../assessment.ts';
import type { FindingNode } from '../belief/network.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { Id } from '../knowledge/schema.ts';

/** Both at least this likely, and neither this many times as likely as the other. */
const LEAST_CHANCE = 0.1;
const MOST_RATIO = 4;
/** A check parts two causes when some finding of it comes out differently in at least one card of five. */
const LEAST_SEPARATION = 0.2;

export function inseparablePairs(
  knowledge: Knowledge,
  ranking: readonly RankedFault[],
  checks: readonly CheckAdvice[],
  /** findings of the bench: what has been looked at already parts nothing any more */
  looked: ReadonlySet<Id>,
): Assessed['inseparable'] {
  const close = ranking.filter((fault) => fault.chance >= LEAST_CHANCE);
  const open = new Set(
    checks.filter((check) => check.state !== 'closed' && check.state !== 'done').map((check) => check.check),
  );
  const pairs: Assessed['inseparable'] = [];
  close.forEach((one, i) => {
    for (const other of close.slice(i + 1)) {
      if (one.chance > MOST_RATIO * other.chance) continue;
      pairs.push({
        faults: [one.fault, other.fault],
        check: bestCheck(knowledge, open, looked, one.fault, other.fault),
      });
    }
  });
  return pairs;
}

function bestCheck(
  knowledge: Knowledge,
  open: ReadonlySet<Id>,
  looked: ReadonlySet<Id>,
  one: Id,
  other: Id,
): Id | null {
  const { network } = knowledge;
  const a = network.faults.indexOf(one);
  const b = network.faults.indexOf(other);
  let best: Id | null = null;
  let most = LEAST_SEPARATION;
  for (const check of knowledge.checks) {
    if (!open.has(check.id)) continue;
    for (const finding of check.yields) {
      if (looked.has(finding)) continue;
      const node = network.findings.find((known) => known.id === finding);
      const apart = node ? separation(node, a, b) : 0;
      if (apart > most) {
        most = apart;
        best = check.id;
      }
    }
  }
  return best;
}

/** Total-variation distance between P(X | only a) and P(X | only b), leak included. */
function separation(node: FindingNode, a: number, b: number): number {
  const cumulative = (fault: number) => {
    const row = node.given.find((given) => given.fault === fault)?.cumulative;
    return node.leak.map((leak, state) => leak * (row?.[state] ?? 1));
  };
  const one = cumulative(a);
  const other = cumulative(b);
  let distance = 0;
  for (let state = 0; state < one.length; state++) {
    const p = one[state]! - (state > 0 ? one[state - 1]! : 0);
    const q = other[state]! - (state > 0 ? other[state - 1]! : 0);
    distance += Math.abs(p - q) / 2;
  }
  return distance;
}
