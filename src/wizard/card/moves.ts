/** What an answer moved: the chances before it against those after it. */
import type { RankedChance } from '../../assess/diagnosis.ts';

export interface Move {
  readonly fault: string;
  readonly name: string;
  readonly was: number;
  readonly now: number;
  /** in whole points of a hundred; below zero it fell */
  readonly points: number;
}

type Ranking = readonly RankedChance[];

/** Whole points between two chances as they are shown: 12 % and 34 % are 22 points apart whatever lies behind the comma. */
export const pointsBetween = (was: number, now: number): number => Math.round(100 * now) - Math.round(100 * was);

/** All that moved by at least a point, furthest first. A cause that is in only one of the lists was, or is, unlikely beyond naming. */
export function movesBetween(before: Ranking, after: Ranking): readonly Move[] {
  const was = new Map(before.map((cause) => [cause.fault, cause]));
  const now = new Map(after.map((cause) => [cause.fault, cause]));
  const all = new Map([...was, ...now]);
  return [...all.values()]
    .map(({ fault, name }): Move => {
      const chances = { was: was.get(fault)?.chance ?? 0, now: now.get(fault)?.chance ?? 0 };
      return { fault, name, ...chances, points: pointsBetween(chances.was, chances.now) };
    })
    .filter(({ points }) => points !== 0)
    .sort((a, b) => Math.abs(b.points) - Math.abs(a.points));
}

/** Moves worth a word when their causes are not in sight. */
const LEAST_POINTS_NAMED = 5;

export function movesOutOfSight(moves: readonly Move[], inSight: ReadonlySet<string>, most = 2): readonly Move[] {
  return moves
    .filter(({ fault, points }) => !inSight.has(fault) && Math.abs(points) >= LEAST_POINTS_NAMED)
    .slice(0, most);
}
