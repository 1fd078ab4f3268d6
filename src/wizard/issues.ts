/** Issues of a record, put back beside the field they came from. */
import type { Assessment } from '../assessment.ts';
import { sayRefusal, type Told } from '../evidence/refusals.ts';
import type { Record } from '../record/schema.ts';
import { language, refusals } from './language.ts';

export type Issue = Extract<Assessment, { kind: 'bad-record' }>['issues'][number];

export interface Said {
  readonly wrong: string;
  readonly todo: string;
  /** of the two sentences, where it is not that of the interface */
  readonly lang: string | undefined;
}

/** In the language of the interface, as far as the refusal says which it is; else as it stands, in English. */
export function sayIssue({ wrong, todo, told }: Pick<Issue, 'wrong' | 'todo' | 'told'>): Said {
  if (told === undefined || !(told.id in refusals.value))
    return { wrong, todo, lang: language.value === 'en' ? undefined : 'en' };
  return { ...sayRefusal(refusals.value, told as Told), lang: undefined };
}

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
