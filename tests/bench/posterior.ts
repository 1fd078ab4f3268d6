/**
 * How long does the posterior of a bench record take: by the clock, against a general-purpose library, and against the
 * least that its multiplications could take?
 *
 *     npx node tests/bench/posterior.ts
 */
import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { marginals } from '../../src/belief/belief.ts';
import { enumerate } from '../../src/belief/conditions.ts';
import { explain } from '../../src/belief/explain.ts';
import { factorAll, posterior } from '../../src/belief/observe.ts';
import { createRandom } from '../../src/decision/random.ts';
import { arrivedCard, fullKnowledge, median, type Posed } from './arrived-card.ts';
import type { LibraryRound } from './posterior-library.ts';

const SEED = 20240611;
const MOST = 3;
const OBSERVATIONS = 20;
const ROUNDS = 21;
/** posteriors per round: a round is long enough for the clock */
const BATCH = 20;
/** a library run, all of its rounds together, may take this long before it counts as blown up */
const LIBRARY_SECONDS = 60;
const LIBRARY_MEGABYTES = 2048;

export async function benchPosterior(): Promise<string> {
  const knowledge = await fullKnowledge();
  const random = createRandom(SEED);
  const cards = Array.from({ length: ROUNDS }, () => arrivedCard(knowledge, random, OBSERVATIONS, MOST));
  return [speed(cards), await againstLibrary(), againstBareLoop(cards)].join('\n\n');
}

function speed(cards: readonly Posed[]): string {
  const first = cards[0]!;
  const run = ({ network, odds, empty, evidence }: Posed) =>
    marginals(believed(posterior(network, odds, evidence, MOST, undefined, empty)));
  const rounds = timeEach(cards, run);
  const reasons = timeEach(
    cards,
    ({ network, odds, empty, evidence }) => explain(network, odds, evidence, MOST, empty),
    3,
  );
  return [
    `Posterior and chances of all faults, ${first.network.faults.length} faults, at most ${MOST} at once ` +
      `(${enumerate(first.network.faults.length, MOST).count} conditions), ${OBSERVATIONS} findings drawn for a simulated card; seed ${SEED}`,
    `  median ${ms(median(rounds))}   limit 5 ms   ${median(rounds) <= 5 ? 'met' : 'NOT MET'}`,
    `  rounds (ms, each another card, mean of ${BATCH}): ${list(rounds)}`,
    `  weights of evidence, every finding left out in turn: median ${ms(median(reasons))}; rounds ${list(reasons)}`,
  ].join('\n');
}

function againstBareLoop(cards: readonly Posed[]): string {
  const lines = cards.map((card) => {
    const { network, odds, empty, evidence } = card;
    const multiplications = count(card);
    const length = enumerate(network.faults.length, MOST).count;
    const bare = bareLoop(length, multiplications);
    const kept = new Float64Array(length);
    for (let warm = 0; warm < 10; warm++) bare();
    const pairs = Array.from({ length: 11 }, () => ({
      ours: time(() => posterior(network, odds, evidence, MOST, kept, empty)),
      least: time(bare),
    }));
    return {
      multiplications,
      ours: median(pairs.map(({ ours }) => ours)),
      least: median(pairs.map(({ least }) => least)),
      ratio: median(pairs.map(({ ours, least }) => ours / least)),
    };
  });
  const ratios = lines.map(({ ratio }) => ratio);
  return [
    `Posterior against a bare loop that does as many multiplications on an array as long; the same cards, side by side,\nboth into an array they were given`,
    `  median ratio ${median(ratios).toFixed(2)}   limit 3   ${median(ratios) <= 3 ? 'met' : 'NOT MET'}`,
    `  multiplications, median: ${median(lines.map(({ multiplications }) => multiplications)).toLocaleString('en')}; ` +
      `ours ${ms(median(lines.map(({ ours }) => ours)))}, bare loop ${ms(median(lines.map(({ least }) => least)))}`,
    `  ratios, each the median of 11 pairs for one card: ${list(ratios)}`,
  ].join('\n');
}

/** How many multiplications the posterior of this card takes: by odds, by likelihoods, and the scaling to one. */
function count({ network, odds, evidence }: Posed): number {
  const all = enumerate(network.faults.length, MOST);
  const sets = all.count - 1;
  const inner = all.levels[MOST]! - 1;
  let total = sets + all.count;
  for (const [j, { changes, steps }] of factorAll(network, odds, evidence).entries()) {
    const { finding } = evidence[j]!;
    total += network.findings[finding]!.given.length;
    if (changes === 0) continue;
    const crisp = changes === 1 && steps[0] === 0 && steps[1] === 1;
    total += crisp ? 2 * sets + inner : sets * (2 * changes + 2);
  }
  return total;
}

