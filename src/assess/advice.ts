/** The planner's answer -> which check next, what each result would do, and which checks to spare. */
import type { Assessed, CheckAdvice, Option } from '../assessment.ts';
import type { CardProblem } from '../decision/card-problem.ts';
import type { Plan } from '../decision/plan.ts';
import type { WorthOfTest } from '../decision/worth.ts';
import type { Gathered } from '../evidence/evidence.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { say } from '../knowledge/sayings.ts';
import type { Check, Id } from '../knowledge/schema.ts';
import type { Decision } from './decision.ts';
import type { Words } from './words.ts';

export interface Advice {
  readonly next: Assessed['next'];
  readonly checks: CheckAdvice[];
}

export interface AdviceInput {
  readonly knowledge: Knowledge;
  readonly gathered: Gathered;
  readonly decision: Decision;
  /** name of an option by its plan id */
  readonly nameOf: (plan: Id) => string;
  readonly chosen: Option;
  readonly words: Words;
}

const OUTCOMES_SHOWN = 8;
/** rarer results are not worth reading beforehand */
const LEAST_OUTCOME_SHOWN = 0.03;

export function advise(input: AdviceInput): Advice {
  const { knowledge, decision } = input;
  const { checks, planned, problem } = decision;
  const worths = new Map(planned.tests.map((worth) => [worth.test, worth]));
  const plans = new Map(problem.plans.map((plan) => [plan.id, plan]));
  const first = decision.first?.check ?? null;
  const leftOut = new Map(problem.leftOut.map((item) => [item.check, item.waitsFor]));
  const advices = knowledge.checks.map((check): CheckAdvice => {
    const worth = worths.get(check.id);
    const base = { check: check.id, name: check.name, purpose: check.purpose, minutes: minutesOf(input, check) };
    if (checks.done.has(check.id))
      return { ...base, cost: 0, gain: 0, worth: 0, state: 'done', reasons: [], outcomes: [] };
    const shut = checks.shut.get(check.id);
    if (shut || !worth) {
      const waits = leftOut.get(check.id)?.map((id) => nameOfNeed(knowledge, id)) ?? [];
      const reasons = shut ??
        input.gathered.closedChecks.get(check.id) ?? [input.words.say('waits-for-none', { needs: waits.join(', ') })];
      return { ...base, cost: 0, gain: 0, worth: 0, state: 'closed', reasons: [...reasons], outcomes: [] };
    }
    return {
      ...base,
      cost: worth.cost,
      gain: worth.gain,
      worth: worth.worth,
      state: stateOf(worth, check.id === first),
      reasons: reasonsOf(input, check, worth),
      outcomes: outcomesView(input, check, worth, plans),
    };
  });
  return { next: nextStep(input, first, advices), checks: sortAdvice(advices, first) };
}

function stateOf(worth: WorthOfTest, isNext: boolean): CheckAdvice['state'] {
  if (!worth.offered) return 'closed';
  if (worth.worth > 0) return 'worth-it';
  if (isNext || worth.worthOfOpening > 0) return 'opens-others';
  return worth.cannotChange ? 'cannot-change-the-decision' : 'not-worth-its-minutes';
}

function reasonsOf(input: AdviceInput, check: Check, worth: WorthOfTest): string[] {
  if (!worth.offered)
    return [...(input.gathered.closedChecks.get(check.id) ?? [input.words.say('another-check-first')])];
  if (worth.worth > 0 || worth.worthOfOpening <= 0) return [];
  const opened = input.decision.problem.problem.tests.filter((test) =>
    test.requires.some((need) => need.test === check.id),
  );
  const names = opened.map(({ id }) => input.knowledge.checks.find((known) => known.id === id)?.name ?? id);
  return [
    input.words.say('opens-checks', { checks: names.join(', '), worth: input.words.money(worth.worthOfOpening) }),
  ];
}

/** Less rounds to nothing. */
const LEAST_GAIN_SAID = 0.5;

