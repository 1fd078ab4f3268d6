import { useEffect, useState } from 'preact/hooks';
import type { Assessed, Assessment } from '../../assessment.ts';
import type { Record as CardRecord } from '../../record/schema.ts';
import { openWork } from '../../work-order/open-work.ts';
import type { WorksheetAnswer } from '../../work-order/schema.ts';
import { useSession } from '../session.ts';

export interface OrderInHand {
  /** null: none yet */
  readonly answer: WorksheetAnswer | null;
  /** the record contradicts itself, so the order is that of the card before this work */
  readonly fromBefore: boolean;
}

interface Had {
  readonly remedy: string | undefined;
  readonly answer: WorksheetAnswer;
  readonly fromBefore: boolean;
}

/**
 * The order of that remedy, or of what the verdict advises. While a newer one is made out the one before stays, as far as it is
 * for the same work: hold points do not change while they are worked off.
 */
export function useOrder(record: CardRecord, remedy: string | undefined): OrderInHand {
  const { adviser } = useSession();
  const { assessment, pending } = adviser.advice.value;
  const language = adviser.catalogue.value?.language;
  const [had, setHad] = useState<Had | null>(null);
  useEffect(() => {
    if (pending) return;
    let wanted = true;
    const find = async () => {
      const assessed = await assessedFor(record, assessment, adviser.assessOnce);
      const answer = assessed && (await adviser.orderFor(record, assessed, remedy ?? null));
      if (wanted && answer) setHad({ remedy, answer, fromBefore: assessed !== assessment });
    };
    void find();
    return () => {
      wanted = false;
    };
  }, [assessment, pending, record, remedy, language]);
  const fits =
    had !== null &&
    (had.remedy === remedy || (remedy !== undefined && had.answer.kind === 'order' && had.answer.remedy === remedy));
  return fits ? had : { answer: null, fromBefore: false };
}

/** What is found in the work may contradict what was found before it; the work that has begun must be finished all the same. */
async function assessedFor(
  record: CardRecord,
  assessment: Assessment | null,
  assessOnce: (record: CardRecord) => Promise<Assessment | null>,
): Promise<Assessed | null> {
  if (assessment?.kind === 'assessed') return assessment;
  const begun = openWork(record);
  if (assessment?.kind !== 'contradiction' || begun === null) return null;
  const before = await assessOnce({ ...record, timeline: record.timeline.slice(0, begun.index) });
  return before?.kind === 'assessed' ? before : null;
}
