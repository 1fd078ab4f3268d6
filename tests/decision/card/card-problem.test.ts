import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CardCheck, cardProblem, outcomeBeliefs, planCard } from '../../../src/decision/card-problem.ts';
import { checkProblem } from '../../../src/decision/check-problem.ts';
import { conditionSet } from '../../../src/decision/condition-set.ts';
import { type CheckFinding, MOST_OUTCOMES, outcomesOf } from '../../../src/decision/outcomes.ts';
import { enumeratePlans } from '../../../src/decision/plans.ts';
import { anyCard, card, everyCondition, remedy } from './cards.ts';

const EVERY = everyCondition(4);
const SET = conditionSet(EVERY);
const NAMES = EVERY.map(({ active, dormant }) => `${active.join('+')}~${dormant.join('+')}`);

const chance = fc.double({ min: 0, max: 1, noNaN: true });
/** findings of three states with any likelihood over `size` conditions */
const anyFindings = (count: number, size: number) =>
  fc
    .array(fc.array(fc.tuple(chance, chance), { minLength: size, maxLength: size }), {
      minLength: count,
      maxLength: count,
    })
    .map((findings) =>
      findings.map((rows, i): CheckFinding => {
        const likelihood = [0, 1, 2].map(() => new Float64Array(size));
        rows.forEach(([a, b], c) => {
          likelihood[0]![c] = a;
          likelihood[1]![c] = (1 - a) * b;
          likelihood[2]![c] = (1 - a) * (1 - b);
        });
        return { id: `rail-${i}`, states: ['normal', 'low', 'short'], likelihood };
      }),
    );
const check = (id: string, findings: readonly CheckFinding[], over: Partial<CardCheck> = {}): CardCheck => ({
  id,
  minutes: 8,
  price: 0,
  preparations: [],
  harm: 0,
  findings,
  requires: [],
  afterOneOf: [],
  ...over,
});
const NO_SHORT = new Map([0, 1, 2, 3].map((i) => [`rail-${i}`, [0, 1]]));

describe('the outcomes of a check', () => {
  it('are few and sum to one on every condition', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 5 }).chain((n) => anyFindings(n, 6)),
        fc.boolean(),
        (findings, gated) => {
          const belief = new Float64Array(6).fill(1 / 6);
          const outcomes = outcomesOf(findings, belief, gated ? [NO_SHORT] : []);
          expect(outcomes.length).toBeLessThanOrEqual(MOST_OUTCOMES);
          for (let c = 0; c < 6; c++) {
            expect(outcomes.reduce((sum, outcome) => sum + outcome.likelihood[c]!, 0)).toBeCloseTo(1, 12);
          }
        },
      ),
      { seed: 51, numRuns: 200 },
    );
  });

  it('have the chances that multiplying out every combination of states gives', () => {
    fc.assert(
      fc.property(anyFindings(3, 2), (findings) => {
        const belief = Float64Array.of(0.5, 0.5);
        const outcomes = outcomesOf(findings, belief, [NO_SHORT]);
        for (const outcome of outcomes) {
          if (outcome.kind === 'rare') continue;
          const expected = [0, 0];
          for (let combination = 0; combination < 27; combination++) {
            const states = [combination % 3, Math.floor(combination / 3) % 3, Math.floor(combination / 9)];
            const abnormal = states.filter((state) => state > 0).length;
            const label =
              abnormal === 0
                ? 'all-normal'
                : abnormal === 1
                  ? states.flatMap((s, i) => (s > 0 ? [`rail-${i}: ${['normal', 'low', 'short'][s]}`] : [])).join()
                  : states.includes(2)
                    ? 'several'
                    : 'several-none-in-the-way';
            if (label !== outcome.label) continue;
            for (let c = 0; c < 2; c++) {
              expected[c]! += states.reduce((product, s, i) => product * findings[i]!.likelihood[s]![c]!, 1);
            }
          }
          expect(outcome.likelihood[0]).toBeCloseTo(expected[0]!, 12);
          expect(outcome.likelihood[1]).toBeCloseTo(expected[1]!, 12);
        }
      }),
      { seed: 52, numRuns: 100 },
    );
  });

  it('never call a shorted rail safe to power, however rare outcomes are merged', () => {
    fc.assert(
      fc.property(anyFindings(4, 3), (findings) => {
        // condition 2 always has rail 1 short
        findings[1]!.likelihood[0]![2] = 0;
        findings[1]!.likelihood[1]![2] = 0;
        findings[1]!.likelihood[2]![2] = 1;
        const outcomes = outcomesOf(findings, Float64Array.of(0.6, 0.3999, 0.0001), [NO_SHORT]);
        for (const outcome of outcomes) if (outcome.allows[0]) expect(outcome.likelihood[2]).toBe(0);
      }),
      { seed: 53, numRuns: 100 },
    );
  });
});

