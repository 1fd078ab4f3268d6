import { useEffect, useState } from 'preact/hooks';
import type { EvidenceItem } from '../../assessment.ts';
import type { Record as CardRecord, Measured } from '../../record/schema.ts';
import type { Found } from '../../work-order/record-step.ts';
import type { Adviser } from '../adviser.ts';
import { useSession } from '../session.ts';

export type Grades = ReadonlyMap<string, EvidenceItem>;

const NONE: Grades = new Map();
/** Typing settles. */
const PAUSE_MS = 150;

/** What readings that are not recorded yet would say of the card, held to the windows that its record gives. */
export async function gradesOf(
  adviser: Pick<Adviser, 'assessOnce'>,
  record: CardRecord,
  found: readonly Found[],
): Promise<Grades> {
  const at = record.timeline.at(-1)?.at ?? new Date().toISOString();
  const readings = found.flatMap((one): Measured[] => ('typed' in one ? [{ ...one, type: 'measured', at }] : []));
  if (readings.length === 0) return NONE;
  const assessment = await adviser.assessOnce({ ...record, timeline: [...record.timeline, ...readings] });
  if (assessment?.kind !== 'assessed') return NONE;
  return new Map(
    readings.flatMap(({ finding }) => {
      const graded = assessment.evidence.findLast((one) => one.finding === finding && one.origin === 'measured');
      return graded === undefined ? [] : [[finding, graded]];
    }),
  );
}

export function useGrades(record: CardRecord, found: readonly Found[]): Grades {
  const { adviser } = useSession();
  const typed = JSON.stringify(found.filter((one) => 'typed' in one));
  const [grades, setGrades] = useState(NONE);
  useEffect(() => {
    let wanted = true;
    const pause = setTimeout(async () => {
      const graded = await gradesOf(adviser, record, found);
      if (wanted) setGrades(graded);
    }, PAUSE_MS);
    return () => {
      wanted = false;
      clearTimeout(pause);
    };
  }, [typed, record]);
  return grades;
}
