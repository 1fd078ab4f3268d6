/** What information is worth: perfect, of a set of tests, and of every single test on the bench. */
import { type ActNow, actNow } from './act-now.ts';
import { perfectInformation, type UpperBound } from './bounds.ts';
import { opensAny, valueOfOpening, WORTH_NOTHING } from './one-step.ts';
import { type Action, afterTest, isOffered, openPlay, type Play, priceOfTest, type Situation } from './play.ts';
import type { DecisionProblem } from './problem.ts';

/**
 * Expected value of perfect information: what knowing the condition before acting would add to acting now, tests apart.
 * Never negative (Howard 1966). O(conditions x (stops + remedies)) besides acting now.
 *
 * @example evpi(oilWildcatter) // 35
 */
export function evpi(problem: DecisionProblem): number {
  const play = openPlay(problem);
  return perfectInformation(play)(play.start) - actNow(play)(play.start).value;
}

/**
 * Expected value of sample information: what the results of these tests, all of them done, add to acting now, before
 * their costs. The expectation over all joint outcomes of the value of acting on the posterior, less acting now.
 * Never negative. What opens what is ignored: it is the worth of the results, however come by. O(product of the numbers of outcomes).
 *
 * @example evsi(oilWildcatter, ['seismic']) // 12.5
 */
export function evsi(problem: DecisionProblem, tests: readonly string[]): number {
  const play = openPlay(free(problem));
  const act = actNow(play);
  return worthOfResults(play, act, indicesOf(problem, tests)) - act(play.start).value;
}

/**
 * Expected payoff of doing these tests one after the other, all of them and whatever comes out, and then acting without
 * any other: costs, harm and preparations included.
 *
 * @example valueOfTestingFirst(T3b, ['q']) // -13.2: where acting at once costs 12
 */
export function valueOfTestingFirst(problem: DecisionProblem, tests: readonly string[]): number {
  const play = openPlay(problem);
  const order = indicesOf(problem, tests);
  const act = actNow(play);
  const value = (situation: Situation, place: number): number => {
    const test = order[place];
    if (test === undefined) return act(situation).value;
    return (
      branch(play, situation, test, (next) => value(next, place + 1)) -
      situation.mass * priceOfTest(play, situation.paid, test)
    );
  };
  return value(play.start, 0);
}

export interface OutcomeOfTest {
  readonly outcome: string;
  readonly chance: number;
  /** the best first action on this outcome, without further tests */
  readonly action: { readonly kind: Action['kind']; readonly id: string };
  /** expected payoff on this outcome, without further tests; costs so far left out */
  readonly value: number;
}

export interface WorthOfTest {
  readonly test: string;
  /** false: what it requires is not done yet, or came out otherwise */
  readonly offered: boolean;
  /** expected value of its result alone, before cost; never negative */
  readonly gain: number;
  /** its price less what its preparations save the actions after it */
  readonly cost: number;
  /** gain - cost: doing it and acting on the result, against acting now */
  readonly worth: number;
  /** as `worth`, with the tests that it opens done where they are worth it; equal to `worth` where it opens none */
  readonly worthOfOpening: number;
  /** neither its result nor its result together with that of any other single test changes what is best to do */
  readonly cannotChange: boolean;
  /** likeliest first */
  readonly outcomes: readonly OutcomeOfTest[];
}

/**
 * The worth of every test in this situation. `tolerance` (unit of the payoffs) is what counts as no gain at all.
 * Cost: tests x outcomes, and tests x outcomes x
 * tests x outcomes for those that gain nothing alone, each time one act-now.
 */
