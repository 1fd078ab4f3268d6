/** Expectimax over beliefs, with memory: the best plan there is, where the reachable situations are few enough. */
import { perfectInformation } from './bounds.ts';
import {
  type Action,
  afterFailure,
  afterTest,
  bestStop,
  isLeft,
  isOffered,
  openPlay,
  type Play,
  type Policy,
  payoffWhenFixed,
  priceOfRemedy,
  priceOfTest,
  type Situation,
} from './play.ts';
import type { DecisionProblem } from './problem.ts';

/** A test must win by more than this per unit of mass: less is rounding, and a test that says nothing is not done. */
const TIE = 1e-11;

export type Exact =
  | {
      readonly kind: 'exact';
      /** expected payoff of the best plan: its own upper bound */
      readonly value: number;
      readonly upperBound: number;
      /** situations that had to be solved */
      readonly beliefs: number;
      /** the best action wherever the best plan can lead */
      readonly policy: Policy;
      readonly play: Play;
    }
  | { readonly kind: 'too-large'; readonly beliefs: number };

/**
 * Solves a problem exactly, or says that it is too large. V(situation) is the largest of: each stop's expected payoff;
 * each offered test's - price + sum over outcomes of V; each remedy's - price + payoff where it fixes + V of its
 * failure. Situations with equal keys are solved once. A branch is skipped only where perfect information proves that
 * it cannot win, so the value is exact. Cost: at most maxNodes x (tests x outcomes + remedies + stops) x conditions.
 *
 * @example solveExactly(oilWildcatter, { maxNodes: 100 }).value // 22.5
 */
export function solveExactly(problem: DecisionProblem, options: { readonly maxNodes: number }): Exact {
  return solvePlay(openPlay(problem), options.maxNodes);
}

/** As `solveExactly`, for a problem that is open already. */
export function solvePlay(play: Play, maxNodes: number): Exact {
  const memory = new Map<number | string, { value: number; action: Action | undefined }>();
  const bound = perfectInformation(play);
  let limit = maxNodes;
  let tooLarge = false;

  const solve = (situation: Situation): number => {
    const known = memory.get(situation.key);
    if (known) return known.value;
    if (memory.size >= limit) {
      tooLarge = true;
      return Number.NEGATIVE_INFINITY;
    }
    const { stop, value } = bestStop(play, situation);
    const best = { value, action: play.stops[stop] };
    const most = bound(situation);
    // set before its branches are solved, so that the count is of situations begun; no branch leads back here
    memory.set(situation.key, best);
    if (value >= most) return value;
    for (let r = 0; r < play.remedies.length && !tooLarge; r++) {
      if (!isLeft(play, situation, r)) continue;
      let candidate = payoffWhenFixed(play, situation, r) - situation.mass * priceOfRemedy(play, situation.paid, r);
      const failed = afterFailure(play, situation, r);
      if (failed) {
        if (candidate + bound(failed) <= best.value) continue;
        candidate += solve(failed);
      }
      if (candidate > best.value) {
        best.value = candidate;
        best.action = play.remedies[r];
      }
    }
    for (let t = 0; t < play.tests.length && !tooLarge; t++) {
      if (!isOffered(play, situation, t)) continue;
      const { cost, harm, outcomes } = play.problem.tests[t]!;
      // without the preparations: paying them early may save them later
      if (most - situation.mass * (cost + (harm ?? 0)) <= best.value) continue;
      let candidate = -situation.mass * priceOfTest(play, situation.paid, t);
      const branches: { next: Situation; most: number }[] = [];
      for (let outcome = 0; outcome < outcomes.length; outcome++) {
        const next = afterTest(play, situation, t, outcome);
        if (!next) continue;
        const branch = { next, most: bound(next) };
        branches.push(branch);
        candidate += branch.most;
      }
      // from the optimistic sum down to the true one, giving up as soon as it cannot win
      for (const branch of branches) {
        if (candidate <= best.value || tooLarge) break;
        candidate += solve(branch.next) - branch.most;
      }
      if (candidate > best.value + TIE * situation.mass) {
        best.value = candidate;
        best.action = play.tests[t];
      }
    }
    return best.value;
  };

  const value = solve(play.start);
  if (tooLarge) return { kind: 'too-large', beliefs: memory.size };
  const beliefs = memory.size;
  // a situation the search could skip is off the best plan, but a caller may still ask for it
  limit = Number.POSITIVE_INFINITY;
  const policy: Policy = (situation) => {
    solve(situation);
    const action = memory.get(situation.key)?.action;
    if (!action) throw new RangeError('Nothing can be done here: the problem offers neither a stop nor a remedy.');
    return action;
  };
  return { kind: 'exact', value, upperBound: value, beliefs, policy, play };
}
