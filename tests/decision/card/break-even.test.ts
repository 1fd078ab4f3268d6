import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type BreakEven, breakEvens } from '../../../src/decision/break-even.ts';
import type { CardModel, Money } from '../../../src/decision/card-model.ts';
import { conditionSet } from '../../../src/decision/condition-set.ts';
import { describeCourse, describeStop, type Plan } from '../../../src/decision/plan.ts';
import { choosePlan } from '../../../src/decision/plans.ts';
import { anyCard, card, everyCondition, MONEY, remedy } from './cards.ts';

const SET = conditionSet(everyCondition(4));
const ONE = conditionSet([{ active: [0], dormant: [] }]);

function reball(money: Partial<Money> = {}): CardModel {
  return card({
    host: new Uint8Array([0]),
    relapse: [null],
    newFaultsPerYear: 0,
    money: { ...MONEY, ...money },
    treatments: [
      remedy('reball', { kind: 'reball', minutes: 100, parts: [0], effects: [{ fault: 0, cures: 0.8, masks: 0 }] }),
    ],
  });
}
const optionsOf = (model: CardModel) => [
  describeCourse(model, ONE, Float64Array.of(1), [0]),
  ...model.stops.map((_, stop) => describeStop(model, ONE, Float64Array.of(1), stop)),
];
const pick = (list: readonly BreakEven[], what: BreakEven['what']) => list.find((item) => item.what === what);

describe('break-evens of a justified reball (by hand)', () => {
  // J = .8 V + .2 * 20 - (100 + 40) - 30; margin 10 + 14; justified at V = 300: J = 74
  const { subject, breakEvens: list } = breakEvens(reball(), optionsOf(reball()));

  it('give the working value below which the card is scrap', () => {
    expect(subject?.id).toBe('reball');
    expect(pick(list, 'working-value')).toMatchObject({ now: 300, becomes: 'scrap' });
    expect(pick(list, 'working-value')!.at).toBeCloseTo((24 + 170 - 4) / 0.8, 9);
  });

  it('give the chance below which it is not worth it', () => {
    // 20 + 280 q - 170 = 24
    expect(pick(list, 'chance-works')!.at).toBeCloseTo(174 / 280, 9);
  });

  it('give the parts and the minutes above which it is not worth it, their share of the margin counted', () => {
    // 244 - 130 - x = 10 + .1 (100 + x)  ->  1.1 x = 94
    expect(pick(list, 'parts')).toMatchObject({ now: 40, becomes: 'scrap' });
    expect(pick(list, 'parts')!.at).toBeCloseTo(94 / 1.1, 9);
    // 244 - 70 - m = 10 + .1 (40 + m)  ->  1.1 m = 160, a minute costs 1
    expect(pick(list, 'labour-minutes')).toMatchObject({ now: 100 });
    expect(pick(list, 'labour-minutes')!.at).toBeCloseTo(160 / 1.1, 9);
  });

  it('give the ceiling as the price above which the owner is better off leaving the card', () => {
    expect(pick(list, 'price')).toEqual({ what: 'price', now: subject!.floor, at: subject!.ceiling, becomes: 'scrap' });
  });
});

describe('break-evens of work that partly only masks (by hand)', () => {
  it('keep the shares that hold and that come back, as the chance that it works moves', () => {
    const model = card({
      host: new Uint8Array([0]),
      relapse: [{ medianDays: 365, shape: 1 }],
      newFaultsPerYear: 0,
      money: { ...MONEY, warrantyDays: 73 },
      treatments: [
        remedy('reball', { kind: 'reball', minutes: 100, parts: [0], effects: [{ fault: 0, cures: 0.6, masks: 0.2 }] }),
      ],
    });
    const { subject, breakEvens: list } = breakEvens(model, optionsOf(model));
    expect(subject!.chances.works).toBeCloseTo(0.8, 12);
    // masked cards: half are back by the horizon, 1 - 2^-(1/5) of them within the warranty
    const holds = (0.6 + 0.2 / 2) / 0.8;
    const comesBack = (0.2 * (1 - 2 ** -0.2)) / 0.8;
    // S + q holds (V - S) - (140 + q comesBack c) - A = 10 + .1 (140 + q comesBack c)
    const { working, partsAfterWork, comebackCost, asIs } = MONEY;
    const rise = holds * (working - partsAfterWork) - 1.1 * comesBack * comebackCost;
    expect(pick(list, 'chance-works')!.at).toBeCloseTo((140 + asIs + 24 - partsAfterWork) / rise, 9);
  });
});

describe('break-evens of a card not worth its reball', () => {
  const model = reball({ working: 200 });
  const { subject, breakEvens: list } = breakEvens(model, optionsOf(model));

  it('say from which working value on it would be', () => {
    expect(subject?.id).toBe('reball');
    expect(pick(list, 'working-value')).toMatchObject({ now: 200, becomes: 'reball' });
    expect(pick(list, 'working-value')!.at).toBeCloseTo(190 / 0.8, 9);
  });

  it('say that the shop would need more than the owner can pay', () => {
    const price = pick(list, 'price')!;
    expect(price.becomes).toBe('reball');
    expect(price.at!).toBeGreaterThan(price.now);
  });

  it('say that no parts price would do where even free parts do not', () => {
    // V = 180: .8 * 180 + 4 - 100 - 30 = 18 < 10 + 10
    const poor = reball({ working: 180 });
    expect(pick(breakEvens(poor, optionsOf(poor)).breakEvens, 'parts')).toMatchObject({ at: null, becomes: null });
  });

  it('have no price for the shop’s own stock', () => {
    const own = reball({ ownStock: true });
    expect(pick(breakEvens(own, optionsOf(own)).breakEvens, 'price')).toBeUndefined();
  });
});

describe('a break-even working value', () => {
  it('is where the verdict, worked out anew, changes to what it says', () => {
    const options = (model: CardModel, belief: Float64Array): Plan[] => [
      ...[[0], [1], [0, 1], [2, 0]].map((steps) => describeCourse(model, SET, belief, steps)),
      ...model.stops.map((_, stop) => describeStop(model, SET, belief, stop)),
    ];
    fc.assert(
      fc.property(anyCard, ({ model, belief }) => {
        const plans = options(model, belief);
        const found = pick(breakEvens(model, plans).breakEvens, 'working-value');
        fc.pre(found !== undefined && found.at !== null);
        const away = 1e-6 * Math.max(1, found!.at!) * Math.sign(found!.at! - found!.now || 1);
        const verdictAt = (working: number) =>
          choosePlan(options({ ...model, money: { ...model.money, working } }, belief)).verdict;
        fc.pre(Math.abs(found!.at! - found!.now) > 1e-3);
        expect(verdictAt(found!.at! + away)).toBe(found!.becomes);
        expect(verdictAt(found!.at! - away)).toBe(choosePlan(plans).verdict);
      }),
      { seed: 41, numRuns: 30 },
    );
  });
});