/** Two multiplications for each number loaded and stored: nothing but the arithmetic, in order, over flat arrays. */
function bareLoop(length: number, multiplications: number): () => number {
  const values = new Float64Array(length);
  const by = new Float64Array(length).fill(1 - 1e-9);
  return () => {
    values.fill(1);
    let left = multiplications >> 1;
    while (left > 0) {
      const end = Math.min(length, left);
      for (let i = 0; i < end; i++) values[i] = values[i]! * (0.999999 * by[i]!);
      left -= end;
    }
    return values[0]!;
  };
}

async function againstLibrary(): Promise<string> {
  const lines: string[] = [];
  let largest: { faults: number; round: LibraryRound } | undefined;
  for (const faults of [4, 6, 8, 9, 10, 11, 12, 13, 14, 15, 16]) {
    const ended = await libraryRun(faults);
    if (typeof ended === 'string') {
      lines.push(`  ${faults} faults: ${ended}`);
      break;
    }
    lines.push(
      `  ${faults} faults, ${ended.findings} findings (${ended.rows} rows of tables), ${ended.observed} of them observed: ` +
        `bayesjs ${ms(median(ended.reference))}, ours ${ms(median(ended.ours))}, ratio ${times(timesFaster(ended))}, ` +
        `largest difference ${ended.difference.toExponential(1)}`,
    );
    largest = { faults, round: ended };
  }
  if (!largest) return ['Posterior against a general-purpose library: it held no network', ...lines].join('\n');
  const { faults, round } = largest;
  const met = timesFaster(round) >= 1000 && round.difference <= 1e-9;
  return [
    'Posterior of all faults against bayesjs (junction tree), on the first so many faults of the knowledge with every finding',
    `that sees them, any number of faults at once, noisy-MAX written out as full tables; grown until a run of it passes ` +
      `${LIBRARY_SECONDS} s or ${LIBRARY_MEGABYTES} MB; seed ${SEED}`,
    `  largest that it holds: ${faults} faults: ratio ${times(timesFaster(round))}   limit 1,000 and equal to 1e-9   ${met ? 'met' : 'NOT MET'}`,
    `  rounds there (ms), bayesjs: ${list(round.reference)}; ours: ${round.ours.map((t) => t.toFixed(4)).join(' ')}`,
    ...lines,
  ].join('\n');
}

const timesFaster = ({ reference, ours }: LibraryRound): number => median(reference) / median(ours);

/** The library runs apart, so that its running out of time or memory ends a process and not the benchmark. */
function libraryRun(faults: number): Promise<LibraryRound | string> {
  const script = fileURLToPath(new URL('posterior-library.ts', import.meta.url));
  return new Promise((resolve, reject) => {
    const child = spawn(
      process.execPath,
      [`--max-old-space-size=${LIBRARY_MEGABYTES}`, script, String(faults), String(SEED)],
      { stdio: ['ignore', 'pipe', 'ignore'] },
    );
    let answer = '';
    let late = false;
    const clock = setTimeout(() => {
      late = true;
      child.kill('SIGKILL');
    }, LIBRARY_SECONDS * 1000);
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      answer += text;
    });
    child.on('error', reject);
    child.on('close', (code, signal) => {
      clearTimeout(clock);
      if (late) resolve(`the library does not end within ${LIBRARY_SECONDS} s`);
      else if (code !== 0) resolve(`the library fails (${signal ?? `exit ${code}`}), out of memory or stack`);
      else resolve(JSON.parse(answer) as LibraryRound);
    });
  });
}

/** Milliseconds for each item: one warm pass over all, then the mean of a batch each. */
function timeEach<T>(items: readonly T[], run: (item: T) => unknown, batch = BATCH): number[] {
  for (const item of items) run(item);
  return items.map((item) => time(() => run(item), batch));
}

function time(run: () => unknown, batch = BATCH): number {
  const start = performance.now();
  for (let i = 0; i < batch; i++) run();
  return (performance.now() - start) / batch;
}

function believed(observed: ReturnType<typeof posterior>) {
  if (observed.kind !== 'belief') throw new Error('a simulated card contradicts the network it was drawn from');
  return observed.belief;
}

const ms = (milliseconds: number) => `${milliseconds < 0.1 ? milliseconds.toFixed(4) : milliseconds.toFixed(2)} ms`;
const times = (factor: number) => `${Math.round(factor).toLocaleString('en')} x`;
const list = (values: readonly number[]) => values.map((value) => value.toFixed(2)).join(' ');

if (process.argv[1] === fileURLToPath(import.meta.url)) console.log(await benchPosterior());
