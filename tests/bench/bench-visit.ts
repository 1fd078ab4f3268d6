/** One simulated card on the bench: checks show what is so, work does what the dice say, and every minute is counted. */

import { cardAtThisShop } from '../../src/assess/shop-and-card.ts';
import type { CardModel } from '../../src/decision/card-model.ts';
import { nothingNewIn, stillDormant } from '../../src/decision/treatment.ts';
import type { Gathered } from '../../src/evidence/evidence.ts';
import { gatherEvidence } from '../../src/evidence/gather.ts';
import { factsOf } from '../../src/evidence/rules.ts';
import type { Knowledge } from '../../src/knowledge/knowledge.ts';
import type { Check, Finding, Id, Preparation, Remedy } from '../../src/knowledge/schema.ts';
import type { Record as CardRecord } from '../../src/record/schema.ts';
import type { Shop } from '../../src/shop/schema.ts';
import { type SimulatedCard, STRATA, shows } from './simulated-card.ts';

/** What happens is judged by this knowledge; what is closed and what work costs, too. */
export interface World {
  readonly truth: Knowledge;
  readonly shop: Shop;
  readonly checks: ReadonlyMap<Id, Check>;
  readonly remedies: ReadonlyMap<Id, Remedy>;
  readonly findingAt: ReadonlyMap<Id, number>;
  readonly faultAt: ReadonlyMap<Id, number>;
  readonly remedyAt: ReadonlyMap<Id, number>;
  readonly checkAt: ReadonlyMap<Id, number>;
  readonly preparations: ReadonlyMap<Id, Preparation>;
  /** findings that decide by how much work on this card does more damage */
  readonly damageFindings: readonly number[];
}

/** What the bench knows of a card, found by `key`: cards of one kind that have shown the same share it. */
export interface Known {
  readonly key: string;
  readonly stratum: number;
  readonly record: CardRecord;
  readonly gathered: Gathered;
}

export interface Ended {
  /** value at the end less real costs less as-is value */
  readonly surplus: number;
  /** the same less the margin that work must earn; nothing is deducted where no work was done */
  readonly surplusLessMargin: number;
  readonly minutes: number;
  readonly checks: number;
  /** remedies tried */
  readonly remedies: number;
  readonly works: boolean;
  readonly holds: boolean;
}

export function worldOf(truth: Knowledge, shop: Shop): World {
  const places = (items: readonly { readonly id: Id }[]) => new Map(items.map(({ id }, at) => [id, at]));
  const findingAt = places(truth.findings);
  const asked = new Set(
    truth.rules.gates.flatMap((rule) => (rule.event.type === 'damage' ? factsOf(rule.conditions) : [])),
  );
  return {
    truth,
    shop,
    checks: new Map(truth.checks.map((check) => [check.id, check])),
    remedies: new Map(truth.remedies.map((remedy) => [remedy.id, remedy])),
    findingAt,
    faultAt: places(truth.faults),
    remedyAt: places(truth.remedies),
    checkAt: places(truth.checks),
    preparations: new Map(truth.preparations.map((preparation) => [preparation.id, preparation])),
    damageFindings: truth.findings.flatMap(({ id }, at) => (asked.has(`seen-${id}`) ? [at] : [])),
  };
}

/** What has been seen of a card. */
export interface Sight {
  readonly stratum: number;
  /** state of `start-up` as the owner has it; -1: the owner has not been asked */
  readonly ownerSays: number;
  /** state of each finding, -1 where it has not been seen */
  readonly states: Int8Array;
  /** findings in the order they were seen */
  readonly order: readonly number[];
  /** preparations that stand */
  readonly made: ReadonlySet<Id>;
}

const MOST_KNOWN = 4000;

/** Gathers what is known in a situation once, whoever comes to it by whatever way. */
export function createKnowing(world: World) {
  const known = new Map<string, Promise<Known>>();
  return (sight: Sight): Promise<Known> => {
    const key = `${sight.stratum}/${sight.ownerSays}/${sight.states.join()}/${[...sight.made].sort().join()}`;
    let found = known.get(key);
    if (!found) {
      // far-off situations are many and rarely met twice: forget rather than fill the memory
      if (known.size >= MOST_KNOWN) known.clear();
      found = know(world, key, sight);
      known.set(key, found);
    }
    return found;
  };
}
export type Knowing = ReturnType<typeof createKnowing>;

/** A card of which nothing is known but its kind, save the states given. */
export function unseen(world: World, stratum: number, states?: Int8Array): Sight {
  const none = new Int8Array(world.truth.findings.length).fill(-1);
  const order = states ? Array.from(states.keys()).filter((finding) => states[finding]! >= 0) : [];
  return { stratum, ownerSays: -1, states: states ?? none, order, made: new Set() };
}

