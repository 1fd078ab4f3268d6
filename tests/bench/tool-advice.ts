/**
 * What the tool advises, without the words: the same functions in the same order as `assess`, so that thousands of cards
 * can be decided. `disagreement` holds the two together.
 */
import { mustFollow } from '../../src/assess/after.ts';
import { checksAtThisCard } from '../../src/assess/checks.ts';
import { type Diagnosis, diagnose } from '../../src/assess/diagnosis.ts';
import { preparationsMade } from '../../src/assess/made.ts';
import { type CardAtThisShop, cardAtThisShop } from '../../src/assess/shop-and-card.ts';
import type { Assessment } from '../../src/assessment.ts';
import { restrict } from '../../src/belief/belief.ts';
import { membersOf } from '../../src/belief/conditions.ts';
import { tableOf } from '../../src/decision/card-model.ts';
import { planCard } from '../../src/decision/card-problem.ts';
import { conditionSet } from '../../src/decision/condition-set.ts';
import { courseScratch } from '../../src/decision/course.ts';
import { describeCourse, type Plan } from '../../src/decision/plan.ts';
import { plan as planNext } from '../../src/decision/planner.ts';
import { choosePlan, enumeratePlans } from '../../src/decision/plans.ts';
import type { Gathered } from '../../src/evidence/evidence.ts';
import type { Knowledge } from '../../src/knowledge/knowledge.ts';
import type { Id } from '../../src/knowledge/schema.ts';
import type { Record as CardRecord } from '../../src/record/schema.ts';
import type { Shop } from '../../src/shop/schema.ts';

/** As in `assess`. */
export const MOST_FAULTS = 3;
const CONDITIONS_PLANNED = 300;

export interface Act {
  /** remedies in the order they are tried, or none and a stop */
  readonly steps: readonly Id[];
  readonly stop: Id | null;
  /** stated chances that the card works at hand-back, and still at the horizon */
  readonly works: number;
  readonly holds: number;
}

export interface Advised {
  /** the check to do next; null: act */
  readonly check: Id | null;
  /** what to do without further checks */
  readonly act: Act;
  /** expected payoff of the plan found, margins deducted */
  readonly value: number;
}

/** The likeliest fault, and its chance. */
export interface Leading {
  readonly fault: number;
  readonly chance: number;
  /** chances of all faults */
  readonly chances: Float64Array;
  readonly sound: number;
}

/** A record that a simulated card cannot produce is a bug: this throws on findings that exclude each other. */
export function diagnosed(knowledge: Knowledge, gathered: Gathered): Diagnosis {
  const diagnosis = diagnose(knowledge, gathered, { timeline: [] }, MOST_FAULTS);
  if (diagnosis.kind === 'contradiction')
    throw new Error(`a simulated card contradicts itself at ${diagnosis.finding}`);
  return diagnosis;
}

export function leading(diagnosis: Diagnosis): Leading {
  const { chances, sound } = diagnosis;
  let fault = 0;
  for (let other = 1; other < chances.length; other++) if (chances[other]! > chances[fault]!) fault = other;
  return { fault, chance: chances[fault]!, chances, sound };
}

/** The whole decision. `plan` false: the best plan alone, no checks looked at. */
export function adviseOn(
  knowledge: Knowledge,
  shop: Shop,
  record: CardRecord,
  diagnosis: Diagnosis,
  plan = true,
): Advised {
  const { gathered } = diagnosis;
  const card = cardAtThisShop(knowledge, shop, record, gathered, preparationsMade(knowledge, record));
  const restricted = restrict(diagnosis.belief, 1, CONDITIONS_PLANNED);
  const listed = Array.from(restricted.chance, (_, c) => membersOf(restricted.conditions, c));
  const set = conditionSet(listed);
  const checks = checksAtThisCard(knowledge, shop, gathered, restricted.conditions);
  const owed = mustFollow(knowledge, gathered, card.remedies, checks.open).map((each) => each.checks);
  const owedBy = (one: Plan) => one.steps.flatMap((step) => owed[step]!);
  const scratch = courseScratch(tableOf(card.model), set);
  const singles = card.model.treatments.map((_, at) =>
    describeCourse(card.model, set, restricted.chance, [at], scratch),
  );
  const actOn = (plans: readonly Plan[]) => {
    const each = new Map([...plans, ...singles].map((one) => [one.id, one]));
    const ready = [...each.values()].sort((a, b) => b.surplus - a.surplus).filter((one) => owedBy(one).length === 0);
    return actOf(card, choosePlan(ready));
  };
  if (!plan) {
    const act = actOn(enumeratePlans(card.model, set, restricted.chance).plans);
    return { check: null, act, value: Number.NaN };
  }
  const names = listed.map((_, c) => `${c}`);
  const options = { lessMargin: true, mustFollow: owed };
  const planned = planCard(card.model, set, names, restricted.chance, checks.open, options);
  const { first, certificate } = planNext(planned.card.problem);
  const acting = planned.pool.plans.find(({ id }) => id === first.id);
  const owedFirst = acting && owedBy(acting).find((id) => checks.open.some((check) => check.id === id));
  const check = first.kind === 'test' ? first.id : (owedFirst ?? null);
  return { check, act: actOn(planned.pool.plans), value: certificate.value };
}

export function actOf(card: CardAtThisShop, plan: Plan): Act {
  return {
    steps: plan.steps.map((step) => card.remedies[step]!.id),
    stop: plan.stop === null ? null : plan.id,
    works: plan.chances.works,
    holds: plan.chances.held,
  };
}

/** How the advice differs from a whole assessment of the same record; nothing where they agree. */
export function disagreement(advised: Advised, assessment: Assessment): string | undefined {
  if (assessment.kind !== 'assessed') return `the assessment is a ${assessment.kind}`;
  const { next, verdict, certificate } = assessment;
  const check = next.kind === 'check' ? next.check : null;
  const option = advised.act.stop ?? advised.act.steps.join(' + ');
  if (check !== advised.check) return `next is ${check ?? 'to act'}, here ${advised.check ?? 'to act'}`;
  if (verdict.option !== option) return `the option is ${verdict.option}, here ${option}`;
  if (Math.abs(certificate.value - advised.value) > 1e-9)
    return `its value is ${certificate.value}, here ${advised.value}`;
  return undefined;
}
