/** What is closed, with every reason: safety first, then the bench, then what must be known, then the rules. */
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { Check, Finding, Id, Rule } from '../knowledge/schema.ts';
import type { Shop } from '../shop/schema.ts';
import type { FindingEvidence } from './evidence.ts';
import { shareOf } from './facts.ts';
import { type Applies, powerGate, railsOf } from './safety.ts';

export interface Closed {
  readonly checks: ReadonlyMap<Id, readonly string[]>;
  readonly remedies: ReadonlyMap<Id, readonly string[]>;
}

/** A requirement is met when more than this share of the finding's weight rests on the states it names. */
const REQUIRED_SHARE = 0.5;

/**
 * Collects every reason why a check or a remedy is closed; what is open is absent.
 *
 * `observed` is the bench's evidence since the last treatment; `fired` are the rules that matched. A powered check's
 * demand for a rail's resistance is left to the power gate, which names the rail once.
 */
export function closeWhatMust(
  knowledge: Knowledge,
  shop: Shop,
  observed: readonly FindingEvidence[],
  applies: (finding: Id) => Applies,
  fired: readonly Rule[],
): Closed {
  const checks = new Map<Id, string[]>();
  const remedies = new Map<Id, string[]>();
  for (const [check, reasons] of powerGate(knowledge, observed, applies)) close(checks, check, reasons);
  const lacks = missingFrom(knowledge, shop);
  for (const check of knowledge.checks) close(checks, check.id, lacks(check.equipment));
  for (const remedy of knowledge.remedies) close(remedies, remedy.id, lacks(remedy.equipment));
  const rails = new Set(railsOf(knowledge).map(({ id }) => id));
  for (const check of knowledge.checks) {
    close(checks, check.id, unmet(check, knowledge.findings, observed, check.powers ? rails : new Set()));
  }
  for (const { event } of fired) {
    if (event.type !== 'close') continue;
    for (const check of event.params.checks) close(checks, check, [event.params.reason]);
    for (const remedy of event.params.remedies) close(remedies, remedy, [event.params.reason]);
  }
  return { checks, remedies };
}

function missingFrom({ bench }: Knowledge, shop: Shop): (equipment: readonly Id[]) => string[] {
  const owned = new Set(shop.equipment);
  const names = new Map(bench.equipment.map(({ id, name }) => [id, name]));
  return (equipment) =>
    equipment
      .filter((id) => !owned.has(id))
      .map((id) => `Not on this bench: ${names.get(id) ?? id.replaceAll('-', ' ')}.`);
}

function unmet(
  check: Check,
  findings: readonly Finding[],
  observed: readonly FindingEvidence[],
  left: ReadonlySet<Id>,
): string[] {
  return check.requires.flatMap(({ finding, states, because }) => {
    if (left.has(finding)) return [];
    const evidence = observed.find((item) => item.finding === finding && item.origin !== 'owner');
    if (!evidence) return [because];
    const ids = findings.find(({ id }) => id === finding)?.states.map(({ id }) => id) ?? [];
    const share = states.reduce((sum, state) => sum + shareOf(evidence.weights, ids.indexOf(state)), 0);
    return share > REQUIRED_SHARE ? [] : [because];
  });
}

function close(closed: Map<Id, string[]>, id: Id, reasons: readonly string[]): void {
  if (reasons.length === 0) return;
  const known = closed.get(id) ?? [];
  closed.set(id, [...known, ...reasons.filter((reason) => !known.includes(reason))]);
}
