/** Knowledge and what the rules said of this card's history -> the odds every fault starts with. */
import { type Population, solveKappa, solvePopulation, startingOdds, wearFactor } from '../belief/prior.ts';
import type { GatheredEvidence } from '../evidence/evidence.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { Fault, Id } from '../knowledge/schema.ts';

/** What multiplied one fault's odds, and which rule or clock said so. */
export interface OddsFactor {
  readonly fault: Id;
  readonly factor: number;
  /** a history rule, or `wear-years` / `wear-hours` */
  readonly rule: string;
  /** standard deviation of the factor's logarithm */
  readonly spread: number;
}

export interface StartingBelief {
  readonly kappa: number;
  /** weight of the condition without any fault */
  readonly empty: number;
  readonly factors: readonly OddsFactor[];
  /** per fault, in the network's order: product of its factors */
  readonly product: Float64Array;
  readonly odds: Float64Array;
}

/** How far a wear-out curve is trusted: the standard deviation of its factor's logarithm, an estimate. */
const WEAR_SPREAD = 0.3;

const populations = new WeakMap<Knowledge, Map<number, Population>>();

/** Figures of the population, solved once for each knowledge and K. */
export function populationOf(knowledge: Knowledge, most: number): Population {
  let known = populations.get(knowledge);
  if (!known) {
    known = new Map();
    populations.set(knowledge, known);
  }
  let population = known.get(most);
  if (population === undefined) {
    const { moreThanOneFault, noFault } = knowledge.population;
    const shares = sharesOf(knowledge);
    population = noFault
      ? solvePopulation(shares, noFault.p, moreThanOneFault.p, most)
      : { kappa: solveKappa(shares, moreThanOneFault.p, most), empty: 1 };
    known.set(most, population);
  }
  return population;
}

export function sharesOf(knowledge: Knowledge): Float64Array {
  return Float64Array.from(knowledge.faults, (fault) => fault.share.p);
}

export function startingBelief(knowledge: Knowledge, gathered: GatheredEvidence, most: number): StartingBelief {
  const { kappa, empty } = populationOf(knowledge, most);
  const index = new Map(knowledge.faults.map((fault, at) => [fault.id, at]));
  const factors: OddsFactor[] = gathered.history.map(({ fault, factor, rule, spread }) => ({
    fault,
    factor,
    rule,
    spread,
  }));
  for (const fault of knowledge.faults) {
    const worn = wearOf(fault, gathered);
    if (worn !== null)
      factors.push({ fault: fault.id, factor: worn, rule: `wear-${fault.wear?.clock}`, spread: WEAR_SPREAD });
  }
  const product = new Float64Array(knowledge.faults.length).fill(1);
  for (const { fault, factor } of factors) {
    const at = index.get(fault);
    if (at !== undefined) product[at] = product[at]! * factor;
  }
  return { kappa, empty, factors, product, odds: startingOdds(sharesOf(knowledge), kappa, product) };
}

function wearOf(fault: Fault, gathered: GatheredEvidence): number | null {
  if (!fault.wear) return null;
  const time = gathered.facts.get(fault.wear.clock === 'years' ? 'age-years' : 'hours-of-use');
  if (typeof time !== 'number') return null;
  const factor = wearFactor(time, fault.wear.reference, fault.wear.shape);
  return factor === 1 ? null : factor;
}
