/** Voids in balls as the X-ray shows them. */
import type { Cited } from './cited.ts';

export interface VoidLimit {
  readonly revision: string;
  /** share of the ball's image area, percent */
  readonly percent: number;
  readonly cited: Cited;
}

/** IPC-A-610: the limit was raised between revisions, so that it never goes without one. */
export const VOID_LIMITS: readonly VoidLimit[] = [
  {
    revision: 'D/E',
    percent: 25,
    cited: { source: 'ipc-a-610', place: 'ball grid voids, revisions D and E', seen: 'quoted' },
  },
  {
    revision: 'F and later',
    percent: 30,
    cited: { source: 'ipc-a-610', place: 'ball grid voids, later revisions', seen: 'memory' },
  },
];

/**
 * Area of the voids in percent of the ball's image: 100 sum (d_void / d_ball)^2, both across the image in one unit.
 * Overlapping voids are counted twice (an upper bound). A void wider than its ball, or a ball of nought, is an error.
 *
 * @example voidAreaPercent(0.5, [0.15]) // 9
 */
export function voidAreaPercent(ballDiameter: number, voidDiameters: readonly number[]): number {
  if (!(ballDiameter > 0)) throw new RangeError(`A ball is wider than nought, not ${ballDiameter}.`);
  let sum = 0;
  for (const diameter of voidDiameters) {
    if (!(diameter >= 0 && diameter <= ballDiameter))
      throw new RangeError(`A void is from nought to as wide as its ball (${ballDiameter}), not ${diameter}.`);
    sum += diameter ** 2;
  }
  return (100 * sum) / ballDiameter ** 2;
}

export interface VoidsJudged {
  readonly percent: number;
  readonly limits: readonly (VoidLimit & { readonly within: boolean })[];
}

/** The area against the limit of each revision; the limit itself is within. */
export function judgeVoids(ballDiameter: number, voidDiameters: readonly number[]): VoidsJudged {
  const percent = voidAreaPercent(ballDiameter, voidDiameters);
  return { percent, limits: VOID_LIMITS.map((limit) => ({ ...limit, within: percent <= limit.percent })) };
}
