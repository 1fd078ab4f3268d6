/** Laws of planning, on generated problems (fast-check, fixed seeds) against the plain definition in plain-expectimax.ts. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { actNow } from '../../src/decision/act-now.ts';
import { perfectInformation } from '../../src/decision/bounds.ts';
import { solveExactly } from '../../src/decision/exact.ts';
import { following, oneStep, WORTH_NOTHING } from '../../src/decision/one-step.ts';
import { plan } from '../../src/decision/planner.ts';
import { openPlay } from '../../src/decision/play.ts';
import { meanAndSpread, payoffsOfPolicy, policyTree, valueOfPolicy } from '../../src/decision/policy.ts';
import type { DecisionProblem } from '../../src/decision/problem.ts';
import { reduceProblem } from '../../src/decision/reduce.ts';
import { searchPlan } from '../../src/decision/search.ts';
import { evpi, evsi } from '../../src/decision/worth.ts';
import { decisionProblem } from './generated-problems.ts';
import { plainValue } from './plain-expectimax.ts';
import { T5 } from './published-problems.ts';

/** Sums of a few thousand products of payoffs up to 50. */
const DIGITS = 9;
const SLACK = 1e-9;

const still = decisionProblem({ conditions: 4, stops: 2, tests: 2, remedies: 2, moving: false });
const moving = decisionProblem({ conditions: 3, stops: 2, tests: 2, remedies: 2, moving: true });
const testsOnly = decisionProblem({ conditions: 5, stops: 4, tests: 3, remedies: 0, moving: false });
const any = fc.oneof(still, moving, testsOnly);

function exact(problem: DecisionProblem) {
  const solved = solveExactly(problem, { maxNodes: 1_000_000 });
  if (solved.kind !== 'exact') throw new Error('generated problems are small');
  return solved;
}

function planners(problem: DecisionProblem) {
  const play = openPlay(problem);
  const bound = perfectInformation(play);
  const act = actNow(play, bound);
  return { play, bound, act, compare: oneStep(play, act, bound) };
}

