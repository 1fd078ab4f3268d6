import { writePlace } from '../address.ts';
import { messages, rulesLanguage } from '../language.ts';
import type { StepId } from '../steps.ts';
import { Stamp } from '../verdict/stamp.tsx';
import { sayWhen } from '../words.ts';
import type { Row } from './rows.ts';
import type { Stage } from './stage.ts';

interface Props {
  readonly row: Row;
  readonly locale: string;
  readonly onArchive: () => void;
}

/** Where a ticket leads that has come this far; others to the first step. */
const STEP_OF: { readonly [stage in Stage]?: StepId } = {
  decided: 'verdict',
  quoted: 'owner',
  'on-the-bench': 'work',
};

/** One card as a job ticket: what it is, how far it has come, what it waits for. */
export function Ticket({ row, locale, onArchive }: Props) {
  const { card, assessed, stage, waitsFor, atWork } = row;
  const { bench, frame } = messages.value;
  const archive = card.archived ? bench.unarchive : bench.archive;
  const notes = [
    bench.changed(sayWhen(card.changed, locale, new Date())),
    ...(card.invented ? [frame.invented] : []),
    ...(card.unsaved ? [bench.onDeviceOnly] : []),
  ];
  return (
    <li class="ticket-row">
      <a class="ticket" href={writePlace({ screen: 'card', id: card.id, step: STEP_OF[stage ?? 'arrived'] ?? 'card' })}>
        <span class="ticket-hole" aria-hidden="true" />
        <span class="ticket-body">
          <b class="ticket-title">{card.title}</b>
          <span class="ticket-when">{notes.join(', ')}</span>
        </span>
        <span class="ticket-stage">
          {stage !== null && <span>{sayStage(stage, row)}</span>}
          <small>{sayWaiting(row)}</small>
        </span>
        <span class="ticket-words">
          <small>{waitsFor === null ? bench.verdict : bench.waitsFor}</small>
          <span lang={assessed === null ? undefined : atWork?.step ? 'en' : rulesLanguage.value}>{sayNews(row)}</span>
        </span>
        <span class="ticket-stamp">
          {assessed !== null && stage !== 'on-the-bench' && <Stamp assessed={assessed} />}
        </span>
      </a>
      <button type="button" class="quiet" onClick={onArchive} aria-label={`${archive}: ${card.title}`}>
        {archive}
      </button>
    </li>
  );
}

export function sayStage(stage: Stage, { atWork }: Row): string {
  const { bench } = messages.value;
  if (stage !== 'on-the-bench' || atWork === null) return bench.stages[stage];
  return atWork.step === null ? bench.onTheBenchDone : bench.onTheBench(atWork.step.number, atWork.of);
}

function sayWaiting({ days }: Row): string {
  return days === null ? '' : messages.value.bench.waiting(days);
}

/** What the card waits for, else what is to be done with it, else why neither is known. */
export function sayNews({ assessed, waitsFor, trouble }: Row): string {
  const { bench } = messages.value;
  if (assessed !== null) return waitsFor ?? assessed.verdict.name;
  switch (trouble) {
    case 'contradiction':
      return bench.contradicts;
    case 'bad-record':
      return bench.unreadable;
    case 'nothing-known':
      return bench.nothingKnown;
    default:
      return bench.weighing;
  }
}
