/** Invented small cards for the tests, and a referee that works courses out by brute force over every outcome. */
import fc from 'fast-check';
import type { CardCondition, CardModel, Money } from '../../../src/decision/card-model.ts';
import { nothingNewIn, stillDormant, type Treatment } from '../../../src/decision/treatment.ts';

export const MONEY: Money = {
  working: 300,
  asIs: 30,
  partsAfterWork: 20,
  labourPerHour: 60,
  consumablesPerHeatCycle: 5,
  comebackCost: 25,
  wronglySoundCost: 45,
  feeWhenNotFixed: 0,
  warrantyDays: 90,
  horizonDays: 365,
  margin: { fixed: 10, shareOfCost: 0.1 },
  partPrices: [40, 8],
  ownStock: false,
};

export const STOPS = [
  { id: 'return', verdict: 'return', value: 'working-if-sound', minutes: 6 },
  { id: 'leave-as-it-is', verdict: 'scrap', value: 'as-is', minutes: 0 },
  { id: 'part-out', verdict: 'scrap', value: 'parts', minutes: 15 },
] as const;

export function remedy(id: string, over: Partial<Treatment> = {}): Treatment {
  return {
    id,
    kind: 'component-swap',
    minutes: 30,
    parts: [],
    heatCycles: 0,
    preparations: [],
    effects: [],
    induces: [],
    damage: 1,
    ...over,
  };
}

export function card(over: Partial<CardModel> = {}): CardModel {
  return {
    host: new Uint8Array([0, 0, 0, 1]),
    relapse: [{ medianDays: 30, shape: 1.2 }, { medianDays: 200, shape: 1 }, { medianDays: 60, shape: 2 }, null],
    newFaultsPerYear: 0.05,
    treatments: [],
    preparations: [
      { id: 'cooler-off', minutes: 10, lasts: false },
      { id: 'profile', minutes: 20, lasts: true },
    ],
    stops: STOPS,
    money: MONEY,
    ...over,
  };
}

/** Every condition of a few faults, each absent, active or dormant. */
export function everyCondition(faults: number): CardCondition[] {
  let all: { active: number[]; dormant: number[] }[] = [{ active: [], dormant: [] }];
  for (let fault = 0; fault < faults; fault++) {
    all = all.flatMap(({ active, dormant }) => [
      { active, dormant },
      { active: [...active, fault], dormant },
      { active, dormant: [...dormant, fault] },
    ]);
  }
  return all;
}

type State = 'absent' | 'active' | 'dormant';

/** What one course does to one condition, by walking through every combined outcome of every step. */
export interface Played {
  readonly reached: number[];
  readonly works: number;
  readonly held: number;
  readonly kept: number;
  /** E[value at the end] - E[costs] - A, every preparation paid when first needed */
  readonly surplus: number;
  readonly mass: number;
}

export function play(model: CardModel, condition: CardCondition, steps: readonly number[]): Played {
  const start: State[] = Array.from(model.host, (_, fault) =>
    condition.active.includes(fault) ? 'active' : condition.dormant.includes(fault) ? 'dormant' : 'absent',
  );
  const reached = steps.map(() => 0);
  const { money } = model;
  let works = 0;
  let held = 0;
  let kept = 0;
  let surplus = 0;
  let mass = 0;
  const walk = (states: State[], j: number, chance: number, spent: number, made: readonly number[]) => {
    if (j === steps.length) {
      mass += chance;
      surplus += chance * (money.partsAfterWork - spent - money.asIs);
      return;
    }
    reached[j] = reached[j]! + chance;
    const treatment = model.treatments[steps[j]!]!;
    let cost = (treatment.minutes / 60) * money.labourPerHour + treatment.heatCycles * money.consumablesPerHeatCycle;
    for (const part of treatment.parts) cost += money.partPrices[part]!;
    for (const preparation of treatment.preparations) {
      if (!made.includes(preparation)) cost += (model.preparations[preparation]!.minutes / 60) * money.labourPerHour;
    }
    const now = [...made, ...treatment.preparations.filter((preparation) => model.preparations[preparation]!.lasts)];
    for (const [after, share] of outcomes(treatment, states)) {
      const p = chance * share;
      if (p === 0) continue;
      if (after.some((state, fault) => state === 'active' && model.host[fault] === 0)) {
        walk(after, j + 1, p, spent + cost, now);
        continue;
      }
      const survive = (days: number) =>
        after.reduce(
          (s, state, fault) =>
            state === 'dormant' && !model.host[fault] ? s * stillDormant(model.relapse[fault]!, days) : s,
          nothingNewIn(days, model.newFaultsPerYear),
        );
      const h = survive(money.horizonDays);
      const k = survive(money.warrantyDays);
      mass += p;
      works += p;
      held += p * h;
      kept += p * k;
      const value = h * money.working + (1 - h) * money.partsAfterWork;
      surplus += p * (value - spent - cost - (1 - k) * money.comebackCost - money.asIs);
    }
  };
  walk(start, 0, 1, 0, []);
  return { reached, works, held, kept, surplus, mass };
}

