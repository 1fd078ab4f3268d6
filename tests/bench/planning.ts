/**
 * How much does planning cost us? On 1,000 random small problems: the expected cost of each way of planning above that
 * of the best plan there is. On problems the size of a card: how long a plan takes, and what ten times the effort
 * would find.
 *
 *     npx node tests/bench/planning.ts
 */
import { availableParallelism, loadavg } from 'node:os';
import { actNow, chanceFixed } from '../../src/decision/act-now.ts';
import { perfectInformation } from '../../src/decision/bounds.ts';
import { solvePlay } from '../../src/decision/exact.ts';
import { following, oneStep } from '../../src/decision/one-step.ts';
import { DEFAULT_EFFORT, type PlanOptions, plan } from '../../src/decision/planner.ts';
import {
  type Action,
  afterFailure,
  afterTest,
  bestStop,
  isLeft,
  isOffered,
  openPlay,
  type Play,
  type Policy,
  payoffWhenFixed,
  priceOfRemedy,
  priceOfTest,
  type Situation,
} from '../../src/decision/play.ts';
import { valueOfPolicy } from '../../src/decision/policy.ts';
import type { DecisionProblem } from '../../src/decision/problem.ts';
import { createRandom } from '../../src/decision/random.ts';
import { stopTable } from '../../src/decision/stop-table.ts';
import { quantile } from './quantile.ts';
import { KINDS, randomProblem } from './random-problems.ts';
import { syntheticCard, USUAL_CARD } from './synthetic-card.ts';

const SEED = 20_261;
const PROBLEMS = 1000;
const SIZE = { faults: 8, remedies: 7, checks: 5 };
const CARDS = 40;
/** tests go on while the faults hold more doubt than this, and a test promises to lower it by a hundredth of it */
const DOUBT_IN_NATS = 0.35;

const PLANNER = 'planner without the exact solver';
const STARVED = 'the same, looking at as few situations as for a card';
const ONE_STEP = 'one-step value of information';
const METHODS = [
  'exact planner',
  PLANNER,
  STARVED,
  ONE_STEP,
  'chance over cost, no checks',
  'information gain per cost, then chance over cost',
] as const;
type Method = (typeof METHODS)[number];

interface Judged {
  readonly kind: string;
  /** expected cost above the optimum, in percent of it */
  readonly excess: Readonly<Record<Method, number>>;
  /** upper bound above the optimum, in percent of its cost; and whether the search proved its plan best */
  readonly gap: Readonly<Record<typeof PLANNER | typeof STARVED, number>>;
  readonly proved: Readonly<Record<typeof PLANNER | typeof STARVED, boolean>>;
}

export async function benchPlanning(problems = PROBLEMS): Promise<string> {
  const cardWork = workPerSituation(openPlay(syntheticCard(createRandom(SEED))));
  const random = createRandom(SEED);
  const judged = Array.from({ length: problems }, (_, index) => {
    const kind = KINDS[index % KINDS.length]!;
    return judge(randomProblem(random, kind, SIZE), `${kind.remedies} remedies, ${kind.checks} checks`, cardWork);
  });
  return [smallProblems(judged), cardSized()].join('\n\n');
}

/** What weighing one situation counts as. */
function workPerSituation(play: Play): number {
  const table = stopTable(play);
  table.best(play.start);
  return table.work();
}

function judge(problem: DecisionProblem, kind: string, cardWork: number): Judged {
  const play = openPlay(problem);
  const exact = solvePlay(play, Number.POSITIVE_INFINITY);
  if (exact.kind !== 'exact') throw new Error('without a limit every problem is solved');
  const best = exact.value;
  const bound = perfectInformation(play);
  const act = actNow(play, bound);
  const above = (value: number) => (100 * (best - value)) / -best;
  const worth = (policy: Policy) => above(valueOfPolicy(play, policy)(play.start));
  const searched = (options: PlanOptions) => {
    const { certificate, play: own, policy } = plan(problem, { exactWork: 0, ...options });
    return { certificate, value: valueOfPolicy(own, policy)(own.start) };
  };
  const usual = searched({});
  const starved = searched({ effort: (DEFAULT_EFFORT * workPerSituation(play)) / cardWork });
  return {
    kind,
    excess: {
      'exact planner': worth(exact.policy),
      [PLANNER]: above(usual.value),
      [STARVED]: above(starved.value),
      [ONE_STEP]: worth(following(oneStep(play, act, bound))),
      'chance over cost, no checks': worth(chanceOverCost(play)),
      'information gain per cost, then chance over cost': worth(informationPerCost(play)),
    },
    gap: {
      [PLANNER]: -above(usual.certificate.upperBound),
      [STARVED]: -above(starved.certificate.upperBound),
    },
    proved: {
      [PLANNER]: usual.certificate.method === 'exact',
      [STARVED]: starved.certificate.method === 'exact',
    },
  };
}

/** Remedies by chance fixed over cost, until stopping is expected to be cheaper than going on so. No checks. */
function chanceOverCost(play: Play): Policy {
  const plans = new Map<number | string, { value: number; action: Action }>();
  const solve = (situation: Situation): { value: number; action: Action } => {
    const known = plans.get(situation.key);
    if (known) return known;
    const { stop, value } = bestStop(play, situation);
    let best = { value, action: play.stops[stop]! };
    const ratio = ({ index }: Action) =>
      chanceFixed(play, situation, index) / priceOfRemedy(play, situation.paid, index);
    const left = play.remedies.filter(({ index }) => isLeft(play, situation, index));
    const first = left.sort((one, other) => ratio(other) - ratio(one))[0];
    if (first) {
      const failed = afterFailure(play, situation, first.index);
      const trying =
        payoffWhenFixed(play, situation, first.index) -
        situation.mass * priceOfRemedy(play, situation.paid, first.index) +
        (failed ? solve(failed).value : 0);
      if (trying > best.value) best = { value: trying, action: first };
    }
    plans.set(situation.key, best);
    return best;
  };
  return (situation) => solve(situation).action;
}