describe('the worth of a check', () => {
  /** expected payoff of the best plan after each outcome, over `experiments` given as likelihoods */
  const valueWith = (belief: Float64Array, payoffs: readonly Float64Array[], likelihoods: readonly Float64Array[]) =>
    likelihoods.reduce((sum, likelihood) => {
      const best = Math.max(
        ...payoffs.map((payoff) => payoff.reduce((s, value, c) => s + value * belief[c]! * likelihood[c]!, 0)),
      );
      return sum + best;
    }, 0);
  const anyPayoffs = fc
    .array(fc.array(fc.double({ min: -100, max: 300, noNaN: true }), { minLength: 5, maxLength: 5 }), {
      minLength: 2,
      maxLength: 4,
    })
    .map((rows) => rows.map((row) => Float64Array.from(row)));
  const anyBelief = fc
    .array(fc.double({ min: 0.01, max: 1, noNaN: true }), { minLength: 5, maxLength: 5 })
    .map((weights) => Float64Array.from(weights, (w) => w / weights.reduce((a, b) => a + b, 0)));

  it('is never below nothing, and never above that of every combination of its states', () => {
    fc.assert(
      fc.property(anyFindings(3, 5), anyPayoffs, anyBelief, (findings, payoffs, belief) => {
        const nothing = valueWith(belief, payoffs, [new Float64Array(5).fill(1)]);
        const coarse = valueWith(
          belief,
          payoffs,
          outcomesOf(findings, belief, [NO_SHORT]).map(({ likelihood }) => likelihood),
        );
        const full: Float64Array[] = [];
        for (let combination = 0; combination < 27; combination++) {
          const states = [combination % 3, Math.floor(combination / 3) % 3, Math.floor(combination / 9)];
          full.push(
            Float64Array.from({ length: 5 }, (_, c) =>
              states.reduce((product, state, i) => product * findings[i]!.likelihood[state]![c]!, 1),
            ),
          );
        }
        expect(coarse).toBeGreaterThanOrEqual(nothing - 1e-9);
        expect(coarse).toBeLessThanOrEqual(valueWith(belief, payoffs, full) + 1e-9);
      }),
      { seed: 58, numRuns: 200 },
    );
  });

  it('is nothing where the findings look the same whatever the card has', () => {
    fc.assert(
      fc.property(anyFindings(3, 1), anyPayoffs, anyBelief, (one, payoffs, belief) => {
        const findings = one.map((finding) => ({
          ...finding,
          likelihood: finding.likelihood.map((row) => new Float64Array(5).fill(row[0]!)),
        }));
        const outcomes = outcomesOf(findings, belief).map(({ likelihood }) => likelihood);
        const nothing = valueWith(belief, payoffs, [new Float64Array(5).fill(1)]);
        expect(valueWith(belief, payoffs, outcomes)).toBeCloseTo(nothing, 8);
      }),
      { seed: 59, numRuns: 50 },
    );
  });
});

