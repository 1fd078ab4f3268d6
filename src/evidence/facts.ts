/** What is known about the card, as the rules ask for it. Unknown facts are absent, never false. */
import type { Finding, Id, Remedy } from '../knowledge/schema.ts';
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

/**
 * The answers as they stand after the bench's own work: heat cycles it spent are added, and heat work it did is known. For
 * gates and risks only; what a card's history says of its faults on arrival is the history it arrived with.
 */
export function factsAfterWork(
  answered: ReadonlyMap<Id, FactValue>,
  timeline: readonly Event[],
  remedies: readonly Remedy[],
): Map<Id, FactValue> {
  const facts = new Map(answered);
  for (const event of timeline) {
    if (event.type !== 'treated') continue;
    const remedy = remedies.find(({ id }) => id === event.remedy);
    if (!remedy || remedy.heatCycles === 0) continue;
    const before = facts.get('heat-cycles');
    facts.set('heat-cycles', (typeof before === 'number' ? before : 0) + remedy.heatCycles);
    if (remedy.kind === 'reflow' || remedy.kind === 'reball') facts.set('earlier-heat-work', remedy.kind);
    else if (remedy.kind === 'core-swap') facts.set('earlier-heat-work', 'reball');
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
