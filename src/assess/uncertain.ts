/** How little each number is known: equivalent sample sizes, spreads and ranges of one card's assessment, each with its name in words. */
import type { AmountOf, UncertainFinding, Uncertainty } from '../decision/uncertainty.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { say, sayThing } from '../knowledge/sayings.ts';
import type { Chance, Finding, Id, Remedy, Row, Spread } from '../knowledge/schema.ts';
import type { Amount } from '../record/schema.ts';
import type { Diagnosis } from './diagnosis.ts';
import type { CardAtThisShop } from './shop-and-card.ts';

export interface NamedUncertainty {
  readonly uncertainty: Uncertainty;
  /** input id -> what a technician calls it */
  readonly names: ReadonlyMap<string, string>;
}

export function uncertaintyOf(knowledge: Knowledge, card: CardAtThisShop, diagnosis: Diagnosis): NamedUncertainty {
  const names = new Map<string, string>();
  const named = (id: string, name: string) => {
    names.set(id, name);
    return id;
  };
  const faultAt = new Map(knowledge.faults.map((fault, at) => [fault.id, at]));
  const faultName = (id: Id) => knowledge.faults[faultAt.get(id)!]!.name;

  const shares = knowledge.faults.map((fault, at) => ({
    id: named(`share ${fault.id}`, say(knowledge, 'input-share', { fault: fault.name })),
    fault: at,
    p: fault.share.p,
    n: fault.share.n,
  }));
  const factors = diagnosis.starting.factors
    .filter((factor) => factor.spread > 0)
    .map((factor, k) => ({
      id: named(
        `history ${k} ${factor.rule} ${factor.fault}`,
        say(knowledge, 'input-history', { rule: factor.rule.replaceAll('-', ' '), fault: faultName(factor.fault) }),
      ),
      fault: faultAt.get(factor.fault)!,
      factor: factor.factor,
      spread: factor.spread,
    }));

  const findings = new Map(knowledge.findings.map((finding) => [finding.id, finding]));
  const uncertainFindings = diagnosis.gathered.present.map((item): UncertainFinding => {
    const finding = findings.get(item.finding)!;
    return {
      weights: Float64Array.from(item.weights),
      leak: {
        id: named(`leak ${finding.id}`, say(knowledge, 'input-leak', { finding: finding.name })),
        ...dense(finding, finding.leak),
      },
      given: Object.entries(finding.given).map(([fault, row]) => ({
        id: named(
          `row ${finding.id} ${fault}`,
          say(knowledge, 'input-row', { finding: finding.name, fault: faultName(fault) }),
        ),
        fault: faultAt.get(fault)!,
        ...dense(finding, row),
      })),
    };
  });

  const cures: Uncertainty['cures'][number][] = [];
  const masks: Uncertainty['masks'][number][] = [];
  const induces: Uncertainty['induces'][number][] = [];
  const add = (
    list: Uncertainty['cures'][number][],
    kind: string,
    says: 'input-cures' | 'input-masks' | 'input-causes',
    treatment: number,
    remedy: Remedy,
    fault: Id,
    chance: Chance,
  ) => {
    const id = named(
      `${kind} ${remedy.id} ${fault}`,
      say(knowledge, says, { remedy: remedy.name, fault: faultName(fault) }),
    );
    list.push({ id, treatment, fault: faultAt.get(fault)!, n: chance.n });
  };
  card.remedies.forEach((remedy, treatment) => {
    for (const [fault, effect] of Object.entries(remedy.effects)) {
      add(cures, 'cure', 'input-cures', treatment, remedy, fault, effect.cures);
      if (effect.masks) add(masks, 'mask', 'input-masks', treatment, remedy, fault, effect.masks);
    }
    for (const [fault, chance] of Object.entries(remedy.induces))
      add(induces, 'damage', 'input-causes', treatment, remedy, fault, chance);
  });
  const damage = diagnosis.gathered.damage
    .map((item) => ({ ...item, treatment: card.remedies.findIndex((remedy) => remedy.id === item.remedy) }))
    .filter((item) => item.treatment >= 0 && item.spread > 0)
    .map((item) => ({
      id: named(
        `risk ${item.rule} ${item.remedy}`,
        say(knowledge, 'input-risk', { rule: item.rule.replaceAll('-', ' ') }),
      ),
      treatment: item.treatment,
      spread: item.spread,
    }));
  const relapses = knowledge.faults.flatMap((fault, at) =>
    fault.relapse
      ? [
          {
            id: named(`relapse ${fault.id}`, say(knowledge, 'input-relapse', { fault: fault.name })),
            fault: at,
            n: fault.relapse.n,
          },
        ]
      : [],
  );

  return {
    uncertainty: {
      shares,
      factors,
      findings: uncertainFindings,
      cures,
      masks,
      induces,
      damage,
      relapses,
      newFaults: { id: named('new faults', 'new faults per year'), n: knowledge.population.newFaultsPerYear.n },
      amounts: amountsOf(knowledge, card, named),
    },
    names,
  };
}

