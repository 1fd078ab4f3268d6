/**
 * How good are the decisions? On simulated cards whose truth is known: surplus and bench minutes of the tool against
 * plainer ways of working, with the knowledge as it is and with every probability disturbed; and whether stated chances
 * come true.
 *
 *     npx node tests/bench/decisions.ts [--cards 10000] [--disturbed-cards 2500] [--seed 1]
 */
import { availableParallelism, loadavg } from 'node:os';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { Worker } from 'node:worker_threads';
import { type Done, type Task, WAYS, type Way } from './decisions-worker.ts';
import { type Calibration, calibrate, type Estimate, estimate, estimateInGroups } from './paired.ts';
import { STRATA } from './simulated-card.ts';
import type { Went } from './ways-of-working.ts';

const OURS: Way = 'as the tool advises';
const DEVIATIONS = [0.5, 1];
/** disturbed figures are drawn anew so many times: one draw alone could be lucky */
const DISTURBANCES = 10;
const WORKERS = 2;

export interface DecisionsOptions {
  readonly cards: number;
  /** of them, decided again at each strength of noise; a quarter is enough, since the noise itself is drawn ten times only */
  readonly disturbedCards: number;
  readonly seed: number;
}
export const USUAL: DecisionsOptions = { cards: 10_000, disturbedCards: 2500, seed: 20_264 };

export async function benchDecisions(options: Partial<DecisionsOptions> = {}): Promise<string> {
  const { cards, disturbedCards, seed } = { ...USUAL, ...options };
  const start = performance.now();
  const kinds = cardsByKind(cards);
  const some = cardsByKind(Math.min(cards, disturbedCards));
  const tasks: Task[] = kinds.map((numbers, stratum) => ({ seed, deviation: 0, block: 0, stratum, numbers }));
  for (const deviation of DEVIATIONS) {
    for (let block = 0; block < DISTURBANCES; block++) {
      some.forEach((numbers, stratum) => {
        const inBlock = numbers.filter((_, at) => at % DISTURBANCES === block);
        if (inBlock.length > 0) tasks.push({ seed, deviation, block, stratum, numbers: inBlock });
      });
    }
  }
  const done = await runAll(tasks);
  const undisturbed = new Map<number, Judged>();
  for (const { card, task } of each(done, 0))
    undisturbed.set(card.number, { ...card, stratum: task.stratum, block: 0 });
  const asItIs = [...undisturbed.values()];
  const parts = [
    heading(cards, seed),
    ['Planned on the knowledge that the cards are drawn from', ...comparison(asItIs, WAYS), ...byKind(asItIs)].join(
      '\n',
    ),
    ...calibrations(asItIs),
    expectations(asItIs),
  ];
  for (const deviation of DEVIATIONS) {
    const disturbedOnes = each(done, deviation).map(({ card, task }): Judged => {
      // ways that look at no probability went as they did before
      const went = { ...undisturbed.get(card.number)!.went, ...card.went };
      return { number: card.number, went, stratum: task.stratum, block: task.block };
    });
    const before = disturbedOnes.map(({ number }) => undisturbed.get(number)!);
    const lost = estimateInGroups(
      inBlocks(disturbedOnes, ({ number, went }) => undisturbed.get(number)!.went[OURS]!.surplus - went[OURS]!.surplus),
    );
    parts.push(
      [
        `Planned on knowledge with noise of ${deviation} on every log-odds, judged by the true one: ${disturbedOnes.length} of the same cards, ` +
          `${DISTURBANCES} disturbances; intervals over disturbances`,
        `  what the noise costs the tool: ${signed(lost)} a card, of ${mean(before, OURS, 'surplus').toFixed(1)} without it`,
        ...comparison(disturbedOnes, WAYS),
        ...calibrations(disturbedOnes, true),
      ].join('\n'),
    );
  }
  const planner = done.reduce(
    (sum, { planner: { calls, asked, milliseconds } }) => ({
      calls: sum.calls + calls,
      asked: sum.asked + asked,
      milliseconds: sum.milliseconds + milliseconds,
    }),
    { calls: 0, asked: 0, milliseconds: 0 },
  );
  const compared = done.reduce((sum, { compared }) => sum + compared, 0);
  parts.push(
    `${planner.asked} decisions, ${planner.calls} of them new (mean ${(planner.milliseconds / planner.calls).toFixed(0)} ms), ` +
      `in ${((performance.now() - start) / 60_000).toFixed(1)} minutes on ${WORKERS} threads; ${compared} of them put to the whole ` +
      `assessment, which said the same each time. ${load()}`,
  );
  return parts.join('\n\n');
}

interface Judged {
  readonly number: number;
  readonly stratum: number;
  readonly block: number;
  readonly went: { readonly [way: string]: Went };
}