describe('planning a bench', () => {
  it('finds the value that the plain definition gives, with preparations, locked tests and remedies that do damage', () => {
    fc.assert(
      fc.property(any, (problem) => {
        expect(exact(problem).value).toBeCloseTo(plainValue(problem), DIGITS);
      }),
      { seed: 20_01, numRuns: 150 },
    );
  });

  it('returns a plan that is worth what it says, as a policy, as a tree and as a spread of payoffs', () => {
    fc.assert(
      fc.property(any, (problem) => {
        const { play, policy, value } = exact(problem);
        expect(valueOfPolicy(play, policy)(play.start)).toBeCloseTo(value, DIGITS);
        expect(policyTree(play, policy).value).toBeCloseTo(value, DIGITS);
        const payoffs = payoffsOfPolicy(play, policy);
        expect(payoffs.reduce((sum, { chance }) => sum + chance, 0)).toBeCloseTo(1, DIGITS);
        expect(meanAndSpread(payoffs).mean).toBeCloseTo(value, DIGITS);
      }),
      { seed: 20_02, numRuns: 100 },
    );
  });

  it('keeps its order: perfect information, exact, one step, acting now', () => {
    fc.assert(
      fc.property(any, (problem) => {
        const { value } = exact(problem);
        const { play, bound, act, compare } = planners(problem);
        expect(bound(play.start)).toBeGreaterThanOrEqual(value - SLACK);
        const one = valueOfPolicy(play, following(compare))(play.start);
        expect(one).toBeGreaterThanOrEqual(act(play.start).value - SLACK);
        expect(one).toBeGreaterThanOrEqual(compare(play.start).value - SLACK);
        expect(value).toBeGreaterThanOrEqual(one - SLACK);
      }),
      { seed: 20_03, numRuns: 150 },
    );
  });

  it('brackets the best plan from both sides whenever the search is broken off, and closes on it when it is not', () => {
    fc.assert(
      fc.property(any, fc.nat({ max: 300 }), fc.constantFrom(0.05, 0.15, 0.6, 1), (problem, effort, trust) => {
        const { value } = exact(problem);
        const { play, bound, act } = planners(problem);
        const broken = searchPlan(play, { act, bound }, { effort, trust });
        expect(broken.value).toBeLessThanOrEqual(value + SLACK);
        expect(broken.upperBound).toBeGreaterThanOrEqual(value - SLACK);
        expect(broken.value).toBeGreaterThanOrEqual(act(play.start).value - SLACK);
        expect(valueOfPolicy(play, broken.policy)(play.start)).toBeGreaterThanOrEqual(broken.value - SLACK);
        const ended = searchPlan(play, { act, bound }, { effort: Number.POSITIVE_INFINITY, trust });
        expect(Math.abs(ended.value - value)).toBeLessThanOrEqual(2 * WORTH_NOTHING);
        expect(Math.abs(ended.upperBound - value)).toBeLessThanOrEqual(2 * WORTH_NOTHING);
      }),
      { seed: 20_11, numRuns: 250 },
    );
  });

  it('is never worse than the one-step rule, and keeps what it promises', () => {
    fc.assert(
      fc.property(any, fc.integer({ min: 0, max: 100_000 }), (problem, effort) => {
        const { value } = exact(problem);
        const { play, compare } = planners(problem);
        const planned = plan(problem, { exactWork: 0, effort });
        const { certificate } = planned;
        expect(certificate.now).toBeLessThanOrEqual(certificate.value + SLACK);
        expect(certificate.value).toBeLessThanOrEqual(value + SLACK);
        expect(certificate.upperBound).toBeGreaterThanOrEqual(value - SLACK);
        expect(valueOfPolicy(planned.play, planned.policy)(planned.play.start)).toBeGreaterThanOrEqual(
          certificate.value - SLACK,
        );
        // as far as the effort carries the rule itself
        if (effort > 50_000) {
          const one = valueOfPolicy(play, following(compare))(play.start);
          expect(certificate.value).toBeGreaterThanOrEqual(one - SLACK);
        }
      }),
      { seed: 20_04, numRuns: 150 },
    );
  });

  it('is tried on problems where testing first pays, and where one step ahead is not enough', () => {
    const counts = { testing: 0, beyondOneStep: 0 };
    for (const problem of fc.sample(any, { seed: 20_03, numRuns: 150 })) {
      const { play, act, compare } = planners(problem);
      const { value } = exact(problem);
      if (value > act(play.start).value + SLACK) counts.testing++;
      if (value > valueOfPolicy(play, following(compare))(play.start) + SLACK) counts.beyondOneStep++;
    }
    expect(counts.testing).toBeGreaterThan(50);
    expect(counts.beyondOneStep).toBeGreaterThan(5);
  });

  it('plans exactly, with the bound met, where situations are few', () => {
    fc.assert(
      fc.property(any, (problem) => {
        const { certificate } = plan(problem);
        expect(certificate.method).toBe('exact');
        expect(certificate.value).toBeCloseTo(plainValue(problem), DIGITS);
        expect(certificate.upperBound).toBe(certificate.value);
      }),
      { seed: 20_05, numRuns: 60 },
    );
  });

  it('says so when a problem is too large for the situations allowed', () => {
    const { beliefs } = exact(T5);
    expect(solveExactly(T5, { maxNodes: beliefs - 1 })).toEqual({ kind: 'too-large', beliefs: beliefs - 1 });
    expect(solveExactly(T5, { maxNodes: beliefs }).kind).toBe('exact');
  });
});

describe('information', () => {
  it('never lowers the value when it is free, and perfect information is worth the most', () => {
    fc.assert(
      fc.property(testsOnly, (problem) => {
        const gain = (tests: readonly string[]) => evsi(problem, tests);
        const none = gain([]);
        const one = gain(['test-0']);
        const two = gain(['test-0', 'test-1']);
        const all = gain(['test-0', 'test-1', 'test-2']);
        expect(none).toBeCloseTo(0, DIGITS);
        expect(one).toBeGreaterThanOrEqual(-SLACK);
        expect(two).toBeGreaterThanOrEqual(one - SLACK);
        expect(all).toBeGreaterThanOrEqual(two - SLACK);
        expect(evpi(problem)).toBeGreaterThanOrEqual(all - SLACK);
        const freed = { ...problem, tests: problem.tests.map((test) => ({ ...test, cost: 0, preparations: [] })) };
        expect(exact(freed).value).toBeGreaterThanOrEqual(exact(problem).value - SLACK);
      }),
      { seed: 20_06, numRuns: 100 },
    );
  });

  it('is not bought where it says nothing: a test alike for every condition is never chosen at a price', () => {
    fc.assert(
      fc.property(any, fc.integer({ min: 1, max: 5 }), (problem, cost) => {
        const count = problem.conditions.length;
        const idle = {
          kind: 'test' as const,
          id: 'idle',
          cost,
          preparations: [],
          outcomes: ['yes', 'no'],
          likelihood: [new Float64Array(count).fill(0.3), new Float64Array(count).fill(0.7)],
          requires: [],
        };
        const widened = { ...problem, tests: [idle, ...problem.tests] };
        for (const exactWork of [0, 1_000_000]) {
          const planned = plan(widened, { exactWork });
          expect(JSON.stringify(policyTree(planned.play, planned.policy))).not.toContain('"idle"');
          const worth = planned.tests.find(({ test }) => test === 'idle');
          expect(worth?.gain).toBeLessThanOrEqual(SLACK);
          expect(worth?.cannotChange).toBe(true);
        }
        expect(exact(widened).value).toBeCloseTo(exact(problem).value, DIGITS);
      }),
      { seed: 20_07, numRuns: 60 },
    );
  });

  it('cannot change the decision exactly where no pair with it beats the other alone', () => {
    let unable = 0;
    fc.assert(
      fc.property(fc.oneof(testsOnly, still), (problem) => {
        const { tests } = plan(problem);
        for (const { test, gain, cannotChange } of tests) {
          const alone = gain <= SLACK;
          const paired = problem.tests.every(
            ({ id }) => id === test || evsi(problem, [id, test]) - evsi(problem, [id]) <= SLACK,
          );
          expect(cannotChange).toBe(alone && paired);
          if (cannotChange) unable++;
        }
      }),
      { seed: 20_12, numRuns: 100 },
    );
    expect(unable).toBeGreaterThan(10);
  });

  it('adds up: gain less cost is what doing the test first and then acting is worth over acting now', () => {
    fc.assert(
      fc.property(any, (problem) => {
        const play = openPlay(problem);
        const now = actNow(play)(play.start).value;
        const { tests } = plan(problem);
        for (const { test, gain, cost, worth, outcomes } of tests) {
          expect(gain).toBeCloseTo(evsi(problem, [test]), DIGITS);
          expect(gain - cost).toBeCloseTo(worth, DIGITS);
          const after = outcomes.reduce((sum, { chance, value }) => sum + chance * value, 0);
          const { cost: own, preparations } = problem.tests.find(({ id }) => id === test)!;
          const prepared = preparations.reduce((sum, each) => sum + problem.preparations[each]!.cost, 0);
          expect(after - own - prepared - now).toBeCloseTo(worth, DIGITS);
        }
      }),
      { seed: 20_08, numRuns: 100 },
    );
  });
});