describe('a card as a decision problem', () => {
  it('is one that the generic core accepts, with the plans’ payoffs as stops', () => {
    fc.assert(
      fc.property(anyCard, anyFindings(4, 81), anyFindings(1, 81), ({ model, belief }, rails, boot) => {
        const { plans } = enumeratePlans(model, SET, belief);
        const start = boot.map((finding) => ({ ...finding, id: 'start-up' }));
        const { problem, outcomes } = cardProblem(model, NAMES, belief, plans, [
          check('rail-resistances', rails),
          check('boot-test', start, {
            requires: rails.map(({ id }) => ({ finding: id, states: [0, 1] })),
            harm: 0.01,
          }),
        ]);
        checkProblem(problem);
        const [boots] = problem.tests[1]!.requires;
        expect(boots?.test).toBe('rail-resistances');
        for (const o of boots!.outcomes) {
          for (const { state } of outcomes[0]![o]!.findings) expect(state).not.toBe('short');
        }
        expect(problem.tests[1]!.harm).toBeCloseTo(0.01 * model.money.working, 12);
        for (const posterior of outcomeBeliefs(problem.tests, belief)) {
          expect(posterior.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12);
        }
      }),
      { seed: 54, numRuns: 20 },
    );
  });

  it('keeps the plan that only the outcome of a check makes the best', () => {
    const model = card({
      host: new Uint8Array([0, 0, 0]),
      relapse: [null, null, null],
      treatments: [
        remedy('fix-first', { minutes: 20, effects: [{ fault: 0, cures: 1, masks: 0 }] }),
        remedy('fix-second', { minutes: 30, effects: [{ fault: 1, cures: 1, masks: 0 }] }),
        remedy('fix-third', { minutes: 40, effects: [{ fault: 2, cures: 1, masks: 0 }] }),
      ],
    });
    const set = conditionSet([0, 1, 2].map((fault) => ({ active: [fault], dormant: [] })));
    const belief = Float64Array.of(0.5, 0.3, 0.2);
    const not = (fault: number): CheckFinding => ({
      id: `not-${fault}`,
      states: ['no', 'yes'],
      likelihood: [0, 1].map((state) =>
        Float64Array.of(...[0, 1, 2].map((f) => Number((f === fault) === (state === 0)))),
      ),
    });
    const checks = [check('rules-out-first', [not(0)]), check('rules-out-second', [not(1)])];
    const { pool, card: made } = planCard(model, set, ['a', 'b', 'c'], belief, checks);
    const ids = pool.plans.map((plan) => plan.id);
    // after "not the first": second, then third; after "not the second": first, then third
    expect(ids).toContain('fix-second + fix-third');
    expect(ids).toContain('fix-first + fix-third');
    const today = enumeratePlans(model, set, belief).plans.map((plan) => plan.id);
    expect(today).not.toContain('fix-first + fix-third');
    expect(made.problem.stops.map(({ id }) => id)).toEqual(ids);
    checkProblem(made.problem);
  });

  it('asks for the cheapest of the checks that may come first', () => {
    fc.assert(
      fc.property(anyCard, anyFindings(3, 81), ({ model, belief }, findings) => {
        const { plans } = enumeratePlans(model, SET, belief);
        const { problem } = cardProblem(model, NAMES, belief, plans, [
          check('rails-on-limited-supply', [findings[0]!], { minutes: 12 }),
          check('idle-current', [findings[1]!], { minutes: 3 }),
          check('boot-test', [findings[2]!], { afterOneOf: ['rails-on-limited-supply', 'idle-current'] }),
        ]);
        expect(problem.tests[2]!.requires.map(({ test }) => test)).toEqual(['idle-current']);
      }),
      { seed: 55, numRuns: 3 },
    );
  });

  it('leaves out a check that waits for what nothing here can tell, and what waits for that check', () => {
    fc.assert(
      fc.property(anyCard, anyFindings(2, 81), ({ model, belief }, findings) => {
        const { plans } = enumeratePlans(model, SET, belief);
        const { problem, leftOut } = cardProblem(model, NAMES, belief, plans, [
          check('idle-current', [findings[0]!], { requires: [{ finding: 'resistance-core', states: [0] }] }),
          check('boot-test', [findings[1]!], { afterOneOf: ['idle-current'] }),
        ]);
        expect(problem.tests).toEqual([]);
        expect(leftOut).toEqual([
          { check: 'idle-current', waitsFor: ['resistance-core'] },
          { check: 'boot-test', waitsFor: ['idle-current'] },
        ]);
      }),
      { seed: 56, numRuns: 3 },
    );
  });

  it('pays a plan less its margin when asked to, so that it beats doing nothing exactly when it is justified', () => {
    fc.assert(
      fc.property(anyCard, ({ model, belief }) => {
        const { plans } = enumeratePlans(model, SET, belief);
        const { problem } = cardProblem(model, NAMES, belief, plans, [], { lessMargin: true });
        plans.forEach((plan, i) => {
          const net = problem.stops[i]!.payoff.reduce((sum, payoff, c) => sum + payoff * belief[c]!, 0);
          expect(net - plan.preparationCost).toBeCloseTo(plan.surplus - plan.margin, 7);
        });
      }),
      { seed: 57, numRuns: 50 },
    );
  });
});
