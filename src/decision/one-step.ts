/** One-step value of information: act now, or do one test and act then; looked at afresh after every step. */
import type { Acting, ActNow } from './act-now.ts';
import type { UpperBound } from './bounds.ts';
import { type Action, afterTest, isOffered, type Play, type Policy, priceOfTest, type Situation } from './play.ts';

/** A test must gain more than this (in the unit of the payoffs) before it is worth doing: below it, differences are rounding. */
export const WORTH_NOTHING = 1e-9;

export interface Compared {
  readonly acting: Acting;
  /** the better of acting now and the best way of testing first; weighted */
  readonly value: number;
  readonly action: Action;
  /** tests that could win, each followed by acting without further tests; best first; weighted */
  readonly tests: readonly { readonly test: number; readonly value: number }[];
}
export type Compare = (situation: Situation) => Compared;

/**
 * Compares acting now with each offered test followed by acting without further tests. Tests that perfect information
 * shows can never be worth their price are left out. A test that opens locked ones is also looked at together with
 * them (`valueOfOpening`). Once `mayGoOn` says no, the answer is to act now. Remembers every situation. Cost: tests x outcomes x one act-now.
 */
export function oneStep(play: Play, act: ActNow, bound: UpperBound, mayGoOn: () => boolean = () => true): Compare {
  const memory = new Map<number | string, Compared>();
  return (situation) => {
    const known = memory.get(situation.key);
    if (known) return known;
    const compared = compareOnce(play, act, bound, mayGoOn, situation);
    memory.set(situation.key, compared);
    return compared;
  };
}

/** The policy that follows a comparison. */
export function following(compare: Compare): Policy {
  return (situation) => compare(situation).action;
}

function compareOnce(
  play: Play,
  act: ActNow,
  bound: UpperBound,
  mayGoOn: () => boolean,
  situation: Situation,
): Compared {
  const acting = act(situation);
  const tests: { test: number; value: number }[] = [];
  let value = acting.value;
  let action = acting.action;
  const most = bound(situation);
  const enough = WORTH_NOTHING * situation.mass;
  if (most > acting.value + enough && mayGoOn()) {
    for (let t = 0; t < play.tests.length; t++) {
      if (!isOffered(play, situation, t) || !canWin(play, situation, t, most, acting.value + enough)) continue;
      const alone = act.afterTest(situation, t) - situation.mass * priceOfTest(play, situation.paid, t);
      const opening = opensAny(play, situation, t) ? valueOfOpening(play, act, bound, situation, t) : alone;
      tests.push({ test: t, value: Math.max(alone, opening) });
    }
    tests.sort((one, other) => other.value - one.value || one.test - other.test);
    const first = tests[0];
    if (first && first.value > value + enough) {
      value = first.value;
      action = play.tests[first.test];
    }
  }
  if (!action) throw new RangeError('Nothing can be done here: the problem offers neither a stop nor a remedy.');
  return { acting, value, action, tests };
}

/** No if even perfect information afterwards would not make up for the price. Preparations count as shared. */
export function canWin(play: Play, situation: Situation, test: number, most: number, least: number): boolean {
  const { cost, harm } = play.problem.tests[test]!;
  return most - situation.mass * (cost + (harm ?? 0)) > least;
}

/** Whether some test that is not done waits for this one. */
export function opensAny(play: Play, situation: Situation, test: number): boolean {
  for (let other = 0; other < play.tests.length; other++) {
    if (situation.seen[other] === 0 && play.opens[other]!.some((need) => need.test === test)) return true;
  }
  return false;
}

/**
 * Weighted value of doing a test and then, on each outcome, whatever is best of acting and of the tests it has just
 * opened, those in turn with what they open. One test that says little may be the way to one that says much. The value
 * is that of a real plan. Cost: outcomes x tests opened x one act-now, per link of the chain.
 */
export function valueOfOpening(play: Play, act: ActNow, bound: UpperBound, situation: Situation, test: number): number {
  let value = -situation.mass * priceOfTest(play, situation.paid, test);
  const waiting: number[] = [];
  for (let other = 0; other < play.tests.length; other++) {
    if (situation.seen[other] === 0 && play.opens[other]!.some((need) => need.test === test)) waiting.push(other);
  }
  for (let outcome = 0; outcome < play.problem.tests[test]!.outcomes.length; outcome++) {
    const next = afterTest(play, situation, test, outcome);
    if (!next) continue;
    let best = act(next).value;
    let most: number | undefined;
    for (const opened of waiting) {
      if (!isOffered(play, next, opened)) continue;
      most ??= bound(next);
      if (!canWin(play, next, opened, most, best)) continue;
      const alone = act.afterTest(next, opened) - next.mass * priceOfTest(play, next.paid, opened);
      if (alone > best) best = alone;
      if (opensAny(play, next, opened)) best = Math.max(best, valueOfOpening(play, act, bound, next, opened));
    }
    value += best;
  }
  return value;
}
