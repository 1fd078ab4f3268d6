/** A card at the bench as a generic decision problem: checks inform, plans and stops end. */
import type { CardModel } from './card-model.ts';
import { MOST_PREPARATIONS } from './check-problem.ts';
import type { ConditionSet } from './condition-set.ts';
import { type Allowed, type CheckFinding, type Outcome, outcomesOf } from './outcomes.ts';
import type { Plan } from './plan.ts';
import { enumeratePlans, type PlanPool } from './plans.ts';
import type { DecisionProblem, StopAction, TestAction } from './problem.ts';

export interface CardCheck {
  readonly id: string;
  readonly minutes: number;
  /** what a bought service costs; 0 for the bench's own checks */
  readonly price: number;
  /** indices into `CardModel.preparations` */
  readonly preparations: readonly number[];
  /** chance that the check itself ruins the card */
  readonly harm: number;
  /** those not known yet */
  readonly findings: readonly CheckFinding[];
  /** findings not known yet that must first be known, in one of these states (indices) */
  readonly requires: readonly { readonly finding: string; readonly states: readonly number[] }[];
  /** one of these checks must be done first; none: no such condition, or it is met already */
  readonly afterOneOf: readonly string[];
}

export interface CardProblem {
  readonly problem: DecisionProblem;
  /** in the order of `problem.stops` */
  readonly plans: readonly Plan[];
  /** in the order of `problem.tests`, in the order of their outcomes */
  readonly outcomes: readonly (readonly Outcome[])[];
  /** checks that cannot come about in this problem, and the findings or checks they wait for in vain */
  readonly leftOut: readonly { readonly check: string; readonly waitsFor: readonly string[] }[];
}

export interface CardProblemOptions {
  /** deduct each plan's margin from its payoff, so that a plan is worth starting exactly where it beats doing nothing */
  readonly lessMargin?: boolean;
  /**
   * for each treatment of the model the checks that must have been done before it, what they wait for included. A plan pays for
   * those not done yet whether it looks at their results or not: so it never pays to leave them out.
   */
  readonly mustFollow?: readonly (readonly string[])[];
  /** the same for each stop of the model */
  readonly stopsFollow?: readonly (readonly string[])[];
}

/** Plans are looked for after at most so many outcomes of checks, the likeliest, and none rarer than this. */
const MOST_WITNESSES = 24;
const LEAST_WITNESS_CHANCE = 0.02;

/**
 * The plans worth keeping and the problem made of them and the checks. Plans are looked for under today's belief and under
 * those that the likeliest outcomes of the checks would lead to, so that the planner can follow them up.
 *
 * Cost: `enumeratePlans` with up to 24 witnesses, and `cardProblem`.
 */
export function planCard(
  model: CardModel,
  set: ConditionSet,
  names: readonly string[],
  belief: Float64Array,
  checks: readonly CardCheck[],
  options: CardProblemOptions = {},
): { readonly pool: PlanPool; readonly card: CardProblem } {
  const asked = testsOf(model, belief, checks);
  const pool = enumeratePlans(model, set, belief, outcomeBeliefs(asked.tests, belief));
  return { pool, card: assemble(model, names, belief, pool.plans, asked, options) };
}

/**
 * Builds the problem. `belief` sums to one over the conditions that plans and likelihoods are stated for.
 *
 * Payoffs are surpluses (value at the end less real costs less as-is value); a check costs its minutes, its price and the
 * working value it puts at risk. Where a check may follow any one of several, the cheapest of them is asked for: that
 * narrows the order of checks and never widens it, so no unsafe order can come out.
 *
 * Cost: about checks * 12 outcomes * conditions.
 */
export function cardProblem(
  model: CardModel,
  names: readonly string[],
  belief: Float64Array,
  plans: readonly Plan[],
  checks: readonly CardCheck[],
  options: CardProblemOptions = {},
): CardProblem {
  return assemble(model, names, belief, plans, testsOf(model, belief, checks), options);
}

