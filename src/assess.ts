/** The one way through: knowledge, shop profile and record in, assessment out. */
import { advise } from './assess/advice.ts';
import { breakEvensView } from './assess/break-evens.ts';
import { comebackView } from './assess/comeback.ts';
import { decideOn } from './assess/decision.ts';
import { type Contradicted, type Diagnosis, diagnose, diagnosisView, evidenceItems } from './assess/diagnosis.ts';
import type { Firmness } from './assess/firmness.ts';
import { inseparablePairs } from './assess/inseparable.ts';
import { learntLawsUsed, withLearntRelapse } from './assess/learnt-relapse.ts';
import { DEFAULT_MAX_FAULTS } from './assess/most-faults.ts';
import { type Names, optionOf, worthShowing } from './assess/options.ts';
import type { CardAtThisShop } from './assess/shop-and-card.ts';
import { because, reasons } from './assess/verdict.ts';
import { whatIfView } from './assess/what-if.ts';
import { windowsView } from './assess/windows.ts';
import { wordsFor } from './assess/words.ts';
import type { Assessed, Assessment, AssessOptions, Option } from './assessment.ts';
import type { Plan } from './decision/plan.ts';
import { subjectOf } from './decision/plans.ts';
import type { Gathered, RecordIssue } from './evidence/evidence.ts';
import { gatherEvidence } from './evidence/gather.ts';
import type { Knowledge } from './knowledge/knowledge.ts';
import { say } from './knowledge/sayings.ts';
import type { Id } from './knowledge/schema.ts';
import { parseRecord } from './record/parse.ts';
import type { Record as CardRecord } from './record/schema.ts';
import type { Shop } from './shop/schema.ts';

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
  const taught = withLearntRelapse(knowledge, shop);
  const diagnosis = diagnose(taught, gathered, parsed.record, options.maxFaults ?? DEFAULT_MAX_FAULTS);
  if (diagnosis.kind === 'contradiction') return contradiction(knowledge, parsed.record, gathered, diagnosis);
  return decide(taught, knowledge, shop, parsed.record, diagnosis, options);
}

async function decide(
  knowledge: Knowledge,
  book: Knowledge,
  shop: Shop,
  record: CardRecord,
  diagnosis: Diagnosis,
  options: AssessOptions,
): Promise<Assessed> {
  const { gathered } = diagnosis;
  const words = wordsFor(shop.locale, shop.currency, knowledge);
  const names: Names = {
    remedies: new Map(knowledge.remedies.map((remedy) => [remedy.id, remedy])),
    stops: new Map(knowledge.stops.map((stop) => [stop.id, stop])),
    spoken: knowledge,
  };
  const decision = decideOn(knowledge, shop, record, diagnosis, { plan: options.plan ?? true });
  const { card, restricted, set, plans, singles, ready, best, planned, owedBy } = decision;
  const checkNames = new Map(knowledge.checks.map((check) => [check.id, check.name]));
  const asOption = (plan: Plan, outdoneBy: Plan | null = null): Option =>
    optionOf(plan, stepIds(card, plan), names, {
      waitsFor: owedBy(plan).map((id) => checkNames.get(id) ?? id),
      mendsEnough: decision.mendsEnough(plan),
      outdoneBy: outdoneBy && asOption(outdoneBy).name,
    });
  const chosen = asOption(best);
  const hostFaults = new Set(knowledge.faults.filter(({ site }) => site === 'host').map(({ id }) => id));
  const shown = worthShowing(plans, singles, best, subjectOf(ready), {
    chance: restricted.chance,
    isSound: (condition) => decision.members[condition]!.every((fault) => hostFaults.has(fault)),
  }).map(({ plan, outdoneBy }) => asOption(plan, outdoneBy));

  const view = diagnosisView(knowledge, diagnosis);
  const draws = options.draws ?? 0;
  const firmness =
    draws > 0
      ? // what only the draws need is loaded with the first of them: a wizard is asked for the ranking first
        (await import('./assess/firmness.ts')).firmnessOf(
          knowledge,
          card,
          diagnosis,
          set,
          restricted.chance,
          ready,
          draws,
          options.seed ?? 1,
        )
      : null;
  const optionNames = new Map([...plans, ...singles].map((plan) => [plan.id, asOption(plan).name]));
  const nameOf = (id: string) => optionNames.get(id) ?? id;
  const situation = {
    chosen,
    rescue: rescueOf(ready, asOption),
    waiting: waitingOf(plans, best, asOption),
    options: shown,
    ranking: view.ranking,
    sound: view.sound,
    horizonDays: shop.horizonDays,
    ownStock: card.model.money.ownStock,
    fee: card.model.money.feeWhenNotFixed,
    origins: new Map(gathered.present.map((item) => [item.finding, item.origin])),
    words,
  };

  const advice = advise({ knowledge, gathered, decision, nameOf, chosen, words });

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
    applicable: [...gathered.applicable],
    windows: windowsView(gathered),
    ranking: firmness ? withIntervals(knowledge, view.ranking, firmness) : view.ranking,
    inseparable: inseparablePairs(
      knowledge,
      view.ranking,
      advice.checks,
      new Set(gathered.present.filter(({ origin }) => origin !== 'owner').map(({ finding }) => finding)),
    ),
    options: firmness ? shown.map((option) => withRanges(option, firmness)) : shown,
    closedRemedies: card.closed.map(({ id, name, reasons }) => ({ id, name, reasons: [...reasons] })),
    verdict: {
      kind: chosen.verdict,
      option: chosen.id,
      name: chosen.name,
      justified: chosen.justified,
      because: because(situation),
      reasons: reasons(situation),
      breakEvens: breakEvensView(card.model, ready, view.sound, nameOf, words),
    },
    next: advice.next,
    checks: advice.checks,
    certificate: { ...planned.certificate, coverage: restricted.coverage },
    ...(firmness ? { sensitivity: firmness.view } : {}),
    whatIf: whatIfView(card.model, card.parts, ready, nameOf),
    ...comebackView({ knowledge, shop, record, diagnosis, decision, asOption }),
    cautions: cautionsFor(knowledge, gathered.cautions, chosen, advice.next),
    audit: {
      odds: Object.fromEntries(knowledge.faults.map((fault, at) => [fault.id, diagnosis.starting.odds[at]!])),
      factors: diagnosis.starting.factors.map(({ fault, factor, rule }) => ({ fault, factor, rule })),
      weights: Object.fromEntries(gathered.present.map((item) => [item.finding, [...item.weights]])),
      remedies: chosen.steps,
      relapse: learntLawsUsed(book, shop, remediesDone(record)),
    },
  };
}

