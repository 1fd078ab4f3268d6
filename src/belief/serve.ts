/** Time in service: what "worked until that day" and "still working" say about the condition of a card. */
import {
  type Fold,
  faultOf,
  isDormant,
  memberCode,
  type Situation,
  settle,
  standingOf,
  worksNow,
} from './trajectory.ts';

/** Weibull time until a masked fault is back. */
export interface Relapse {
  readonly medianDays: number;
  readonly shape: number;
}

export interface Service {
  /** per fault; null where nothing masks it */
  readonly relapse: readonly (Relapse | null)[];
  /** new faults per day, per fault */
  readonly newPerDay: ArrayLike<number>;
  /** 1 for faults that are not the card's */
  readonly host: ArrayLike<number>;
}

/** Failure is noticed to the day. */
const DAY = 1;

/**
 * The card went out working and was still working after `days`: every trajectory weighs its chance of that, the product over
 * its dormant faults of their survival and that of no new fault. One with an active fault of the card cannot have gone
 * out working. Longer survival never raises the share of a masked fault whose hazard does not fall (shape 1 or more) against a sound card
 * (but for days on which it is below the rate of the same fault anew), nor, so, the chance that anything sleeps at all. Of two masked faults
 * the slower gains on the quicker: its own chance may rise.
 */
export function stillWorking(fold: Fold, days: number, service: Service): Fold | null {
  const survived = fold.situations.map((situation) =>
    worksNow(situation, service.host) && !hasActiveHost(situation, service) ? survival(situation, days, service) : 0,
  );
  const weight = fold.chance.map((chance, i) => chance * survived[fold.now[i]!]!);
  return settle(fold, { situations: fold.situations, before: fold.before, now: fold.now, weight });
}

/**
 * The card went out working and failed on day `days`: every trajectory weighs its chance to fail within that day, and splits into what
 * failed: each dormant fault that came back, each new fault. A fault of the host shows on day 0, as soon as the card is home.
 *
 * Null where no trajectory can do that. P(fails on the day) = S(t) - S(t + 1) by each cause, from the cause's own hazard over the day.
 */
export function failedOnDay(fold: Fold, days: number, service: Service): Fold | null {
  return failed(fold, [{ from: days, to: days + DAY }], service);
}

/** How finely a failure at an unknown time is looked for: stretches, closer together early, where relapses are. */
const STRETCHES = 40;

/**
 * The card went out working and failed on some day up to `days`, nobody knows which: the sum over these days. It was last heard of as
 * working after `heard` days (nought: never), so that it failed on no day before. Days are taken in stretches
 * of whole days, finer early; their chances add up to S(heard) - S(days + 1) whatever the stretches, and only how a stretch is shared out
 * among several causes takes their hazards as steady within it. A fault of the host shows on the first day, once.
 * Null where it cannot have failed at all.
 */
export function failedBy(fold: Fold, days: number, service: Service, heard = 0): Fold | null {
  const begin = Math.floor(heard);
  const end = Math.floor(days) + DAY;
  if (!(begin < end)) throw new RangeError(`A card that works after ${heard} days has not failed by day ${days}.`);
  const edges = Array.from(
    { length: STRETCHES + 1 },
    (_, step) => begin + Math.round((end - begin) * (step / STRETCHES) ** 2),
  );
  // the first day stands alone, since what shows at once shows then
  const bounds = [...new Set([begin, begin + DAY, ...edges])].sort((a, b) => a - b);
  return failed(
    fold,
    bounds.slice(1).map((to, i) => ({ from: bounds[i]!, to })),
    service,
  );
}

/** Survival of a Weibull stated by its median: exp(-ln 2 (t / median)^shape). */
export function survives({ medianDays, shape }: Relapse, days: number): number {
  return Math.exp(-cumulativeHazard({ medianDays, shape }, days));
}

/** In days of service: from (included) to (not included). */
interface FailedWhen {
  readonly from: number;
  readonly to: number;
}

function failed(fold: Fold, when: readonly FailedWhen[], service: Service): Fold | null {
  const situations: Situation[] = [...fold.situations];
  const before: number[] = [];
  const now: number[] = [];
  const weight: number[] = [];
  const onFirstDay = when.some(({ from }) => from < DAY);
  const fates = fold.situations.map((situation, at) => {
    if (!worksNow(situation, service.host)) return [];
    if (hasActiveHost(situation, service)) return onFirstDay ? [{ now: at, share: 1 }] : [];
    return null;
  });
  const fatesOf = (at: number) => {
    fates[at] ??= failures(fold.situations[at]!, when, service).map(({ situation, share }) => {
      situations.push(situation);
      return { now: situations.length - 1, share };
    });
    return fates[at];
  };
  for (let i = 0; i < fold.chance.length; i++) {
    for (const fate of fatesOf(fold.now[i]!)) {
      before.push(fold.before[i]!);
      now.push(fate.now);
      weight.push(fold.chance[i]! * fate.share);
    }
  }
  return settle(fold, { situations, before, now, weight });
}

/** What may fail in a working card, each with its chance over the days in question: competing risks, hazards steady within a stretch. */
function failures(
  situation: Situation,
  when: readonly FailedWhen[],
  service: Service,
): { situation: Situation; share: number }[] {
  const { relapse, newPerDay } = service;
  const present = new Set(situation.map(faultOf));
  const dormant = situation.filter((code) => isDormant(code) && relapse[faultOf(code)]);
  let newRate = 0;
  for (let fault = 0; fault < newPerDay.length; fault++) if (!present.has(fault)) newRate += newPerDay[fault]!;
  const back = new Float64Array(dormant.length);
  let anyNew = 0;
  for (const { from, to } of when) {
    const hazards = dormant.map((code) => {
      const law = relapse[faultOf(code)]!;
      return cumulativeHazard(law, to) - cumulativeHazard(law, from);
    });
    const all = hazards.reduce((sum, hazard) => sum + hazard, newRate * (to - from));
    if (!(all > 0)) continue;
    const perHazard = (survival(situation, from, service) * -Math.expm1(-all)) / all;
    hazards.forEach((hazard, k) => {
      back[k]! += perHazard * hazard;
    });
    anyNew += perHazard * (to - from);
  }
  const list = dormant.map((code, k) => ({
    situation: situation.map((other) =>
      other === code ? memberCode(faultOf(code), standingOf(code) === 'latent' ? 'opened' : 'relapsed') : other,
    ),
    share: back[k]!,
  }));
  if (!(anyNew > 0)) return list;
  for (let fault = 0; fault < newPerDay.length; fault++) {
    if (present.has(fault) || !(newPerDay[fault]! > 0)) continue;
    const grown = [...situation, memberCode(fault, 'new')].sort((a, b) => a - b);
    list.push({ situation: grown, share: anyNew * newPerDay[fault]! });
  }
  return list;
}

function cumulativeHazard({ medianDays, shape }: Relapse, days: number): number {
  return Math.LN2 * (Math.max(0, days) / medianDays) ** shape;
}

function survival(situation: Situation, days: number, { relapse, newPerDay }: Service): number {
  let hazard = 0;
  for (let fault = 0; fault < newPerDay.length; fault++) hazard += newPerDay[fault]! * days;
  for (const code of situation) {
    hazard -= (newPerDay[faultOf(code)] ?? 0) * days;
    const back = relapse[faultOf(code)];
    if (isDormant(code) && back) hazard += cumulativeHazard(back, days);
  }
  return Math.exp(-Math.max(0, hazard));
}

function hasActiveHost(situation: Situation, { host }: Service): boolean {
  return situation.some((code) => !isDormant(code) && host[faultOf(code)] === 1);
}