interface Asked {
  readonly tests: readonly TestAction[];
  readonly outcomes: readonly (readonly Outcome[])[];
  readonly leftOut: CardProblem['leftOut'];
}

function testsOf(model: CardModel, belief: Float64Array, checks: readonly CardCheck[]): Asked {
  const { money } = model;
  const rate = money.labourPerHour / 60;
  const { possible, leftOut } = splitByNeeds(checks);
  const yields = new Map(possible.flatMap((check) => check.findings.map((finding) => [finding.id, check.id] as const)));
  const priceOf = (check: CardCheck) => check.minutes * rate + check.price + check.harm * money.working;
  const byId = new Map(possible.map((check) => [check.id, check]));

  /** what each check that waits on `source` must find there */
  const permissionsOf = (source: CardCheck) => {
    const permissions: { readonly allowed: Allowed; readonly key: string }[] = [];
    const indexOf = new Map<string, number>();
    for (const check of possible) {
      const needs = check.requires.filter(({ finding }) => yields.get(finding) === source.id);
      if (needs.length === 0) continue;
      const key = keyOf(needs);
      let at = permissions.findIndex((permission) => permission.key === key);
      if (at < 0) at = permissions.push({ allowed: new Map(needs.map((n) => [n.finding, n.states])), key }) - 1;
      indexOf.set(check.id, at);
    }
    return { allowed: permissions.map((permission) => permission.allowed), indexOf };
  };
  const permissions = new Map(possible.map((check) => [check.id, permissionsOf(check)]));
  const outcomes = new Map(
    possible.map((check) => [check.id, outcomesOf(check.findings, belief, permissions.get(check.id)!.allowed)]),
  );

  const requiresOf = (check: CardCheck): TestAction['requires'] => {
    const sources = new Set(check.requires.flatMap(({ finding }) => yields.get(finding) ?? []));
    const requires = [...sources].map((source) => {
      const at = permissions.get(source)!.indexOf.get(check.id)!;
      const fitting = outcomes.get(source)!.flatMap((outcome, o) => (outcome.allows[at] ? [o] : []));
      return { test: source, outcomes: fitting };
    });
    const cheapest = check.afterOneOf
      .flatMap((id) => byId.get(id) ?? [])
      .reduce<CardCheck | null>((least, next) => (!least || priceOf(next) < priceOf(least) ? next : least), null);
    if (cheapest && !sources.has(cheapest.id)) {
      requires.push({ test: cheapest.id, outcomes: outcomes.get(cheapest.id)!.map((_, o) => o) });
    }
    return requires;
  };

  const tests = possible.map(
    (check): TestAction => ({
      kind: 'test',
      id: check.id,
      cost: check.minutes * rate + check.price,
      harm: check.harm * money.working,
      preparations: check.preparations,
      outcomes: outcomes.get(check.id)!.map((outcome) => outcome.label),
      likelihood: outcomes.get(check.id)!.map((outcome) => outcome.likelihood),
      requires: requiresOf(check),
    }),
  );
  return { tests, outcomes: possible.map((check) => outcomes.get(check.id)!), leftOut };
}