describe('the same bench described differently', () => {
  it('is worth the same in whatever order conditions and actions are listed', () => {
    fc.assert(
      fc.property(still, (problem) => {
        const reversed: DecisionProblem = {
          ...problem,
          conditions: [...problem.conditions].reverse(),
          prior: problem.prior.toReversed(),
          stops: problem.stops.map((stop) => ({ ...stop, payoff: stop.payoff.toReversed() })).reverse(),
          tests: problem.tests
            .map((test) => ({ ...test, likelihood: test.likelihood.map((row) => row.toReversed()) }))
            .reverse(),
          remedies: problem.remedies
            .map((remedy) => ({
              ...remedy,
              transitions: remedy.transitions
                .map((each) => ({
                  ...each,
                  to: each.to.map(({ condition, chance }) => ({
                    condition: problem.conditions.length - 1 - condition,
                    chance,
                  })),
                }))
                .reverse(),
            }))
            .reverse(),
        };
        expect(exact(reversed).value).toBeCloseTo(exact(problem).value, DIGITS);
        expect(plan(reversed).certificate.now).toBeCloseTo(plan(problem).certificate.now, DIGITS);
      }),
      { seed: 20_09, numRuns: 80 },
    );
  });

  it('is worth the same after conditions no test tells apart are one and beaten stops are gone', () => {
    fc.assert(
      fc.property(testsOnly, fc.array(fc.nat({ max: 4 }), { maxLength: 3 }), (problem, twins) => {
        // split conditions: a twin has the likelihoods of its original, half of its chance and other payoffs
        let wide = problem;
        for (const twin of twins) {
          const twice = (row: Float64Array) => Float64Array.of(...row, row[twin]!);
          const prior = twice(wide.prior);
          prior[twin] = prior[twin]! / 2;
          prior[prior.length - 1] = prior[twin]!;
          wide = {
            ...wide,
            conditions: [...wide.conditions, `twin of ${twin}`],
            prior,
            stops: wide.stops.map((stop, index) => {
              const payoff = twice(stop.payoff);
              payoff[payoff.length - 1] = payoff[twin]! + 7 * index - 10;
              return { ...stop, payoff };
            }),
            tests: wide.tests.map((test) => ({ ...test, likelihood: test.likelihood.map(twice) })),
          };
        }
        const reduced = reduceProblem(wide);
        expect(reduced.conditions.length).toBeLessThanOrEqual(problem.conditions.length);
        expect(plainValue(reduced)).toBeCloseTo(plainValue(wide), DIGITS);
        const play = openPlay(wide);
        const tighter = openPlay(reduced);
        expect(perfectInformation(tighter)(tighter.start)).toBeLessThanOrEqual(
          perfectInformation(play)(play.start) + SLACK,
        );
      }),
      { seed: 20_10, numRuns: 60 },
    );
  });
});