function remediesDone({ timeline }: CardRecord): string[] {
  return timeline.flatMap((event) => (event.type === 'treated' ? [event.remedy] : []));
}

function withRanges(option: Option, firmness: Firmness): Option {
  const ranges = firmness.plans.get(option.id);
  if (!ranges) return option;
  const { works, holds, surplus } = ranges;
  return { ...option, worksInterval: { ...works }, holdsInterval: { ...holds }, surplusInterval: { ...surplus } };
}

function withIntervals(knowledge: Knowledge, ranking: Assessed['ranking'], firmness: Firmness): Assessed['ranking'] {
  const at = new Map(knowledge.faults.map((fault, index) => [fault.id, index]));
  return ranking.map((fault) => ({ ...fault, interval: { ...firmness.faults[at.get(fault.fault)!]! } }));
}

/** The best plan that would beat the chosen one if its parts had been located. */
function waitingOf(plans: readonly Plan[], chosen: Plan, asOption: (plan: Plan) => Option): Option | null {
  const better = plans.filter((plan) => plan.surplus - plan.margin > chosen.surplus - chosen.margin);
  const best = better.reduce<Plan | null>(
    (most, plan) => (!most || plan.surplus - plan.margin > most.surplus - most.margin ? plan : most),
    null,
  );
  return best ? asOption(best) : null;
}

function rescueOf(plans: readonly Plan[], asOption: (plan: Plan) => Option): Option | null {
  const subject = subjectOf(plans);
  return subject && subject.stop === null ? asOption(subject) : null;
}

function stepIds(card: CardAtThisShop, plan: Plan): Id[] {
  return plan.steps.map((step) => card.remedies[step]!.id);
}

/** Cautions of what is advised now: the rules', and those of the next check or, where it is time to act, of the first remedy. */
function cautionsFor(
  knowledge: Knowledge,
  fromRules: readonly Id[],
  chosen: Option,
  next: Assessed['next'],
): Assessed['cautions'] {
  const wanted = new Set(fromRules);
  const check = next.kind === 'check' ? knowledge.checks.find((known) => known.id === next.check) : undefined;
  const remedy = next.kind === 'act' ? knowledge.remedies.find((known) => known.id === chosen.steps[0]) : undefined;
  for (const id of (check ?? remedy)?.cautions ?? []) wanted.add(id);
  return knowledge.cautions.filter((caution) => wanted.has(caution.id)).map(({ id, text }) => ({ id, text }));
}

function badRecord(issues: readonly RecordIssue[]): Assessment {
  return { kind: 'bad-record', format: 1, issues: issues.map((issue) => ({ ...issue })) };
}

function contradiction(
  knowledge: Knowledge,
  record: CardRecord,
  gathered: Gathered,
  { finding, against, sentence: said }: Contradicted,
): Assessment {
  const name = (id: Id) => knowledge.findings.find((known) => known.id === id)?.name ?? id;
  const others = against.map(name);
  const sentence = said ?? sayContradiction(knowledge, finding === null ? '' : name(finding), others);
  return {
    kind: 'contradiction',
    format: 1,
    record: record.id,
    title: record.title,
    finding,
    against: [...against],
    sentence,
    evidence: evidenceItems(knowledge, gathered.present),
    applicable: [...gathered.applicable],
    windows: windowsView(gathered),
  };
}

function sayContradiction(knowledge: Knowledge, finding: string, others: readonly string[]): string {
  return others.length === 0
    ? say(knowledge, 'fits-nothing', { finding })
    : say(knowledge, 'cannot-go-with', {
        finding,
        others: others.map((other) => say(knowledge, 'quoted', { text: other })).join(', '),
      });
}
