import { describe, expect, it } from 'vitest';
import { betaQuantile } from '../../../src/decision/beta-distribution.ts';
import type { CardModel } from '../../../src/decision/card-model.ts';
import { activeChances, type ConditionSet, conditionSet } from '../../../src/decision/condition-set.ts';
import { drawnCard } from '../../../src/decision/drawn-card.ts';
import { enumeratePlans } from '../../../src/decision/plans.ts';
import { createRandom } from '../../../src/decision/random.ts';
import { candidatePlans, centralInterval, sensitivity } from '../../../src/decision/sensitivity.ts';
import { tornado } from '../../../src/decision/tornado.ts';
import type { Uncertainty } from '../../../src/decision/uncertainty.ts';
import { card, everyCondition, MONEY, remedy } from './cards.ts';

const NOTHING: Uncertainty = {
  shares: [],
  factors: [],
  findings: [],
  cures: [],
  masks: [],
  induces: [],
  damage: [],
  relapses: [],
  amounts: [],
};

const AMOUNTS: Uncertainty['amounts'] = [
  { id: 'value', unit: 'EUR', target: { of: 'working' }, range: { low: 200, likely: 300, high: 380 } },
  { id: 'as it lies', unit: 'EUR', target: { of: 'asIs' }, range: { low: 10, likely: 30, high: 60 } },
  { id: 'labour', unit: 'EUR', target: { of: 'labourPerHour' }, range: { low: 40, likely: 60, high: 90 } },
  { id: 'part', unit: 'EUR', target: { of: 'part', index: 0 }, range: { low: 30, likely: 40, high: 70 } },
  { id: 'return', unit: 'min', target: { of: 'stop-minutes', index: 0 }, range: { low: 3, likely: 6, high: 15 } },
  { id: 'swap', unit: 'min', target: { of: 'treatment-minutes', index: 1 }, range: { low: 30, likely: 50, high: 90 } },
];

/** one fault, always there, and one remedy for it */
const ONE = conditionSet([{ active: [0], dormant: [] }]);
const oneFault = (money = {}) =>
  card({
    host: new Uint8Array([0]),
    relapse: [{ medianDays: 50, shape: 1.5 }],
    newFaultsPerYear: 0,
    money: { ...MONEY, ...money },
    treatments: [remedy('reball', { kind: 'reball', minutes: 100, effects: [{ fault: 0, cures: 0.7, masks: 0.1 }] })],
  });
const candidates = (model: CardModel, set: ConditionSet, belief: Float64Array) =>
  candidatePlans(enumeratePlans(model, set, belief).plans);

