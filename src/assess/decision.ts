/**
 * Belief -> decision, as numbers: which plan the verdict rests on, which check comes first, what the planner found. Assessments put it into
 * words; the benches measure this very function.
 */
import { type Restricted, restrict } from '../belief/belief.ts';
import { membersOf } from '../belief/conditions.ts';
import { type CardModel, tableOf } from '../decision/card-model.ts';
import { type CardProblem, planCard } from '../decision/card-problem.ts';
import { type ConditionSet, conditionSet } from '../decision/condition-set.ts';
import { type CourseScratch, courseScratch } from '../decision/course.ts';
import { describeCourse, type Plan } from '../decision/plan.ts';
import { type Planned, plan as planChecks } from '../decision/planner.ts';
import { choosePlan, enumeratePlans } from '../decision/plans.ts';
import { RESISTANCES_CHECK } from '../evidence/safety.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { Id } from '../knowledge/schema.ts';
import type { Record as CardRecord } from '../record/schema.ts';
import { USUAL_RESTRAINT } from '../shop/restraint.ts';
import type { Restraint, Shop } from '../shop/schema.ts';
import { leftWorking, mustFollow } from './after.ts';
import { type ChecksAtThisCard, checksAtThisCard } from './checks.ts';
import type { Diagnosis } from './diagnosis.ts';
import { preparationsMade } from './made.ts';
import { type CardAtThisShop, cardAtThisShop } from './shop-and-card.ts';

/** Likeliest conditions that options are weighed and the next check is planned over; what they cover is stated. */
export const CONDITIONS_PLANNED = 300;
/** The look with the naked eye that comes before every meter. */
const LOOK_CHECK: Id = 'visual-inspection';

export interface Decision {
  readonly made: ReadonlySet<Id>;
  readonly card: CardAtThisShop;
  readonly checks: ChecksAtThisCard;
  /** the conditions looked at, scaled to one, and their members' ids */
  readonly restricted: Restricted;
  readonly set: ConditionSet;
  readonly members: readonly (readonly Id[])[];
  /** all plans the planner may end with, best surplus first */
  readonly plans: readonly Plan[];
  /** every open remedy alone */
  readonly singles: readonly Plan[];
  /** those a verdict may rest on: parts located, and more mended than was sound anyway */
  readonly ready: readonly Plan[];
  /** what to do if nothing was looked at any more */
  readonly best: Plan;
  readonly problem: CardProblem;
  readonly planned: Planned;
  /** the check to do first, and why; null: act */
  readonly first: { readonly check: Id; readonly why: 'worth' | 'owed' | 'unproven' } | null;
  /** checks that must come before a plan and are not done, in order */
  readonly owedBy: (plan: Plan) => readonly Id[];
  /** more cards work after it than were sound before, by what the shop's restraint asks */
  readonly mendsEnough: (plan: Plan) => boolean;
}

