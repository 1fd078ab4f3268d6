/** Every fact a rule may ask for: those of facts.json, and `seen-<finding>` for what the bench or the owner saw. */
import type { FactDefinition, Finding } from './schema.ts';

export const SEEN = 'seen-';

export function factDefinitions(
  facts: readonly FactDefinition[],
  findings: readonly Finding[],
): ReadonlyMap<string, FactDefinition> {
  const definitions = new Map(facts.map((fact) => [fact.id, fact]));
  for (const finding of findings) definitions.set(SEEN + finding.id, seenFact(finding));
  return definitions;
}

function seenFact(finding: Finding): FactDefinition {
  return {
    id: SEEN + finding.id,
    name: finding.name,
    question: finding.question,
    type: { kind: 'choice', values: finding.states.map(({ id, name }) => ({ id, name })) },
    step: 'derived',
  };
}