/** The check with the most information about the fault per cost, while there is doubt; then chance over cost. */
function informationPerCost(play: Play): Policy {
  const repair = chanceOverCost(play);
  return (situation) => {
    const before = doubt(situation);
    if (before < DOUBT_IN_NATS) return repair(situation);
    let pick: Action | undefined;
    let most = 0;
    for (const action of play.tests) {
      if (!isOffered(play, situation, action.index)) continue;
      let after = 0;
      play.problem.tests[action.index]!.outcomes.forEach((_, outcome) => {
        const next = afterTest(play, situation, action.index, outcome);
        if (next) after += (next.mass / situation.mass) * doubt(next);
      });
      const rate = (before - after) / priceOfTest(play, situation.paid, action.index);
      if (before - after > DOUBT_IN_NATS / 100 && rate > most) {
        most = rate;
        pick = action;
      }
    }
    return pick ?? repair(situation);
  };
}

function doubt({ belief, mass }: Situation): number {
  let sum = 0;
  for (const weight of belief) if (weight > 0) sum -= (weight / mass) * Math.log(weight / mass);
  return sum;
}

function smallProblems(judged: readonly Judged[]): string {
  const lines = [
    'How far above the least expected cost does each way of planning end?',
    `${judged.length} problems of ${SIZE.faults} faults, ${SIZE.remedies} remedies, ${SIZE.checks} checks, seed ${SEED}; percent of the optimum, 95 % interval of the paired mean.`,
    'Plans are followed as found at the start, without planning anew.',
    '',
    row('', 'mean', '+-', 'p95', 'worst', 'below one step'),
    ...METHODS.map((method) => summary(method, judged, method)),
    '',
    'By kind of problem (mean excess in percent: planner | starved planner | one step | chance over cost | information gain):',
  ];
  for (const kind of new Set(judged.map((each) => each.kind))) {
    const those = judged.filter((each) => each.kind === kind);
    const means = METHODS.slice(1).map((method) => mean(those.map(({ excess }) => excess[method])).toFixed(3));
    lines.push(`  ${kind.padEnd(40)} ${means.join(' | ')}`);
  }
  lines.push(
    '',
    'Certificates: the stated bound above the true optimum, percent of its cost, and how often a plan was proved best',
  );
  for (const method of [PLANNER, STARVED] as const) {
    const gaps = judged.map(({ gap }) => gap[method]);
    const proved = judged.filter((each) => each.proved[method]).length;
    const invalid = gaps.filter((gap) => gap < -1e-7).length;
    lines.push(
      `  ${method.padEnd(62)} mean ${mean(gaps).toFixed(2)}, p95 ${quantile(gaps, 0.95).toFixed(2)}; proved best ${proved} of ${judged.length}; bounds below the optimum: ${invalid}`,
    );
  }
  return lines.join('\n');
}

function summary(label: string, judged: readonly Judged[], method: Method): string {
  const values = judged.map(({ excess }) => excess[method]);
  const average = mean(values);
  const deviation = Math.sqrt(mean(values.map((value) => (value - average) ** 2)));
  const worse = judged.filter(({ excess }) => excess[method] > excess[ONE_STEP] + 1e-7).length;
  return row(
    label,
    average.toFixed(3),
    ((1.96 * deviation) / Math.sqrt(values.length)).toFixed(3),
    quantile(values, 0.95).toFixed(3),
    Math.max(...values).toFixed(3),
    String(worse),
  );
}

function row(label: string, ...cells: readonly string[]): string {
  return `  ${label.padEnd(62)}${cells.map((cell) => cell.replace(/^-(?=0\.0+$)/, '').padStart(9)).join(' ')}`;
}

function cardSized(): string {
  const random = createRandom(SEED);
  const problems = Array.from({ length: CARDS }, () => syntheticCard(random));
  for (const problem of problems.slice(0, 10)) plan(problem);
  const times: number[] = [];
  const found = problems.map((problem) => {
    // processor time: others may be at work on the machine
    const before = process.cpuUsage();
    const { certificate } = plan(problem);
    const { user, system } = process.cpuUsage(before);
    times.push((user + system) / 1000);
    return certificate;
  });
  const further = problems.map((problem) => plan(problem, { effort: 10 * DEFAULT_EFFORT }).certificate);
  const gains = found.map(({ value, now }) => value - now);
  const missed = found.map(({ value }, index) => further[index]!.value - value);
  const [load = 0] = loadavg();
  return [
    'How long does a plan for a card take, and what would ten times the effort add?',
    `${CARDS} invented problems of ${USUAL_CARD.conditions} conditions, ${USUAL_CARD.checks} checks and ${USUAL_CARD.courses} courses of remedies, seed ${SEED}; ${availableParallelism()} processors, load ${load.toFixed(1)}.`,
    `  milliseconds of processor time: median ${quantile(times, 0.5).toFixed(1)}, p95 ${quantile(times, 0.95).toFixed(1)}, worst ${Math.max(...times).toFixed(1)}`,
    `  the plan is worth ${mean(gains).toFixed(2)} more than acting now; ten times the effort finds ${mean(missed).toFixed(2)} more (worst ${Math.max(...missed).toFixed(2)})`,
    `  stated bound above the plan: mean ${mean(found.map(({ upperBound, value }) => upperBound - value)).toFixed(2)}`,
  ].join('\n');
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

if (import.meta.main) process.stdout.write(`${await benchPlanning()}\n`);