function heading(cards: number, seed: number): string {
  const kinds = STRATA.map(
    ({ name, share, money: { working, asIs, partsAfterWork } }) =>
      `  ${name.padEnd(16)} ${(100 * share).toFixed(0).padStart(3)} %   worth ${working} working, ${asIs} as it is, ${partsAfterWork} after failed work`,
  );
  return [
    `${cards} simulated cards, seed ${seed}: faults drawn from the starting belief of their kind (at most three), the owner's word ` +
      'for what the card does,',
    'findings and outcomes of work by the dice of each card, the same for every way of working. Invented kinds and money:',
    ...kinds,
    'Surplus: value at the end less real costs less as-is value. The tool plans for the surplus less the margin of the shop.',
  ].join('\n');
}

const WIDTH = 26;
const WIDE = 17;

function comparison(cards: readonly Judged[], ways: readonly Way[]): string[] {
  const titles = ['surplus', 'tool gains', 'less margin', 'minutes', 'tool spares', 'works', 'holds', 'checks'];
  const widths = [9, WIDE, 13, 9, WIDE, 9, 9, 8];
  const row = (name: string, cells: readonly string[]) =>
    `  ${name.padEnd(WIDTH)}${cells.map((text, at) => text.padStart(widths[at]!)).join('')}`;
  const lines = ways.map((way) => {
    const against = (difference: (ours: Went, other: Went) => number) =>
      way === OURS ? '' : signed(paired(cards, (went) => difference(went[OURS]!, went[way]!)));
    return row(way, [
      mean(cards, way, 'surplus').toFixed(1),
      against((ours, other) => ours.surplus - other.surplus),
      mean(cards, way, 'surplusLessMargin').toFixed(1),
      mean(cards, way, 'minutes').toFixed(0),
      against((ours, other) => other.minutes - ours.minutes),
      percent(mean(cards, way, 'works')),
      percent(mean(cards, way, 'holds')),
      mean(cards, way, 'checks').toFixed(1),
    ]);
  });
  lines.unshift(row('mean per card', titles));
  const beaten = ways.filter(
    (way) =>
      way !== OURS &&
      way !== 'perfect information' &&
      paired(cards, ({ [way]: other, [OURS]: ours }) => other!.surplus - ours!.surplus).mean > 0,
  );
  if (beaten.length > 0) lines.push(`  BETTER THAN THE TOOL: ${beaten.join(', ')}`);
  return lines;
}

function byKind(cards: readonly Judged[]): string[] {
  const kinds = STRATA.map((_, stratum) => cards.filter((card) => card.stratum === stratum));
  return [
    '',
    `  ${'surplus by kind'.padEnd(WIDTH)}${STRATA.map(({ name }) => cell(name, WIDE)).join('')}`,
    ...WAYS.map(
      (way) =>
        `  ${way.padEnd(WIDTH)}${kinds
          .map((inKind) =>
            cell(inKind.length === 0 ? '-' : plain(estimate(inKind.map(({ went }) => went[way]!.surplus))), WIDE),
          )
          .join('')}`,
    ),
  ];
}

/** Whether what the tool stated when it stopped checking came true. */
function calibrations(cards: readonly Judged[], short = false): string[] {
  const stated = cards.flatMap(({ went }) => went[OURS]!.stated ?? []);
  const outcomes = cards.map(({ went }) => went[OURS]!).filter(({ stated }) => stated && stated.kind !== 'scrap');
  const questions: [string, Calibration][] = [
    [
      'the fault ranked first is there',
      calibrate(stated.map(({ top, topIsThere }) => ({ stated: top, came: topIsThere }))),
    ],
    ...(['work', 'return'] as const).flatMap((kind): [string, Calibration][] => {
      const of = outcomes.filter(({ stated }) => stated!.kind === kind);
      if (of.length === 0) return [];
      const name = kind === 'work' ? 'the chosen work makes the card work' : 'a card to be returned is sound';
      return [
        [name, calibrate(of.map(({ stated, works }) => ({ stated: stated!.works, came: works })))],
        [
          `${kind === 'work' ? 'the chosen work' : 'a returned card'} still holds at the horizon`,
          calibrate(of.map(({ stated, holds }) => ({ stated: stated!.holds, came: holds }))),
        ],
      ];
    }),
  ];
  const line = (name: string, { count, stated, came, error, errorOfLuck, brier, brierOfShare }: Calibration) =>
    `  ${name}: ${count} times, stated ${percent(stated)} on average, came ${percent(came)}; expected calibration error ` +
    `${error.toFixed(3)} (${errorOfLuck.toFixed(3)} by luck alone), Brier ${brier.toFixed(3)} (${brierOfShare.toFixed(3)} for stating the share each time)`;
  if (short) return ['  stated against what came:', ...questions.map(([name, found]) => `  ${line(name, found)}`)];
  return [
    [
      'Stated chances against what came, when the checks end',
      ...questions.flatMap(([name, found]) => [
        line(name, found),
        ...found.bins.map(
          ({ from, to, count, stated, came }) =>
            `    ${from.toFixed(1)} to ${to.toFixed(1)}  ${String(count).padStart(6)}   stated ${percent(stated)}   came ${percent(came)}`,
        ),
      ]),
    ].join('\n'),
  ];
}

