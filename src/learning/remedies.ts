/** How long the shop's own remedies last, and what that teaches of times to relapse. */

import { DEFAULT_MAX_FAULTS } from '../assess/most-faults.ts';
import { ATTRIBUTIONS, type Attribution } from '../belief/attribute.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { Fault, Id } from '../knowledge/schema.ts';
import type { Record as CardRecord } from '../record/schema.ts';
import type { LearntRelapse as LearntEntry, Shop } from '../shop/schema.ts';
import { medianTime } from '../survival/median-time.ts';
import { type SurvivalAt, survivalAt } from '../survival/product-limit.ts';
import type { RelapseAnswer, RemediesAnswer, RemedyAnswer } from './answer.ts';
import { lastingOf } from './lasting.ts';
import { type LearntRelapse, learnRelapses } from './learn-relapse.ts';
import { type Services, type Silence, servicesOf, type WorkDone } from './service-times.ts';
import { countSoftly, type SoftCounts } from './soft-counts.ts';

/** Days at which survival is told. */
export const TOLD_AT = [30, 90, 180, 365] as const;
/** Below so many cards followed, figures are shown and called too few (this project's judgement). */
export const FEW_CARDS = 10;
/** A 95 % interval wider than this leaves it open whether the remedy lasts (this project's judgement). */
const WIDE = 0.5;
/** A law of its own for one remedy rests on at least so many relapses after it (this project's judgement); else the fault's serves. */
export const OWN_LAW_FROM = 5;
/** A law is told once the times weigh as much as one relapse of the book would, relapsed or not. */
const TOLD_FROM = 1;

export interface LearningOptions {
  /** called with how many records have been weighed, after each */
  readonly onProgress?: (weighed: number) => void;
  readonly silence?: Silence;
  readonly maxFaults?: number;
}

/**
 * Takes records to what the shop's own work lasts. `knowledge` is the book's, without what was learnt before: a record must not count
 * twice. Deterministic. Cost: one diagnosis for each time in service.
 */
export async function remediesFrom(
  knowledge: Knowledge,
  shop: Shop,
  records: readonly CardRecord[],
  options: LearningOptions = {},
): Promise<RemediesAnswer> {
  const work: WorkDone[] = [];
  const counts: SoftCounts[] = [];
  for (const [at, record] of records.entries()) {
    const services: Services = servicesOf(record, options.silence);
    work.push(...services.work);
    for (const service of services.times)
      counts.push(await countSoftly(knowledge, shop, record, service, options.maxFaults ?? DEFAULT_MAX_FAULTS));
    options.onProgress?.(at + 1);
  }
  const relapse = relapsesFrom(knowledge, counts);
  return {
    kind: 'remedies',
    format: 1,
    knowledge: knowledge.version,
    records: records.length,
    silentUntil: options.silence?.until ?? null,
    remedies: [...new Set(work.map(({ remedy }) => remedy))]
      .map((remedy) => remedyView(knowledge, remedy, work, counts))
      .sort((a, b) => b.done - a.done || a.remedy.localeCompare(b.remedy)),
    relapse,
    learnt: { relapse: relapse.map(entryOf) },
  };
}

function remedyView(
  knowledge: Knowledge,
  remedy: Id,
  work: readonly WorkDone[],
  all: readonly SoftCounts[],
): RemedyAnswer {
  const done = work.filter((one) => one.remedy === remedy);
  const outcome = (kind: WorkDone['outcome']) => done.filter((one) => one.outcome === kind).length;
  const counts = all.filter(({ service }) => service.remedy === remedy);
  const back = counts.filter(({ service }) => service.ended === 'came-back');
  const followed = counts.filter(({ service }) => service.ended === 'came-back' || service.days > 0);
  const because = Object.fromEntries(
    ATTRIBUTIONS.map((one) => [one, back.reduce((sum, count) => sum + (count.because?.[one] ?? 0), 0)]),
  ) as Record<Attribution, number>;
  const base = {
    remedy,
    name: knowledge.remedies.find(({ id }) => id === remedy)?.name ?? remedy,
    done: done.length,
    didNotWork: outcome('did-not-work'),
    notKnownToWork: outcome('not-known-to-work'),
    notHandedBack: outcome('not-handed-back'),
    leftWorking: outcome('left-working'),
    followed: followed.length,
    neverHeardOf: counts.length - followed.length,
    back: back.length,
    backByRemedy: back.reduce((sum, { failed }) => sum + failed, 0),
    because,
    dayUnknown: back.filter(({ service }) => service.dayUnknown).length,
    unjudged: counts.flatMap(({ service, unjudged }) => (unjudged ? [{ record: service.record, why: unjudged }] : [])),
  };
  if (followed.length === 0)
    return { ...base, survival: [], steps: [], law: null, halfBack: null, ...said('none-heard-of', 0) };
  const { curve, steps, law } = lastingOf(followed.map(({ service: { days }, failed }) => ({ days, failed })));
  const survival = TOLD_AT.map((days) => told(survivalAt(curve, days)));
  return {
    ...base,
    survival,
    steps,
    law,
    halfBack: medianTime(curve),
    ...said(doubtOf(followed.length, survival), followed.length),
  };
}