/** Three faults and two findings, with a posterior worked out by brute force from odds and rows. */
function smallCard(n: number) {
  const rows = {
    leak: [
      [0.9, 0.07, 0.03],
      [0.8, 0.2],
    ],
    given: [
      [
        [0.2, 0.5, 0.3],
        [0.4, 0.3, 0.3],
      ],
      [
        [0.3, 0.7],
        [0.9, 0.1],
      ],
    ],
  };
  const faultsOf = [
    [0, 1],
    [1, 2],
  ];
  const weights = [
    [0, 1, 0.4],
    [0.3, 1],
  ];
  const shares = [0.1, 0.2, 0.05];
  const conditions = everyCondition(3).filter(({ dormant }) => dormant.length === 0);
  const likelihood = (
    active: readonly number[],
    x: number,
    given: readonly (readonly (readonly number[])[])[],
  ): number => {
    const cumulative = (row: readonly number[], state: number) => row.slice(0, state + 1).reduce((a, b) => a + b, 0);
    const upTo = (state: number) =>
      state < 0
        ? 0
        : faultsOf[x]!.reduce(
            (product, fault, k) => product * (active.includes(fault) ? cumulative(given[x]![k]!, state) : 1),
            cumulative(rows.leak[x]!, state),
          );
    return weights[x]!.reduce((sum, weight, state) => sum + weight * (upTo(state) - upTo(state - 1)), 0);
  };
  /** `override` replaces the row of one finding and fault */
  const posterior = (given: readonly number[], override?: { x: number; k: number; row: readonly number[] }) => {
    const used = override
      ? rows.given.map((of, x) => of.map((row, k) => (x === override.x && k === override.k ? override.row : row)))
      : rows.given;
    const joint = conditions.map(({ active }) =>
      [0, 1].reduce(
        (product, x) => product * likelihood(active, x, used),
        active.reduce((product, fault) => (product * given[fault]!) / (1 - given[fault]!), 1),
      ),
    );
    const total = joint.reduce((a, b) => a + b, 0);
    return Float64Array.from(joint, (p) => p / total);
  };
  const model = card({
    host: new Uint8Array([0, 0, 0]),
    relapse: [{ medianDays: 40, shape: 1.3 }, null, null],
    treatments: [
      remedy('reflow', {
        kind: 'reflow',
        minutes: 60,
        heatCycles: 1,
        effects: [{ fault: 0, cures: 0.3, masks: 0.3 }],
        induces: [{ fault: 2, chance: 0.05 }],
      }),
      remedy('swap', { minutes: 50, parts: [0], effects: [{ fault: 1, cures: 0.9, masks: 0 }] }),
      remedy('clean', { kind: 'service', minutes: 20, effects: [{ fault: 2, cures: 0.8, masks: 0 }] }),
    ],
  });
  const uncertainty: Uncertainty = {
    shares: shares.map((p, fault) => ({ id: `share ${fault}`, fault, p, n })),
    factors: [{ id: 'mined', fault: 1, factor: 1.5, spread: 1 / Math.sqrt(n) }],
    findings: weights.map((w, x) => ({
      weights: Float64Array.from(w),
      leak: { id: `leak ${x}`, p: Float64Array.from(rows.leak[x]!), n },
      given: rows.given[x]!.map((p, k) => ({
        id: `row ${x} ${k}`,
        fault: faultsOf[x]![k]!,
        p: Float64Array.from(p),
        n,
      })),
    })),
    cures: [
      { id: 'reflow cures', treatment: 0, fault: 0, n },
      { id: 'swap cures', treatment: 1, fault: 1, n },
      { id: 'clean cures', treatment: 2, fault: 2, n },
    ],
    masks: [{ id: 'reflow masks', treatment: 0, fault: 0, n }],
    induces: [{ id: 'reflow harms', treatment: 0, fault: 2, n }],
    damage: [{ id: 'old heat', treatment: 0, spread: 1 / Math.sqrt(n) }],
    relapses: [{ id: 'relapse', fault: 0, n }],
    newFaults: { id: 'new faults', n },
    amounts: [],
  };
  return { model, set: conditionSet(conditions), shares, rows, posterior, uncertainty };
}

