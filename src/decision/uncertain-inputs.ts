/** Each uncertain input of a card as one thing that can be drawn, set to a point of its distribution, and set back. */
import { betaQuantile } from './beta-distribution.ts';
import type { CardModel, Money, StopOption } from './card-model.ts';
import type { ConditionSet } from './condition-set.ts';
import { type CellRow, type FindingWeigher, setCells } from './drawn-belief.ts';
import { type Amount, drawAmount, drawBeta, drawDirichlet, drawLogNormalFactor } from './draws.ts';
import type { Random } from './random.ts';
import type { Treatment } from './treatment.ts';
import type { AmountOf, Uncertainty } from './uncertainty.ts';

type Mutable<T> = { -readonly [K in keyof T]: T[K] };

/** The model with its amounts and minutes open to change; nothing of it is shared with the one it was copied from. */
export interface MutableModel extends CardModel {
  newFaultsPerYear: number;
  readonly money: Mutable<Money> & { readonly partPrices: number[] };
  readonly treatments: Mutable<Treatment>[];
  readonly preparations: { id: string; minutes: number; lasts: boolean }[];
  readonly stops: Mutable<StopOption>[];
}

export interface DrawnState {
  readonly now: MutableModel;
  /** per fault: drawn odds of its share over the likely ones */
  readonly odds: Float64Array;
  /** per fault: drawn history factors over the likely ones */
  readonly factors: Float64Array;
  readonly weighers: readonly (FindingWeigher | null)[];
  /** index treatment * faults + fault */
  readonly cures: Float64Array;
  /** masked share of what is not cured */
  readonly maskShares: Float64Array;
  /** before damage */
  readonly induces: Float64Array;
  readonly damage: Float64Array;
  readonly medians: Float64Array;
}

/** What has to be worked out again when an input moves: everything, courses and money, or money alone. */
export type Reach = 'belief' | 'courses' | 'money';

export interface UncertainInput {
  readonly id: string;
  readonly reach: Reach;
  readonly unit: string;
  readonly likely: number;
  draw(random: Random): void;
  /** sets it to its point `q` (0.05 or 0.95) and returns that value */
  setPoint(q: number): number;
  reset(): void;
}

export function mutableCopy(model: CardModel): MutableModel {
  return {
    ...model,
    money: { ...model.money, partPrices: [...model.money.partPrices] },
    treatments: model.treatments.map((treatment) => ({ ...treatment })),
    preparations: model.preparations.map((preparation) => ({ ...preparation })),
    stops: model.stops.map((stop) => ({ ...stop })),
  };
}

/** Inputs that touch the conditions of the set or the treatments `used`; what touches neither cannot move anything. */
export function uncertainInputs(
  model: CardModel,
  set: ConditionSet,
  uncertainty: Uncertainty,
  used: readonly number[],
  state: DrawnState,
): UncertainInput[] {
  const faults = model.host.length;
  const inSet = new Set(Array.from(set.codes, (code) => code >> 1));
  const caused = new Set(used.flatMap((t) => model.treatments[t]!.induces.map(({ fault }) => fault)));
  const matters = (fault: number) => inSet.has(fault) || caused.has(fault);
  const inputs: UncertainInput[] = [];

  for (const { id, fault, p, n } of uncertainty.shares) {
    if (!inSet.has(fault) || p <= 0 || p >= 1) continue;
    const likely = p / (1 - p);
    inputs.push(
      chanceInput(id, 'belief', p, n, (share) => {
        state.odds[fault] = share / (1 - share) / likely;
      }),
    );
  }
  for (const { id, fault, factor, spread } of uncertainty.factors) {
    if (!inSet.has(fault) || spread === 0) continue;
    inputs.push(factorInput(id, 'belief', '1', factor, spread, ownPart(state.factors, fault)));
  }
  uncertainty.findings.forEach((finding, f) => {
    const weigher = state.weighers[f];
    if (!weigher) return;
    inputs.push(...rowInputs(finding.leak.id, weigher.leak, finding.leak.n, weigher));
    finding.given.forEach((row, r) => {
      const cells = weigher.given[r];
      if (cells) inputs.push(...rowInputs(row.id, cells, row.n, weigher));
    });
  });
  const ofTreatment = (list: Uncertainty['cures'], values: Float64Array, size: (i: number, n: number) => number) => {
    for (const { id, treatment, fault, n } of list) {
      const i = treatment * faults + fault;
      const p = values[i]!;
      if (!used.includes(treatment) || !matters(fault) || p <= 0 || p >= 1) continue;
      inputs.push(
        chanceInput(id, 'courses', p, size(i, n), (chance) => {
          values[i] = chance;
        }),
      );
    }
  };
  const likelyCures = Float64Array.from(state.cures);
  ofTreatment(uncertainty.cures, state.cures, (_, n) => n);
  // Cured, masked, left: a Dirichlet in two Betas; the second splits what the first leaves, with that part of n.
  ofTreatment(uncertainty.masks, state.maskShares, (i, n) => n * (1 - likelyCures[i]!));
  ofTreatment(uncertainty.induces, state.induces, (_, n) => n);
  for (const { id, treatment, spread } of uncertainty.damage) {
    if (!used.includes(treatment) || spread === 0 || model.treatments[treatment]!.induces.length === 0) continue;
    const likely = model.treatments[treatment]!.damage;
    inputs.push(factorInput(id, 'courses', '1', likely, spread, ownPart(state.damage, treatment)));
  }
  const masked = new Set(
    used.flatMap((t) => model.treatments[t]!.effects.flatMap((e) => (e.masks > 0 ? [e.fault] : []))),
  );
  for (const code of set.codes) if ((code & 1) === 1) masked.add(code >> 1);
  for (const { id, fault, n } of uncertainty.relapses) {
    const weibull = model.relapse[fault];
    if (!weibull || !masked.has(fault)) continue;
    const spread = 1 / (weibull.shape * Math.sqrt(n));
    const setMedian = (factor: number) => {
      state.medians[fault] = weibull.medianDays * factor;
    };
    inputs.push(factorInput(id, 'courses', 'days', weibull.medianDays, spread, setMedian));
  }
  if (uncertainty.newFaults && model.newFaultsPerYear > 0) {
    const { id, n } = uncertainty.newFaults;
    const likely = model.newFaultsPerYear;
    const setRate = (factor: number) => {
      state.now.newFaultsPerYear = likely * factor;
    };
    inputs.push(factorInput(id, 'courses', 'per year', likely, 1 / Math.sqrt(n), setRate));
  }
  for (const { id, unit, target, range } of uncertainty.amounts) {
    if (range.low === range.high || !amountMatters(model, used, target)) continue;
    inputs.push(amountInput(id, unit, range, amountSetter(state.now, target)));
  }
  return inputs;
}

