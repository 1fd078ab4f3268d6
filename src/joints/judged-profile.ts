/** A profile against its window, row by row, and what that says as a finding. */
import type { Cited } from './cited.ts';
import { type Grade, type Graded, gradeQuantity, type Limit, type Quantity, worseGrade } from './graded-limit.ts';
import type { Heat, Measure, Measured, Profile } from './profile.ts';
import type { ReflowWindow, WindowRow } from './reflow-window.ts';

export interface JudgedRow extends Graded {
  readonly measure: Measure;
  readonly limit: Limit;
  readonly measured: Measured;
  /** where the limit comes from; null for the shop's own */
  readonly cited: Cited | null;
  /** why it cannot be told, where that is not the uncertainty */
  readonly because?: string;
}

export interface JudgedHeat {
  readonly channel: string;
  /** counted from 1 within its channel */
  readonly heat: number;
  readonly rows: readonly JudgedRow[];
  readonly grade: Grade;
  readonly chanceInside: number;
}

export interface JudgedProfile {
  readonly against: ReflowWindow;
  readonly heats: readonly JudgedHeat[];
  readonly spread: (Graded & { readonly quantity: Quantity; readonly atMost: number }) | null;
  readonly grade: Grade;
  readonly chanceInside: number;
  /** what the bench record takes up: the finding's states with their weights */
  readonly finding: {
    readonly id: 'profile-record';
    readonly weights: Readonly<Record<'in-window' | 'out-of-window', number>>;
  };
}

/** What a quantity that was not recorded says about its limit: nothing either way. */
const NOTHING_EITHER_WAY = 0.5;

/**
 * Judges every heat of every channel. A profile is inside where all rows of all heats are, outside where one is, and
 * cannot be told otherwise. Its chance of being inside is that of its worst row: the rows share one thermocouple and one
 * clock, so that their chances do not multiply. That chance and the rest are the weights of the finding `profile-record`,
 * and a row that was not recorded counts one half.
 *
 * A heat that may have stayed below the liquidus is no reason to call a profile outside, unless it is the hottest one.
 * Cost: rows times heats.
 */
export function judgeProfile(profile: Profile, against: ReflowWindow): JudgedProfile {
  const heats = profile.channels.flatMap(({ name, heats: measured, hottest }) =>
    measured.map((heat, i) => judgeHeat(name, i + 1, heat, against, i === hottest)),
  );
  const atMost = against.spreadAtPeakAtMost;
  const spread =
    atMost === undefined || profile.spreadAtPeak === undefined
      ? null
      : { ...gradeQuantity(profile.spreadAtPeak, { atMost }), quantity: profile.spreadAtPeak, atMost };
  const all = [...heats, ...(spread ? [spread] : [])];
  const grade = all.map((one) => one.grade).reduce(worseGrade, all.length > 0 ? 'inside' : 'cannot-tell');
  const chanceInside = all.length > 0 ? Math.min(...all.map((one) => one.chanceInside)) : NOTHING_EITHER_WAY;
  return {
    against,
    heats,
    spread,
    grade,
    chanceInside,
    finding: { id: 'profile-record', weights: { 'in-window': chanceInside, 'out-of-window': 1 - chanceInside } },
  };
}

function judgeHeat(channel: string, number: number, heat: Heat, against: ReflowWindow, isHottest: boolean): JudgedHeat {
  const counts = heat.surelyMelted || isHottest;
  const rows = against.rows.map((row) => {
    const judged = judgeRow(row, heat.measures[row.measure], against);
    if (counts || judged.grade !== 'outside') return judged;
    return unclear(row, judged.measured, 'this heat may have stayed below the liquidus', judged.side);
  });
  return {
    channel,
    heat: number,
    rows,
    grade: rows.map(({ grade }) => grade).reduce(worseGrade, 'inside'),
    chanceInside: Math.min(...rows.map(({ chanceInside }) => chanceInside), 1),
  };
}

function judgeRow(row: WindowRow, measured: Measured, against: ReflowWindow): JudgedRow {
  if (measured.kind === 'not-recorded') return unclear(row, measured, measured.because, null);
  const graded = gradeQuantity(measured, row.limit);
  const { ceilingAtMost } = against;
  const unsettled = ceilingAtMost !== undefined && (row.measure === 'peak' || row.measure === 'secondsNearCeiling');
  if (!unsettled || graded.grade === 'inside') return { ...row, measured, ...graded };
  const because = `the ceiling is ${against.levels.ceiling} to ${ceilingAtMost} °C for a package of unknown size`;
  if (row.measure === 'peak') {
    const limit = { ...row.limit, atMost: ceilingAtMost };
    const highest = gradeQuantity(measured, limit);
    if (highest.grade === 'outside') return { ...row, limit, measured, ...highest };
  }
  return unclear(row, measured, because, graded.side);
}

function unclear(row: WindowRow, measured: Measured, because: string, side: Graded['side']): JudgedRow {
  return { ...row, measured, grade: 'cannot-tell', chanceInside: NOTHING_EITHER_WAY, side, because };
}
