/** The one way through: knowledge, shop profile and record in, assessment out. */
import { advise } from './assess/advice.ts';
import { checksAtThisCard } from './assess/checks.ts';
import { type Contradicted, type Diagnosis, diagnose, diagnosisView, evidenceItems } from './assess/diagnosis.ts';
import { type Names, optionOf } from './assess/options.ts';
import { type CardAtThisShop, cardAtThisShop } from './assess/shop-and-card.ts';
import { because, reasons } from './assess/verdict.ts';
import { wordsFor } from './assess/words.ts';
import type { Assessed, Assessment, AssessOptions, Option } from './assessment.ts';
import { restrict } from './belief/belief.ts';
import { membersOf } from './belief/conditions.ts';
import { cardProblem } from './decision/card-problem.ts';
import { conditionSet } from './decision/condition-set.ts';
import type { Plan } from './decision/plan.ts';
import { plan as planNext } from './decision/planner.ts';
import { choosePlan, enumeratePlans } from './decision/plans.ts';
import type { GatheredEvidence, RecordIssue } from './evidence/evidence.ts';
import { gatherEvidence } from './evidence/gather.ts';
import type { Knowledge } from './knowledge/knowledge.ts';
import type { Id } from './knowledge/schema.ts';
import { parseRecord } from './record/parse.ts';
import type { Record as CardRecord } from './record/schema.ts';
import type { Shop } from './shop/schema.ts';

const DEFAULT_MAX_FAULTS = 3;
/** Likeliest conditions that options are weighed and the next check is planned over; what they cover is stated. */
const CONDITIONS_PLANNED = 300;

/**
 * Assesses a record. A record that cannot be used comes back with every issue, findings that exclude each other as a
 * contradiction; neither throws.
 */
export async function assess(
  knowledge: Knowledge,
  shop: Shop,
  record: unknown,
  options: AssessOptions = {},
): Promise<Assessment> {
  const parsed = parseRecord(record);
  if (!parsed.ok) return badRecord(parsed.issues);
  const gathering = await gatherEvidence(knowledge, shop, parsed.record);
  if (gathering.kind === 'bad-record') return badRecord(gathering.issues);
  const { gathered } = gathering;
  const diagnosis = diagnose(knowledge, gathered, options.maxFaults ?? DEFAULT_MAX_FAULTS);
  if (diagnosis.kind === 'contradiction') return contradiction(knowledge, parsed.record, gathered, diagnosis);
  return decide(knowledge, shop, parsed.record, diagnosis, options);
}

