/**
 * Ways of working at the bench, each as one decision after the other on a simulated card: the tool's, and plainer ones to
 * hold it against. None can leave the order of safety: a closed check throws, a closed remedy is not tried.
 */
import type { CardModel } from '../../src/decision/card-model.ts';
import { conditionSet } from '../../src/decision/condition-set.ts';
import { enumeratePlans } from '../../src/decision/plans.ts';
import type { Knowledge } from '../../src/knowledge/knowledge.ts';
import type { Id, Remedy } from '../../src/knowledge/schema.ts';
import { type Ended, type Known, likely, moneyOf, type Visit, type World } from './bench-visit.ts';
import { type SimulatedCard, STRATA } from './simulated-card.ts';
import { type Act, type Advised, adviseOn, diagnosed, type Leading, leading } from './tool-advice.ts';

/** What was stated when the checks ended and the work began, against what then was so. */
export interface Stated {
  readonly kind: 'work' | 'return' | 'scrap';
  readonly works: number;
  readonly holds: number;
  readonly top: number;
  readonly topIsThere: boolean;
}

export interface Went extends Ended {
  readonly stated?: Stated;
  /** surplus less margin that was expected when the card came in */
  readonly expected?: number;
}

/** Answers about a situation, each worked out once: they depend on nothing but what is known. */
export interface Minds {
  advised(known: Known): Advised;
  /** the best plan, no checks looked at */
  planned(known: Known): Act;
  leading(known: Known): Leading;
  readonly planner: { calls: number; asked: number; milliseconds: number };
  /** the last situation that was newly planned */
  latest: { readonly known: Known; readonly advised: Advised } | undefined;
}

/** `knowledge` is what the bench believes; it need not be the truth. */
export function createMinds(knowledge: Knowledge, world: World): Minds {
  const advice = new Map<string, Advised>();
  const plans = new Map<string, Act>();
  const leads = new Map<string, Leading>();
  const planner = { calls: 0, asked: 0, milliseconds: 0 };
  const remember = <T>(memory: Map<string, T>, key: string, find: () => T): T => {
    const found = memory.get(key) ?? find();
    memory.set(key, found);
    return found;
  };
  const minds: Minds = {
    planner,
    latest: undefined,
    advised(known) {
      planner.asked++;
      return remember(advice, known.key, () => {
        const start = performance.now();
        const diagnosis = diagnosed(knowledge, known.gathered);
        const advised = adviseOn(knowledge, world.shop, known.record, diagnosis);
        leads.set(known.key, leading(diagnosis));
        minds.latest = { known, advised };
        planner.calls++;
        planner.milliseconds += performance.now() - start;
        return advised;
      });
    },
    planned: (known) =>
      advice.get(known.key)?.act ??
      remember(plans, known.key, () => {
        const diagnosis = diagnosed(knowledge, known.gathered);
        return adviseOn(knowledge, world.shop, known.record, diagnosis, false).act;
      }),
    leading: (known) => remember(leads, known.key, () => leading(diagnosed(knowledge, known.gathered))),
  };
  return minds;
}

/** Checks as planned, then the plan; after a remedy that failed, the plan's next step. */
export async function asAdvised(visit: Visit, minds: Minds): Promise<Went> {
  let expected: number | undefined;
  for (;;) {
    const known = await visit.known();
    const { check, act, value } = minds.advised(known);
    expected ??= value;
    if (check === null) return { ...(await carryOut(visit, act, minds.leading(known))), expected };
    await visit.check(check);
  }
}

/** No check at all: the best plan on what the owner says. */
export async function withoutChecks(visit: Visit, minds: Minds): Promise<Went> {
  return carryOut(visit, minds.planned(await visit.known()));
}

async function carryOut(visit: Visit, act: Act, lead?: Leading): Promise<Went> {
  const topIsThere = lead !== undefined && visit.isActive(lead.fault);
  const ended = act.stop === null ? await visit.treat(act.steps) : visit.stop(act.stop);
  if (!lead) return ended;
  const kind = act.stop === null ? 'work' : act.stop === RETURN ? 'return' : 'scrap';
  return { ...ended, stated: { kind, works: act.works, holds: act.holds, top: lead.chance, topIsThere } };
}

const RETURN: Id = 'return';
const LEAVE: Id = 'leave-as-it-is';
const REBALL: Id = 'reball-core-leaded';
const RESISTANCES: Id = 'rail-resistances';

/** Resistances, since nothing is powered before them, then a reball whatever they say, unless a rule forbids it. */
export async function alwaysReball(visit: Visit): Promise<Went> {
  await visit.check(RESISTANCES);
  return (await visit.known()).gathered.closedRemedies.has(REBALL) ? visit.stop(LEAVE) : visit.treat([REBALL]);
}

