/**
 * What the tool advises, without the words: the very function that `assess` puts into words, so that thousands of cards can
 * be decided. `disagreement` holds the two together.
 */
import { decideOn } from '../../src/assess/decision.ts';
import { type Diagnosis, diagnose } from '../../src/assess/diagnosis.ts';
import type { CardAtThisShop } from '../../src/assess/shop-and-card.ts';
import type { Assessment } from '../../src/assessment.ts';
import type { Plan } from '../../src/decision/plan.ts';
import type { Gathered } from '../../src/evidence/evidence.ts';
import type { Knowledge } from '../../src/knowledge/knowledge.ts';
import type { Id } from '../../src/knowledge/schema.ts';
import type { Record as CardRecord } from '../../src/record/schema.ts';
import type { Shop } from '../../src/shop/schema.ts';

/** As in `assess`. */
export const MOST_FAULTS = 3;

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

/** The whole decision, by the function that assessments are made with. `plan` false: the best plan alone, no checks looked at. */
export function adviseOn(
  knowledge: Knowledge,
  shop: Shop,
  record: CardRecord,
  diagnosis: Diagnosis,
  plan = true,
): Advised {
  const { first, best, card, planned } = decideOn(knowledge, shop, record, diagnosis, { plan });
  return { check: first?.check ?? null, act: actOf(card, best), value: planned.certificate.value };
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
