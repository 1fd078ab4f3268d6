/** Refuses a malformed problem with a sentence that says where, what is wrong and what to do. */
import type { DecisionProblem, RemedyAction, TestAction } from './problem.ts';

/** Chances that should sum to one may miss it by this much: rounding of a few hundred products. */
const SUM_TOLERANCE = 1e-9;
/** Sets of preparations and of outcomes are kept as bits of one integer. */
const MOST_BITS = 30;
/** How many preparations a problem may have. */
export const MOST_PREPARATIONS = MOST_BITS;

export function checkProblem(problem: DecisionProblem): void {
  const count = problem.conditions.length;
  if (problem.prior.length !== count) {
    fail('prior', `has ${problem.prior.length} entries for ${count} conditions`, 'give one chance per condition');
  }
  checkChances('prior', problem.prior);
  if (problem.preparations.length > MOST_BITS) {
    fail('preparations', `are ${problem.preparations.length}`, `merge some: at most ${MOST_BITS} can be told apart`);
  }
  for (const { id, cost } of problem.preparations) checkCost(`preparation "${id}"`, cost);
  checkIds(problem);
  for (const stop of problem.stops) {
    const where = `stop "${stop.id}"`;
    if (stop.payoff.length !== count) fail(where, `pays ${stop.payoff.length} conditions of ${count}`, 'pay each one');
    if (stop.payoff.some(Number.isNaN)) fail(where, 'pays something that is not a number', 'find where it comes from');
    checkPreparations(where, stop.preparations, problem);
  }
  for (const test of problem.tests) checkTest(test, problem);
  for (const remedy of problem.remedies) checkRemedy(remedy, problem);
}

function checkTest(test: TestAction, problem: DecisionProblem): void {
  const where = `test "${test.id}"`;
  checkCost(where, test.cost);
  checkCost(`harm of ${where}`, test.harm ?? 0);
  checkPreparations(where, test.preparations, problem);
  if (test.outcomes.length > MOST_BITS)
    fail(where, `has ${test.outcomes.length} outcomes`, `merge some: ${MOST_BITS} at most`);
  if (test.likelihood.length !== test.outcomes.length) {
    fail(where, `has ${test.likelihood.length} rows for ${test.outcomes.length} outcomes`, 'give one row per outcome');
  }
  const column = new Float64Array(problem.conditions.length);
  for (const row of test.likelihood) {
    if (row.length !== column.length)
      fail(where, `has a row of ${row.length} conditions`, 'give one entry per condition');
    for (let c = 0; c < column.length; c++) {
      if (!(row[c]! >= 0)) fail(where, `has a chance of ${row[c]} given "${problem.conditions[c]}"`, 'use 0..1');
      column[c] = column[c]! + row[c]!;
    }
  }
  column.forEach((sum, c) => {
    if (!(Math.abs(sum - 1) <= SUM_TOLERANCE)) {
      fail(where, `has outcomes that add up to ${sum} given "${problem.conditions[c]}"`, 'make them add up to 1');
    }
  });
  for (const need of test.requires) {
    const required = problem.tests.find(({ id }) => id === need.test);
    if (!required) fail(where, `requires "${need.test}", which is no test here`, 'name a test of the problem');
    if (need.outcomes.some((outcome) => !(outcome >= 0 && outcome < required.outcomes.length))) {
      fail(where, `requires an outcome that "${need.test}" does not have`, 'use indices of its outcomes');
    }
  }
}

function checkRemedy(remedy: RemedyAction, problem: DecisionProblem): void {
  const where = `remedy "${remedy.id}"`;
  checkCost(where, remedy.cost);
  checkPreparations(where, remedy.preparations, problem);
  const attempts = remedy.attempts ?? 1;
  if (!(Number.isInteger(attempts) && attempts >= 1 && attempts <= 255)) {
    fail(where, `may be tried ${attempts} times`, 'use a whole number from 1 to 255');
  }
  if (remedy.transitions.length !== problem.conditions.length) {
    fail(where, `says what happens to ${remedy.transitions.length} conditions`, 'say it for every condition');
  }
  remedy.transitions.forEach(({ fixed, to }, c) => {
    const sum = to.reduce((total, { chance }) => total + chance, fixed);
    if (!(fixed >= 0 && to.every(({ chance }) => chance >= 0) && Math.abs(sum - 1) <= SUM_TOLERANCE)) {
      fail(
        where,
        `takes "${problem.conditions[c]}" somewhere with chances that add up to ${sum}`,
        'make them add up to 1',
      );
    }
    if (to.some(({ condition }) => problem.conditions[condition] === undefined)) {
      fail(where, `takes "${problem.conditions[c]}" to a condition that does not exist`, 'use indices of conditions');
    }
  });
}

function checkIds(problem: DecisionProblem): void {
  for (const list of [problem.preparations, problem.stops, problem.tests, problem.remedies]) {
    const known = new Set<string>();
    for (const { id } of list) {
      if (known.has(id)) fail(`"${id}"`, 'is there twice', 'give every action an id of its own');
      known.add(id);
    }
  }
}

function checkChances(where: string, chances: Float64Array): void {
  let sum = 0;
  for (const chance of chances) {
    if (!(chance >= 0)) fail(where, `holds ${chance}`, 'use chances in 0..1');
    sum += chance;
  }
  if (!(Math.abs(sum - 1) <= SUM_TOLERANCE)) fail(where, `adds up to ${sum}`, 'normalise it to 1');
}

function checkCost(where: string, cost: number): void {
  if (!(cost >= 0 && cost < Number.POSITIVE_INFINITY)) fail(where, `costs ${cost}`, 'use a cost of 0 or more');
}

function checkPreparations(where: string, list: readonly number[], problem: DecisionProblem): void {
  const unknown = list.find((index) => problem.preparations[index] === undefined);
  if (unknown !== undefined) fail(where, `needs preparation number ${unknown}`, 'use indices of the preparations');
}

function fail(where: string, wrong: string, todo: string): never {
  throw new RangeError(`Decision problem: ${where} ${wrong}; ${todo}.`);
}