function assemble(
  model: CardModel,
  names: readonly string[],
  belief: Float64Array,
  plans: readonly Plan[],
  { tests, outcomes, leftOut }: Asked,
  options: CardProblemOptions,
): CardProblem {
  const rate = model.money.labourPerHour / 60;
  const stops = plans.map(
    (plan): StopAction => ({
      kind: 'stop',
      id: plan.id,
      payoff: options.lessMargin && plan.stop === null ? lessMargin(model, plan) : plan.payoff,
      preparations: plan.preparations,
    }),
  );
  const preparations = model.preparations.map(({ id, minutes }) => ({ id, cost: minutes * rate }));
  const { mustFollow = [], stopsFollow = [] } = options;
  // a check that some plan must follow is a preparation of both: whoever comes first pays for it
  const shared = tests
    .map(({ id }) => id)
    .filter((id) => [...mustFollow, ...stopsFollow].some((checks) => checks.includes(id)))
    .slice(0, Math.max(0, MOST_PREPARATIONS - preparations.length));
  const at = new Map(shared.map((id, k) => [id, preparations.length + k]));
  for (const id of shared) preparations.push({ id: `check ${id}`, cost: tests.find((test) => test.id === id)!.cost });
  const asked = tests.map((test) => {
    const own = at.get(test.id);
    return own === undefined ? test : { ...test, cost: 0, preparations: [...test.preparations, own] };
  });
  const ended = stops.map((stop, k) => {
    const plan = plans[k]!;
    const checks = new Set(
      plan.stop === null ? plan.steps.flatMap((step) => mustFollow[step] ?? []) : stopsFollow[plan.stop],
    );
    const owed = tests.filter((test) => checks.has(test.id));
    if (owed.length === 0) return stop;
    const needed = owed.flatMap((test) => [...test.preparations, ...(at.has(test.id) ? [at.get(test.id)!] : [])]);
    return { ...stop, preparations: [...new Set([...stop.preparations, ...needed])] };
  });
  return {
    problem: { conditions: names, prior: belief, preparations, stops: ended, tests: asked, remedies: [] },
    plans,
    outcomes,
    leftOut,
  };
}

/** Beliefs after the likeliest outcomes of tests: witnesses for `enumeratePlans`. */
export function outcomeBeliefs(tests: readonly TestAction[], belief: Float64Array): Float64Array[] {
  return tests
    .flatMap(({ likelihood }) => likelihood.map((row) => belief.map((chance, c) => chance * row[c]!)))
    .map((joint) => ({ joint, chance: joint.reduce((sum, value) => sum + value, 0) }))
    .filter(({ chance }) => chance >= LEAST_WITNESS_CHANCE && chance < 1 - LEAST_WITNESS_CHANCE)
    .sort((a, b) => b.chance - a.chance)
    .slice(0, MOST_WITNESSES)
    .map(({ joint, chance }) => joint.map((value) => value / chance));
}

function lessMargin(model: CardModel, plan: Plan): Float64Array {
  const { fixed, shareOfCost } = model.money.margin;
  const { partsAfterWork, working, asIs } = model.money;
  return plan.payoff.map((payoff, c) => {
    const value = partsAfterWork + plan.vectors.held[c]! * (working - partsAfterWork);
    const cost = value - asIs - payoff + plan.preparationCost;
    return payoff - fixed - shareOfCost * cost;
  });
}

/** Leaves out checks that wait for something no remaining check yields, until nothing changes. */
function splitByNeeds(checks: readonly CardCheck[]) {
  let possible = checks.filter((check) => check.findings.length > 0);
  const leftOut: { check: string; waitsFor: string[] }[] = [];
  for (;;) {
    const yielded = new Set(possible.flatMap((check) => check.findings.map((finding) => finding.id)));
    const ids = new Set(possible.map((check) => check.id));
    const missing = (check: CardCheck) => [
      ...check.requires.flatMap(({ finding }) => (yielded.has(finding) ? [] : [finding])),
      ...(check.afterOneOf.length > 0 && !check.afterOneOf.some((id) => ids.has(id)) ? check.afterOneOf : []),
    ];
    const stuck = possible.filter((check) => missing(check).length > 0);
    if (stuck.length === 0) return { possible, leftOut };
    for (const check of stuck) leftOut.push({ check: check.id, waitsFor: missing(check) });
    possible = possible.filter((check) => !stuck.includes(check));
  }
}

function keyOf(needs: readonly { readonly finding: string; readonly states: readonly number[] }[]): string {
  return needs
    .map(({ finding, states }) => `${finding}=${[...states].sort((a, b) => a - b).join('|')}`)
    .sort()
    .join('&');
}
