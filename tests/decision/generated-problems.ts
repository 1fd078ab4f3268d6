/** fast-check generators of small decision problems with everything in them: shared preparations, locked tests, remedies that move conditions. */
import fc from 'fast-check';
import type { DecisionProblem, RemedyAction, StopAction, TestAction, Transition } from '../../src/decision/problem.ts';

export interface Shape {
  readonly conditions: number;
  readonly stops: number;
  readonly tests: number;
  readonly remedies: number;
  /** remedies may turn one condition into another */
  readonly moving: boolean;
}

const normalised = (weights: readonly number[]) => {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight) => weight / total);
};
/** from certain to even, with exact zeros among them */
const chances = (count: number) =>
  fc
    .tuple(
      fc.array(fc.constantFrom(0, 0, 1, 3, 20), { minLength: count, maxLength: count }),
      fc.nat({ max: count - 1 }),
    )
    .map(([weights, at]) => normalised(weights.map((weight, i) => (i === at ? weight + 10 : weight))));
const prior = (count: number) =>
  fc
    .array(fc.constantFrom(0, 1, 2, 4, 8), { minLength: count - 1, maxLength: count - 1 })
    .map((rest) => normalised([3, ...rest]));

const preparations = fc.subarray([0, 1]);
const cost = fc.integer({ min: 0, max: 12 });
const smallCost = fc.integer({ min: 0, max: 3 });

function test(shape: Shape, index: number): fc.Arbitrary<TestAction> {
  return fc.integer({ min: 2, max: 3 }).chain((outcomes) =>
    fc
      .record({
        cost: smallCost,
        preparations,
        columns: fc.array(chances(outcomes), { minLength: shape.conditions, maxLength: shape.conditions }),
        requires:
          index === 0
            ? fc.constant([])
            : fc.oneof(
                { weight: 2, arbitrary: fc.constant([]) },
                {
                  weight: 1,
                  arbitrary: fc.constant([{ test: `test-${index - 1}`, outcomes: [0] }]),
                },
              ),
      })
      .map(({ columns, ...rest }) => ({
        ...rest,
        kind: 'test' as const,
        id: `test-${index}`,
        outcomes: Array.from({ length: outcomes }, (_, outcome) => `outcome-${outcome}`),
        likelihood: Array.from({ length: outcomes }, (_, outcome) =>
          Float64Array.from(columns, (column) => column[outcome]!),
        ),
      })),
  );
}

function transition(shape: Shape, from: number): fc.Arbitrary<Transition> {
  return fc
    .record({
      split: chances(3),
      to: shape.moving ? fc.nat({ max: shape.conditions - 1 }) : fc.constant(from),
      payoff: fc.integer({ min: -10, max: 60 }),
    })
    .map(({ split, to, payoff }) => ({
      fixed: split[0]!,
      payoff,
      to: [
        { condition: from, chance: split[1]! },
        { condition: to, chance: split[2]! },
      ],
    }));
}

function remedy(shape: Shape, index: number): fc.Arbitrary<RemedyAction> {
  return fc
    .record({
      cost,
      preparations,
      attempts: fc.integer({ min: 1, max: 2 }),
      transitions: fc.tuple(...Array.from({ length: shape.conditions }, (_, from) => transition(shape, from))),
    })
    .map((rest) => ({ ...rest, kind: 'remedy' as const, id: `remedy-${index}` }));
}

const listOf = <T>(count: number, one: (index: number) => fc.Arbitrary<T>): fc.Arbitrary<T[]> =>
  fc.tuple(...Array.from({ length: count }, (_, index) => one(index)));

export function decisionProblem(shape: Shape): fc.Arbitrary<DecisionProblem> {
  return fc
    .record({
      prior: prior(shape.conditions),
      stops: listOf(shape.stops, (index) =>
        fc
          .record({
            payoff: fc.array(fc.integer({ min: -50, max: 50 }), {
              minLength: shape.conditions,
              maxLength: shape.conditions,
            }),
            preparations,
          })
          .map(
            ({ payoff, preparations: needs }): StopAction => ({
              kind: 'stop',
              id: `stop-${index}`,
              payoff: Float64Array.from(payoff),
              preparations: needs,
            }),
          ),
      ),
      tests: listOf(shape.tests, (index) => test(shape, index)),
      remedies: listOf(shape.remedies, (index) => remedy(shape, index)),
      costs: fc.tuple(smallCost, smallCost),
    })
    .map(({ prior: belief, stops, tests, remedies, costs }) => ({
      conditions: belief.map((_, index) => `condition-${index}`),
      prior: Float64Array.from(belief),
      preparations: costs.map((each, index) => ({ id: `preparation-${index}`, cost: each })),
      stops,
      tests,
      remedies,
    }));
}
