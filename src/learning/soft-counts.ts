/** What each time in service says of remedies and faults, by the belief: parts of cards, not verdicts. */

import { diagnose } from '../assess/diagnosis.ts';
import { ATTRIBUTIONS, type Attribution } from '../belief/attribute.ts';
import { type Fold, faultOf, isDormant, standingOf } from '../belief/trajectory.ts';
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
  /** what may have been masked, by the belief at the end; the chances sum to one, or there are none where nothing is known */
  readonly asleep: readonly Asleep[];
}

/** One way it may stand with the masked faults of a card. Indices of faults. */
export interface Asleep {
  /** the masked fault that came back; -1: none did */
  readonly relapsed: number;
  /** masked faults that sleep on */
  readonly dormant: readonly number[];
  readonly chance: number;
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
  const back = service.ended === 'came-back';
  const none = { service, asleep: [] };
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
  const asleep = asleepIn(fold);
  if (!back) return { service, asleep, because: null, unjudged: null, failed: 0 };
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
  return { service, asleep, because, unjudged: null, failed };
}

/** Trajectories that differ only in what does not sleep are one here. */
function asleepIn(fold: Fold): Asleep[] {
  const ways = new Map<string, { relapsed: number; dormant: number[]; chance: number }>();
  for (let i = 0; i < fold.chance.length; i++) {
    const situation = fold.situations[fold.now[i]!]!;
    const dormant = situation.filter(isDormant).map(faultOf);
    const back = situation.find((code) => standingOf(code) === 'relapsed' || standingOf(code) === 'opened');
    const relapsed = back === undefined ? -1 : faultOf(back);
    const key = `${relapsed}:${dormant.join()}`;
    const known = ways.get(key);
    if (known) known.chance += fold.chance[i]!;
    else ways.set(key, { relapsed, dormant, chance: fold.chance[i]! });
  }
  return [...ways.values()];
}
