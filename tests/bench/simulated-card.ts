/**
 * Cards whose truth is known, for judging decisions: faults drawn from the starting belief of a kind of card, what every
 * check would show, and how every piece of work would turn out. All dice of a card are thrown before anybody decides, so
 * that two ways of working meet the same card and their difference is not the dice.
 */
import type { Belief } from '../../src/belief/belief.ts';
import { membersOf } from '../../src/belief/conditions.ts';
import type { Network } from '../../src/belief/network.ts';
import type { Random } from '../../src/decision/random.ts';
import { OWNER_RELIABILITY } from '../../src/evidence/observations.ts';
import type { Knowledge } from '../../src/knowledge/knowledge.ts';
import type { FactAnswers, Money } from '../../src/record/schema.ts';

/** A kind of card: everything known before anybody looks at it, and its money. */
export interface Stratum {
  readonly name: string;
  readonly share: number;
  readonly facts: FactAnswers;
  readonly money: Money;
}

/** Invented, like all money here. */
export const STRATA: readonly Stratum[] = [
  {
    name: 'cheap and old',
    share: 0.3,
    facts: {
      'die-size': 'small',
      'memory-type': 'gddr5',
      'memory-chips': 4,
      'power-connectors': 'one',
      'power-class': 'up-to-150',
      'second-core-rail': false,
      'thick-board': false,
      'age-years': 6,
      'earlier-heat-work': 'none',
    },
    money: { working: 95, asIs: 20, partsAfterWork: 12 },
  },
  {
    name: 'middle',
    share: 0.35,
    facts: {
      'die-size': 'medium',
      'memory-type': 'gddr6',
      'memory-chips': 8,
      'power-connectors': 'one',
      'power-class': 'up-to-300',
      'second-core-rail': false,
      'thick-board': false,
      'age-years': 3.5,
      'earlier-heat-work': 'none',
    },
    money: { working: 230, asIs: 40, partsAfterWork: 25 },
  },
  {
    name: 'dear',
    share: 0.2,
    facts: {
      'die-size': 'large',
      'memory-type': 'gddr6x',
      'memory-chips': 12,
      'power-connectors': 'two-or-more',
      'power-class': 'above-300',
      'second-core-rail': true,
      'thick-board': true,
      'age-years': 2.5,
      'earlier-heat-work': 'none',
    },
    money: { working: 620, asIs: 110, partsAfterWork: 70 },
  },
  {
    name: 'heated at home',
    share: 0.15,
    facts: {
      'die-size': 'medium',
      'memory-type': 'gddr6',
      'memory-chips': 8,
      'power-connectors': 'one',
      'power-class': 'up-to-300',
      'second-core-rail': false,
      'thick-board': false,
      'age-years': 4,
      'earlier-heat-work': 'oven-or-heat-gun',
      'heat-cycles': 1,
      'cooler-opened': true,
    },
    money: { working: 260, asIs: 45, partsAfterWork: 25 },
  },
];

/** Uniform numbers in [0, 1): one for every die that may be thrown. */
export interface Dice {
  /** finding * (faults + 1) + (0: leak; 1 + fault) */
  readonly finding: Float64Array;
  /** remedy * faults + fault */
  readonly remedy: Float64Array;
  /** per check: whether it does the harm it can do */
  readonly harm: Float64Array;
  /** per fault: when it is back once masked */
  readonly relapse: Float64Array;
  readonly newFault: number;
}

export interface SimulatedCard {
  readonly number: number;
  readonly stratum: number;
  /** what it arrives with */
  readonly faults: readonly number[];
  /** state of `start-up` that the owner reports */
  readonly ownerSays: number;
  readonly dice: Dice;
}

/** `arriving`: the belief before any evidence, from which the faults are drawn. */
export function drawCard(
  truth: Knowledge,
  arriving: Belief,
  stratum: number,
  number: number,
  random: Random,
): SimulatedCard {
  const faults = drawCondition(arriving, random);
  const uniform = (count: number) => Float64Array.from({ length: count }, () => random.next());
  const dice: Dice = {
    finding: uniform(truth.findings.length * (truth.faults.length + 1)),
    remedy: uniform(truth.remedies.length * truth.faults.length),
    harm: uniform(truth.checks.length),
    relapse: uniform(truth.faults.length),
    newFault: random.next(),
  };
  const startUp = truth.findings.findIndex(({ id }) => id === 'start-up');
  const shown = shows(truth.network, startUp, faults, dice);
  return { number, stratum, faults, ownerSays: reported(truth, startUp, shown, random), dice };
}

/**
 * The state of a finding on a card with these faults: the most abnormal of what the leak and every fault show on their
 * own. Looked at twice it shows the same, unless the faults have changed in between.
 */
export function shows(network: Network, finding: number, faults: Iterable<number>, dice: Dice): number {
  const { leak, given } = network.findings[finding]!;
  const at = finding * (network.faults.length + 1);
  let state = stateAt(leak, dice.finding[at]!);
  for (const fault of faults) {
    const row = given.find((each) => each.fault === fault);
    if (row) state = Math.max(state, stateAt(row.cumulative, dice.finding[at + 1 + fault]!));
  }
  return state;
}

/** An owner is as reliable as the knowledge takes owners to be; who errs names any other state alike. */
function reported(truth: Knowledge, finding: number, shown: number, random: Random): number {
  const states = truth.findings[finding]!.states.length;
  const right = random.next() < OWNER_RELIABILITY;
  const other = Math.floor(random.next() * (states - 1));
  return right ? shown : other < shown ? other : other + 1;
}

function drawCondition({ conditions, chance }: Belief, random: Random): number[] {
  let left = random.next();
  let at = 0;
  while (at < chance.length - 1 && left >= chance[at]!) left -= chance[at++]!;
  return membersOf(conditions, at).active;
}

function stateAt(cumulative: Float64Array, uniform: number): number {
  let state = 0;
  while (uniform >= cumulative[state]!) state++;
  return state;
}
