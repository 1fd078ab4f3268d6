/**
 * The state of play: what is believed, which tests were done with which outcome, which remedies were tried, which
 * preparations are paid. Every planner moves through a problem with these functions and no others.
 *
 * A belief here is *joint* with everything seen so far: belief[c] = P(condition c now, all outcomes and failures so far).
 * Its sum, the mass, is the chance of having come here. Values carry the same weight, so that branches simply add up
 * and nothing is divided on the way.
 */
import { checkProblem } from './check-problem.ts';
import type { DecisionProblem } from './problem.ts';

export interface Action {
  readonly kind: 'stop' | 'test' | 'remedy';
  /** into the list of its kind in the problem */
  readonly index: number;
}

export interface Situation {
  readonly belief: Float64Array;
  readonly mass: number;
  /** per test: 0 not done, else outcome + 1 */
  readonly seen: Uint8Array;
  /** per remedy: how often it was tried */
  readonly tried: Uint8Array;
  /** set of paid preparations, one bit each */
  readonly paid: number;
  /** equal for situations from which everything goes on alike */
  readonly key: number | string;
}

/** Chooses what to do next. */
export type Policy = (situation: Situation) => Action;

export interface Play {
  readonly problem: DecisionProblem;
  readonly start: Situation;
  readonly stops: readonly Action[];
  readonly tests: readonly Action[];
  readonly remedies: readonly Action[];
  /** preparations of each action as a set of bits */
  readonly needs: { readonly stop: Int32Array; readonly test: Int32Array; readonly remedy: Int32Array };
  /** per test: the tests that open it, with the outcomes that do, one bit each */
  readonly opens: readonly (readonly { readonly test: number; readonly outcomes: number }[])[];
  readonly attempts: Uint8Array;
  /** product of (attempts + 1): how many ways of having tried the remedies there are */
  readonly remedyStates: number;
  /** no failed remedy moves the condition, so that the order of tests and remedies leaves no trace in the belief */
  readonly commutes: boolean;
  /** whether keys are mixed-radix numbers */
  readonly numericKeys: boolean;
  readonly testRadix: Float64Array;
  readonly remedyRadix: Float64Array;
}

/** Branches rarer than this share of their parent are rounding, not outcomes. */
const ROUNDING = 1e-15;
/** Where order may matter, situations are the same when their joint beliefs, which weigh their values, agree to this. */
const SAME_BELIEF = 1e-12;

/** Opens a problem for play; throws where the problem is malformed. Cost: one pass over its numbers. */
export function openPlay(problem: DecisionProblem): Play {
  checkProblem(problem);
  const testIndex = new Map(problem.tests.map((test, index) => [test.id, index]));
  const bits = (list: readonly number[]) => list.reduce((set, preparation) => set | (1 << preparation), 0);
  const attempts = Uint8Array.from(problem.remedies, (remedy) => remedy.attempts ?? 1);
  const testRadix = new Float64Array(problem.tests.length);
  const remedyRadix = new Float64Array(problem.remedies.length);
  let states = 1;
  problem.tests.forEach((test, index) => {
    testRadix[index] = states;
    states *= test.outcomes.length + 1;
  });
  attempts.forEach((most, index) => {
    remedyRadix[index] = states;
    states *= most + 1;
  });
  const commutes = problem.remedies.every((remedy) =>
    remedy.transitions.every(({ to }, from) => to.every(({ condition, chance }) => condition === from || chance === 0)),
  );
  const numericKeys = commutes && states <= Number.MAX_SAFE_INTEGER;
  const actions = (kind: Action['kind'], count: number): Action[] =>
    Array.from({ length: count }, (_, index) => ({ kind, index }));
  const start = {
    belief: Float64Array.from(problem.prior),
    mass: 1,
    seen: new Uint8Array(problem.tests.length),
    tried: new Uint8Array(problem.remedies.length),
    paid: 0,
    key: numericKeys ? 0 : 'start',
  };
  return {
    problem,
    start,
    stops: actions('stop', problem.stops.length),
    tests: actions('test', problem.tests.length),
    remedies: actions('remedy', problem.remedies.length),
    needs: {
      stop: Int32Array.from(problem.stops, (stop) => bits(stop.preparations)),
      test: Int32Array.from(problem.tests, (test) => bits(test.preparations)),
      remedy: Int32Array.from(problem.remedies, (remedy) => bits(remedy.preparations)),
    },
    opens: problem.tests.map((test) =>
      test.requires.map((need) => ({ test: testIndex.get(need.test)!, outcomes: bits(need.outcomes) })),
    ),
    attempts,
    remedyStates: attempts.reduce((product, most) => product * (most + 1), 1),
    commutes,
    numericKeys,
    testRadix,
    remedyRadix,
  };
}

/** Whether a test is on offer: not done yet, and every test it requires done with an outcome that opens it. */
export function isOffered(play: Play, situation: Situation, test: number): boolean {
  if (situation.seen[test] !== 0) return false;
  for (const need of play.opens[test]!) {
    const seen = situation.seen[need.test]!;
    if (seen === 0 || (need.outcomes & (1 << (seen - 1))) === 0) return false;
  }
  return true;
}

export function isLeft(play: Play, situation: Situation, remedy: number): boolean {
  return situation.tried[remedy]! < play.attempts[remedy]!;
}

