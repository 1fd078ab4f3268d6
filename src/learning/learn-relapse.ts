/** Times to relapse learnt from soft counts: which card was masked, by what, and which cured is itself uncertain, and weighed anew with the laws. */

import { survives } from '../belief/serve.ts';
import { follow, type Row } from '../survival/followed.ts';
import { type LearntLaw, learnShapeAndRate, type RelapseLaw } from '../survival/relapse-law.ts';
import type { SoftCounts } from './soft-counts.ts';

/** index = fault; null where nothing masks it */
export type Laws = readonly (RelapseLaw | null)[];

export interface LearntRelapse {
  readonly law: LearntLaw;
  /** relapses counted, in parts of cards */
  readonly hits: number;
  /** masked cards counted */
  readonly trials: number;
  /** relapses that the book would have had in the same time of service: what the times weigh against the book's n */
  readonly expected: number;
  /** the day the first of these cards left */
  readonly since: string;
}

const MOST_ROUNDS = 500;
const SETTLED = 1e-7;
const MIDDLE_OF_DAY = 0.5;
/** A card less likely than this to have the fault asleep teaches nothing of it. */
const LEAST_WEIGHT = 1e-9;

/**
 * The laws of all faults' times to relapse after `book`, learnt together from times in service. index = fault; null where the
 * book has no law or no card can have had the fault asleep.
 *
 * Expectation and maximisation (Dempster, Laird & Rubin, J. R. Stat. Soc. B 39 (1977) 1): what slept in each card is weighed anew
 * under the laws found so far (`weighAnew`), each law is learnt anew from these parts of cards (`learnShapeAndRate`, the book as
 * prior), until all stand still. Together, because a late comeback that the book's bumps cannot explain would else count as cracked balls; and
 * by parts, because a card that works on for years is no proof of a slow relapse: it was probably cured.
 *
 * n of a law counts parts of cards as if they were cards known to that part: where what relapsed stays doubtful the interval is too
 * narrow (Louis, J. R. Stat. Soc. B 44 (1982) 226, has the correction). Relapses count on the middle of their day.
 * Cost: rounds times (cards times ways + faults times cards times shapes).
 */
export function learnRelapses(book: Laws, counts: readonly SoftCounts[]): readonly (LearntRelapse | null)[] {
  const cards = counts.filter(({ asleep }) => asleep.length > 0);
  let laws: Laws = book;
  let rows = rowsUnder(laws, book, cards);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const next = laws.map((_, fault) =>
      rows[fault]!.length > 0 ? learnShapeAndRate(book[fault]!, follow(withCounts(rows[fault]!))) : book[fault]!,
    );
    const moved = next.reduce((most, law, fault) => {
      const before = laws[fault];
      if (!law || !before) return most;
      return Math.max(most, Math.abs(law.medianDays / before.medianDays - 1) + Math.abs(law.shape / before.shape - 1));
    }, 0);
    laws = next;
    rows = rowsUnder(laws, book, cards);
    if (moved < SETTLED) break;
  }
  return book.map((known, fault) => (known && rows[fault]!.length > 0 ? learntFrom(known, rows[fault]!) : null));
}

interface CardRow extends Row {
  readonly since: string;
}

function rowsUnder(laws: Laws, book: Laws, cards: readonly SoftCounts[]): CardRow[][] {
  const rows: CardRow[][] = book.map(() => []);
  for (const card of cards) {
    const { service } = card;
    const { relapsed, dormant } = weighAnew(card, book, laws);
    const time = service.ended === 'came-back' ? Math.floor(service.days) + MIDDLE_OF_DAY : service.days;
    for (let fault = 0; fault < book.length; fault++)
      if (book[fault] && relapsed[fault]! + dormant[fault]! > LEAST_WEIGHT)
        rows[fault]!.push({ time, failed: relapsed[fault]!, censored: dormant[fault]!, since: service.since });
  }
  return rows;
}

function withCounts(rows: readonly CardRow[]): Row[] {
  return rows.map(({ time, failed, censored }) => ({ time, failed, censored }));
}

function learntFrom(book: RelapseLaw, rows: readonly CardRow[]): LearntRelapse {
  const sum = (of: (row: Row) => number) => rows.reduce((total, row) => total + of(row), 0);
  return {
    law: learnShapeAndRate(book, follow(withCounts(rows))),
    hits: sum(({ failed }) => failed),
    trials: sum(({ failed, censored }) => failed + censored),
    expected: sum(
      ({ time, failed, censored }) => (failed + censored) * Math.LN2 * (time / book.medianDays) ** book.shape,
    ),
    since: new Date(Math.min(...rows.map(({ since }) => Date.parse(since)))).toISOString(),
  };
}

export interface Parts {
  /** per fault: chance that it was masked and is what came back */
  readonly relapsed: Float64Array;
  /** per fault: chance that it is masked and sleeps on */
  readonly dormant: Float64Array;
}

/**
 * One card under the laws L instead of the book's B. Each way it may stand keeps its chance times, up to a common factor,
 *
 *     the product over faults that sleep on of  S_L(t) / S_B(t)
 *     and for the one back on day t             S_L(t) (H_L(t + 1) - H_L(t)) / (S_B(t) (H_B(t + 1) - H_B(t)))
 *
 * with H the cumulative hazard: what the fold would say under L, but for the small change of competing risks within a day.
 */
export function weighAnew({ service, asleep }: SoftCounts, book: Laws, laws: Laws): Parts {
  const back = service.ended === 'came-back';
  const day = back ? Math.floor(service.days) : service.days;
  const sleepsOn = (fault: number): number => {
    const [law, known] = [laws[fault], book[fault]];
    return law && known ? survives(law, day) / survives(known, day) : 1;
  };
  const fails = (fault: number): number => {
    const [law, known] = [laws[fault], book[fault]];
    return law && known ? (sleepsOn(fault) * hazardWithinDay(law, day)) / hazardWithinDay(known, day) : 1;
  };
  const weights = asleep.map(({ relapsed, dormant, chance }) =>
    dormant.reduce((weight, fault) => weight * sleepsOn(fault), relapsed < 0 ? chance : chance * fails(relapsed)),
  );
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const parts: Parts = { relapsed: new Float64Array(book.length), dormant: new Float64Array(book.length) };
  if (!(total > 0)) return parts;
  asleep.forEach(({ relapsed, dormant }, i) => {
    const share = weights[i]! / total;
    if (relapsed >= 0) parts.relapsed[relapsed]! += share;
    for (const fault of dormant) parts.dormant[fault]! += share;
  });
  return parts;
}

function hazardWithinDay({ medianDays, shape }: RelapseLaw, day: number): number {
  return Math.LN2 * (((day + 1) / medianDays) ** shape - (day / medianDays) ** shape);
}