describe('how far a verdict stands', () => {
  it('is fully certain, and its intervals shrink to the point, where every number rests on a trillion cards', () => {
    const { model, set, posterior, shares, uncertainty } = smallCard(1e12);
    const belief = posterior(shares);
    const plans = candidates(model, set, belief);
    const result = sensitivity(model, set, belief, uncertainty, plans, 1, 100);
    expect(result.stands).toBe(1);
    const likely = activeChances(set, belief, 3);
    result.faults.forEach(({ low, high }, fault) => {
      expect(low).toBeCloseTo(likely[fault]!, 4);
      expect(high).toBeCloseTo(likely[fault]!, 4);
    });
    result.plans.forEach(({ works, holds, surplus }, k) => {
      expect(works.low).toBeCloseTo(plans[k]!.chances.works, 4);
      expect(holds.high).toBeCloseTo(plans[k]!.chances.held, 4);
      expect(surplus.low).toBeCloseTo(plans[k]!.surplus, 2);
      expect(surplus.high).toBeCloseTo(plans[k]!.surplus, 2);
    });
  });

  it('gives a single cure chance the interval of its Beta', () => {
    const model = oneFault();
    const uncertainty = { ...NOTHING, cures: [{ id: 'cures', treatment: 0, fault: 0, n: 10 }] };
    const onlyCures = { ...model, treatments: [remedy('reball', { effects: [{ fault: 0, cures: 0.7, masks: 0 }] })] };
    const plans = candidates(onlyCures, ONE, Float64Array.of(1));
    const result = sensitivity(onlyCures, ONE, Float64Array.of(1), uncertainty, plans, 7, 20_000);
    const { works } = result.plans[plans.findIndex((plan) => plan.id === 'reball')]!;
    // standard error of a 5 % point: sqrt(.05 * .95 / 20000) / density, about .003 here; four of them
    expect(Math.abs(works.low - betaQuantile(0.05, 0.7, 10))).toBeLessThan(0.012);
    expect(Math.abs(works.high - betaQuantile(0.95, 0.7, 10))).toBeLessThan(0.012);
  });

  it('gives cured and masked together the Beta of their sum, as a Dirichlet does', () => {
    const model = oneFault();
    const uncertainty = {
      ...NOTHING,
      cures: [{ id: 'cures', treatment: 0, fault: 0, n: 10 }],
      masks: [{ id: 'masks', treatment: 0, fault: 0, n: 10 }],
    };
    const plans = candidates(model, ONE, Float64Array.of(1));
    const result = sensitivity(model, ONE, Float64Array.of(1), uncertainty, plans, 8, 20_000);
    const { works } = result.plans[plans.findIndex((plan) => plan.id === 'reball')]!;
    expect(Math.abs(works.low - betaQuantile(0.05, 0.8, 10))).toBeLessThan(0.012);
    expect(Math.abs(works.high - betaQuantile(0.95, 0.8, 10))).toBeLessThan(0.012);
  });

  it('lets the verdict win in the share of draws in which its one uncertain input is on its side', () => {
    // J = 280 c - 130 against margin 20: a reball from c = 150 / 280 on; P(Beta(7, 3) > .5357) by the binomial sum
    const model = {
      ...oneFault(),
      treatments: [
        remedy('reball', { kind: 'reball' as const, minutes: 100, effects: [{ fault: 0, cures: 0.7, masks: 0 }] }),
      ],
    };
    const uncertainty = { ...NOTHING, cures: [{ id: 'cures', treatment: 0, fault: 0, n: 10 }] };
    const plans = candidates(model, ONE, Float64Array.of(1));
    // V .7 * 300 + .3 * 20 - 100 - 30 = 86
    expect(plans[0]!.surplus).toBeCloseTo(86, 9);
    const result = sensitivity(model, ONE, Float64Array.of(1), uncertainty, plans, 9, 20_000);
    const x = (100 + 30 + 20 - 20) / 280;
    let below = 0;
    for (let j = 7; j <= 9; j++) {
      const ways = [36, 9, 1][j - 7]!;
      below += ways * x ** j * (1 - x) ** (9 - j);
    }
    expect(Math.abs(result.stands - (1 - below))).toBeLessThan(4 * Math.sqrt((below * (1 - below)) / 20_000));
    expect(result.winners.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
  });

  it('is the same for the same starting number, and another for another', () => {
    const { model, set, posterior, shares, uncertainty } = smallCard(10);
    const belief = posterior(shares);
    const plans = candidates(model, set, belief);
    const run = (seed: number) => sensitivity(model, set, belief, uncertainty, plans, seed, 50);
    expect(run(3)).toEqual(run(3));
    expect(run(4).faults).not.toEqual(run(3).faults);
  });
});

describe('the tornado', () => {
  it('moves a share exactly as working the posterior out anew would', () => {
    const { model, set, posterior, shares, uncertainty } = smallCard(10);
    const belief = posterior(shares);
    const plans = candidates(model, set, belief);
    const { bars, subject } = tornado(model, set, belief, uncertainty, plans);
    const k = plans.indexOf(subject);
    for (const [fault, p] of shares.entries()) {
      const bar = bars.find(({ input }) => input === `share ${fault}`)!;
      expect(bar.low).toBeCloseTo(betaQuantile(0.05, p, 10), 12);
      for (const [at, surplus] of [
        [bar.low, bar.atLow],
        [bar.high, bar.atHigh],
      ] as const) {
        const anew = posterior(shares.with(fault, at));
        const payoff = plans[k]!.payoff.reduce((sum, value, c) => sum + value * anew[c]!, 0);
        expect(surplus).toBeCloseTo(payoff - plans[k]!.preparationCost, 8);
      }
    }
  });

  it('moves a row of a finding exactly as working the posterior out anew would', () => {
    const { model, set, posterior, shares, rows, uncertainty } = smallCard(10);
    const belief = posterior(shares);
    const plans = candidates(model, set, belief);
    const { bars, subject } = tornado(model, set, belief, uncertainty, plans);
    const k = plans.indexOf(subject);
    // of fault 1 on the first finding, whose second state was seen: .3 moves, .4 and .3 keep their proportion
    const bar = bars.find(({ input }) => input === 'row 0 1')!;
    expect(rows.given[0]![1]![1]).toBe(0.3);
    expect(bar.high).toBeCloseTo(betaQuantile(0.95, 0.3, 10), 12);
    for (const [at, surplus] of [
      [bar.low, bar.atLow],
      [bar.high, bar.atHigh],
    ] as const) {
      const row = [((1 - at) * 0.4) / 0.7, at, ((1 - at) * 0.3) / 0.7];
      const anew = posterior(shares, { x: 0, k: 1, row });
      const payoff = plans[k]!.payoff.reduce((sum, value, c) => sum + value * anew[c]!, 0);
      expect(surplus).toBeCloseTo(payoff - plans[k]!.preparationCost, 8);
    }
  });

  it('takes no short cut that changes an answer: every input alone as when everything is worked out again', () => {
    const { model, set, posterior, shares, uncertainty } = smallCard(10);
    const belief = posterior(shares);
    const card = drawnCard(model, set, belief, { ...uncertainty, amounts: AMOUNTS }, candidates(model, set, belief));
    const answers = () =>
      card.plans.map(({ works, held, surplus, justified }) => ({ works, held, surplus, justified }));
    expect(new Set(card.inputs.map(({ reach }) => reach))).toEqual(new Set(['belief', 'courses', 'money']));
    for (const input of card.inputs) {
      for (const q of [0.05, 0.95]) {
        input.setPoint(q);
        expect(card.evaluateOne(input)).toBe(true);
        const short = answers();
        expect(card.evaluate()).toBe(true);
        answers().forEach((full, k) => {
          expect(short[k]!.works).toBeCloseTo(full.works, 10);
          expect(short[k]!.held).toBeCloseTo(full.held, 10);
          expect(short[k]!.surplus).toBeCloseTo(full.surplus, 8);
          expect(short[k]!.justified).toBe(full.justified);
        });
      }
      input.reset();
    }
  });

  it('moves a cure chance by the rise in value it brings, and the minutes by their wages', () => {
    const model = oneFault();
    const plans = candidates(model, ONE, Float64Array.of(1));
    const uncertainty: Uncertainty = {
      ...NOTHING,
      amounts: [
        {
          id: 'minutes',
          unit: 'min',
          target: { of: 'treatment-minutes', index: 0 },
          range: { low: 80, likely: 100, high: 160 },
        },
        { id: 'value', unit: 'EUR', target: { of: 'working' }, range: { low: 250, likely: 300, high: 320 } },
      ],
    };
    const { bars, subject } = tornado(model, ONE, Float64Array.of(1), uncertainty, plans);
    expect(bars.map(({ input }) => input)).toEqual(['minutes', 'value']);
    expect(bars[0]!.atLow).toBeCloseTo(subject.surplus + 20, 9);
    expect(bars[0]!.atHigh).toBeCloseTo(subject.surplus - 60, 9);
    expect(bars[1]!.atLow).toBeCloseTo(subject.surplus - 50 * subject.chances.held, 9);
  });

  it('looks at what might rescue the card where the verdict is scrap', () => {
    const model = oneFault({ working: 100 });
    const plans = candidates(model, ONE, Float64Array.of(1));
    const uncertainty = { ...NOTHING, cures: [{ id: 'cures', treatment: 0, fault: 0, n: 5 }] };
    const { subject, bars } = tornado(model, ONE, Float64Array.of(1), uncertainty, plans);
    expect(subject.id).toBe('reball');
    expect(bars).toHaveLength(1);
    expect(bars[0]!.verdictAtHigh).toBe('scrap');
  });
});

describe('a central interval', () => {
  it('interpolates between order statistics', () => {
    // 1 .. 21: places 1 and 19
    expect(centralInterval(Float64Array.from({ length: 21 }, (_, i) => 21 - i))).toEqual({ low: 2, high: 20 });
  });

  it('covers 90 % of a uniform sample', () => {
    const random = createRandom(5);
    const { low, high } = centralInterval(Float64Array.from({ length: 10_000 }, () => random.next()));
    // 4 standard errors of .0022
    expect(Math.abs(low - 0.05)).toBeLessThan(0.009);
    expect(Math.abs(high - 0.95)).toBeLessThan(0.009);
  });
});