async function know({ truth, shop }: World, key: string, sight: Sight): Promise<Known> {
  const { stratum, ownerSays, states, order } = sight;
  const at = '2026-01-05T09:00:00Z';
  const seen = (finding: Finding, state: number, by: 'bench' | 'owner') => ({
    type: 'seen' as const,
    at,
    finding: finding.id,
    state: finding.states[state]!.id,
    by,
  });
  const { facts, money } = STRATA[stratum]!;
  const startUp = truth.findings.find(({ id }) => id === 'start-up')!;
  const record: CardRecord = {
    format: 1,
    id: 'simulated',
    title: 'A simulated card',
    invented: true,
    money,
    timeline: [
      { type: 'arrived', at, facts },
      ...(ownerSays < 0 ? [] : [seen(startUp, ownerSays, 'owner')]),
      ...order.map((finding) => seen(truth.findings[finding]!, states[finding]!, 'bench')),
    ],
  };
  const gathering = await gatherEvidence(truth, shop, record);
  if (gathering.kind === 'bad-record') throw new Error(`a simulated record is refused: ${gathering.issues[0]?.wrong}`);
  return { key, stratum, record, gathered: gathering.gathered };
}

const ABSENT = 0;
const ACTIVE = 1;
const DORMANT = 2;

export interface Visit {
  known(): Promise<Known>;
  /** not done yet, of use here, and nothing known closes it */
  isOpen(check: Id, known: Known): boolean;
  /** does a check; throws where the order of safety or a rule closes it */
  check(check: Id): Promise<void>;
  /** state id of a finding seen, or undefined */
  saw(finding: Id): Id | undefined;
  /** minutes a check would take now, preparations not yet made included */
  minutesOf(check: Id): number;
  isActive(fault: number): boolean;
  /** tries the remedies in order until the card works, and hands it back or keeps what is left of it */
  treat(steps: readonly Id[]): Promise<Ended>;
  stop(stop: Id): Ended;
}