/** Cost of those needed preparations that are not paid. */
export function unpaid(play: Play, needed: number, paid: number): number {
  let missing = needed & ~paid;
  let cost = 0;
  for (let preparation = 0; missing !== 0; preparation++, missing >>>= 1) {
    if (missing & 1) cost += play.problem.preparations[preparation]!.cost;
  }
  return cost;
}

/** What a test costs in this situation: its own cost, the harm it can do, and the preparations not yet paid. */
export function priceOfTest(play: Play, paid: number, test: number): number {
  const { cost, harm } = play.problem.tests[test]!;
  return cost + (harm ?? 0) + unpaid(play, play.needs.test[test]!, paid);
}

/** What one attempt at a remedy costs in this situation. */
export function priceOfRemedy(play: Play, paid: number, remedy: number): number {
  return play.problem.remedies[remedy]!.cost + unpaid(play, play.needs.remedy[remedy]!, paid);
}

/** Weighted value of stopping: sum over c of belief[c] payoff[c], less mass times the unpaid preparations. O(conditions). */
export function valueOfStop(play: Play, situation: Situation, stop: number): number {
  const payoff = play.problem.stops[stop]!.payoff;
  return weigh(situation.belief, payoff) - situation.mass * unpaid(play, play.needs.stop[stop]!, situation.paid);
}

/** The best stop; `stop` is -1 and the value minus infinity where the problem has none. O(stops x conditions). */
export function bestStop(play: Play, situation: Situation): { stop: number; value: number } {
  let stop = -1;
  let value = Number.NEGATIVE_INFINITY;
  for (let index = 0; index < play.stops.length; index++) {
    const candidate = valueOfStop(play, situation, index);
    if (candidate > value) {
      stop = index;
      value = candidate;
    }
  }
  return { stop, value };
}

/** Scalar product that lets impossible conditions pay whatever they like, minus infinity included. */
export function weigh(belief: Float64Array, values: Float64Array): number {
  let sum = 0;
  for (let c = 0; c < belief.length; c++) {
    const weight = belief[c]!;
    if (weight !== 0) sum += weight * values[c]!;
  }
  return sum;
}

/** The situation after a test came out so; undefined where that cannot happen. O(conditions). */
export function afterTest(play: Play, situation: Situation, test: number, outcome: number): Situation | undefined {
  const likelihood = play.problem.tests[test]!.likelihood[outcome]!;
  const belief = new Float64Array(likelihood.length);
  let mass = 0;
  for (let c = 0; c < belief.length; c++) {
    const joint = situation.belief[c]! * likelihood[c]!;
    belief[c] = joint;
    mass += joint;
  }
  if (mass <= situation.mass * ROUNDING) return undefined;
  const seen = situation.seen.slice();
  seen[test] = outcome + 1;
  const key = play.numericKeys
    ? (situation.key as number) + play.testRadix[test]! * (outcome + 1)
    : keyOf(play, seen, situation.tried, belief);
  return { belief, mass, seen, tried: situation.tried, paid: situation.paid | play.needs.test[test]!, key };
}

/** Weighted payoff of the cases in which the remedy fixes it: sum over c of belief[c] fixed[c] payoff[c]. */
export function payoffWhenFixed(play: Play, situation: Situation, remedy: number): number {
  const { transitions } = play.problem.remedies[remedy]!;
  let sum = 0;
  for (let c = 0; c < transitions.length; c++) {
    const { fixed, payoff } = transitions[c]!;
    if (fixed !== 0) sum += situation.belief[c]! * fixed * payoff;
  }
  return sum;
}

/** The situation after a remedy did not fix it; undefined where it cannot fail. O(transitions). */
export function afterFailure(play: Play, situation: Situation, remedy: number): Situation | undefined {
  const { transitions } = play.problem.remedies[remedy]!;
  const belief = new Float64Array(situation.belief.length);
  let mass = 0;
  for (let c = 0; c < transitions.length; c++) {
    const weight = situation.belief[c]!;
    if (weight === 0) continue;
    for (const { condition, chance } of transitions[c]!.to) {
      belief[condition] = belief[condition]! + weight * chance;
      mass += weight * chance;
    }
  }
  if (mass <= situation.mass * ROUNDING) return undefined;
  const tried = situation.tried.slice();
  tried[remedy] = tried[remedy]! + 1;
  const key = play.numericKeys
    ? (situation.key as number) + play.remedyRadix[remedy]!
    : keyOf(play, situation.seen, tried, belief);
  return { belief, mass, seen: situation.seen, tried, paid: situation.paid | play.needs.remedy[remedy]!, key };
}

/**
 * Where nothing moves conditions, outcomes and attempts say it all, in whatever order they came. Otherwise the belief
 * itself is part of the key: two orders count as one only where they arrive at the same belief.
 */
function keyOf(play: Play, seen: Uint8Array, tried: Uint8Array, belief: Float64Array): string {
  const sets = String.fromCharCode(...seen, ...tried);
  if (play.commutes) return sets;
  let key = sets;
  for (let c = 0; c < belief.length; c++) key += `,${Math.round(belief[c]! / SAME_BELIEF).toString(36)}`;
  return key;
}
