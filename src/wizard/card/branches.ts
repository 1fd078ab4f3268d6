/** The results a check may have, laid out as branches of a stem: how thick each is, and how often one turns the verdict. */
import type { Assessed, CheckAdvice } from '../../assessment.ts';

/** Part of the stem, as shares of its whole thickness: what is left above a branch, and what goes on below it. */
export interface Limb {
  readonly above: number;
  readonly below: number;
}

export interface Branch extends Limb {
  readonly outcome: CheckAdvice['outcomes'][number];
  readonly turns: boolean;
}

export interface Branches {
  readonly shown: readonly Branch[];
  /** all the results too rare for a row of their own; null: together they are less than rounding */
  readonly rest: (Limb & { readonly chance: number }) | null;
}

const LEAST_REST = 0.005;

export function branchesOf(advice: CheckAdvice, verdict: Assessed['verdict']): Branches {
  const unlisted = 1 - advice.outcomes.reduce((sum, { chance }) => sum + chance, 0);
  const hasRest = unlisted >= LEAST_REST;
  let left = 1;
  const shown = advice.outcomes.map((outcome, at) => {
    const above = left;
    const isLast = !hasRest && at === advice.outcomes.length - 1;
    left = isLast ? 0 : Math.max(0, above - outcome.chance);
    return { outcome, turns: outcome.verdict !== verdict.kind, above, below: left };
  });
  if (!hasRest) return { shown, rest: null };
  // the column of rounded percentages adds up to 100, and never to more
  const percentLeft = 100 - shown.reduce((sum, { outcome }) => sum + Math.round(100 * outcome.chance), 0);
  return { shown, rest: { chance: percentLeft > 0 ? percentLeft / 100 : unlisted, above: left, below: 0 } };
}

/** Chance that the result turns the verdict, of the results shown. */
export const chanceOfTurning = ({ shown }: Branches): number =>
  Math.min(
    1,
    shown.reduce((sum, { turns, outcome }) => sum + (turns ? outcome.chance : 0), 0),
  );
