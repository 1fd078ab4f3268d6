/** Time in service: what "worked until that day" and "still working" say about the condition of a card. */
import { type Fold, type Member, settle, type Trajectory, worksNow } from './trajectory.ts';

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
 * out working. Longer survival never raises the share of a masked fault whose hazard does not fall (shape 1 or more) against a sound card.
 */
export function stillWorking(fold: Fold, days: number, service: Service): Fold | null {
  return settle(
    fold,
    fold.trajectories
      .filter((trajectory) => worksNow(trajectory, service.host) && !hasActiveHost(trajectory, service))
      .map((trajectory) => ({ ...trajectory, chance: trajectory.chance * survival(trajectory, days, service) })),
  );
}

/**
 * The card went out working and failed on day `days`: every trajectory weighs its chance to fail within that day, and splits into what
 * failed: each dormant fault that came back, each new fault. A fault of the host shows on day 0, as soon as the card is home.
 *
 * Null where no trajectory can do that. P(fails on the day) = S(t) - S(t + 1) by each cause, from the cause's own hazard over the day.
 */
export function failedOnDay(fold: Fold, days: number, service: Service): Fold | null {
  const after: Trajectory[] = [];
  for (const trajectory of fold.trajectories) {
    if (!worksNow(trajectory, service.host)) continue;
    if (hasActiveHost(trajectory, service)) {
      if (days < DAY) after.push(trajectory);
      continue;
    }
    const alive = trajectory.chance * survival(trajectory, days, service);
    const causes = causesOn(trajectory, days, service);
    const rate = causes.reduce((sum, cause) => sum + cause.hazard, 0);
    if (rate <= 0) continue;
    // competing risks over one day with hazards that hardly change within it
    const failed = alive * -Math.expm1(-rate);
    for (const { now, hazard } of causes) after.push({ ...trajectory, now, chance: (failed * hazard) / rate });
  }
  return settle(fold, after);
}

/** How finely a failure at an unknown time is looked for: steps, closer together early, where relapses are. */
const STEPS = 40;

/**
 * The card went out working and failed on some day up to `days`, nobody knows which: the sum over days, on a grid that is finer early.
 * Null where it cannot have failed at all.
 */
export function failedBy(fold: Fold, days: number, service: Service): Fold | null {
  const edges = Array.from({ length: STEPS + 1 }, (_, step) => days * (step / STEPS) ** 2);
  const parts = edges.slice(1).flatMap((end, step) => {
    const start = edges[step]!;
    const failed = failedOnDay(fold, Math.floor((start + end) / 2), service);
    if (!failed) return [];
    const weight = Math.exp(failed.logChance - fold.logChance) * Math.max(DAY, end - start);
    return failed.trajectories.map((trajectory) => ({ ...trajectory, chance: trajectory.chance * weight }));
  });
  return settle(fold, parts);
}

/** Survival of a Weibull stated by its median: exp(-ln 2 (t / median)^shape). */
export function survives({ medianDays, shape }: Relapse, days: number): number {
  return Math.exp(-cumulativeHazard({ medianDays, shape }, days));
}

function cumulativeHazard({ medianDays, shape }: Relapse, days: number): number {
  return Math.LN2 * (Math.max(0, days) / medianDays) ** shape;
}

function survival({ now }: Trajectory, days: number, { relapse, newPerDay }: Service): number {
  let hazard = 0;
  const present = new Set(now.map(({ fault }) => fault));
  for (let fault = 0; fault < newPerDay.length; fault++) if (!present.has(fault)) hazard += newPerDay[fault]! * days;
  for (const { fault, standing } of now) {
    const back = relapse[fault];
    if (standing === 'dormant' && back) hazard += cumulativeHazard(back, days);
  }
  return Math.exp(-hazard);
}

function causesOn(
  { now }: Trajectory,
  days: number,
  { relapse, newPerDay }: Service,
): { now: Member[]; hazard: number }[] {
  const causes: { now: Member[]; hazard: number }[] = [];
  now.forEach(({ fault, standing }, at) => {
    const back = relapse[fault];
    if (standing !== 'dormant' || !back) return;
    const hazard = cumulativeHazard(back, days + DAY) - cumulativeHazard(back, days);
    causes.push({ now: now.with(at, { fault, standing: 'relapsed' }), hazard });
  });
  const present = new Set(now.map(({ fault }) => fault));
  for (let fault = 0; fault < newPerDay.length; fault++) {
    if (present.has(fault) || !(newPerDay[fault]! > 0)) continue;
    const grown: Member[] = [...now, { fault, standing: 'new' }];
    causes.push({ now: grown.sort((a, b) => a.fault - b.fault), hazard: newPerDay[fault]! * DAY });
  }
  return causes;
}

function hasActiveHost({ now }: Trajectory, { host }: Service): boolean {
  return now.some(({ fault, standing }) => standing !== 'dormant' && host[fault] === 1);
}
