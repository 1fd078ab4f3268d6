/** Along one figure, from one end of its range to the other: where which verdict wins. */
import type { Verdict } from './treatment.ts';
import { type Changes, reconsider, type WhatIf } from './what-if.ts';

export type Axis = keyof Changes;

export interface VerdictRegion {
  readonly from: number;
  readonly to: number;
  readonly verdict: Verdict;
}

/** Net worth (surplus less margin) of a plan as a line in the figure. */
interface Line {
  readonly verdict: Verdict;
  readonly stop: boolean;
  readonly start: number;
  readonly slope: number;
}

/**
 * Splits the range of one figure, the other changes as given, into the stretches on which one verdict wins. Exact: along
 * each figure every plan's surplus less margin is a straight line, so the winner changes only where two lines cross or one
 * crosses zero. Neighbouring stretches with the same verdict are one. Needs `from < to`; chances are linear only up to
 * certainty, so a range of `worksTimes` must end where the first plan it bears on always works. Cost: plans per change of winner.
 */
export function verdictRegions(
  whatIf: WhatIf,
  changes: Changes,
  axis: Axis,
  from: number,
  to: number,
): readonly VerdictRegion[] {
  const lines = linesAlong(whatIf, changes, axis, from, to);
  const regions: VerdictRegion[] = [];
  let at = 0;
  while (at < 1) {
    const winner = winnerAfter(lines, at);
    const next = Math.min(1, nextChange(lines, winner, at));
    const region = { from: from + at * (to - from), to: from + next * (to - from), verdict: winner.verdict };
    const last = regions.at(-1);
    if (last?.verdict === region.verdict) regions[regions.length - 1] = { ...last, to: region.to };
    else regions.push(region);
    at = next;
  }
  return regions;
}

/** Lines over the range as 0 to 1. */
function linesAlong(whatIf: WhatIf, changes: Changes, axis: Axis, from: number, to: number): Line[] {
  const start = reconsider(whatIf, { ...changes, [axis]: from }).plans;
  const end = reconsider(whatIf, { ...changes, [axis]: to }).plans;
  return whatIf.plans.map(({ verdict, stop }, at) => {
    const net = start[at]!.surplus - start[at]!.margin;
    return { verdict, stop: stop !== null, start: net, slope: end[at]!.surplus - end[at]!.margin - net };
  });
}

const netAt = (line: Line, at: number): number => line.start + at * line.slope;

/** Events nearer than this on the range of 0 to 1 are one. */
const TINY = 1e-9;

/** The winner just after a point, so that what happens at the point itself has happened. */
function winnerAfter(lines: readonly Line[], at: number): Line {
  const after = at + 2 * TINY;
  const open = lines.filter((line) => line.stop || netAt(line, after) >= 0);
  return open.reduce((best, line) => (netAt(line, after) > netAt(best, after) ? line : best));
}

/** The nearest point beyond `at` where the winner closes, is overtaken, or another line opens above it. */
function nextChange(lines: readonly Line[], winner: Line, at: number): number {
  let nearest = Number.POSITIVE_INFINITY;
  const meet = (point: number) => {
    if (point > at + TINY && point < nearest) nearest = point;
  };
  if (!winner.stop && winner.slope < 0) meet(-winner.start / winner.slope);
  for (const line of lines) {
    if (line === winner) continue;
    if (line.slope > winner.slope) meet((winner.start - line.start) / (line.slope - winner.slope));
    if (!line.stop && line.slope > 0) meet(-line.start / line.slope);
  }
  return nearest;
}
