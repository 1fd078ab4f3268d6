import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CardModel } from '../../../src/decision/card-model.ts';
import { activeChances, conditionSet } from '../../../src/decision/condition-set.ts';
import { LEAST_FAULT_CHANCE } from '../../../src/decision/course-bounds.ts';
import { LEAST_GAIN } from '../../../src/decision/course-search.ts';
import { describeCourse, type Plan } from '../../../src/decision/plan.ts';
import { choosePlan, enumeratePlans } from '../../../src/decision/plans.ts';
import { anyCard, card, everyCondition, MONEY, play, remedy } from './cards.ts';

const EVERY = everyCondition(4);
const SET = conditionSet(EVERY);

/** Every order of up to three of the remedies that act on a fault worth considering. */
function everyCourse(model: CardModel, belief: Float64Array): number[][] {
  const likely = activeChances(SET, belief, 4);
  const considered = model.treatments.flatMap((treatment, t) =>
    treatment.effects.some(
      ({ fault, cures, masks }) => fault !== 3 && cures + masks > 0 && likely[fault]! >= LEAST_FAULT_CHANCE,
    )
      ? [t]
      : [],
  );
  const longer = (course: number[]): number[][] => [
    course,
    ...considered.filter((t) => course.length < 3 && !course.includes(t)).flatMap((t) => longer([...course, t])),
  ];
  return considered.flatMap((t) => longer([t]));
}

describe('the plans kept', () => {
  it('hold the best of all orders of up to three, within the gain too small to look for', () => {
    fc.assert(
      fc.property(anyCard, ({ model, belief }) => {
        const { plans } = enumeratePlans(model, SET, belief);
        const all = everyCourse(model, belief).map((steps) => describeCourse(model, SET, belief, steps));
        fc.pre(all.length > 0);
        const best = (list: readonly Plan[]) => Math.max(...list.filter((p) => p.stop === null).map((p) => p.surplus));
        const tolerance = LEAST_GAIN * Math.max(0, model.money.working - model.money.partsAfterWork) + 1e-9;
        expect(best(plans)).toBeGreaterThanOrEqual(best(all) - tolerance);
        expect(best(plans)).toBeLessThanOrEqual(best(all) + 1e-9);
      }),
      { seed: 31, numRuns: 150 },
    );
  });

  it('hold, for every kind of remedy, a plan as good as the best single remedy of that kind', () => {
    fc.assert(
      fc.property(anyCard, ({ model, belief }) => {
        const { plans } = enumeratePlans(model, SET, belief);
        for (const [t] of everyCourse(model, belief).filter((steps) => steps.length === 1)) {
          const single = describeCourse(model, SET, belief, [t!]);
          const kept = plans.filter((plan) => plan.verdict === single.verdict).map((plan) => plan.surplus);
          expect(Math.max(...kept)).toBeGreaterThanOrEqual(single.surplus - 1e-9);
        }
      }),
      { seed: 34, numRuns: 100 },
    );
  });

  it('carry a surplus that brute force agrees with, first preparations paid', () => {
    fc.assert(
      fc.property(anyCard, ({ model, belief }) => {
        for (const plan of enumeratePlans(model, SET, belief).plans) {
          if (plan.stop !== null) continue;
          const expected = EVERY.reduce((sum, at, c) => sum + belief[c]! * play(model, at, plan.steps).surplus, 0);
          expect(plan.surplus).toBeCloseTo(expected, 7);
          const linear = plan.payoff.reduce((sum, payoff, c) => sum + payoff * belief[c]!, 0);
          expect(linear - plan.preparationCost).toBeCloseTo(expected, 7);
        }
      }),
      { seed: 32, numRuns: 30 },
    );
  });

  it('include the remedy to follow once a check has singled out a fault that is unlikely today', () => {
    const model = card({
      host: new Uint8Array([0, 0]),
      relapse: [null, null],
      treatments: [
        remedy('usual', { effects: [{ fault: 0, cures: 0.9, masks: 0 }] }),
        remedy('rare', { minutes: 120, effects: [{ fault: 1, cures: 0.9, masks: 0 }] }),
      ],
    });
    const set = conditionSet([
      { active: [0], dormant: [] },
      { active: [1], dormant: [] },
    ]);
    const { plans } = enumeratePlans(model, set, Float64Array.of(0.99, 0.01));
    expect(choosePlan(plans).id).toBe('usual');
    expect(plans.map((plan) => plan.id)).toContain('rare');
  });

  it('leave out a remedy for faults this card all but surely does not have', () => {
    const model = card({
      host: new Uint8Array([0, 0]),
      relapse: [null, null],
      treatments: [
        remedy('usual', { effects: [{ fault: 0, cures: 0.9, masks: 0 }] }),
        remedy('needless', { effects: [{ fault: 1, cures: 0.9, masks: 0 }] }),
      ],
    });
    const set = conditionSet([
      { active: [0], dormant: [] },
      { active: [1], dormant: [] },
    ]);
    const ids = enumeratePlans(model, set, Float64Array.of(0.9995, 0.0005)).plans.map((plan) => plan.id);
    expect(ids.join(' ')).not.toContain('needless');
  });

  it('come in the same order every time, best surplus first', () => {
    fc.assert(
      fc.property(anyCard, ({ model, belief }) => {
        const once = enumeratePlans(model, SET, belief).plans;
        const twice = enumeratePlans(model, SET, belief).plans;
        expect(once.map((plan) => plan.id)).toEqual(twice.map((plan) => plan.id));
        for (let i = 1; i < once.length; i++) expect(once[i]!.surplus).toBeLessThanOrEqual(once[i - 1]!.surplus);
      }),
      { seed: 33, numRuns: 20 },
    );
  });
});

describe('the option to follow', () => {
  const oneFault = (working: number) =>
    card({
      host: new Uint8Array([0]),
      relapse: [null],
      newFaultsPerYear: 0,
      money: { ...MONEY, working },
      treatments: [remedy('reball', { kind: 'reball', minutes: 150, effects: [{ fault: 0, cures: 0.7, masks: 0 }] })],
    });
  const set = conditionSet([{ active: [0], dormant: [] }]);
  const verdictAt = (working: number) => choosePlan(enumeratePlans(oneFault(working), set, Float64Array.of(1)).plans);

  it('is a reball on a dear card and scrap on a cheap one with the same fault', () => {
    // .7 V + .3 * 20 - 150 - 30 >= 10 + 15 from V = 284.3 on
    expect(verdictAt(285).verdict).toBe('reball');
    expect(verdictAt(284).verdict).toBe('scrap');
    expect(verdictAt(284).id).toBe('leave-as-it-is');
  });
});