function amountsOf(
  knowledge: Knowledge,
  card: CardAtThisShop,
  named: (id: string, name: string) => string,
): Uncertainty['amounts'] {
  const list: Uncertainty['amounts'][number][] = [];
  const money = (
    of: Extract<
      AmountOf,
      {
        of:
          | 'working'
          | 'asIs'
          | 'partsAfterWork'
          | 'labourPerHour'
          | 'consumablesPerHeatCycle'
          | 'comebackCost'
          | 'wronglySoundCost';
      }
    >['of'],
    name: string,
  ) => {
    const range = rangeOf(card.amounts[of]);
    if (range) list.push({ id: named(of, name), unit: 'money', target: { of }, range });
  };
  money('working', say(knowledge, 'input-working'));
  money('asIs', say(knowledge, 'input-as-is'));
  money('partsAfterWork', say(knowledge, 'input-left'));
  money('labourPerHour', say(knowledge, 'input-hour'));
  money('consumablesPerHeatCycle', say(knowledge, 'input-heat'));
  money('comebackCost', say(knowledge, 'input-comeback'));
  money('wronglySoundCost', say(knowledge, 'input-wrongly-sound'));
  card.amounts.parts.forEach((amount, index) => {
    const range = rangeOf(amount);
    const part = card.parts[index]!;
    if (range)
      list.push({
        id: named(
          `part ${part}`,
          say(knowledge, 'input-price', { part: sayThing(knowledge, knowledge.bench.parts, part) }),
        ),
        unit: 'money',
        target: { of: 'part', index },
        range,
      });
  });
  const minutes = (id: string, name: string, target: AmountOf, spread: Spread) => {
    const range = rangeOf({ low: spread.low, likely: spread.likely, high: spread.high });
    if (range) list.push({ id: named(id, name), unit: 'min', target, range });
  };
  card.remedies.forEach((remedy, index) => {
    minutes(
      `minutes ${remedy.id}`,
      say(knowledge, 'input-minutes', { work: remedy.name }),
      { of: 'treatment-minutes', index },
      remedy.minutes,
    );
    minutes(
      `test minutes ${remedy.id}`,
      say(knowledge, 'input-minutes-after', { work: remedy.name }),
      { of: 'treatment-minutes', index },
      remedy.verifyMinutes,
    );
  });
  knowledge.preparations.forEach((preparation, index) => {
    if (card.model.preparations[index]!.minutes === 0) return;
    minutes(
      `preparation ${preparation.id}`,
      say(knowledge, 'input-minutes', { work: preparation.name }),
      { of: 'preparation-minutes', index },
      preparation.minutes,
    );
  });
  knowledge.stops.forEach((stop, index) => {
    minutes(
      `stop ${stop.id}`,
      say(knowledge, 'input-minutes', { work: stop.name }),
      { of: 'stop-minutes', index },
      stop.minutes,
    );
  });
  return list;
}

function rangeOf(amount: Amount): { low: number; likely: number; high: number } | null {
  return typeof amount === 'number' || amount.low === amount.high ? null : amount;
}

function dense(finding: Finding, row: Row): { p: Float64Array; n: number } {
  return { p: Float64Array.from(finding.states, (state) => row.p[state.id] ?? 0), n: row.n };
}
