/** What is known about the card, as the rules ask for it. Unknown facts are absent, never false. */
import type { Finding, Id } from '../knowledge/schema.ts';
import type { Event } from '../record/schema.ts';
import type { FactValue, FindingEvidence } from './evidence.ts';

/** A finding says its state to the rules once this share of its weight rests on that state. */
export const DECISIVE_SHARE = 0.9;

/**
 * Facts answered in the record. A later answer replaces an earlier one; "can't tell" (null) makes the fact unknown
 * again.
 */
export function answeredFacts(timeline: readonly Event[]): Map<Id, FactValue> {
  const facts = new Map<Id, FactValue>();
  for (const event of timeline) {
    if (event.type !== 'arrived') continue;
    for (const [fact, answer] of Object.entries(event.facts)) {
      if (answer === null) facts.delete(fact);
      else facts.set(fact, answer);
    }
  }
  return facts;
}

export function seenFact(finding: Id): Id {
  return `seen-${finding}`;
}

/** The state of every finding whose evidence is decisive, as the fact `seen-<finding>`. */
export function seenFacts(evidence: readonly FindingEvidence[], findings: readonly Finding[]): Map<Id, FactValue> {
  const byId = new Map(findings.map((finding) => [finding.id, finding]));
  const facts = new Map<Id, FactValue>();
  for (const { finding, weights, state } of evidence) {
    const states = byId.get(finding)?.states ?? [];
    if (
      shareOf(
        weights,
        states.findIndex(({ id }) => id === state),
      ) >= DECISIVE_SHARE
    )
      facts.set(seenFact(finding), state);
  }
  return facts;
}

/** The part of the whole weight that rests on one state: 0 where there is no such state. */
export function shareOf(weights: readonly number[], index: number): number {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return total > 0 ? (weights[index] ?? 0) / total : 0;
}