function outcomes(treatment: Treatment, states: readonly State[]): [State[], number][] {
  let all: [State[], number][] = [[[], 1]];
  states.forEach((state, fault) => {
    const effect = treatment.effects.find((e) => e.fault === fault) ?? { cures: 0, masks: 0 };
    const induce = treatment.induces.find((e) => e.fault === fault)?.chance ?? 0;
    const induced = Math.min(1, induce * treatment.damage);
    const next: [State, number][] =
      state === 'absent'
        ? [
            ['active', induced],
            ['absent', 1 - induced],
          ]
        : state === 'active'
          ? [
              ['absent', effect.cures],
              ['dormant', effect.masks],
              ['active', 1 - effect.cures - effect.masks],
            ]
          : [
              ['absent', effect.cures],
              ['dormant', 1 - effect.cures],
            ];
    all = all.flatMap(([before, p]) => next.map(([after, q]): [State[], number] => [[...before, after], p * q]));
  });
  return all;
}

const chance = fc.double({ min: 0, max: 1, noNaN: true });

/** A random remedy on `faults` faults. */
export function anyRemedy(faults: number, index: number): fc.Arbitrary<Treatment> {
  const perFault = fc.array(
    fc.tuple(fc.boolean(), chance, chance, fc.boolean(), fc.double({ min: 0, max: 0.4, noNaN: true })),
    {
      minLength: faults,
      maxLength: faults,
    },
  );
  return fc
    .record({
      perFault,
      damage: fc.double({ min: 0.5, max: 3, noNaN: true }),
      minutes: fc.double({ min: 0, max: 200, noNaN: true }),
      heatCycles: fc.integer({ min: 0, max: 2 }),
      preparations: fc.subarray([0, 1]),
      parts: fc.subarray([0, 1]),
      kind: fc.constantFrom('reflow', 'reball', 'component-swap', 'core-swap', 'service'),
    })
    .map(({ perFault: rows, ...rest }) =>
      remedy(`remedy-${index}`, {
        ...rest,
        effects: rows.flatMap(([acts, a, b], fault) => (acts ? [{ fault, cures: a * b, masks: a * (1 - b) }] : [])),
        induces: rows.flatMap(([, , , causes, i], fault) => (causes ? [{ fault, chance: i }] : [])),
      }),
    );
}

/** A random card of four faults, the last one of the host, with three remedies, and a belief over all its conditions. */
export const anyCard: fc.Arbitrary<{ model: CardModel; belief: Float64Array }> = fc
  .record({
    treatments: fc.tuple(anyRemedy(4, 0), anyRemedy(4, 1), anyRemedy(4, 2)),
    weights: fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 81, maxLength: 81 }),
    working: fc.double({ min: 0, max: 900, noNaN: true }),
    asIs: fc.double({ min: 0, max: 200, noNaN: true }),
    partsAfterWork: fc.double({ min: 0, max: 200, noNaN: true }),
    fee: fc.double({ min: 0, max: 80, noNaN: true }),
    rate: fc.double({ min: 0, max: 0.5, noNaN: true }),
    margin: fc.record({
      fixed: fc.double({ min: 0, max: 50, noNaN: true }),
      shareOfCost: fc.double({ min: 0, max: 0.5, noNaN: true }),
    }),
    warrantyDays: fc.integer({ min: 0, max: 200 }),
  })
  .map(({ treatments, weights, working, asIs, partsAfterWork, fee, rate, margin, warrantyDays }) => {
    const host = new Uint8Array([0, 0, 0, 1]);
    const relapse = [
      { medianDays: 30, shape: 1.2 },
      { medianDays: 200, shape: 1 },
      { medianDays: 60, shape: 2 },
      { medianDays: 90, shape: 1 },
    ];
    const total = weights.reduce((a, b) => a + b, 1e-9);
    return {
      model: card({
        host,
        relapse,
        newFaultsPerYear: rate,
        treatments,
        money: { ...MONEY, working, asIs, partsAfterWork, feeWhenNotFixed: fee, margin, warrantyDays },
      }),
      belief: Float64Array.from(weights, (w, c) => (w + (c === 0 ? 1e-9 : 0)) / total),
    };
  });
