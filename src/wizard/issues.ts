/** Issues of a record, put back beside the field they came from. */
import type { Assessment } from '../assessment.ts';
import type { Record } from '../record/schema.ts';

export type Issue = Extract<Assessment, { kind: 'bad-record' }>['issues'][number];

/** The finding whose event an issue's path (`timeline.3.typed`, `timeline[3].typed`) names; null: none. */
export function findingOfIssue(path: string, record: Record): string | null {
  const [, index] = /^\/?timeline[.[/](\d+)/.exec(path) ?? [];
  const event = index === undefined ? undefined : record.timeline[Number(index)];
  return event?.type === 'measured' || event?.type === 'seen' ? event.finding : null;
}

export function issuesOf(assessment: Assessment | null, record: Record, finding: string): readonly Issue[] {
  if (assessment?.kind !== 'bad-record') return [];
  return assessment.issues.filter(({ path }) => findingOfIssue(path, record) === finding);
}
