/** The same problem with fewer numbers: whatever no test can tell apart is one, whatever can never win is gone. */
import type { DecisionProblem, StopAction } from './problem.ts';

/** Likelihoods that agree to this are the same: far below what any probability of the trade is known to. */
const SAME_LIKELIHOOD = 1e-12;

/**
 * Leaves every value, every worth and every best action as they are (ties between stops apart):
 * - conditions of chance zero are dropped;
 * - without remedies, conditions that no test tells apart keep their odds for ever: they become one, with the sum of
 *   their chances and the mean of their payoffs;
 * - a stop that another one never pays less than, preparations counted against it, is dropped.
 *
 * Perfect information about the merged conditions is a tighter bound than about the single ones.
 * Cost: conditions x outcomes + conditions log conditions + stops^2 x conditions at worst.
 *
 * @example reduceProblem({ ...shaleGas, tests: [] }).conditions // ['gas | none']: without a test nothing tells them apart
 */
export function reduceProblem(problem: DecisionProblem): DecisionProblem {
  const merged = problem.remedies.length === 0 ? mergeConditions(problem) : problem;
  return { ...merged, stops: withoutDominated(merged) };
}

function mergeConditions(problem: DecisionProblem): DecisionProblem {
  const rows = problem.tests.flatMap((test) => test.likelihood);
  const present = Array.from(problem.prior.keys()).filter((c) => problem.prior[c]! > 0);
  // one number per condition that is equal where all likelihoods are: neighbours in its order are compared in full
  const mark = new Float64Array(problem.prior.length);
  rows.forEach((row, index) => {
    const weight = 1 + ((index * 0.6180339887498949) % 1);
    for (let c = 0; c < mark.length; c++) mark[c] = mark[c]! + weight * row[c]!;
  });
  present.sort((one, other) => mark[one]! - mark[other]! || one - other);
  const groups: number[][] = [];
  for (const condition of present) {
    const first = groups.at(-1)?.[0];
    if (first !== undefined && rows.every((row) => Math.abs(row[first]! - row[condition]!) <= SAME_LIKELIHOOD)) {
      groups.at(-1)!.push(condition);
    } else {
      groups.push([condition]);
    }
  }
  if (groups.length === problem.prior.length) return problem;
  const prior = Float64Array.from(groups, (group) => group.reduce((sum, c) => sum + problem.prior[c]!, 0));
  const mean = (payoff: Float64Array) =>
    Float64Array.from(groups, (group, index) => {
      // equal payoffs stay what they are, bit by bit
      if (group.every((c) => payoff[c] === payoff[group[0]!])) return payoff[group[0]!]!;
      return group.reduce((sum, c) => sum + problem.prior[c]! * payoff[c]!, 0) / prior[index]!;
    });
  return {
    ...problem,
    conditions: groups.map((group) => group.map((c) => problem.conditions[c]!).join(' | ')),
    prior,
    stops: problem.stops.map((stop) => ({ ...stop, payoff: mean(stop.payoff) })),
    tests: problem.tests.map((test) => ({
      ...test,
      likelihood: test.likelihood.map((row) => Float64Array.from(groups, (group) => row[group[0]!]!)),
    })),
  };
}

function withoutDominated({ stops, preparations }: DecisionProblem): StopAction[] {
  const kept: StopAction[] = [];
  for (const [index, stop] of stops.entries()) {
    const beaten = stops.some((rival, other) => {
      if (rival === stop) return false;
      const extra = rival.preparations
        .filter((preparation) => !stop.preparations.includes(preparation))
        .reduce((sum, preparation) => sum + preparations[preparation]!.cost, 0);
      let better = false;
      for (let c = 0; c < stop.payoff.length; c++) {
        const lead = rival.payoff[c]! - extra - stop.payoff[c]!;
        if (lead < 0) return false;
        if (lead > 0) better = true;
      }
      // of equals the first stays
      return better || other < index;
    });
    if (!beaten) kept.push(stop);
  }
  return kept;
}