export function worthOfTests(
  play: Play,
  tools: { readonly act: ActNow; readonly bound: UpperBound },
  tolerance: number = WORTH_NOTHING,
): WorthOfTest[] {
  const { act, bound } = tools;
  const { start, problem } = play;
  const now = act(start).value;
  // preparations and costs left out, so that a gain is that of the result and not of a cooler already off
  const freePlay = openPlay(free(problem));
  const freeAct = sharesNothing(problem) ? act : actNow(freePlay);
  const gains = play.tests.map((_, test) => Math.max(0, worthOfResults(freePlay, freeAct, [test]) - now));
  const idle = changeNothing(freePlay, freeAct, bound, gains, tolerance);
  return problem.tests.map(({ id, outcomes }, test) => {
    const results: OutcomeOfTest[] = [];
    let after = 0;
    outcomes.forEach((outcome, index) => {
      const next = afterTest(play, start, test, index);
      if (!next) return;
      const acting = act(next);
      after += acting.value;
      results.push({
        outcome,
        chance: next.mass,
        action: nameOf(problem, acting.action),
        value: acting.value / next.mass,
      });
    });
    results.sort((one, other) => other.chance - one.chance);
    const worth = after - now - priceOfTest(play, start.paid, test);
    const offered = isOffered(play, start, test);
    const opening =
      offered && opensAny(play, start, test) ? valueOfOpening(play, act, bound, start, test) - now : worth;
    return {
      test: id,
      offered,
      gain: gains[test]!,
      cost: gains[test]! - worth,
      worth,
      worthOfOpening: Math.max(worth, opening),
      cannotChange: idle[test]!,
      outcomes: results,
    };
  });
}

/** Tests that gain nothing alone and add nothing to the result of any other single one. */
function changeNothing(
  play: Play,
  act: ActNow,
  bound: UpperBound,
  gains: readonly number[],
  tolerance: number,
): boolean[] {
  const { start } = play;
  const now = act(start).value;
  if (bound(start) - now <= tolerance) return gains.map(() => true);
  const together = new Map<number, number>();
  const gainTogether = (one: number, other: number): number => {
    const [first, second] = one < other ? [one, other] : [other, one];
    const pair = first * gains.length + second;
    const known = together.get(pair);
    if (known !== undefined) return known;
    // nothing more to learn where acting is as good as knowing
    const value = branch(play, start, first, (next) => {
      const acting = act(next).value;
      return bound(next) <= acting ? acting : act.afterTest(next, second);
    });
    together.set(pair, value - now);
    return value - now;
  };
  const byGain = gains.map((_, test) => test).sort((one, other) => gains[other]! - gains[one]!);
  return gains.map(
    (gain, test) =>
      gain <= tolerance &&
      byGain.every((other) => other === test || gainTogether(test, other) - gains[other]! <= tolerance),
  );
}

export function nameOf(problem: DecisionProblem, action: Action | undefined): { kind: Action['kind']; id: string } {
  if (!action) throw new RangeError('Nothing can be done here: the problem offers neither a stop nor a remedy.');
  const list = { stop: problem.stops, test: problem.tests, remedy: problem.remedies }[action.kind];
  return { kind: action.kind, id: list[action.index]!.id };
}

function worthOfResults(play: Play, act: ActNow, tests: readonly number[]): number {
  const value = (situation: Situation, place: number): number => {
    const test = tests[place];
    return test === undefined ? act(situation).value : branch(play, situation, test, (next) => value(next, place + 1));
  };
  return value(play.start, 0);
}

function branch(play: Play, situation: Situation, test: number, value: (next: Situation) => number): number {
  let sum = 0;
  for (let outcome = 0; outcome < play.problem.tests[test]!.outcomes.length; outcome++) {
    const next = afterTest(play, situation, test, outcome);
    if (next) sum += value(next);
  }
  return sum;
}

/** The same problem with tests that cost, harm and prepare nothing. */
function free(problem: DecisionProblem): DecisionProblem {
  const tests = problem.tests.map((test) => ({ ...test, cost: 0, harm: 0, preparations: [], requires: [] }));
  return { ...problem, tests };
}

/** No test prepares anything that a stop or a remedy needs, so that paying for tests leaves acting as it is. */
function sharesNothing({ tests, stops, remedies }: DecisionProblem): boolean {
  const made = new Set(tests.flatMap(({ preparations }) => preparations));
  return [...stops, ...remedies].every(({ preparations }) => preparations.every((each) => !made.has(each)));
}

function indicesOf(problem: DecisionProblem, tests: readonly string[]): number[] {
  return tests.map((id) => {
    const index = problem.tests.findIndex((test) => test.id === id);
    if (index < 0)
      throw new RangeError(
        `The problem has no test "${id}"; it has ${problem.tests.map((test) => test.id).join(', ')}.`,
      );
    return index;
  });
}