function told({ time, ...known }: SurvivalAt): RemedyAnswer['survival'][number] {
  return { days: time, ...known };
}

function doubtOf(followed: number, survival: RemedyAnswer['survival']): RemedyAnswer['doubt'] {
  if (followed < FEW_CARDS) return 'few';
  const open = survival.filter(({ low, high }) => low === null || high === null || high - low > WIDE);
  return open.length === survival.length ? 'wide-open' : null;
}

function said(doubt: RemedyAnswer['doubt'], followed: number): Pick<RemedyAnswer, 'doubt' | 'tooFew'> {
  if (doubt === null) return { doubt, tooFew: null };
  const sentences = {
    'none-heard-of': 'Of none that left working was anything heard again.',
    few: `${followed} followed: too few to mean anything. From ${FEW_CARDS} on these figures begin to speak.`,
    'wide-open': 'Every interval is wide open: these figures do not mean anything yet.',
  };
  return { doubt, tooFew: sentences[doubt] };
}

/** Laws of faults that heat can mask: over all remedies, and after one remedy where it was seen to relapse often enough. */
function relapsesFrom(knowledge: Knowledge, counts: readonly SoftCounts[]): RelapseAnswer[] {
  const book = knowledge.faults.map(({ relapse }) => relapse ?? null);
  const overall = learnRelapses(book, counts);
  const judged = counts.filter(({ asleep }) => asleep.length > 0);
  const known = new Map<string, readonly (LearntRelapse | null)[]>();
  const learntFrom = (cards: readonly SoftCounts[]) => {
    const key = cards.map((card) => judged.indexOf(card)).join();
    const laws = known.get(key) ?? learnRelapses(book, cards);
    known.set(key, laws);
    return laws;
  };
  return knowledge.faults.flatMap((fault, at) => {
    const learnt = overall[at];
    if (!learnt || learnt.hits + learnt.expected < TOLD_FROM) return [];
    const single = masking(knowledge, fault.id).flatMap((remedy) => {
      const after = judged.filter(({ service }) => maskedBy(knowledge, service.stay, fault.id) === remedy);
      // after no other remedy: what holds for all is its own
      if (after.length < OWN_LAW_FROM || after.length === judged.length) return [];
      const own = learntFrom(after)[at];
      return own && own.hits >= OWN_LAW_FROM ? [relapseView(knowledge, fault, own, remedy)] : [];
    });
    return [relapseView(knowledge, fault, learnt, null), ...single];
  });
}

function relapseView(
  knowledge: Knowledge,
  fault: Fault,
  { law, ...learnt }: LearntRelapse,
  remedy: Id | null,
): RelapseAnswer {
  const { medianDays, shape, n } = fault.relapse!;
  return {
    fault: fault.id,
    faultName: fault.name,
    remedy,
    remedyName: remedy === null ? null : (knowledge.remedies.find(({ id }) => id === remedy)?.name ?? remedy),
    book: { medianDays, shape, n },
    learnt: { medianDays: law.medianDays, shape: law.shape, n: law.n, low: law.low, high: law.high },
    hits: learnt.hits,
    trials: learnt.trials,
    since: learnt.since.slice(0, 10),
  };
}

function entryOf({ fault, remedy, learnt, hits, trials, since }: RelapseAnswer): LearntEntry {
  const round = (value: number) => Number(value.toPrecision(6));
  return {
    fault,
    ...(remedy === null ? {} : { remedy }),
    medianDays: round(learnt.medianDays),
    shape: round(learnt.shape),
    n: round(learnt.n),
    basis: 'shop',
    hits: round(hits),
    trials: round(trials),
    since,
  };
}

function masking(knowledge: Knowledge, fault: Id): Id[] {
  return knowledge.remedies.flatMap(({ id, effects }) => ((effects[fault]?.masks?.p ?? 0) > 0 ? [id] : []));
}

/** The last work of the stay that can have masked the fault: a later service job did not put it to sleep. */
function maskedBy(knowledge: Knowledge, stay: readonly Id[], fault: Id): Id | undefined {
  const able = new Set(masking(knowledge, fault));
  return stay.findLast((remedy) => able.has(remedy));
}
