/**
 * How long does a whole assessment take: from a record to causes, options, verdict and next check, over every worked case?
 *
 *     npx node tests/bench/assessment.ts
 */
import { readdir, readFile } from 'node:fs/promises';
import { availableParallelism, loadavg } from 'node:os';
import { fileURLToPath } from 'node:url';
import { assess } from '../../src/assess.ts';
import type { Assessment, AssessOptions } from '../../src/assessment.ts';
import type { Knowledge } from '../../src/knowledge/knowledge.ts';
import { loadShop } from '../../src/knowledge/load.ts';
import type { Shop } from '../../src/shop/schema.ts';
import { fullKnowledge, median } from './arrived-card.ts';
import { quantile } from './quantile.ts';

const CASES_FOLDER = fileURLToPath(new URL('../../cases/', import.meta.url));
const ROUNDS = 7;
const ROUNDS_WITH_DRAWS = 3;
const DRAWS = 1000;
const SEED = 1;

export async function exampleShop(): Promise<Shop> {
  const loaded = await loadShop();
  if (!loaded.ok) throw new Error(`the shop profile does not load: ${JSON.stringify(loaded.problems[0])}`);
  return loaded.shop;
}

export async function benchAssessment(): Promise<string> {
  const [knowledge, shop, cases] = await Promise.all([fullKnowledge(), exampleShop(), workedCases()]);
  const plain = await timeAll(knowledge, shop, cases, ROUNDS, {});
  const parts = [
    `Over ${cases.length} worked cases, ${ROUNDS} rounds after one that is not counted. ${machine()}`,
    report('Whole assessment with the next check, without parameter draws', plain, [60, 100]),
  ];
  const [first] = cases;
  const probe = first && (await assess(knowledge, shop, first.record, { draws: DRAWS, seed: SEED }));
  if (probe?.kind === 'assessed' && probe.sensitivity?.draws === DRAWS) {
    const drawn = await timeAll(knowledge, shop, cases, ROUNDS_WITH_DRAWS, { draws: DRAWS, seed: SEED });
    parts.push(
      report(`The same with ${DRAWS} parameter draws, seed ${SEED}, ${ROUNDS_WITH_DRAWS} rounds`, drawn, [1500]),
    );
  } else {
    parts.push(`With ${DRAWS} parameter draws: not measured, because the assessment came back without them.`);
  }
  return parts.join('\n\n');
}

/** Whoever else was at work on the machine makes every figure larger: say so beside them. */
function machine(): string {
  const [minute = 0] = loadavg();
  const cores = availableParallelism();
  const load = `${cores} cores, load average of the last minute ${minute.toFixed(1)}`;
  return minute > cores
    ? `${load}: MORE WORK THAN CORES, others were running; these times are too long.`
    : minute > 1.3
      ? `${load}: something else was running, too.`
      : `${load}.`;
}

interface Case {
  readonly id: string;
  readonly record: unknown;
}

async function workedCases(): Promise<Case[]> {
  const files = (await readdir(CASES_FOLDER)).filter((file) => file.endsWith('.json')).sort();
  return Promise.all(
    files.map(async (file) => ({
      id: file.replace(/\.json$/, ''),
      record: JSON.parse(await readFile(`${CASES_FOLDER}${file}`, 'utf8')) as unknown,
    })),
  );
}

interface Timed {
  readonly id: string;
  readonly how: string;
  /** milliseconds, one per round */
  readonly rounds: readonly number[];
}

async function timeAll(
  knowledge: Knowledge,
  shop: Shop,
  cases: readonly Case[],
  rounds: number,
  options: AssessOptions,
): Promise<Timed[]> {
  const timed = cases.map(({ id }) => ({ id, how: '', rounds: [] as number[] }));
  for (let round = 0; round <= rounds; round++) {
    for (const [at, { record }] of cases.entries()) {
      const start = performance.now();
      const assessment = await assess(knowledge, shop, record, options);
      const took = performance.now() - start;
      timed[at]!.how = how(assessment);
      if (round > 0) timed[at]!.rounds.push(took);
    }
  }
  return timed;
}

function how(assessment: Assessment): string {
  return assessment.kind === 'assessed' ? assessment.certificate.method : assessment.kind;
}

/** `limits`: of the median over cases, and of the 95th percentile, each case by the median of its rounds. */
function report(title: string, timed: readonly Timed[], limits: readonly number[]): string {
  const medians = timed.map(({ rounds }) => median(rounds));
  const measured = [median(medians), quantile(medians, 0.95)];
  const lines = ['median', '95th percentile'].map((what, at) => {
    const limit = limits[at];
    const verdict = limit === undefined ? '' : `   limit ${limit} ms   ${measured[at]! <= limit ? 'met' : 'NOT MET'}`;
    return `  ${what.padEnd(16)}${ms(measured[at]!)}${verdict}`;
  });
  const everyRound = timed[0]!.rounds.map((_, round) => {
    const inRound = timed.map(({ rounds }) => rounds[round]!);
    return `${median(inRound).toFixed(0)} / ${quantile(inRound, 0.95).toFixed(0)}`;
  });
  const least = timed.map(({ rounds }) => Math.min(...rounds));
  const slowest = timed.toSorted((a, b) => median(b.rounds) - median(a.rounds)).slice(0, 5);
  return [
    title,
    ...lines,
    `  rounds (ms, median / 95th percentile over cases): ${everyRound.join('   ')}`,
    `  each case by its fastest round: median ${ms(median(least))}, 95th percentile ${ms(quantile(least, 0.95))}`,
    '  slowest cases (ms per round):',
    ...slowest.map(({ id, how, rounds }) => `    ${id} (${how}): ${rounds.map((each) => each.toFixed(0)).join(' ')}`),
  ].join('\n');
}

const ms = (milliseconds: number) => `${milliseconds.toFixed(1)} ms`;

if (process.argv[1] === fileURLToPath(import.meta.url)) console.log(await benchAssessment());
