/** What to do next: the best plan that can be found for the effort, with a certificate of how good it is. */
import { actNow } from './act-now.ts';
import { lookAheadBound, perfectInformation } from './bounds.ts';
import { solvePlay } from './exact.ts';
import { oneStep, WORTH_NOTHING } from './one-step.ts';
import { type Action, openPlay, type Play, type Policy } from './play.ts';
import type { DecisionProblem } from './problem.ts';
import { reduceProblem } from './reduce.ts';
import { rollout } from './rollout.ts';
import { nameOf, type WorthOfTest, worthOfTests } from './worth.ts';

export interface PlanOptions {
  /** most situations an exact solution may take; default 20 000 */
  readonly exactNodes?: number;
  /** comparisons of tests a rollout may make; default 400. Counted, not timed, so that the same problem gets the same plan */
  readonly effort?: number;
  /** steps a rollout looks ahead; default 2, which sees pairs of tests */
  readonly depth?: number;
  /** tests a rollout follows up at each step; default 5 */
  readonly beam?: number;
  /** chance below which a rollout does not test any further; default 1e-6 */
  readonly cut?: number;
  /** what counts as no gain at all, in the unit of the payoffs; default 1e-9 */
  readonly tolerance?: number;
}

export interface Certificate {
  readonly method: 'exact' | 'rollout';
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
 * Plans a problem: exactly where it has few enough situations, else by rollout. The value is that of a real plan; the
 * upper bound is the least of the known ones; with `exact` both are equal.
 */
export function plan(problem: DecisionProblem, options: PlanOptions = {}): Planned {
  const play = openPlay(reduceProblem(problem));
  const bound = perfectInformation(play);
  const act = actNow(play, bound);
  const acting = act(play.start);
  const now = acting.value;
  const tests = worthOfTests(play, { act, bound }, options.tolerance ?? WORTH_NOTHING);
  const result = (certificate: Certificate, policy: Policy): Planned => ({
    certificate,
    first: nameOf(play.problem, policy(play.start)),
    acting: nameOf(play.problem, acting.action),
    tests,
    play,
    policy,
  });

  const exactNodes = options.exactNodes ?? 20_000;
  if (situationsAtMost(play) <= exactNodes) {
    const exact = solvePlay(play, exactNodes);
    if (exact.kind === 'exact') {
      return result({ method: 'exact', value: exact.value, upperBound: exact.value, now }, exact.policy);
    }
  }
  const effort = { left: options.effort ?? 400, cut: options.cut ?? 1e-6 };
  const compare = oneStep(play, act, bound, effort);
  const choose = rollout(play, { bound, compare, effort }, { depth: options.depth ?? 2, beam: options.beam ?? 5 });
  const { value } = choose(play.start);
  const upperBound = Math.max(value, lookAheadBound(play, bound, 2)(play.start));
  return result({ method: 'rollout', value, upperBound, now }, (situation) => choose(situation).action);
}

/** Product of (outcomes + 1) and (attempts + 1). Few of them need solving, but none beyond. */
function situationsAtMost(play: Play): number {
  return play.problem.tests.reduce((product, { outcomes }) => product * (outcomes.length + 1), play.remedyStates);
}