/** The cheapest open check by the minutes it takes now, until one fault is this likely or nothing is left; then the best plan. */
const SURE_ENOUGH = 0.8;
export async function cheapestCheckFirst(visit: Visit, minds: Minds, world: World): Promise<Went> {
  for (;;) {
    const known = await visit.known();
    const open = world.truth.checks.filter(({ id, bought }) => !bought && visit.isOpen(id, known));
    if (open.length === 0 || minds.leading(known).chance > SURE_ENOUGH) return carryOut(visit, minds.planned(known));
    const cheapest = open.reduce((least, next) =>
      visit.minutesOf(next.id) < visit.minutesOf(least.id) ? next : least,
    );
    await visit.check(cheapest.id);
  }
}

/** A round of standard checks, as far as they are open; then the remedy for the most probable fault, up to three faults. */
const STANDARD_ROUND: readonly Id[] = [
  'visual-inspection',
  RESISTANCES,
  'rails-on-limited-supply',
  'boot-test',
  'memory-test',
  'host-swap',
];
const MOST_TRIES = 3;
export async function mostProbableFirst(visit: Visit, minds: Minds, world: World, card: SimulatedCard): Promise<Went> {
  for (const check of STANDARD_ROUND) if (visit.isOpen(check, await visit.known())) await visit.check(check);
  const known = await visit.known();
  const { chances, sound } = minds.leading(known);
  const likeliest = world.truth.faults
    .map(({ id, site }, fault) => ({ id, site, chance: chances[fault]! }))
    .sort((a, b) => b.chance - a.chance);
  if (likeliest[0]!.site === 'host' || sound > likeliest[0]!.chance) return visit.stop(RETURN);
  const steps: Id[] = [];
  for (const { id, site } of likeliest.slice(0, MOST_TRIES)) {
    const remedy = site === 'host' ? undefined : remedyFor(id, known, world, card);
    if (remedy && !steps.includes(remedy)) steps.push(remedy);
  }
  return steps.length > 0 ? visit.treat(steps) : visit.stop(LEAVE);
}

/** The open remedy that cures the fault most often, of those that cost no more than the rule of thumb allows. */
function remedyFor(fault: Id, known: Known, world: World, card: SimulatedCard): Id | undefined {
  const open = [...world.remedies.values()].filter(
    (remedy) => (remedy.effects[fault]?.cures.p ?? 0) >= 0.3 && allowed(remedy, known, world, card),
  );
  const cures = (remedy: Remedy) => remedy.effects[fault]!.cures.p;
  return open.sort((a, b) => cures(b) - cures(a) || price(a, world) - price(b, world))[0]?.id;
}

/** A bench without figures goes by a rule of thumb: no work that costs more than half of what the card is worth. */
const MOST_OF_VALUE = 0.5;
function allowed(remedy: Remedy, { gathered }: Known, world: World, card: SimulatedCard): boolean {
  return !gathered.closedRemedies.has(remedy.id) && price(remedy, world) <= MOST_OF_VALUE * moneyOf(card).working;
}

function price(remedy: Remedy, { shop, preparations }: World): number {
  const made = remedy.preparations.reduce((sum, id) => sum + preparations.get(id)!.minutes.likely, 0);
  const minutes = remedy.minutes.likely + remedy.verifyMinutes.likely + made;
  const parts = remedy.parts.reduce((sum, part) => sum + likely(shop.parts[part]!), 0);
  return (minutes / 60) * likely(shop.labourPerHour) + parts + remedy.heatCycles * likely(shop.consumablesPerHeatCycle);
}

/**
 * The flow chart that hangs on many a wall: look, resistances, then by what the card does. Shorts are traced with
 * injection, missing rails are repaired, a card that starts is loaded, artifacts go to the memory, and what comes and goes with
 * warmth is reballed.
 */
