/** How firm a verdict is, in a word and as a hundred tries. */
import type { Sensitivity, VerdictKind } from '../../assessment.ts';

export type FirmnessWord = 'firm' | 'fair' | 'shaky' | 'open';

const FIRM = 0.9;
const FAIR = 0.7;

/** Open where another verdict wins more of the tries than the one given. */
export function firmnessOf(
  { stands, winners }: Pick<Sensitivity, 'stands' | 'winners'>,
  kind: VerdictKind,
): FirmnessWord {
  if (winners.some(({ verdict, share }) => verdict !== kind && share > stands)) return 'open';
  if (stands >= FIRM) return 'firm';
  return stands >= FAIR ? 'fair' : 'shaky';
}

/**
 * Shares as whole tries that add up to a hundred. The verdict given is rounded as it is everywhere else, so that the words and the
 * picture agree; the others share the rest by largest remainders (Hamilton's method). Verdicts without a try are left out.
 *
 * @example scrap given; scrap .496, reball .4945, return .0095: 50, 49, 1
 */
export function triesOf(
  winners: Sensitivity['winners'],
  kind: VerdictKind,
): readonly { readonly verdict: VerdictKind; readonly count: number }[] {
  const whole = winners.map(({ verdict, share }) => {
    const tries = 100 * share;
    const count = verdict === kind ? Math.round(tries) : Math.floor(tries);
    return { verdict, count, rest: verdict === kind ? -1 : tries - count };
  });
  const total = Math.round(100 * winners.reduce((sum, { share }) => sum + share, 0));
  const missing = total - whole.reduce((sum, { count }) => sum + count, 0);
  const raised = new Set(whole.toSorted((a, b) => b.rest - a.rest).slice(0, Math.max(0, missing)));
  return whole
    .map((part) => ({ verdict: part.verdict, count: part.count + (raised.has(part) ? 1 : 0) }))
    .filter(({ count }) => count > 0);
}