function decide(
  knowledge: Knowledge,
  shop: Shop,
  record: CardRecord,
  diagnosis: Diagnosis,
  options: AssessOptions,
): Assessed {
  const { gathered } = diagnosis;
  const card = cardAtThisShop(knowledge, shop, record, gathered);
  const words = wordsFor(shop.locale, shop.currency);
  const names: Names = {
    remedies: new Map(knowledge.remedies.map((remedy) => [remedy.id, remedy])),
    stops: new Map(knowledge.stops.map((stop) => [stop.id, stop])),
  };

  const restricted = restrict(diagnosis.belief, 1, CONDITIONS_PLANNED);
  const listed = Array.from(restricted.chance, (_, c) => membersOf(restricted.conditions, c));
  const set = conditionSet(listed);
  const pool = enumeratePlans(card.model, set, restricted.chance);
  const shown = pool.plans.map((plan) => optionOf(plan, stepIds(card, plan), names));
  const chosen = choosePlan(shown.map((option, at) => ({ ...option, justified: pool.plans[at]!.justified })));

  const view = diagnosisView(knowledge, diagnosis);
  const situation = {
    chosen,
    options: shown,
    ranking: view.ranking,
    sound: view.sound,
    horizonDays: shop.horizonDays,
    ownStock: card.model.money.ownStock,
    words,
  };

  const checks = checksAtThisCard(knowledge, shop, gathered, restricted.conditions);
  const problem = cardProblem(
    card.model,
    listed.map(({ active }) => active.map((fault) => knowledge.faults[fault]!.id).join(' + ')),
    restricted.chance,
    pool.plans,
    checks.open,
    { lessMargin: true },
  );
  const planned = planNext(problem.problem);
  const advice = advise({
    knowledge,
    gathered,
    checks,
    card: problem,
    planned,
    nameOf: (id) => shown.find((option) => option.id === id)?.name ?? id,
    membersOf: (condition) => listed[condition]!.active.map((fault) => knowledge.faults[fault]!.id),
    chosen,
    words,
  });

  return {
    kind: 'assessed',
    format: 1,
    knowledge: knowledge.version,
    record: record.id,
    title: record.title,
    invented: record.invented ?? false,
    currency: shop.currency,
    ownStock: card.model.money.ownStock,
    horizonDays: shop.horizonDays,
    warrantyDays: shop.warrantyDays,
    ...view,
    inseparable: [],
    options: shown,
    closedRemedies: card.closed.map(({ id, name, reasons }) => ({ id, name, reasons: [...reasons] })),
    verdict: {
      kind: chosen.verdict,
      option: chosen.id,
      name: chosen.name,
      justified: chosen.justified,
      because: because(situation),
      reasons: reasons(situation),
      breakEvens: [],
    },
    next: advice.next,
    checks: advice.checks,
    certificate: { ...planned.certificate, coverage: restricted.coverage },
    cautions: cautionsFor(knowledge, gathered.cautions, chosen, advice.next),
    audit: {
      odds: Object.fromEntries(knowledge.faults.map((fault, at) => [fault.id, diagnosis.starting.odds[at]!])),
      factors: diagnosis.starting.factors.map(({ fault, factor, rule }) => ({ fault, factor, rule })),
      weights: Object.fromEntries(gathered.findings.map((item) => [item.finding, [...item.weights]])),
      remedies: chosen.steps,
    },
  };
}

function stepIds(card: CardAtThisShop, plan: Plan): Id[] {
  return plan.steps.map((step) => card.remedies[step]!.id);
}

/** Cautions of what is advised now: the rules', the next check's, the verdict's remedies'. */
function cautionsFor(
  knowledge: Knowledge,
  fromRules: readonly Id[],
  chosen: Option,
  next: Assessed['next'],
): Assessed['cautions'] {
  const wanted = new Set(fromRules);
  if (next.kind === 'check')
    for (const id of knowledge.checks.find((check) => check.id === next.check)?.cautions ?? []) wanted.add(id);
  for (const step of chosen.steps)
    for (const id of knowledge.remedies.find((remedy) => remedy.id === step)?.cautions ?? []) wanted.add(id);
  return knowledge.cautions.filter((caution) => wanted.has(caution.id)).map(({ id, text }) => ({ id, text }));
}

function badRecord(issues: readonly RecordIssue[]): Assessment {
  return { kind: 'bad-record', format: 1, issues: issues.map((issue) => ({ ...issue })) };
}

function contradiction(
  knowledge: Knowledge,
  record: CardRecord,
  gathered: GatheredEvidence,
  { finding, against }: Contradicted,
): Assessment {
  const name = (id: Id) => knowledge.findings.find((known) => known.id === id)?.name ?? id;
  const others = against.map(name);
  const sentence =
    others.length === 0
      ? `"${name(finding)}" as recorded fits no set of faults at all: check the reading, or the knowledge is wrong.`
      : `"${name(finding)}" as recorded cannot go with ${others.map((other) => `"${other}"`).join(', ')}: look at one of them again. The bench is right; a reading or the knowledge is wrong.`;
  return {
    kind: 'contradiction',
    format: 1,
    record: record.id,
    title: record.title,
    finding,
    against: [...against],
    sentence,
    evidence: evidenceItems(knowledge, gathered.findings),
  };
}