export async function flowBySymptom(visit: Visit, world: World, card: SimulatedCard): Promise<Went> {
  const look = async (check: Id, finding: Id) => {
    if (visit.isOpen(check, await visit.known())) await visit.check(check);
    return visit.saw(finding);
  };
  const work = async (...remedies: Id[]) => {
    const known = await visit.known();
    const open = remedies.filter((id) => allowed(world.remedies.get(id)!, known, world, card));
    return open.length > 0 ? visit.treat(open) : visit.stop(LEAVE);
  };

  /** Joints come and go with warmth: only then is the core worth its balls. */
  const joints = async () => {
    const onset = await look('warm-cold-test', 'onset');
    return onset === 'only-cold' || onset === 'after-minutes-warm' ? work(REBALL) : visit.stop(LEAVE);
  };
  const byMemory = async () => {
    const memory = await look('memory-test', 'memory-test');
    return memory === 'one-chip' || memory === 'one-channel' ? work('replace-memory-chip') : joints();
  };

  await look('visual-inspection', 'look-board');
  if (visit.saw('look-power-connector') === 'melted') return work('replace-power-connector');
  if (visit.saw('look-edge-connector') === 'damaged') return work('repair-edge-or-lanes');
  const board = visit.saw('look-board');
  if (board === 'corroded') return work('clean-corrosion');
  if (board === 'swollen') return visit.stop(LEAVE);
  if (board === 'cracked') return work('repair-trace');
  if (board === 'missing-part' || board === 'cracked-part') return work('repair-edge-or-lanes', 'restore-strap');

  await look(RESISTANCES, 'resistance-core');
  const short = SHORTS.find(({ rail }) => visit.saw(rail) === 'short');
  if (short) {
    const hot = await look('injection', 'hot-spot');
    if (hot === 'power-stage') return work('replace-power-stage');
    if (hot === 'capacitor') return work('remove-shorted-capacitor');
    if (hot === 'memory-chip') return work('replace-memory-chip');
    if (hot === 'core') return work('replace-core');
    return work(...short.remedies);
  }

  await look('rails-on-limited-supply', 'rail-sequence');
  const absent = ABSENT_RAILS.find(({ rail }) => visit.saw(rail) === 'absent' || visit.saw(rail) === 'low');
  if (absent) return work(...absent.remedies);
  const sequence = visit.saw('rail-sequence');
  if (sequence !== undefined && sequence !== 'all-in-order') return work('repair-sequencing');

  switch (await look('boot-test', 'start-up')) {
    case 'desktop':
    case 'crash-under-load': {
      if ((await look('host-swap', 'host-swap')) === 'works-in-known-good-host') return visit.stop(RETURN);
      const temperatures = await look('load-test', 'load-temperatures');
      const fans = visit.saw('fans');
      if (fans === 'some' || fans === 'none') return work('replace-fans');
      if (temperatures !== undefined && temperatures !== 'normal') return work('thermal-service');
      const outputs = await look('display-outputs', 'display-outputs');
      if (outputs === 'some' || outputs === 'none') return work('repair-display-output');
      return byMemory();
    }
    case 'artifacts-under-load':
    case 'artifacts-from-first-image':
      return byMemory();
    case 'detected-no-image':
    case 'not-detected': {
      const firmware = await look('firmware-compare', 'firmware-image');
      if (firmware === 'differs') return work('reflash-firmware');
      if (firmware === 'unreadable') return work('replace-firmware-chip');
      const signals = await look('scope-signals', 'signals');
      if (signals === 'clock-missing') return work('replace-clock');
      if (signals === 'phase-missing') return work('replace-core-controller');
      if (signals === 'reset-held') return work('repair-sequencing');
      return joints();
    }
    default:
      return joints();
  }
}

const SHORTS: readonly { readonly rail: Id; readonly remedies: readonly Id[] }[] = [
  { rail: 'resistance-core', remedies: ['replace-power-stage'] },
  { rail: 'resistance-core-second', remedies: ['replace-power-stage'] },
  { rail: 'resistance-memory', remedies: ['remove-shorted-capacitor', 'replace-memory-chip'] },
  { rail: 'resistance-12v-input', remedies: ['remove-shorted-capacitor', 'replace-power-stage'] },
  { rail: 'resistance-12v-input-second', remedies: ['remove-shorted-capacitor', 'replace-power-stage'] },
  { rail: 'resistance-12v-slot', remedies: ['remove-shorted-capacitor'] },
  { rail: 'resistance-pcie-rail', remedies: ['replace-small-regulator'] },
  { rail: 'resistance-1v8', remedies: ['replace-small-regulator'] },
  { rail: 'resistance-3v3', remedies: ['replace-small-regulator'] },
  { rail: 'resistance-5v', remedies: ['replace-small-regulator'] },
];

/** In the order in which one rail feeds the next. */
const ABSENT_RAILS: readonly { readonly rail: Id; readonly remedies: readonly Id[] }[] = [
  { rail: 'voltage-12v-input', remedies: ['replace-fuse'] },
  { rail: 'voltage-12v-slot', remedies: ['replace-fuse'] },
  { rail: 'voltage-5v', remedies: ['replace-small-regulator'] },
  { rail: 'voltage-1v8', remedies: ['replace-small-regulator'] },
  { rail: 'voltage-core', remedies: ['replace-core-controller', 'repair-sequencing'] },
  { rail: 'voltage-memory', remedies: ['replace-memory-regulator'] },
  { rail: 'voltage-pcie-rail', remedies: ['replace-small-regulator'] },
];

/**
 * Somebody who knows every fault of the card without a check, though not how the work will turn out: for each set of
 * faults the plan with the best surplus. No way of working can do better on average. `models`: one per kind of card.
 */
export function createOracle(models: readonly CardModel[], world: World) {
  const plans = new Map<string, Act>();
  return (visit: Visit, card: SimulatedCard): Promise<Ended> | Ended => {
    const model = models[card.stratum]!;
    const key = `${card.stratum}/${card.faults.join()}`;
    let act = plans.get(key);
    if (!act) {
      const set = conditionSet([{ active: card.faults, dormant: [] }]);
      const [best] = enumeratePlans(model, set, Float64Array.of(1)).plans;
      act = {
        steps: best!.steps.map((step) => model.treatments[step]!.id),
        stop: best!.stop === null ? null : best!.id,
        works: best!.chances.works,
        holds: best!.chances.held,
      };
      plans.set(key, act);
    }
    if (act.stop !== null) return visit.stop(act.stop);
    if (act.steps.some((step) => !world.remedies.has(step)))
      throw new Error(`${STRATA[card.stratum]!.name}: no such work`);
    return visit.treat(act.steps);
  };
}
