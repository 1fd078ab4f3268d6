/** What a way of choosing is worth, what it does where, and how its payoff spreads. */
import {
  afterFailure,
  afterTest,
  type Play,
  type Policy,
  payoffWhenFixed,
  priceOfRemedy,
  priceOfTest,
  type Situation,
  unpaid,
  valueOfStop,
} from './play.ts';

/**
 * Expected payoff of a policy, weighted by the situation's mass, exactly: every branch is followed, equal situations once.
 */
export function valueOfPolicy(play: Play, policy: Policy): (situation: Situation) => number {
  const memory = new Map<number | string, number>();
  const value = (situation: Situation): number => {
    const known = memory.get(situation.key);
    if (known !== undefined) return known;
    const { kind, index } = policy(situation);
    let sum: number;
    if (kind === 'stop') {
      sum = valueOfStop(play, situation, index);
    } else if (kind === 'remedy') {
      const failed = afterFailure(play, situation, index);
      sum = payoffWhenFixed(play, situation, index) - situation.mass * priceOfRemedy(play, situation.paid, index);
      if (failed) sum += value(failed);
    } else {
      sum = -situation.mass * priceOfTest(play, situation.paid, index);
      for (let outcome = 0; outcome < play.problem.tests[index]!.outcomes.length; outcome++) {
        const then = afterTest(play, situation, index, outcome);
        if (then) sum += value(then);
      }
    }
    memory.set(situation.key, sum);
    return sum;
  };
  return value;
}

export interface PolicyNode {
  readonly kind: 'stop' | 'test' | 'remedy';
  /** id of the action */
  readonly action: string;
  /** chance of coming here */
  readonly chance: number;
  /** expected payoff from here on, given that one is here */
  readonly value: number;
  /** belief here; sums to one */
  readonly belief: Float64Array;
  /** per outcome of a test; 'failed' after a remedy */
  readonly branches: readonly { readonly outcome: string; readonly next: PolicyNode }[];
}

/** The plan as a tree, from the start on. Grows with the number of paths: for small problems and for printing. */
export function policyTree(play: Play, policy: Policy): PolicyNode {
  const value = valueOfPolicy(play, policy);
  const grow = (situation: Situation): PolicyNode => {
    const { kind, index } = policy(situation);
    const branches: { outcome: string; next: PolicyNode }[] = [];
    if (kind === 'remedy') {
      const failed = afterFailure(play, situation, index);
      if (failed) branches.push({ outcome: 'failed', next: grow(failed) });
    } else if (kind === 'test') {
      play.problem.tests[index]!.outcomes.forEach((label, outcome) => {
        const then = afterTest(play, situation, index, outcome);
        if (then) branches.push({ outcome: label, next: grow(then) });
      });
    }
    const list = { stop: play.problem.stops, test: play.problem.tests, remedy: play.problem.remedies }[kind];
    return {
      kind,
      action: list[index]!.id,
      chance: situation.mass,
      value: value(situation) / situation.mass,
      belief: situation.belief.map((weight) => weight / situation.mass),
      branches,
    };
  };
  return grow(play.start);
}

/** The tree as indented lines: action, expected payoff, and under each test its outcomes with their chances. */
export function printPolicy(tree: PolicyNode, digits = 2): string {
  const lines: string[] = [];
  const print = (node: PolicyNode, indent: string) => {
    lines.push(`${indent}${node.action} (${node.value.toFixed(digits)})`);
    for (const { outcome, next } of node.branches) {
      lines.push(`${indent}  ${outcome}, chance ${(next.chance / node.chance).toFixed(3)}:`);
      print(next, `${indent}    `);
    }
  };
  print(tree, '');
  return lines.join('\n');
}

/**
 * How the payoff of a policy spreads over conditions and outcomes: one entry per end and condition, with all costs on
 * the way. A fixed case counts with the payoff of its transition, which is an expectation already.
 */
export function payoffsOfPolicy(play: Play, policy: Policy): { payoff: number; chance: number }[] {
  const payoffs: { payoff: number; chance: number }[] = [];
  const walk = (situation: Situation, spent: number) => {
    const { kind, index } = policy(situation);
    if (kind === 'stop') {
      const { payoff } = play.problem.stops[index]!;
      const cost = spent + unpaid(play, play.needs.stop[index]!, situation.paid);
      situation.belief.forEach((chance, c) => {
        if (chance > 0) payoffs.push({ payoff: payoff[c]! - cost, chance });
      });
    } else if (kind === 'remedy') {
      const cost = spent + priceOfRemedy(play, situation.paid, index);
      play.problem.remedies[index]!.transitions.forEach(({ fixed, payoff }, c) => {
        const chance = situation.belief[c]! * fixed;
        if (chance > 0) payoffs.push({ payoff: payoff - cost, chance });
      });
      const failed = afterFailure(play, situation, index);
      if (failed) walk(failed, cost);
    } else {
      const cost = spent + priceOfTest(play, situation.paid, index);
      for (let outcome = 0; outcome < play.problem.tests[index]!.outcomes.length; outcome++) {
        const then = afterTest(play, situation, index, outcome);
        if (then) walk(then, cost);
      }
    }
  };
  walk(play.start, 0);
  return payoffs;
}

/** Mean and standard deviation of such a spread. */
export function meanAndSpread(payoffs: readonly { readonly payoff: number; readonly chance: number }[]): {
  mean: number;
  standardDeviation: number;
} {
  let mean = 0;
  for (const { payoff, chance } of payoffs) mean += payoff * chance;
  let variance = 0;
  for (const { payoff, chance } of payoffs) variance += chance * (payoff - mean) ** 2;
  return { mean, standardDeviation: Math.sqrt(variance) };
}
