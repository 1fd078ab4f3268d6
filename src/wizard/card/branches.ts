/** The results a check may have, laid out as branches of a stem: how thick each is, and how often one turns the verdict. */
import type { Assessed, CheckAdvice } from '../../assessment.ts';

export interface Branch {
  readonly outcome: CheckAdvice['outcomes'][number];
  readonly turns: boolean;
  /** of the stem, as shares of its whole thickness: what is left above this branch, and what goes on below it */
  readonly above: number;
  readonly below: number;
}

/** Rounding keeps the stem from ending in a thread. */
const LEAST_STEM = 1e-9;

export function branchesOf(advice: CheckAdvice, verdict: Assessed['verdict']): readonly Branch[] {
  const total = advice.outcomes.reduce((sum, { chance }) => sum + chance, 0);
  let left = 1;
  return advice.outcomes.map((outcome) => {
    const above = left;
    const below = left - (total > 0 ? outcome.chance / total : 0);
    left = below < LEAST_STEM ? 0 : below;
    return { outcome, turns: outcome.verdict !== verdict.kind, above, below: left };
  });
}

/** Chance that the result turns the verdict, of the results shown. */
export const chanceOfTurning = (branches: readonly Branch[]): number =>
  Math.min(
    1,
    branches.reduce((sum, { turns, outcome }) => sum + (turns ? outcome.chance : 0), 0),
  );