function nextStep(input: AdviceInput, first: Id | null, advices: readonly CheckAdvice[]): Assessed['next'] {
  const { decision, words, chosen } = input;
  const { planned } = decision;
  const gain = planned.certificate.value - planned.certificate.now;
  if (first === null) {
    const open = advices.filter((advice) => advice.state !== 'done' && advice.state !== 'closed');
    // it would pay, but by less than the shop's restraint asks of a check that is begun
    const hardly = planned.first.kind === 'test' && gain >= LEAST_GAIN_SAID;
    const because =
      open.length === 0
        ? words.say('no-check-open')
        : hardly
          ? words.say('no-check-gains-enough', { gain: words.money(gain) })
          : words.say('no-check-worth-it');
    return { kind: 'act', option: chosen.id, because };
  }
  const advice = advices.find((known) => known.check === first)!;
  if (decision.first?.why === 'owed') {
    const because = words.say('owed-first', { option: input.nameOf(planned.acting.id) });
    return { kind: 'check', check: first, because };
  }
  if (decision.first?.why === 'unproven') {
    const open = words.money(planned.certificate.upperBound - planned.certificate.value);
    const because = words.say('unproven', { open });
    return { kind: 'check', check: first, because };
  }
  const overall = words.say('better-than-now', { gain: words.money(gain) });
  const because =
    advice.worth > 0
      ? words.say(gain > advice.worth + 1 ? 'worth-after-with' : 'worth-after', {
          worth: words.money(advice.worth),
          minutes: Math.round(advice.minutes),
          overall,
        })
      : words.say('worth-with-others', { overall });
  return { kind: 'check', check: first, because };
}

function outcomesView(
  input: AdviceInput,
  check: Check,
  worth: WorthOfTest,
  plans: ReadonlyMap<Id, Plan>,
): CheckAdvice['outcomes'] {
  const { problem, outcomes: outcomesOf } = input.decision.problem;
  const test = problem.tests.findIndex((known) => known.id === check.id);
  const outcomes = outcomesOf[test]!;
  const merged = new Map<string, CheckAdvice['outcomes'][number]>();
  for (const shown of worth.outcomes) {
    const outcome = outcomes.find((known) => known.label === shown.outcome);
    const label = outcome ? labelOf(input.knowledge, check, outcome) : shown.outcome;
    const before = merged.get(label);
    // likeliest first: what the label stands for is what its likeliest part leads to
    if (before) merged.set(label, { ...before, chance: Math.min(1, before.chance + shown.chance) });
    else {
      merged.set(label, {
        label,
        chance: Math.min(1, Math.max(0, shown.chance)),
        verdict: plans.get(shown.action.id)?.verdict ?? 'scrap',
        option: input.nameOf(shown.action.id),
        topFault: outcome ? topFaultAfter(input, outcome.likelihood) : null,
      });
    }
  }
  const all = [...merged.values()].sort((a, b) => b.chance - a.chance);
  return all.filter(({ chance }, at) => at < 2 || chance >= LEAST_OUTCOME_SHOWN).slice(0, OUTCOMES_SHOWN);
}

function labelOf(knowledge: Knowledge, check: Check, outcome: CardProblem['outcomes'][number][number]): string {
  if (outcome.kind === 'several') return say(knowledge, 'several-abnormal');
  if (outcome.kind === 'rare') return say(knowledge, 'rarer-result');
  if (outcome.findings.length === 0) return say(knowledge, 'all-normal');
  return outcome.findings
    .map(({ finding, state }) => {
      const known = knowledge.findings.find((item) => item.id === finding);
      const name = known?.states.find((item) => item.id === state)?.name ?? state;
      return check.yields.length === 1 ? name : `${known?.name ?? finding}: ${name}`;
    })
    .join(', ');
}

/** The most probable fault after the outcome. */
function topFaultAfter(input: AdviceInput, likelihood: Float64Array): Id | null {
  const mass = new Map<Id, number>();
  const { prior } = input.decision.problem.problem;
  for (let c = 0; c < prior.length; c++) {
    const joint = prior[c]! * likelihood[c]!;
    for (const fault of input.decision.members[c]!) mass.set(fault, (mass.get(fault) ?? 0) + joint);
  }
  let top: Id | null = null;
  let most = 0;
  for (const [fault, weight] of mass) {
    if (weight > most) {
      most = weight;
      top = fault;
    }
  }
  return top;
}

/** Minutes of the check with the preparations that are not made yet. */
function minutesOf({ knowledge, decision: { made } }: AdviceInput, check: Check): number {
  return check.preparations
    .filter((id) => !made.has(id))
    .reduce(
      (sum, id) => sum + (knowledge.preparations.find((known) => known.id === id)?.minutes.likely ?? 0),
      check.minutes.likely,
    );
}

function nameOfNeed(knowledge: Knowledge, id: Id): string {
  return (
    knowledge.checks.find((check) => check.id === id)?.name ??
    knowledge.findings.find((finding) => finding.id === id)?.name ??
    id
  );
}

const ORDER: readonly CheckAdvice['state'][] = [
  'worth-it',
  'opens-others',
  'not-worth-its-minutes',
  'cannot-change-the-decision',
  'closed',
  'done',
];

function sortAdvice(advices: readonly CheckAdvice[], first: Id | null): CheckAdvice[] {
  const rank = (advice: CheckAdvice) => (advice.check === first ? -1 : ORDER.indexOf(advice.state));
  return [...advices].sort((a, b) => rank(a) - rank(b) || b.worth - a.worth);
}
