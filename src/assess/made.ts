/** Which preparations the bench has made already: those of the checks it has done since the last treatment, unless undone since. */
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { Id } from '../knowledge/schema.ts';
import type { Record as CardRecord } from '../record/schema.ts';

/** A finding that the bench recorded speaks for the check that yields it; the order of the timeline tells what undid what. */
export function preparationsMade(knowledge: Knowledge, record: Pick<CardRecord, 'timeline'>): ReadonlySet<Id> {
  const checkOf = new Map(
    knowledge.checks.flatMap((check) => check.yields.map((finding) => [finding, check] as const)),
  );
  const undoes = new Map(knowledge.preparations.map((preparation) => [preparation.id, preparation.undoes ?? []]));
  const made = new Set<Id>();
  for (const event of record.timeline) {
    if (event.type === 'treated' || event.type === 'came-back') made.clear();
    const looked = event.type === 'measured' || (event.type === 'seen' && event.by === 'bench');
    if (!looked) continue;
    for (const preparation of checkOf.get(event.finding)?.preparations ?? []) {
      made.add(preparation);
      for (const undone of undoes.get(preparation) ?? []) made.delete(undone);
    }
  }
  return made;
}
