/**
 * Where the findings point, and nothing else: the first answer to somebody who is still typing. What speaks for each cause, what
 * to do and what it is worth take longer and come with the assessment.
 */
import type { Assessed } from '../assessment.ts';
import { gatherEvidence } from '../evidence/gather.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { parseRecord } from '../record/parse.ts';
import type { Shop } from '../shop/schema.ts';
import { diagnose, type RankedChance, rankedChances, siteChances } from './diagnosis.ts';
import { withLearntRelapse } from './learnt-relapse.ts';
import { DEFAULT_MAX_FAULTS } from './most-faults.ts';

/** The same figures as in the assessment of the same record. */
export interface Points {
  readonly ranking: readonly RankedChance[];
  readonly sites: Assessed['sites'];
  readonly sound: number;
}

/** Null: the record points nowhere; its assessment says why. */
export async function pointsOf(
  knowledge: Knowledge,
  shop: Shop,
  record: unknown,
  maxFaults: number = DEFAULT_MAX_FAULTS,
): Promise<Points | null> {
  const parsed = parseRecord(record);
  if (!parsed.ok) return null;
  const gathering = await gatherEvidence(knowledge, shop, parsed.record);
  if (gathering.kind === 'bad-record') return null;
  const diagnosis = diagnose(withLearntRelapse(knowledge, shop), gathering.gathered, parsed.record, maxFaults);
  if (diagnosis.kind === 'contradiction') return null;
  return {
    ranking: rankedChances(knowledge, diagnosis),
    sites: siteChances(knowledge, diagnosis),
    sound: Math.min(1, diagnosis.sound),
  };
}