/** `plan` false: options and verdict alone, no check is planned. */
export function decideOn(
  knowledge: Knowledge,
  shop: Shop,
  record: Pick<CardRecord, 'timeline' | 'money'>,
  diagnosis: Diagnosis,
  options: { readonly plan?: boolean } = {},
): Decision {
  const { gathered, sound } = diagnosis;
  const restraint = shop.restraint ?? USUAL_RESTRAINT;
  const made = preparationsMade(knowledge, record);
  const restricted = restrict(diagnosis.belief, 1, CONDITIONS_PLANNED);
  const listed = Array.from(restricted.chance, (_, c) => membersOf(restricted.conditions, c));
  const set = conditionSet(listed);
  const checks = checksAtThisCard(knowledge, shop, gathered, restricted.conditions);
  const after = new Map(
    mustFollow(knowledge, gathered, knowledge.remedies, checks).map((each, at) => [knowledge.remedies[at]!.id, each]),
  );
  const card = cardAtThisShop(knowledge, shop, record, gathered, made, (remedy) => after.get(remedy.id)!.blocked);
  const owed = card.remedies.map((remedy) => after.get(remedy.id)!.checks);
  const stops = mustFollow(knowledge, gathered, knowledge.stops, checks);
  const owedByStop = stops.map((each) => (leftWorking(record.timeline) ? [] : each.checks));
  const owedBy = (plan: Plan) =>
    plan.stop === null ? [...new Set(plan.steps.flatMap((step) => owed[step]!))] : owedByStop[plan.stop]!;

  const mendsEnough = ({ stop, chances }: Plan) => stop !== null || chances.works - sound >= restraint.leastMended;

  const members = listed.map(({ active }) => active.map((fault) => knowledge.faults[fault]!.id));
  const names = listed.map(({ dormant }, c) =>
    [...members[c]!, ...dormant.map((f) => `(${knowledge.faults[f]!.id})`)].join(' + '),
  );
  const { pool, card: problem } = planCard(
    card.model,
    set,
    names,
    restricted.chance,
    (options.plan ?? true) ? checks.open : [],
    {
      lessMargin: true,
      mustFollow: owed,
      stopsFollow: owedByStop,
    },
  );
  const scratch = courseScratch(tableOf(card.model), set);
  const singles = card.model.treatments.map((_, at) =>
    describeCourse(card.model, set, restricted.chance, [at], scratch),
  );
  const located = bestLocated(card.model, set, restricted.chance, owed, scratch);
  const ready = [...new Map([...pool.plans, ...located, ...singles].map((plan) => [plan.id, plan])).values()]
    .filter((plan) => plan.stop !== null || (owedBy(plan).length === 0 && mendsEnough(plan)))
    .sort((a, b) => b.surplus - a.surplus);
  const planned = planChecks(problem.problem);
  return {
    made,
    card,
    checks,
    restricted,
    set,
    members,
    plans: pool.plans,
    singles,
    ready,
    best: choosePlan(ready),
    problem,
    planned,
    first: firstCheck(planned, pool.plans, checks, owedBy, card.model.money.working, restraint),
    owedBy,
    mendsEnough,
  };
}

/** The courses worth keeping among remedies to which no look is owed: the pool may have kept better ones that begin elsewhere. */
function bestLocated(
  model: CardModel,
  set: ConditionSet,
  belief: Float64Array,
  owed: readonly (readonly Id[])[],
  scratch: CourseScratch,
): Plan[] {
  const located = owed.flatMap((checks, at) => (checks.length === 0 ? [at] : []));
  if (located.length === 0 || located.length === model.treatments.length) return [];
  const treatments = located.map((at) => model.treatments[at]!);
  return enumeratePlans({ ...model, treatments }, set, belief)
    .plans.filter((plan) => plan.stop === null)
    .map((plan) =>
      describeCourse(
        model,
        set,
        belief,
        plan.steps.map((step) => located[step]!),
        scratch,
      ),
    );
}

/**
 * The check to do now: the planner's where all that follows from it is worth a notable sum (`leastGain`), else the first one owed where it
 * would act on something that nobody has located yet, else the first look at a card that would be given up unmeasured.
 */
function firstCheck(
  planned: Planned,
  plans: readonly Plan[],
  checks: ChecksAtThisCard,
  owedBy: Decision['owedBy'],
  working: number,
  restraint: Restraint,
): Decision['first'] {
  const leastGain = Math.max(1, restraint.leastGain * working);
  const { value, now, upperBound } = planned.certificate;
  if (planned.first.kind === 'test' && value - now >= leastGain) return { check: planned.first.id, why: 'worth' };
  const acting = plans.find((plan) => plan.id === planned.acting.id);
  const isOpen = (id: Id) => checks.open.some((check) => check.id === id);
  const owed = acting ? owedBy(acting).find(isOpen) : undefined;
  if (owed !== undefined) return { check: owed, why: 'owed' };
  // nothing is given up unmeasured while it is not proven that nothing pays: eyes before meter
  if (
    acting?.verdict !== 'scrap' ||
    checks.done.has(RESISTANCES_CHECK) ||
    upperBound - value < restraint.openShare * working
  )
    return null;
  const look = [LOOK_CHECK, RESISTANCES_CHECK].find((id) =>
    checks.open.some((check) => check.id === id && check.requires.length === 0),
  );
  return look === undefined ? null : { check: look, why: 'unproven' };
}
