/**
 * Rollout: looks some steps ahead through every promising action and values what follows by a simpler rule that is
 * itself valued exactly, so that the result is never worse than that rule (Bertsekas & Castanon, J. Heuristics 5, 1999).
 */
import type { UpperBound } from './bounds.ts';
import { type Compare, canWin, type Effort, following, WORTH_NOTHING } from './one-step.ts';
import {
  type Action,
  afterFailure,
  afterTest,
  isLeft,
  type Play,
  payoffWhenFixed,
  priceOfRemedy,
  priceOfTest,
  type Situation,
} from './play.ts';
import { valueOfPolicy } from './policy.ts';

export interface RolloutOptions {
  /** steps looked ahead before the simpler rule takes over; 2 sees pairs of tests. Default 2 */
  readonly depth?: number;
  /** tests followed up at each step, best by one-step value first. Default: all */
  readonly beam?: number;
}

export interface Choice {
  /** weighted by the situation's mass: the value of taking the action and following the plan from there */
  readonly value: number;
  readonly action: Action;
}

/** The best choice found for a situation. */
export type Choose = (situation: Situation) => Choice;

/**
 * Builds the chooser. L0(s) is the exact value of the one-step policy; L(d)(s) is the best, over actions, of
 * - price + sum over outcomes of L(d-1). Always among the actions: what the simpler rule would do, acting now, every
 * remedy that could win, and the `beam` best tests. Nothing is drawn at random. When the effort runs out in the middle, what is not yet looked at keeps the value of the simpler rule, and then of acting now:
 * values stay those of real plans, so they only get smaller.
 */
export function rollout(
  play: Play,
  tools: { readonly bound: UpperBound; readonly compare: Compare; readonly effort: Effort },
  options: RolloutOptions = {},
): Choose {
  const { bound, compare, effort } = tools;
  const beam = options.beam ?? Number.POSITIVE_INFINITY;
  const base = valueOfPolicy(play, following(compare));
  const memories: Map<number | string, Choice>[] = [];

  const look = (situation: Situation, depth: number): Choice => {
    memories[depth] ??= new Map();
    const known = memories[depth].get(situation.key);
    if (known) return known;
    const choice = consider(situation, depth);
    memories[depth].set(situation.key, choice);
    return choice;
  };
  const valueAt = (situation: Situation, depth: number) =>
    depth === 0 ? base(situation) : look(situation, depth).value;

  const consider = (situation: Situation, depth: number): Choice => {
    const simple = compare(situation);
    let best: Choice = { value: valueAt(situation, depth - 1), action: simple.action };
    if (depth > 1) best = look(situation, depth - 1);
    const most = bound(situation);
    const enough = WORTH_NOTHING * situation.mass;
    if (most <= best.value + enough || effort.left <= 0 || situation.mass < effort.cut) return best;
    effort.left--;

    const { acting } = simple;
    if (acting.action && acting.value > best.value) best = { value: acting.value, action: acting.action };
    for (let r = 0; r < play.remedies.length; r++) {
      if (!isLeft(play, situation, r)) continue;
      let value = payoffWhenFixed(play, situation, r) - situation.mass * priceOfRemedy(play, situation.paid, r);
      const failed = afterFailure(play, situation, r);
      if (failed) {
        if (value + bound(failed) <= best.value) continue;
        value += valueAt(failed, depth - 1);
      }
      if (value > best.value) best = { value, action: play.remedies[r]! };
    }
    for (const { test } of simple.tests.slice(0, beam)) {
      if (!canWin(play, situation, test, most, best.value + enough)) continue;
      let value = -situation.mass * priceOfTest(play, situation.paid, test);
      const branches: { next: Situation; most: number }[] = [];
      play.problem.tests[test]!.outcomes.forEach((_, outcome) => {
        const next = afterTest(play, situation, test, outcome);
        if (!next) return;
        const branch = { next, most: bound(next) };
        branches.push(branch);
        value += branch.most;
      });
      for (const branch of branches) {
        if (value <= best.value + enough) break;
        value += valueAt(branch.next, depth - 1) - branch.most;
      }
      if (value > best.value + enough) best = { value, action: play.tests[test]! };
    }
    return best;
  };

  // step by step deeper, so that an effort that ends early has spent itself on the nearest steps
  return (situation) => {
    const depth = options.depth ?? 2;
    let choice = look(situation, 1);
    for (let deeper = 2; deeper <= depth; deeper++) choice = look(situation, deeper);
    return choice;
  };
}