/** Several rules may bear on one number: each input changes its own part of the product. */
function ownPart(values: Float64Array, index: number): (factor: number) => void {
  let at = 1;
  return (factor) => {
    values[index] = (values[index]! * factor) / at;
    at = factor;
  };
}

/** 95 % point of the standard normal. */
const NORMAL_95 = 1.6448536269514722;

function chanceInput(id: string, reach: Reach, p: number, n: number, assign: (chance: number) => void): UncertainInput {
  return {
    id,
    reach,
    unit: '1',
    likely: p,
    draw: (random) => assign(drawBeta(random, p, n)),
    setPoint(q) {
      const value = betaQuantile(q, p, n);
      assign(value);
      return value;
    },
    reset: () => assign(p),
  };
}

function factorInput(
  id: string,
  reach: Reach,
  unit: string,
  likely: number,
  spread: number,
  assign: (factor: number) => void,
): UncertainInput {
  return {
    id,
    reach,
    unit,
    likely,
    draw: (random) => assign(drawLogNormalFactor(random, spread)),
    setPoint(q) {
      const factor = Math.exp(spread * (q < 0.5 ? -NORMAL_95 : NORMAL_95));
      assign(factor);
      return likely * factor;
    },
    reset: () => assign(1),
  };
}

/**
 * A row of a finding. Its point moves the chance of the cell that was seen (the one that weighs most), the other cells
 * keeping their proportions, as they do in a Dirichlet.
 */
function rowInputs(id: string, row: CellRow, n: number, weigher: FindingWeigher): UncertainInput[] {
  const { weights } = weigher;
  const { mean } = row;
  let seen = -1;
  for (let g = 0; g < mean.length; g++) {
    if (mean[g]! > 0 && mean[g]! < 1 && (seen < 0 || weights[g]! > weights[seen]!)) seen = g;
  }
  if (seen < 0) return [];
  const p = mean[seen]!;
  const drawn = new Float64Array(mean.length);
  let away = false;
  const put = (cells: Float64Array, likely: boolean) => {
    setCells(row, cells);
    if (away === likely) weigher.changed += likely ? -1 : 1;
    away = !likely;
  };
  return [
    {
      id,
      reach: 'belief',
      unit: '1',
      likely: p,
      draw(random) {
        drawDirichlet(random, mean, n, drawn);
        put(drawn, false);
      },
      setPoint(q) {
        const value = betaQuantile(q, p, n);
        put(
          mean.map((chance, g) => (g === seen ? value : (chance * (1 - value)) / (1 - p))),
          false,
        );
        return value;
      },
      reset: () => put(mean, true),
    },
  ];
}

/** Adds deviations from the likely amount, so that several ranges may share a target. */
function amountInput(id: string, unit: string, range: Amount, add: (difference: number) => void): UncertainInput {
  let at = range.likely;
  const assign = (value: number) => {
    add(value - at);
    at = value;
  };
  return {
    id,
    reach: 'money',
    unit,
    likely: range.likely,
    draw: (random) => assign(drawAmount(random, range)),
    setPoint(q) {
      const value = q < 0.5 ? range.low : range.high;
      assign(value);
      return value;
    },
    reset: () => assign(range.likely),
  };
}

function amountSetter(now: MutableModel, target: AmountOf): (difference: number) => void {
  switch (target.of) {
    case 'part':
      return (difference) => {
        now.money.partPrices[target.index]! += difference;
      };
    case 'treatment-minutes':
      return (difference) => {
        now.treatments[target.index]!.minutes += difference;
      };
    case 'preparation-minutes':
      return (difference) => {
        now.preparations[target.index]!.minutes += difference;
      };
    case 'stop-minutes':
      return (difference) => {
        now.stops[target.index]!.minutes += difference;
      };
    default:
      return (difference) => {
        now.money[target.of] += difference;
      };
  }
}

function amountMatters(model: CardModel, used: readonly number[], target: AmountOf): boolean {
  const some = (of: (treatment: Treatment) => boolean) => used.some((t) => of(model.treatments[t]!));
  switch (target.of) {
    case 'part':
      return some((treatment) => treatment.parts.includes(target.index));
    case 'treatment-minutes':
      return used.includes(target.index);
    case 'preparation-minutes':
      return some((treatment) => treatment.preparations.includes(target.index));
    case 'consumablesPerHeatCycle':
      return some((treatment) => treatment.heatCycles > 0);
    default:
      return true;
  }
}
