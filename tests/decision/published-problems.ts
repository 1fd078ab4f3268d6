/** Published and constructed decision problems, written for the core. Answers are in the tests that use them. */
import type { DecisionProblem, RemedyAction, StopAction, TestAction } from '../../src/decision/problem.ts';

export const stop = (id: string, ...payoff: number[]): StopAction => ({
  kind: 'stop',
  id,
  payoff: Float64Array.from(payoff),
  preparations: [],
});

/** rows: outcome -> chance given each condition */
export const test = (
  id: string,
  cost: number,
  rows: Readonly<Record<string, readonly number[]>>,
  requires: TestAction['requires'] = [],
): TestAction => ({
  kind: 'test',
  id,
  cost,
  preparations: [],
  outcomes: Object.keys(rows),
  likelihood: Object.values(rows).map((row) => Float64Array.from(row)),
  requires,
});

/** A remedy that fixes condition c with chance fixed[c] and otherwise changes nothing. */
export const repair = (id: string, cost: number, ...fixed: number[]): RemedyAction => ({
  kind: 'remedy',
  id,
  cost,
  preparations: [],
  transitions: fixed.map((chance, condition) => ({
    fixed: chance,
    payoff: 0,
    to: chance === 1 ? [] : [{ condition, chance: 1 - chance }],
  })),
});

export function problem(
  conditions: readonly string[],
  prior: readonly number[],
  ...actions: (StopAction | TestAction | RemedyAction)[]
): DecisionProblem {
  return {
    conditions,
    prior: Float64Array.from(prior),
    preparations: [],
    stops: actions.filter((action) => action.kind === 'stop'),
    tests: actions.filter((action) => action.kind === 'test'),
    remedies: actions.filter((action) => action.kind === 'remedy'),
  };
}

/** Raiffa, Decision Analysis (1968), as restated by Shenoy (1992). */
export const oilWildcatter = problem(
  ['dry', 'wet', 'soaking'],
  [0.5, 0.3, 0.2],
  stop('drill', -70, 50, 200),
  stop('do-not-drill', 0, 0, 0),
  test('seismic', 10, { none: [0.6, 0.3, 0.1], open: [0.3, 0.4, 0.4], closed: [0.1, 0.3, 0.5] }),
);

/**
 * Howard's used car as given by Neapolitan, Probabilistic Reasoning in Expert Systems (1990). One test costs 9, both 13,
 * and the second leans on the first: so the pair is one test with four outcomes, and a second one after the first is
 * left out, as it is there.
 */
export const usedCar = (() => {
  const good = { one: 0.9, plus: 8 / 9, minus: 1 };
  const lemon = { one: 0.4, plus: 1 / 3, minus: 4 / 9 };
  const cars = [good, lemon];
  const first = test('first-test', 9, { pass: cars.map((car) => car.one), fail: cars.map((car) => 1 - car.one) });
  const both = test('both-tests', 13, {
    'pass, pass': cars.map((car) => car.one * car.plus),
    'pass, fail': cars.map((car) => car.one * (1 - car.plus)),
    'fail, pass': cars.map((car) => (1 - car.one) * car.minus),
    'fail, fail': cars.map((car) => (1 - car.one) * (1 - car.minus)),
  });
  const choose = (...tests: TestAction[]) =>
    problem(['good', 'lemon'], [0.8, 0.2], stop('buy', 60, -100), stop('leave', 0, 0), ...tests);
  return { first, both, choose };
})();

/** Howard, as retold in his used-car problem: a guarantee of 60 pays half of the repairs, all of them above 100. */
export const carWithGuarantee = problem(
  ['peach', 'lemon'],
  [0.8, 0.2],
  stop('buy', 1100 - 1000 - 40, 1100 - 1000 - 200),
  stop('buy-with-guarantee', 1100 - 1000 - 60 - 40 / 2, 1100 - 1000 - 60),
  stop('leave', 0, 0),
  test('inspection', 25, { peach: [1, 0], lemon: [0, 1] }),
);

/** Russell & Norvig, Artificial Intelligence, chapter 16 (exercise of the used car). */
export const normansCar = problem(
  ['good', 'bad'],
  [0.7, 0.3],
  stop('buy', 2000 - 1500, 2000 - 1500 - 700),
  stop('leave', 0, 0),
  test('mechanic', 50, { pass: [0.8, 0.35], fail: [0.2, 0.65] }),
);

/** Howard's party problem. */
export const party = problem(
  ['sun', 'rain'],
  [0.4, 0.6],
  stop('outdoors', 100, 0),
  stop('porch', 90, 20),
  stop('indoors', 40, 50),
);

/** Kaminski, Jakubczyk & Szufel, A framework for sensitivity analysis of decision trees (2018). */
export const shaleGas = problem(
  ['gas', 'none'],
  [0.7, 0.3],
  stop('dig', 2500 - 300, -300),
  stop('do-not-dig', 0, 0),
  test('test', 50, { positive: [0.9, 0.3], negative: [0.1, 0.7] }),
);

const four = ['1', '2', '3', '4'];
const callForHelp = stop('call-for-help', -40, -40, -40, -40);
const t1Prior = [0.4, 0.3, 0.2, 0.1];
const t1Costs = [5, 15, 1, 10];
const repairs = (works: number) =>
  t1Costs.map((cost, fault) => repair(`r${fault + 1}`, cost, ...four.map((_, c) => (c === fault ? works : 0))));
const check = (right: number) =>
  test('q', 2, {
    positive: [right, 1 - right, right, 1 - right],
    negative: [1 - right, right, 1 - right, right],
  });

export const T1 = problem(four, t1Prior, ...repairs(1), callForHelp);
export const T2 = problem(
  ['1', '2', '3'],
  [0.5, 0.3, 0.2],
  repair('r1', 2, 1, 0, 0),
  repair('r2', 4, 1, 1, 0),
  repair('r3', 3, 1, 0, 1),
);
export const T2b = problem(
  ['1', '2', '3'],
  [0.3, 0.2, 0.5],
  repair('r1', 4, 1, 1, 0),
  repair('r2', 4, 0, 0, 1),
  repair('r3', 6, 1, 0, 1),
);
export const T3 = problem(four, t1Prior, ...repairs(1), callForHelp, check(1));
export const T3b = problem(four, t1Prior, ...repairs(1), callForHelp, check(0.9));
export const T4 = problem(
  four,
  [0.25, 0.25, 0.25, 0.25],
  repair('r1', 10, 1, 0, 0, 1),
  repair('r2', 10, 0, 1, 1, 0),
  test('q1', 1, { positive: [0, 0, 1, 1], negative: [1, 1, 0, 0] }),
  test('q2', 1, { positive: [0, 1, 0, 1], negative: [1, 0, 1, 0] }),
);
export const T5 = problem(four, t1Prior, ...repairs(0.9), callForHelp, check(0.9));
