/** The lines of the bench list: what each card shows, and how they are searched and sorted. */
import type { Assessed } from '../../assessment.ts';
import type { Catalogue } from '../catalogue.ts';
import type { Listed } from '../keeper.ts';
import { type AtWork, type CardBook, versionOf } from './card-book.ts';
import { daysWaiting, STAGES, type Stage, stageOf } from './stage.ts';

export interface Row {
  readonly card: Listed;
  /** null: not known yet */
  readonly stage: Stage | null;
  readonly days: number | null;
  /** where the work on it stands; null: none is being done, or it is not known */
  readonly atWork: AtWork | null;
  readonly assessed: Assessed | null;
  readonly trouble: 'weighing' | 'contradiction' | 'bad-record' | 'nothing-known' | 'none';
  /** name of the hold point or of the check the card waits for; null: none, or not known */
  readonly waitsFor: string | null;
}

export function rowOf(card: Listed, book: CardBook, catalogue: Catalogue | null, now: Date): Row {
  const entry = book.entries.value.get(versionOf(card));
  const unknown: Row = {
    card,
    stage: null,
    days: null,
    atWork: null,
    assessed: null,
    trouble: 'weighing',
    waitsFor: null,
  };
  if (entry === undefined || entry.record === null || catalogue === null) return unknown;
  const { record, assessment, atWork } = entry;
  const stage = stageOf(record, assessment, catalogue);
  const known = { ...unknown, stage, days: daysWaiting(record, now), atWork };
  if (assessment === null) return { ...known, trouble: stage === 'arrived' ? 'nothing-known' : 'bad-record' };
  if (assessment.kind !== 'assessed') return { ...known, trouble: assessment.kind };
  return { ...known, assessed: assessment, trouble: 'none', waitsFor: atWork?.step?.name ?? nextCheck(assessment) };
}

function nextCheck({ next, checks }: Assessed): string | null {
  if (next.kind === 'act') return null;
  return checks.find(({ check }) => check === next.check)?.name ?? next.check;
}

export const SORTS = ['changed', 'waiting', 'stage', 'title'] as const;
export type Sort = (typeof SORTS)[number];

/** `words`: everything the row says, in the language on the screen. Every word of the query has to occur. */
export function arrange(
  rows: readonly Row[],
  { query, sort, words }: { readonly query: string; readonly sort: Sort; readonly words: (row: Row) => string },
): readonly Row[] {
  const wanted = fold(query).split(/\s+/).filter(Boolean);
  const kept = rows.filter((row) => {
    const said = fold(words(row));
    return wanted.every((word) => said.includes(word));
  });
  return kept.toSorted(ORDERS[sort]);
}

/** Upper and lower case, and letters with and without marks, are the same to a search. */
const fold = (text: string): string => text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();

const byChange = (a: Row, b: Row) => b.card.changed.localeCompare(a.card.changed);
const ORDERS: { readonly [sort in Sort]: (a: Row, b: Row) => number } = {
  changed: byChange,
  waiting: (a, b) => (b.days ?? -1) - (a.days ?? -1) || byChange(a, b),
  stage: (a, b) => rank(b) - rank(a) || byChange(a, b),
  title: (a, b) => a.card.title.localeCompare(b.card.title, undefined, { numeric: true, sensitivity: 'base' }),
};
const rank = ({ stage }: Row): number => (stage === null ? -1 : STAGES.indexOf(stage));
