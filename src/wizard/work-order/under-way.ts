/** Which work the screen is about: what is being done, was done last, was chosen, or is advised. */
import type { Assessment } from '../../assessment.ts';
import type { Record as CardRecord, Event, Process, StepRecord } from '../../record/schema.ts';
import { type OpenWork, openWork } from '../../work-order/open-work.ts';
import { isBlank } from '../desk.ts';

export type Drafted = ReadonlyMap<string, string>;

/** The remedy the bench has chosen, where it is not the verdict's. */
export const REMEDY_DRAFT = 'work-remedy';

type Treated = Extract<Event, { type: 'treated' }>;

export interface DoneWork {
  readonly event: Treated;
  readonly process: Process;
}

export interface UnderWay {
  readonly open: OpenWork | null;
  /** the last work, of which somebody has said how it ended, while the card has not come back since */
  readonly done: DoneWork | null;
  /** asked for by name; undefined: whatever the verdict advises */
  readonly remedy: string | undefined;
  readonly recorded: readonly StepRecord[];
}

export function underWay(record: CardRecord, drafts: Drafted): UnderWay {
  const open = openWork(record);
  const chosen = drafts.get(REMEDY_DRAFT);
  const remedy = open?.touched ? open.event.remedy : (chosen ?? open?.event.remedy);
  const here = open?.event.remedy === remedy ? open : null;
  return {
    open,
    done: open === null && chosen === undefined ? doneWork(record) : null,
    remedy,
    recorded: here?.process.steps ?? [],
  };
}

function doneWork({ timeline }: CardRecord): DoneWork | null {
  const index = timeline.findLastIndex(({ type }) => type === 'treated');
  const event = timeline[index];
  if (event?.type !== 'treated' || event.process === undefined) return null;
  return timeline.slice(index).some(({ type }) => type === 'came-back') ? null : { event, process: event.process };
}

/** The step is offered where the verdict is work, where work was chosen, and where some is on record. */
export function isWorkOffered(record: CardRecord, assessment: Assessment | null, drafts: Drafted): boolean {
  const { open, done } = underWay(record, drafts);
  return (
    open !== null || done !== null || drafts.has(REMEDY_DRAFT) || (!isBlank(record) && advisedWork(assessment) !== null)
  );
}

/** The remedy the verdict begins with; null: it advises none. */
export function advisedWork(assessment: Assessment | null): { readonly id: string; readonly name: string } | null {
  if (assessment?.kind !== 'assessed') return null;
  const option = assessment.options.find(({ id }) => id === assessment.verdict.option);
  const [id] = option?.steps ?? [];
  return id === undefined ? null : { id, name: option!.stepNames[0] ?? id };
}
