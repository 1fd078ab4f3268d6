/** What each time in service says of remedies and faults, by the belief: parts of cards, not verdicts. */

import { diagnose } from '../assess/diagnosis.ts';
import { ATTRIBUTIONS, type Attribution } from '../belief/attribute.ts';
import { faultOf, isDormant, standingOf } from '../belief/trajectory.ts';
import { gatherEvidence } from '../evidence/gather.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { Record as CardRecord } from '../record/schema.ts';
import type { Shop } from '../shop/schema.ts';
import type { ServiceTime } from './service-times.ts';

/** Comebacks that count against the remedy. The wrong thing treated is the diagnosis', a new fault is nobody's. */
export const COUNTED: readonly Attribution[] = ['relapsed', 'did-not-take', 'damaged'];

export interface SoftCounts {
  readonly service: ServiceTime;
  /** of a comeback: how likely each explanation is, all together 1 less the chance that nothing is wrong; null: it could not be judged */
  readonly because: Readonly<Record<Attribution, number>> | null;
  /** why it could not be judged */
  readonly unjudged: string | null;
  /** share of a failure that counts against the remedy: 0 for a card that did not come back */
  readonly failed: number;
  /** per fault: chance that it was masked and is what came back */
  readonly relapsed: Float64Array;
  /** per fault: chance that it is masked and still sleeps */
  readonly dormant: Float64Array;
}

/**
 * Weighs one time in service by the belief at its end (the record up to there, nothing later). A comeback that cannot be judged
 * (findings that contradict each other, a record that cannot be used) counts in full against the remedy and teaches nothing of faults.
 * `knowledge` is the book's: counts must not rest on what was learnt from the same cards. Cost: one diagnosis.
 */
export async function countSoftly(
  knowledge: Knowledge,
  shop: Shop,
  record: CardRecord,
  service: ServiceTime,
  maxFaults: number,
): Promise<SoftCounts> {
  const faults = knowledge.faults.length;
  const back = service.ended === 'came-back';
  const none = { service, relapsed: new Float64Array(faults), dormant: new Float64Array(faults) };
  const unjudged = (why: string): SoftCounts => ({ ...none, because: null, unjudged: why, failed: back ? 1 : 0 });
  if (!back && service.days === 0) return { ...none, because: null, unjudged: null, failed: 0 };
  const lived: CardRecord = { ...record, timeline: [...service.timeline] };
  const gathering = await gatherEvidence(knowledge, shop, lived);
  if (gathering.kind === 'bad-record') return unjudged(gathering.issues.map(({ wrong }) => wrong).join(' '));
  const diagnosis = diagnose(knowledge, gathering.gathered, lived, maxFaults);
  if (diagnosis.kind === 'contradiction') return unjudged(diagnosis.sentence ?? 'Its findings contradict each other.');
  const { life } = diagnosis;
  if (!life) return unjudged('No work is recorded.');
  const { fold, attributions } = life;
  for (let i = 0; i < fold.chance.length; i++)
    for (const code of fold.situations[fold.now[i]!]!) {
      if (isDormant(code)) none.dormant[faultOf(code)]! += fold.chance[i]!;
      else if (standingOf(code) === 'relapsed') none.relapsed[faultOf(code)]! += fold.chance[i]!;
    }
  if (!back) return { ...none, because: null, unjudged: null, failed: 0 };
  if (!attributions) return unjudged('Nothing known of the card explains that it came back.');
  const something = 1 - attributions.nothingActive;
  const because = Object.fromEntries(ATTRIBUTIONS.map((one) => [one, something * attributions.chances[one]])) as Record<
    Attribution,
    number
  >;
  const failed = Math.min(
    1,
    COUNTED.reduce((sum, one) => sum + because[one], 0),
  );
  return { ...none, because, unjudged: null, failed };
}
