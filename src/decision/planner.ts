/** What to do next: the best plan that can be found for the effort, with a certificate of how good it is. */
import { type ActNow, actNow } from './act-now.ts';
import type { UpperBound } from './bounds.ts';
import { confusionBound } from './confusion.ts';
import { solvePlay } from './exact.ts';
import { following, oneStep, WORTH_NOTHING } from './one-step.ts';
import { type Action, openPlay, type Play, type Policy } from './play.ts';
import { valueOfPolicy } from './policy.ts';
import type { DecisionProblem } from './problem.ts';
import { reduceProblem } from './reduce.ts';
import { searchPlan } from './search.ts';
import { nameOf, type WorthOfTest, worthOfTests } from './worth.ts';

export interface PlanOptions {
  /** most conditions times situations an exact solution may take; default 500 000 */
  readonly exactWork?: number;
  /** what a search may weigh, as `ActNow.work` counts; default 4 000 000. Counted, not timed: the same problem gets the same plan */
  readonly effort?: number;
  /** what counts as no gain at all, in the unit of the payoffs; default 1e-9 */
  readonly tolerance?: number;
}

export interface Certificate {
  readonly method: 'exact' | 'search';
  /** expected payoff of the plan found */
  readonly value: number;
  /** no plan can be worth more */
  readonly upperBound: number;
  /** expected payoff of acting now, without any test */
  readonly now: number;
}

export interface Planned {
  readonly certificate: Certificate;
  readonly first: { readonly kind: Action['kind']; readonly id: string };
  /** what to do if nothing was tested any more */
  readonly acting: { readonly kind: Action['kind']; readonly id: string };
  readonly tests: readonly WorthOfTest[];
  /** the reduced problem in play, and the plan as a policy over it */
  readonly play: Play;
  readonly policy: Policy;
}

/**
 * Plans a problem: exactly where it has few enough situations, else by best-first search, and where that comes to no end
 * by the one-step rule if it is better, as far as the same effort carries it. The value is that of a real plan; the
 * upper bound holds for every plan; with `exact` both are equal.
 *
 * @example plan(T4).certificate // { method: 'exact', value: -12, upperBound: -12, now: -15 }
 */
export function plan(problem: DecisionProblem, options: PlanOptions = {}): Planned {
  const play = openPlay(reduceProblem(problem));
  const bound = confusionBound(play);
  const act = actNow(play, bound);
  const acting = act(play.start);
  const tolerance = options.tolerance ?? WORTH_NOTHING;
  const found = findPlan(play, act, bound, options);
  return {
    certificate: { method: found.method, value: found.value, upperBound: found.upperBound, now: acting.value },
    first: nameOf(play.problem, found.policy(play.start)),
    acting: nameOf(play.problem, acting.action),
    tests: worthOfTests(play, { act, bound }, tolerance),
    play,
    policy: found.policy,
  };
}

/** About 30 ms for a card of 300 conditions; three times as much adds less than a hundredth to the plan (`npm run bench -- --only planning`). */
export const DEFAULT_EFFORT = 4_000_000;

interface Found {
  readonly method: Certificate['method'];
  readonly value: number;
  readonly upperBound: number;
  readonly policy: Policy;
}

function findPlan(play: Play, act: ActNow, bound: UpperBound, options: PlanOptions): Found {
  const effort = options.effort ?? DEFAULT_EFFORT;
  const situations = Math.floor((options.exactWork ?? 500_000) / play.problem.conditions.length);
  if (situationsAtMost(play) <= situations) {
    const exact = solvePlay(play, situations);
    if (exact.kind === 'exact') return { method: 'exact', ...exact };
  }
  const searched = searchPlan(play, { act, bound }, { effort });
  if (searched.upperBound - searched.value <= WORTH_NOTHING) {
    return { method: 'exact', value: searched.value, upperBound: searched.value, policy: searched.policy };
  }
  const limit = act.work + effort;
  const simple = following(oneStep(play, act, bound, () => act.work < limit));
  const value = valueOfPolicy(play, simple)(play.start);
  const { upperBound } = searched;
  return value > searched.value
    ? { method: 'search', value, upperBound, policy: simple }
    : { method: 'search', value: searched.value, upperBound, policy: searched.policy };
}

/** Product of (outcomes + 1) and (attempts + 1). Few of them need solving, but none beyond. */
function situationsAtMost(play: Play): number {
  return play.problem.tests.reduce((product, { outcomes }) => product * (outcomes.length + 1), play.remedyStates);
}
