/**
 * The definition of the best plan, written down as plainly as possible: normalised beliefs, no memory, no pruning, no
 * shared code with the planner. Slow on purpose; the planner is held against it.
 */
import type { DecisionProblem } from '../../src/decision/problem.ts';

export interface Plain {
  readonly belief: readonly number[];
  readonly done: ReadonlyMap<string, number>;
  readonly tried: ReadonlyMap<string, number>;
  readonly paid: ReadonlySet<number>;
}

export function plainValue(problem: DecisionProblem, at?: Plain): number {
  const state = at ?? { belief: Array.from(problem.prior), done: new Map(), tried: new Map(), paid: new Set() };
  const due = (needs: readonly number[]) =>
    [...new Set(needs)].reduce((sum, each) => sum + (state.paid.has(each) ? 0 : problem.preparations[each]!.cost), 0);
  const expectation = (values: (condition: number) => number) =>
    state.belief.reduce((sum, chance, condition) => (chance === 0 ? sum : sum + chance * values(condition)), 0);
  let best = Number.NEGATIVE_INFINITY;
  for (const stop of problem.stops) {
    best = Math.max(best, expectation((condition) => stop.payoff[condition]!) - due(stop.preparations));
  }
  for (const test of problem.tests) {
    if (state.done.has(test.id)) continue;
    const open = test.requires.every((need) => {
      const outcome = state.done.get(need.test);
      return outcome !== undefined && need.outcomes.includes(outcome);
    });
    if (!open) continue;
    let value = -test.cost - (test.harm ?? 0) - due(test.preparations);
    test.likelihood.forEach((row, outcome) => {
      const chance = expectation((condition) => row[condition]!);
      if (chance <= 0) return;
      value +=
        chance *
        plainValue(problem, {
          belief: state.belief.map((weight, condition) => (weight * row[condition]!) / chance),
          done: new Map([...state.done, [test.id, outcome]]),
          tried: state.tried,
          paid: new Set([...state.paid, ...test.preparations]),
        });
    });
    best = Math.max(best, value);
  }
  for (const remedy of problem.remedies) {
    const before = state.tried.get(remedy.id) ?? 0;
    if (before >= (remedy.attempts ?? 1)) continue;
    let value = -remedy.cost - due(remedy.preparations);
    value += expectation((condition) => {
      const { fixed, payoff } = remedy.transitions[condition]!;
      return fixed * payoff;
    });
    const failed = state.belief.map(() => 0);
    state.belief.forEach((weight, condition) => {
      for (const move of remedy.transitions[condition]!.to) failed[move.condition]! += weight * move.chance;
    });
    const chance = failed.reduce((sum, weight) => sum + weight, 0);
    if (chance > 1e-13) {
      value +=
        chance *
        plainValue(problem, {
          belief: failed.map((weight) => weight / chance),
          done: state.done,
          tried: new Map([...state.tried, [remedy.id, before + 1]]),
          paid: new Set([...state.paid, ...remedy.preparations]),
        });
    }
    best = Math.max(best, value);
  }
  return best;
}
