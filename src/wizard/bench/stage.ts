/** How far a card has come, read off its record and what the assessment makes of it. */
import type { Assessment } from '../../assessment.ts';
import { openQuote } from '../../record/quote.ts';
import type { Record } from '../../record/schema.ts';
import { openWork } from '../../work-order/open-work.ts';
import type { Catalogue } from '../catalogue.ts';
import { isBlank } from '../desk.ts';
import { stepOf } from '../steps.ts';

/** In the order in which a card comes through the bench. */
export const STAGES = [
  'arrived',
  'described',
  'looked-over',
  'measured',
  'tested',
  'decided',
  'quoted',
  'on-the-bench',
  'worked-on',
] as const;
export type Stage = (typeof STAGES)[number];

const STAGE_OF_STEP = { looks: 'looked-over', readings: 'measured', tests: 'tested' } as const;

/** The furthest stage that anything on the record speaks for; decided: no check is worth its minutes any more. */
export function stageOf(record: Record, assessment: Assessment | null, catalogue: Catalogue): Stage {
  if (openWork(record) !== null) return 'on-the-bench';
  if (record.timeline.some((event) => event.type === 'treated')) return 'worked-on';
  if (isBlank(record)) return 'arrived';
  if (openQuote(record) !== null) return 'quoted';
  if (assessment?.kind === 'assessed' && assessment.next.kind === 'act') return 'decided';
  const reached = record.timeline.flatMap((event): Stage[] => {
    if (event.type !== 'measured' && (event.type !== 'seen' || event.by === 'owner')) return [];
    const finding = catalogue.findings.find(({ id }) => id === event.finding);
    const step = finding === undefined ? undefined : stepOf(finding);
    return step === 'looks' || step === 'readings' || step === 'tests' ? [STAGE_OF_STEP[step]] : [];
  });
  return STAGES.findLast((stage) => reached.includes(stage)) ?? 'described';
}

/** Whole days since the card came in; null where no date of arrival reads. */
export function daysWaiting(record: Record, now: Date): number | null {
  const arrived = record.timeline.find((event) => event.type === 'arrived') ?? record.timeline[0];
  const since = arrived === undefined ? Number.NaN : Date.parse(arrived.at);
  if (Number.isNaN(since)) return null;
  return Math.max(0, Math.floor((now.getTime() - since) / 86_400_000));
}
