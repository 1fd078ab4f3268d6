import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { conditionSet } from '../../../src/decision/condition-set.ts';
import { describeCourse } from '../../../src/decision/plan.ts';
import { anyCard, everyCondition } from './cards.ts';

const SET = conditionSet(everyCondition(4));
const anySteps = fc.shuffledSubarray([0, 1, 2], { minLength: 1 });

describe('floor and ceiling price', () => {
  it('leave room between them exactly where the surplus reaches the margin', () => {
    fc.assert(
      fc.property(anyCard, anySteps, ({ model, belief }, steps) => {
        const { floor, ceiling, surplus, margin, justified, chances } = describeCourse(model, SET, belief, steps);
        if (floor === null || ceiling === null) {
          expect(chances.kept).toBe(0);
          return;
        }
        // ceiling - floor = (J - margin) / P(a price is kept), up to rounding
        const scale = 1 + Math.abs(floor) + Math.abs(ceiling);
        expect(Math.abs(ceiling - floor - (surplus - margin) / chances.kept) / scale).toBeLessThan(1e-12);
        if (Math.abs(surplus - margin) > 1e-9) expect(ceiling >= floor).toBe(justified);
      }),
      { seed: 21, numRuns: 300 },
    );
  });

  it('leave the shop with its margin at the floor and the owner with nothing lost at the ceiling', () => {
    fc.assert(
      fc.property(anyCard, anySteps, ({ model, belief }, steps) => {
        const { floor, ceiling, cost, margin, chances } = describeCourse(model, SET, belief, steps);
        fc.pre(floor !== null && ceiling !== null && chances.kept > 1e-3);
        const { money } = model;
        const fees = (1 - chances.works) * money.feeWhenNotFixed;
        const paid = (price: number) => chances.kept * price + fees;
        const value = chances.held * money.working + (1 - chances.held) * money.partsAfterWork;
        expect(paid(floor!) - cost.total).toBeCloseTo(margin, 8);
        expect(value - paid(ceiling!)).toBeCloseTo(money.asIs, 8);
      }),
      { seed: 22, numRuns: 200 },
    );
  });

  it('do not exist for the shop’s own stock, whose surplus is that of the two purses together', () => {
    fc.assert(
      fc.property(
        anyCard,
        anySteps,
        fc.double({ min: 0, max: 500, noNaN: true }),
        ({ model, belief }, steps, price) => {
          const two = describeCourse(model, SET, belief, steps);
          const own = describeCourse({ ...model, money: { ...model.money, ownStock: true } }, SET, belief, steps);
          expect(own.floor).toBeNull();
          expect(own.ceiling).toBeNull();
          const { money } = model;
          const paid = two.chances.kept * price + (1 - two.chances.works) * money.feeWhenNotFixed;
          const value = two.chances.held * money.working + (1 - two.chances.held) * money.partsAfterWork;
          const shop = paid - two.cost.total;
          const owner = value - paid - money.asIs;
          expect(own.surplus).toBeCloseTo(shop + owner, 8);
          expect(own.justified).toBe(two.justified);
        },
      ),
      { seed: 23, numRuns: 100 },
    );
  });
});
