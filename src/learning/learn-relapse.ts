/** Times to relapse learnt from soft counts: which card was masked and which cured is itself uncertain, and is weighed anew with the law. */

import { survives } from '../belief/serve.ts';
import { follow, type Row } from '../survival/followed.ts';
import { type LearntLaw, learnShapeAndRate, type RelapseLaw } from '../survival/relapse-law.ts';
import type { ServiceTime } from './service-times.ts';
import type { SoftCounts } from './soft-counts.ts';

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
  readonly rounds: number;
}

const MOST_ROUNDS = 500;
const MIDDLE_OF_DAY = 0.5;
const SETTLED = 1e-8;
/** A card less likely than this to be masked teaches nothing. */
const LEAST_WEIGHT = 1e-9;

/**
 * The law of one fault's time to relapse after `book`, from times in service in which it was, with some chance, asleep.
 *
 * Expectation and maximisation (Dempster, Laird & Rubin, J. R. Stat. Soc. B 39 (1977) 1): the chance that a card is masked is
 * weighed anew under the law found so far, the law is learnt anew from these chances (`learnShapeAndRate`, the book as prior),
 * until it stands still. Under a law L instead of the book's B the weights of one card become, up to a common factor,
 *
 *     relapsed on day t:  w S_L(t) (H_L(t + 1) - H_L(t)) / (S_B(t) (H_B(t + 1) - H_B(t)))
 *     asleep at t:        w S_L(t) / S_B(t)
 *     neither:            w
 *
 * with H the cumulative hazard: exact for the fold's own weights but for the small change of competing risks within a day. That is
 * why a card that works on for years is no proof of a slow relapse: it was probably cured. Null where no card can have been masked.
 * Relapses count on the middle of their day. Cost: rounds times cards times shapes.
 */
export function learnRelapse(book: RelapseLaw, counts: readonly SoftCounts[], fault: number): LearntRelapse | null {
  const cards = counts
    .map(({ service, relapsed, dormant }) => ({ service, relapsed: relapsed[fault]!, dormant: dormant[fault]! }))
    .filter(({ relapsed, dormant }) => relapsed + dormant > LEAST_WEIGHT);
  if (cards.length === 0) return null;
  const rowsUnder = (law: RelapseLaw): Row[] => cards.map((card) => weighAnew(card, book, law));
  let rows = rowsUnder(book);
  let law = learnShapeAndRate(book, follow(rows));
  let rounds = 1;
  for (; rounds < MOST_ROUNDS; rounds++) {
    rows = rowsUnder(law);
    const next = learnShapeAndRate(book, follow(rows));
    const moved = Math.abs(next.medianDays / law.medianDays - 1) + Math.abs(next.shape / law.shape - 1);
    law = next;
    if (moved < SETTLED) break;
  }
  const sum = (of: (row: Row) => number) => rows.reduce((total, row) => total + of(row), 0);
  return {
    law,
    hits: sum(({ failed }) => failed),
    trials: sum(({ failed, censored }) => failed + censored),
    expected: sum(
      ({ time, failed, censored }) => (failed + censored) * Math.LN2 * (time / book.medianDays) ** book.shape,
    ),
    since: new Date(Math.min(...cards.map(({ service }) => Date.parse(service.since)))).toISOString(),
    rounds,
  };
}

/** One card's times as parts: relapsed, asleep. The rest, up to one, is a card that was not masked. */
export function weighAnew(
  {
    service,
    relapsed,
    dormant,
  }: { readonly service: ServiceTime; readonly relapsed: number; readonly dormant: number },
  book: RelapseLaw,
  law: RelapseLaw,
): Row {
  const back = service.ended === 'came-back';
  const day = back ? Math.floor(service.days) : service.days;
  const asleep = survives(law, day) / survives(book, day);
  const failing = (asleep * hazardWithinDay(law, day)) / hazardWithinDay(book, day);
  const [r, d] = [relapsed * failing, dormant * asleep];
  const all = r + d + Math.max(0, 1 - relapsed - dormant);
  return { time: back ? day + MIDDLE_OF_DAY : day, failed: r / all, censored: d / all };
}

function hazardWithinDay({ medianDays, shape }: RelapseLaw, day: number): number {
  return Math.LN2 * (((day + 1) / medianDays) ** shape - (day / medianDays) ** shape);
}
