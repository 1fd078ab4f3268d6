/** A card after work: why it fails again, the first diagnosis then and now, and what a second attempt starts from. */
import type { Assessed, Option } from '../assessment.ts';
import { showsItself } from '../belief/trajectory.ts';
import type { Plan } from '../decision/plan.ts';
import { type CourseChances, priceBand } from '../decision/price.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { Remedy } from '../knowledge/schema.ts';
import type { Record as CardRecord, Event } from '../record/schema.ts';
import type { Shop } from '../shop/schema.ts';
import type { Decision } from './decision.ts';
import type { Diagnosis } from './diagnosis.ts';
import type { Life } from './life.ts';

type Comeback = NonNullable<Assessed['comeback']>;
type Second = Comeback['second'];
type Happened<Type extends Event['type']> = Extract<Event, { type: Type }>;

const FIRST_DIAGNOSIS_SHOWN = 6;
const MILLISECONDS_PER_DAY = 86_400_000;
/** No remedy is held to do damage more surely than this, whatever raises it: as in the fold. */
const SUREST_DAMAGE = 0.95;

export interface Situation {
  readonly knowledge: Knowledge;
  readonly shop: Shop;
  readonly record: Pick<CardRecord, 'timeline'>;
  readonly diagnosis: Diagnosis;
  readonly decision: Decision;
  readonly asOption: (plan: Plan) => Option;
}

export function comebackView(situation: Situation): Pick<Assessed, 'comeback'> {
  const { knowledge, diagnosis } = situation;
  const { life, onArrival } = diagnosis;
  if (!life) return {};
  const order = knowledge.faults
    .map((fault, at) => ({
      fault,
      onArrival: Math.min(1, onArrival[at]!),
      restated: Math.min(1, life.beforeRemedy[at]!),
    }))
    .sort((a, b) => Math.max(b.onArrival, b.restated) - Math.max(a.onArrival, a.restated));
  return {
    comeback: {
      lastRemedy: life.lastRemedy,
      lastRemedyName: knowledge.remedies.find((remedy) => remedy.id === life.lastRemedy)?.name ?? life.lastRemedy,
      cameBack: life.cameBack,
      returns: life.returns,
      workedDays: life.workedDays,
      attributions: life.attributions ? { ...life.attributions.chances } : null,
      nothingActive: Math.min(1, life.attributions?.nothingActive ?? nothingActive(life)),
      firstDiagnosis: order
        .slice(0, FIRST_DIAGNOSIS_SHOWN)
        .map(({ fault, ...chances }) => ({ fault: fault.id, name: fault.name, ...chances })),
      pruned: Math.min(1, Math.max(0, life.fold.pruned)),
      second: secondAttempt(situation, life),
    },
  };
}

function secondAttempt(situation: Situation, life: Life): Second {
  const { knowledge, shop, record, diagnosis, decision, asOption } = situation;
  const { timeline } = record;
  const remedy = knowledge.remedies.find(({ id }) => id === life.lastRemedy)!;
  const at = decision.card.remedies.findIndex(({ id }) => id === life.lastRemedy);
  const again = at < 0 ? undefined : decision.singles[at];
  // a card of the shop's own has no owner to give anything back to
  const warranty = decision.card.model.money.ownStock ? null : warrantyOf(timeline, shop, life);
  const paid = timeline.flatMap((event) =>
    event.type === 'handed-back' && event.paid !== undefined ? [event.paid] : [],
  );
  const lastPaid = sinceWork(timeline).findLast(
    (event): event is Happened<'handed-back'> => event.type === 'handed-back' && event.paid !== undefined,
  )?.paid;
  const attempt = (plan: Plan) => {
    const { least, most } = warrantyBand(decision, plan);
    return { option: asOption(plan), least, most };
  };
  return {
    heatCycles: heatCyclesOf(knowledge, diagnosis, timeline),
    damage: damageOf(knowledge, diagnosis, remedy),
    again: again ? attempt(again) : null,
    againClosed: [...(decision.card.closed.find(({ id }) => id === life.lastRemedy)?.reasons ?? [])],
    advised: decision.best.stop === null ? attempt(decision.best) : null,
    warranty,
    paid: { last: lastPaid ?? null, inAll: paid.length === 0 ? null : paid.reduce((sum, one) => sum + one, 0) },
    comebackCost: decision.card.model.money.comebackCost,
    settlement: warranty?.running === true ? settlementOf(decision, lastPaid ?? null) : null,
  };
}