export function visit(world: World, knowing: Knowing, card: SimulatedCard): Visit {
  const { truth, shop } = world;
  const { working, asIs, partsAfterWork } = moneyOf(card);
  const rate = likely(shop.labourPerHour) / 60;
  const state = new Uint8Array(truth.faults.length);
  for (const fault of card.faults) state[fault] = ACTIVE;
  const active = () => Array.from(state.keys()).filter((fault) => state[fault] === ACTIVE);
  const seen = new Int8Array(truth.findings.length).fill(-1);
  const order: number[] = [];
  const made = new Set<Id>();
  let minutes = 0;
  let bought = 0;
  let checks = 0;
  const unmade = (needed: readonly Id[]) =>
    needed.filter((id) => !made.has(id)).reduce((sum, id) => sum + world.preparations.get(id)!.minutes.likely, 0);
  /** Makes them one after the other; one may undo another, as the cooler back on undoes the cooler off. */
  const prepare = (needed: readonly Id[]) => {
    const took = unmade(needed);
    for (const id of needed) {
      made.add(id);
      for (const undone of world.preparations.get(id)!.undoes ?? []) made.delete(undone);
    }
    return took;
  };
  const known = () =>
    knowing({ stratum: card.stratum, ownerSays: card.ownerSays, states: seen.slice(), order: [...order], made });
  const isOpen = (id: Id, { gathered }: Known) => {
    const here = world.checks.get(id)!.yields.filter((finding) => gathered.applicable.has(finding));
    return here.some((finding) => seen[world.findingAt.get(finding)!]! < 0) && !gathered.closedChecks.has(id);
  };

  /** The card is back with its owner, or on the shelf: what it is worth, and whether it comes back. */
  const handedBack = (returned: boolean): { works: boolean; holds: boolean; comesBack: boolean } => {
    const ofCard = (fault: number) => truth.faults[fault]!.site !== 'host';
    const works = active().every((fault) => !ofCard(fault));
    const survives = (days: number) =>
      card.dice.newFault < nothingNewIn(days, truth.population.newFaultsPerYear.rate) &&
      state.every((what, fault) => {
        const relapse = truth.faults[fault]!.relapse;
        return (
          what !== DORMANT || !ofCard(fault) || !relapse || card.dice.relapse[fault]! < stillDormant(relapse, days)
        );
      });
    const holds = works && survives(shop.horizonDays);
    return { works, holds, comesBack: returned ? !works : works && !survives(shop.warrantyDays) };
  };

  const ended = (
    spent: number,
    worth: number,
    margin: number,
    how: { works: boolean; holds: boolean },
    tried: number,
  ) => {
    const surplus = worth - asIs - spent - bought - minutes * rate;
    return { surplus, surplusLessMargin: surplus - margin, minutes, checks, remedies: tried, ...how };
  };

  return {
    known,
    isOpen,
    saw: (finding) => {
      const at = world.findingAt.get(finding)!;
      return seen[at]! < 0 ? undefined : truth.findings[at]!.states[seen[at]!]!.id;
    },
    minutesOf: (id) => {
      const check = world.checks.get(id)!;
      return check.minutes.likely + unmade(check.preparations);
    },
    isActive: (fault) => state[fault] === ACTIVE,
    async check(id) {
      const now = await known();
      const { gathered } = now;
      if (!isOpen(id, now)) {
        const why = gathered.closedChecks.get(id)?.join(' ') ?? 'it is done, or there is nothing to look at';
        throw new Error(`"${id}" is closed here: ${why}`);
      }
      const check = world.checks.get(id)!;
      minutes += check.minutes.likely + prepare(check.preparations);
      bought += check.bought ? likely(shop.parts[check.bought.part]!) : 0;
      checks++;
      for (const finding of check.yields) {
        const at = world.findingAt.get(finding)!;
        if (!gathered.applicable.has(finding) || seen[at]! >= 0) continue;
        seen[at] = shows(truth.network, at, active(), card.dice);
        order.push(at);
      }
      const { risk } = check;
      if (risk && card.dice.harm[world.checkAt.get(id)!]! < risk.p) state[world.faultAt.get(risk.fault)!] = ACTIVE;
    },
    async treat(steps) {
      if (steps.length === 0) throw new Error('work without a remedy: use a stop');
      const { gathered } = await known();
      const damage = await damageOf(world, knowing, card, active());
      let spent = 0;
      let tried = 0;
      let how = handedBack(false);
      const before = minutes;
      for (const id of steps) {
        if (gathered.closedRemedies.has(id))
          throw new Error(`${id} is closed: ${gathered.closedRemedies.get(id)?.[0]}`);
        const remedy = world.remedies.get(id)!;
        minutes += remedy.minutes.likely + remedy.verifyMinutes.likely + prepare(remedy.preparations);
        spent += remedy.parts.reduce((sum, part) => sum + likely(shop.parts[part]!), 0);
        spent += remedy.heatCycles * likely(shop.consumablesPerHeatCycle);
        apply(remedy, damage(id));
        // the test after the work undoes what does not outlast it: the cooler goes back on
        for (const { undoes = [] } of world.preparations.values()) for (const undone of undoes) made.delete(undone);
        tried++;
        how = handedBack(false);
        if (how.works) break;
      }
      if (how.comesBack) spent += likely(shop.comebackCost);
      const margin = shop.margin.fixed + shop.margin.shareOfCost * (spent + (minutes - before) * rate);
      return ended(spent, how.holds ? working : partsAfterWork, margin, how, tried);
    },
    stop(id) {
      const stop = truth.stops.find((known) => known.id === id)!;
      minutes += stop.minutes.likely;
      if (stop.value === 'as-is') return ended(0, asIs, 0, { works: false, holds: false }, 0);
      if (stop.value === 'parts') return ended(0, partsAfterWork, 0, { works: false, holds: false }, 0);
      const how = handedBack(true);
      const worth = how.works ? (how.holds ? working : partsAfterWork) : asIs;
      const wrong = how.works ? 0 : likely(shop.comebackCost) + likely(shop.wronglySoundCost);
      return ended(wrong, worth, 0, how, 0);
    },
  };

  function apply(remedy: Remedy, damage: number): void {
    const at = world.remedyAt.get(remedy.id)! * truth.faults.length;
    for (const [fault, { site }] of truth.faults.entries()) {
      if (site === 'host') continue;
      const die = card.dice.remedy[at + fault]!;
      const id = truth.faults[fault]!.id;
      const cures = remedy.effects[id]?.cures.p ?? 0;
      const masks = remedy.effects[id]?.masks?.p ?? 0;
      if (state[fault] === ABSENT) {
        if (die < (remedy.induces[id]?.p ?? 0) * damage) state[fault] = ACTIVE;
      } else if (die < cures) state[fault] = ABSENT;
      else if (state[fault] === ACTIVE && die < cures + masks) state[fault] = DORMANT;
    }
  }
}

/** How much more damage work does on this card, whether or not anybody has looked at what makes it so. */
async function damageOf(world: World, knowing: Knowing, card: SimulatedCard, faults: readonly number[]) {
  const states = new Int8Array(world.truth.findings.length).fill(-1);
  for (const finding of world.damageFindings) states[finding] = shows(world.truth.network, finding, faults, card.dice);
  const { gathered } = await knowing(unseen(world, card.stratum, states));
  return (remedy: Id) =>
    gathered.damage.reduce((product, item) => (item.remedy === remedy ? product * item.factor : product), 1);
}

/** The numbers of a card's decision when nothing but its kind is known. */
export async function modelOf(world: World, knowing: Knowing, stratum: number): Promise<CardModel> {
  const { record, gathered } = await knowing(unseen(world, stratum));
  return cardAtThisShop(world.truth, world.shop, record, gathered, new Set(), () => []).model;
}

export function moneyOf({ stratum }: Pick<SimulatedCard, 'stratum'>) {
  const { working, asIs, partsAfterWork } = STRATA[stratum]!.money;
  return { working: likely(working), asIs: likely(asIs), partsAfterWork: likely(partsAfterWork) };
}

type Amount = number | { readonly likely: number };
export const likely = (amount: Amount): number => (typeof amount === 'number' ? amount : amount.likely);