/** The value the planner states for a card as it comes in, against what it then earned. */
function expectations(cards: readonly Judged[]): string {
  const ours = cards.map(({ went, stratum }) => ({ ...went[OURS]!, stratum }));
  const lines = STRATA.flatMap(({ name }, stratum) => {
    const inKind = ours.filter((card) => card.stratum === stratum);
    if (inKind.length < 2) return [];
    const expected = inKind.reduce((sum, card) => sum + card.expected!, 0) / inKind.length;
    return [
      `  ${name.padEnd(WIDTH)}stated ${expected.toFixed(1).padStart(7)}   came ${plain(estimate(inKind.map((card) => card.surplusLessMargin)))}`,
    ];
  });
  return ['Surplus less margin that the planner stated for cards as they came in, against what came', ...lines].join(
    '\n',
  );
}

const each = (done: readonly Done[], deviation: number) =>
  done
    .filter(({ task }) => task.deviation === deviation)
    .flatMap(({ task, cards }) => cards.map((card) => ({ card, task })));

type Counted = 'surplus' | 'surplusLessMargin' | 'minutes' | 'works' | 'holds' | 'checks';
const mean = (cards: readonly Judged[], way: Way, what: Counted) =>
  cards.reduce((sum, { went }) => sum + Number(went[way]![what]), 0) / cards.length;

function inBlocks(cards: readonly Judged[], of: (card: Judged) => number): number[][] {
  return [...Map.groupBy(cards, ({ block }) => block).values()].map((group) => group.map(of));
}

function paired(cards: readonly Judged[], of: (went: Judged['went']) => number): Estimate {
  const blocks = inBlocks(cards, ({ went }) => of(went));
  return blocks.length > 1 ? estimateInGroups(blocks) : estimate(blocks[0]!);
}

/** Numbers of the cards of each kind: shares of `cards`, in turn. */
function cardsByKind(cards: number): number[][] {
  const kinds: number[][] = STRATA.map(() => []);
  for (let number = 0; number < cards; number++) {
    // the kind furthest behind its share is next
    const behind = STRATA.map(({ share }, at) => share * (number + 1) - kinds[at]!.length);
    kinds[behind.indexOf(Math.max(...behind))]!.push(number);
  }
  return kinds;
}

/** Shares the tasks out to worker threads, largest money first: cards worth more are checked longer. */
async function runAll(tasks: readonly Task[]): Promise<Done[]> {
  const waiting = tasks.toSorted(
    (a, b) =>
      a.deviation - b.deviation || Number(STRATA[b.stratum]!.money.working) - Number(STRATA[a.stratum]!.money.working),
  );
  const done: Done[] = [];
  const runOne = () =>
    new Promise<void>((resolve, reject) => {
      const worker = new Worker(new URL('./decisions-worker.ts', import.meta.url));
      const next = () => {
        const task = waiting.shift();
        if (task) worker.postMessage(task);
        else void worker.terminate().then(() => resolve());
      };
      worker.on('message', (result: Done) => {
        done.push(result);
        if (process.stderr.isTTY) process.stderr.write(`\rdecisions: ${done.length} of ${tasks.length} parts done `);
        next();
      });
      worker.on('error', reject);
      next();
    });
  await Promise.all(Array.from({ length: Math.min(WORKERS, tasks.length) }, runOne));
  if (process.stderr.isTTY) process.stderr.write('\n');
  return done;
}

function load(): string {
  const [minute = 0] = loadavg();
  const cores = availableParallelism();
  return `Load average of the last minute ${minute.toFixed(1)} on ${cores} cores${minute > WORKERS + 0.5 ? ': others were running' : ''}.`;
}

const cell = (text: string, width: number) => text.padStart(width);
const percent = (share: number) => `${(100 * share).toFixed(1)} %`;
const plain = ({ mean, half }: Estimate) => `${mean.toFixed(1)} ± ${half.toFixed(1)}`;
const signed = ({ mean, half }: Estimate) => `${mean < 0 ? '' : '+'}${mean.toFixed(1)} ± ${half.toFixed(1)}`;

export function decisionsOptions(args: readonly string[]): Partial<DecisionsOptions> {
  const { values } = parseArgs({
    args: [...args],
    strict: false,
    options: { cards: { type: 'string' }, 'disturbed-cards': { type: 'string' }, seed: { type: 'string' } },
  });
  const whole = (name: string, least: number) => {
    const typed = values[name];
    if (typed === undefined) return undefined;
    const number = Number(typed);
    if (!Number.isSafeInteger(number) || number < least) {
      throw new RangeError(`--${name} is ${String(typed)}: give a whole number, ${least} or more.`);
    }
    return number;
  };
  const cards = whole('cards', 40);
  const disturbedCards = whole('disturbed-cards', 40);
  const seed = whole('seed', 0);
  return {
    ...(cards === undefined ? {} : { cards }),
    ...(disturbedCards === undefined ? {} : { disturbedCards }),
    ...(seed === undefined ? {} : { seed }),
  };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  console.log(await benchDecisions(decisionsOptions(process.argv.slice(2))));
}