/**
 * What a second attempt under warranty does with the money that was paid. The shop's alternative is the refund, so that
 * trying again is the first offer over again with what was paid as its price: it is kept if the card works and stays
 * working through the warranty, and refunded in full otherwise. It suits both where it lies in the attempt's band; beyond
 * it the refund does, and a new offer at a price inside. Null: nobody wrote down what was paid.
 */
function settlementOf(decision: Decision, paid: number | null): Second['settlement'] {
  const { best } = decision;
  // the warranty is on the work, and where the card is sound the work did not fail
  if (best.verdict === 'return') return 'not-the-card';
  if (best.stop !== null) return 'refund';
  if (paid === null) return null;
  const { least, most } = warrantyBand(decision, best);
  if (least === null || most === null || !best.justified) return 'refund';
  return paid >= least && paid <= most ? 'try-again' : 'refund-and-offer';
}

/** The band of prices of a second attempt under warranty: as any other, but a failure leaves no fee to either side. */
function warrantyBand({ card }: Decision, plan: Plan): { least: number | null; most: number | null } {
  const chances: CourseChances = plan.chances;
  const { floor, ceiling } = priceBand({ ...card.model.money, feeWhenNotFixed: 0 }, plan.cost.total, chances);
  return { least: floor, most: ceiling };
}

/** Passes that are known of: those the card came with, and those this bench spent on it. */
function heatCyclesOf(knowledge: Knowledge, { gathered }: Diagnosis, timeline: readonly Event[]): Second['heatCycles'] {
  const before = gathered.facts.get('heat-cycles');
  const here = timeline.reduce(
    (sum, event) =>
      event.type === 'treated'
        ? sum + (knowledge.remedies.find(({ id }) => id === event.remedy)?.heatCycles ?? 0)
        : sum,
    0,
  );
  if (typeof before === 'number') return { before, here };
  return { before: gathered.facts.get('earlier-heat-work') === 'none' ? 0 : null, here };
}

/** How likely the same work does damage: the last time, and if it were done once more, with the rules that raise or lower it now. */
function damageOf(knowledge: Knowledge, { gathered }: Diagnosis, remedy: Remedy): Second['damage'] {
  const gates = new Map(knowledge.rules.gates.map((rule) => [rule.id, rule.about]));
  const now = gathered.damage.filter((item) => item.remedy === remedy.id);
  const chance = (factor: number) =>
    1 - Object.values(remedy.induces).reduce((whole, { p }) => whole * (1 - Math.min(SUREST_DAMAGE, p * factor)), 1);
  return {
    lastTime: chance(gathered.damageThen.at(-1) ?? 1),
    onceMore: chance(now.reduce((product, { factor }) => product * factor, 1)),
    because: now.map(({ rule, factor }) => ({ rule, about: gates.get(rule) ?? rule, factor })),
  };
}

/**
 * The warranty counts from the day the card was handed back to the day it failed, or was brought back where nobody can tell
 * how long it worked. Null: it never left, it has not come back, or this shop gives none.
 */
function warrantyOf(
  timeline: readonly Event[],
  { warrantyDays }: Shop,
  { cameBack, workedDays }: Life,
): Second['warranty'] {
  // the first return tells the shop; that the card went out again with nothing done to it takes nothing from the owner
  const since = sinceWork(timeline);
  const back = since.find((event) => event.type === 'came-back');
  const left = since.slice(0, back ? since.indexOf(back) : 0).findLast((event) => event.type === 'handed-back');
  if (!left || !back || !cameBack || warrantyDays === 0) return null;
  const days = workedDays ?? Math.max(0, (Date.parse(back.at) - Date.parse(left.at)) / MILLISECONDS_PER_DAY);
  return {
    days: warrantyDays,
    from: left.at,
    until: new Date(Date.parse(left.at) + warrantyDays * MILLISECONDS_PER_DAY).toISOString(),
    failedAfter: days,
    running: days <= warrantyDays,
  };
}

function sinceWork(timeline: readonly Event[]): readonly Event[] {
  return timeline.slice(timeline.findLastIndex(({ type }) => type === 'treated') + 1);
}

function nothingActive({ fold }: Life): number {
  return fold.chance.reduce((sum, chance, i) => (showsItself(fold.situations[fold.now[i]!]!) ? sum : sum + chance), 0);
}
