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

export interface Effort {
  /** comparisons that may still be made; with none left the answer is to act now */
  left: number;
  /** situations with a smaller chance than this are not tested any further */
  readonly cut: number;
}
export const WITHOUT_LIMIT: Effort = { left: Number.POSITIVE_INFINITY, cut: 0 };

/**
 * Compares acting now with each offered test followed by acting without further tests. Tests that perfect information
 * shows can never be worth their price are left out. Where no single test wins, tests that others open are looked at
 * together with what opens them: each locked test stands for the chain that leads to it, broken off as soon as acting
 * is better. Remembers every situation. Cost: tests x outcomes x one act-now.
 */
export function oneStep(play: Play, act: ActNow, bound: UpperBound, effort: Effort = { ...WITHOUT_LIMIT }): Compare {
  const memory = new Map<number | string, Compared>();
  return (situation) => {
    const known = memory.get(situation.key);
    if (known) return known;
    const compared = compareOnce(play, act, bound, effort, situation);
    memory.set(situation.key, compared);
    return compared;
  };
}

/** The policy that follows a comparison. */
export function following(compare: Compare): Policy {
  return (situation) => compare(situation).action;
}

function compareOnce(play: Play, act: ActNow, bound: UpperBound, effort: Effort, situation: Situation): Compared {
  const acting = act(situation);
  const tests: { test: number; value: number }[] = [];
  let value = acting.value;
  let action = acting.action;
  const most = bound(situation);
  const enough = WORTH_NOTHING * situation.mass;
  if (most > acting.value + enough && effort.left > 0 && situation.mass >= effort.cut) {
    effort.left--;
    for (let t = 0; t < play.tests.length; t++) {
      if (!isOffered(play, situation, t) || !canWin(play, situation, t, most, acting.value + enough)) continue;
      const candidate = chainValue(play, act, bound, situation, [t], 0);
      tests.push({ test: t, value: candidate });
    }
    tests.sort((one, other) => other.value - one.value || one.test - other.test);
    if (tests[0] && tests[0].value > value + enough) {
      value = tests[0].value;
      action = play.tests[tests[0].test];
    } else {
      for (const chain of chainsToLocked(play, situation)) {
        if (!canWin(play, situation, chain[0]!, most, value + enough)) continue;
        const candidate = chainValue(play, act, bound, situation, chain, 0);
        if (candidate > value + enough) {
          value = candidate;
          action = play.tests[chain[0]!];
        }
      }
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

/**
 * Weighted value of doing the tests of a chain in order, the first in any case, each later one only where it is open
 * and acting is not better already.
 */
export function chainValue(
  play: Play,
  act: ActNow,
  bound: UpperBound,
  situation: Situation,
  chain: readonly number[],
  place: number,
): number {
  const test = chain[place]!;
  let value = -situation.mass * priceOfTest(play, situation.paid, test);
  const { outcomes } = play.problem.tests[test]!;
  for (let outcome = 0; outcome < outcomes.length; outcome++) {
    const next = afterTest(play, situation, test, outcome);
    if (!next) continue;
    const acting = act(next).value;
    const following = chain[place + 1];
    if (
      following !== undefined &&
      isOffered(play, next, following) &&
      canWin(play, next, following, bound(next), acting)
    ) {
      value += Math.max(acting, chainValue(play, act, bound, next, chain, place + 1));
    } else {
      value += acting;
    }
  }
  return value;
}

/** For every test that is locked but can still be opened: the tests to do, in order, it last. */
export function chainsToLocked(play: Play, situation: Situation): number[][] {
  const chains: number[][] = [];
  for (let t = 0; t < play.tests.length; t++) {
    if (situation.seen[t] !== 0 || isOffered(play, situation, t)) continue;
    const chain: number[] = [];
    if (collect(play, situation, t, chain, new Set())) chains.push(chain);
  }
  return chains;
}

function collect(play: Play, situation: Situation, test: number, chain: number[], asked: Set<number>): boolean {
  if (chain.includes(test)) return true;
  if (asked.has(test)) return false;
  asked.add(test);
  for (const need of play.opens[test]!) {
    const seen = situation.seen[need.test]!;
    if (seen === 0) {
      if (!collect(play, situation, need.test, chain, asked)) return false;
    } else if ((need.outcomes & (1 << (seen - 1))) === 0) {
      return false;
    }
  }
  chain.push(test);
  return true;
}
