/** Knowledge, shop profile and record -> the numbers of one card's decision: money, open remedies, ways to stop. */
import type { CardModel, Money } from '../decision/card-model.ts';
import type { Treatment } from '../decision/treatment.ts';
import type { GatheredEvidence } from '../evidence/evidence.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { say, sayThing } from '../knowledge/sayings.ts';
import type { Id, Remedy } from '../knowledge/schema.ts';
import type { Amount, Record } from '../record/schema.ts';
import type { Shop } from '../shop/schema.ts';

export interface ClosedRemedy {
  readonly id: Id;
  readonly name: string;
  readonly reasons: readonly string[];
}

export interface CardAtThisShop {
  readonly model: CardModel;
  /** index into `model.treatments` -> its remedy */
  readonly remedies: readonly Remedy[];
  readonly closed: readonly ClosedRemedy[];
  /** part ids in the order of `model.money.partPrices` */
  readonly parts: readonly Id[];
  readonly amounts: MoneyAmounts;
}

/** The same money as stated: with its ranges, for draws and the tornado. */
export interface MoneyAmounts {
  readonly working: Amount;
  readonly asIs: Amount;
  readonly partsAfterWork: Amount;
  readonly labourPerHour: Amount;
  readonly consumablesPerHeatCycle: Amount;
  readonly comebackCost: Amount;
  readonly wronglySoundCost: Amount;
  readonly parts: readonly Amount[];
}

export function likely(amount: Amount): number {
  return typeof amount === 'number' ? amount : amount.likely;
}

export function cardAtThisShop(
  knowledge: Knowledge,
  shop: Shop,
  record: Pick<Record, 'money'>,
  gathered: GatheredEvidence,
  made: ReadonlySet<Id>,
  blocked: (remedy: Remedy) => readonly string[],
): CardAtThisShop {
  const money = record.money ?? shop.defaultMoney;
  const ownPrices: { readonly [part: Id]: Amount } = record.money?.parts ?? {};
  const faultAt = new Map(knowledge.faults.map((fault, at) => [fault.id, at]));
  const preparationAt = new Map(knowledge.preparations.map((preparation, at) => [preparation.id, at]));
  const parts = [...new Set(knowledge.remedies.flatMap((remedy) => remedy.parts))];
  const partAt = new Map(parts.map((part, at) => [part, at]));
  const prices = parts.map((part) => ownPrices[part] ?? shop.parts[part]);

  // what another preparation undoes does not outlast the test after a remedy: the cooler goes back on for it
  const undoneByTest = new Set(knowledge.preparations.flatMap((preparation) => preparation.undoes ?? []));

  const closed: ClosedRemedy[] = [];
  const open: Remedy[] = [];
  for (const remedy of knowledge.remedies) {
    const reasons = [
      ...(gathered.closedRemedies.get(remedy.id) ?? []),
      ...unpriced(knowledge, remedy, shop, ownPrices),
      ...blocked(remedy),
    ];
    if (reasons.length > 0) closed.push({ id: remedy.id, name: remedy.name, reasons });
    else open.push(remedy);
  }

  const treatments = open.map(
    (remedy): Treatment => ({
      id: remedy.id,
      kind: remedy.kind,
      minutes: remedy.minutes.likely + remedy.verifyMinutes.likely,
      parts: remedy.parts.map((part) => partAt.get(part)!),
      heatCycles: remedy.heatCycles,
      preparations: remedy.preparations.map((preparation) => preparationAt.get(preparation)!),
      effects: Object.entries(remedy.effects).map(([fault, effect]) => ({
        fault: faultAt.get(fault)!,
        cures: effect.cures.p,
        masks: effect.masks?.p ?? 0,
      })),
      induces: Object.entries(remedy.induces).map(([fault, chance]) => ({
        fault: faultAt.get(fault)!,
        chance: chance.p,
      })),
      damage: damageFactor(gathered, remedy.id),
    }),
  );

  const amounts: MoneyAmounts = {
    working: money.working,
    asIs: money.asIs,
    partsAfterWork: money.partsAfterWork,
    labourPerHour: shop.labourPerHour,
    consumablesPerHeatCycle: shop.consumablesPerHeatCycle,
    comebackCost: shop.comebackCost,
    wronglySoundCost: shop.wronglySoundCost,
    // a part that only closed remedies use may have no price; nothing open refers to it
    parts: prices.map((price) => price ?? 0),
  };
  const numbers: Money = {
    working: likely(amounts.working),
    asIs: likely(amounts.asIs),
    partsAfterWork: likely(amounts.partsAfterWork),
    labourPerHour: likely(amounts.labourPerHour),
    consumablesPerHeatCycle: likely(amounts.consumablesPerHeatCycle),
    comebackCost: likely(amounts.comebackCost),
    wronglySoundCost: likely(amounts.wronglySoundCost),
    feeWhenNotFixed: shop.policy.kind === 'diagnostic-fee' ? shop.policy.fee : 0,
    warrantyDays: shop.warrantyDays,
    horizonDays: shop.horizonDays,
    margin: shop.margin,
    partPrices: amounts.parts.map(likely),
    ownStock: record.money?.ownStock ?? false,
  };
  return {
    model: {
      host: Uint8Array.from(knowledge.faults, (fault) => (fault.site === 'host' ? 1 : 0)),
      relapse: knowledge.faults.map((fault) =>
        fault.relapse ? { medianDays: fault.relapse.medianDays, shape: fault.relapse.shape } : null,
      ),
      newFaultsPerYear: knowledge.population.newFaultsPerYear.rate,
      treatments,
      preparations: knowledge.preparations.map((preparation) => ({
        id: preparation.id,
        minutes: made.has(preparation.id) ? 0 : preparation.minutes.likely,
        lasts: !undoneByTest.has(preparation.id),
      })),
      stops: knowledge.stops.map((stop) => ({
        id: stop.id,
        verdict: stop.verdict,
        value: stop.value,
        minutes: stop.minutes.likely,
      })),
      money: numbers,
    },
    remedies: open,
    closed,
    parts,
    amounts,
  };
}

/** Equipment the bench lacks and parts nobody has priced close a remedy: an unknown price is not zero. */
function unpriced(
  knowledge: Knowledge,
  remedy: Remedy,
  shop: Shop,
  ownPrices: { readonly [part: Id]: Amount },
): string[] {
  const reasons: string[] = [];
  const missing = remedy.equipment.filter((item) => !shop.equipment.includes(item));
  if (missing.length > 0)
    reasons.push(
      say(knowledge, 'bench-has-no', {
        items: missing
          .map((item) => sayThing(knowledge, knowledge.bench.equipment, item))
          .join(say(knowledge, 'bench-has-no-joint')),
      }),
    );
  const noPrice = [...new Set(remedy.parts)].filter(
    (part) => ownPrices[part] === undefined && shop.parts[part] === undefined,
  );
  if (noPrice.length > 0)
    reasons.push(
      say(knowledge, 'no-price-known', {
        parts: noPrice.map((part) => sayThing(knowledge, knowledge.bench.parts, part)).join(', '),
      }),
    );
  return reasons;
}

function damageFactor(gathered: GatheredEvidence, remedy: Id): number {
  return gathered.damage.filter((item) => item.remedy === remedy).reduce((product, item) => product * item.factor, 1);
}
