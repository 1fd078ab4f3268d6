/** Random troubleshooting problems, small enough to be solved exactly. Equal seeds give equal problems. */
import type { DecisionProblem, RemedyAction, StopAction, TestAction } from '../../src/decision/problem.ts';
import type { Random } from '../../src/decision/random.ts';

export interface Kind {
  /** independent: a remedy addresses one fault; dependent: one to three of them */
  readonly remedies: 'independent' | 'dependent';
  /** crisp: a check never errs; noisy: it errs with a chance of .05 to .25 either way */
  readonly checks: 'crisp' | 'noisy';
}

export const KINDS: readonly Kind[] = [
  { remedies: 'independent', checks: 'crisp' },
  { remedies: 'independent', checks: 'noisy' },
  { remedies: 'dependent', checks: 'crisp' },
  { remedies: 'dependent', checks: 'noisy' },
];

export interface Size {
  readonly faults: number;
  readonly remedies: number;
  readonly checks: number;
}

/**
 * One fault is present: chances are exponential draws, normalised (uniform on the simplex). Every remedy costs 1 to 20
 * and fixes a fault it addresses with a chance of .8 to 1. Every check costs .5 to 5 and answers for a random half of
 * the faults. Calling for help ends it for 40 to 100, whatever the fault.
 */
export function randomProblem(random: Random, kind: Kind, size: Size): DecisionProblem {
  const between = (low: number, high: number) => low + (high - low) * random.next();
  const some = Array.from({ length: size.faults }, (_, fault) => fault);
  const shuffled = () => {
    const faults = [...some];
    for (let i = faults.length - 1; i > 0; i--) {
      const j = Math.floor(random.next() * (i + 1));
      [faults[i], faults[j]] = [faults[j]!, faults[i]!];
    }
    return faults;
  };
  const weights = some.map(() => -Math.log(1 - random.next()));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const help = -between(40, 100);
  const stops: StopAction[] = [
    { kind: 'stop', id: 'call-for-help', payoff: new Float64Array(size.faults).fill(help), preparations: [] },
  ];
  const first = shuffled();
  const remedies = Array.from({ length: size.remedies }, (_, index): RemedyAction => {
    const count = kind.remedies === 'independent' ? 1 : 1 + Math.floor(random.next() * 3);
    const addressed = kind.remedies === 'independent' ? [first[index % size.faults]!] : shuffled().slice(0, count);
    const cost = between(1, 20);
    const transitions = some.map((condition) => {
      const fixed = addressed.includes(condition) ? between(0.8, 1) : 0;
      return { fixed, payoff: 0, to: [{ condition, chance: 1 - fixed }] };
    });
    return { kind: 'remedy', id: `remedy-${index + 1}`, cost, preparations: [], transitions };
  });
  const tests = Array.from({ length: size.checks }, (_, index): TestAction => {
    const positive = new Set(shuffled().slice(0, Math.floor(size.faults / 2)));
    const missed = kind.checks === 'crisp' ? 0 : between(0.05, 0.25);
    const alarm = kind.checks === 'crisp' ? 0 : between(0.05, 0.25);
    const yes = Float64Array.from(some, (fault) => (positive.has(fault) ? 1 - missed : alarm));
    const likelihood = [yes, yes.map((chance) => 1 - chance)];
    const cost = between(0.5, 5);
    return {
      kind: 'test',
      id: `check-${index + 1}`,
      cost,
      preparations: [],
      outcomes: ['yes', 'no'],
      likelihood,
      requires: [],
    };
  });
  return {
    conditions: some.map((fault) => `fault-${fault + 1}`),
    prior: Float64Array.from(weights, (weight) => weight / total),
    preparations: [],
    stops,
    tests,
    remedies,
  };
}
