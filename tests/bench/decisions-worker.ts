/** Takes cards of one kind through every way of working; one task after the other, as a worker thread of `decisions.ts`. */
import { parentPort } from 'node:worker_threads';
import { assess } from '../../src/assess.ts';
import { createRandom } from '../../src/decision/random.ts';
import { fullKnowledge } from './arrived-card.ts';
import { exampleShop } from './assessment.ts';
import { createKnowing, modelOf, unseen, visit, worldOf } from './bench-visit.ts';
import { disturbed } from './disturbed-knowledge.ts';
import { drawCard, STRATA } from './simulated-card.ts';
import { diagnosed, disagreement } from './tool-advice.ts';
import {
  alwaysReball,
  asAdvised,
  cheapestCheckFirst,
  createMinds,
  createOracle,
  flowBySymptom,
  mostProbableFirst,
  type Went,
  withoutChecks,
} from './ways-of-working.ts';

export interface Task {
  readonly seed: number;
  /** standard deviation of the noise on every log-odds that the bench plans with */
  readonly deviation: number;
  /** which disturbance */
  readonly block: number;
  readonly stratum: number;
  readonly numbers: readonly number[];
}

export const WAYS = [
  'as the tool advises',
  'the best plan, no checks',
  'always reball',
  'fixed flow by symptom',
  'most probable first',
  'cheapest check first',
  'perfect information',
] as const;
export type Way = (typeof WAYS)[number];

/** Ways that look at no probability go the same way whatever is believed. */
export const WAYS_THAT_BELIEVE: readonly Way[] = [WAYS[0], WAYS[1], WAYS[4], WAYS[5]];

export interface Done {
  readonly task: Task;
  readonly cards: readonly { readonly number: number; readonly went: { readonly [way: string]: Went } }[];
  readonly planner: { readonly calls: number; readonly asked: number; readonly milliseconds: number };
  /** situations in which the whole assessment was asked, too, and said the same */
  readonly compared: number;
}

/** One situation in so many is also put to the whole assessment. */
const COMPARE_EVERY = 150;

const loading = parentPort ? Promise.all([fullKnowledge(), exampleShop()]) : null;

async function take(task: Task): Promise<Done> {
  const { seed, deviation, block, stratum, numbers } = task;
  const [truth, shop] = (await loading)!;
  const believed = disturbed(truth, createRandom(seed + 7919 * (block + 1)), deviation);
  const world = worldOf(truth, shop);
  const knowing = createKnowing(world);
  const minds = createMinds(believed, world);
  const models = await Promise.all(STRATA.map((_, at) => modelOf(world, knowing, at)));
  const oracle = createOracle(models, world);
  const arriving = diagnosed(truth, (await knowing(unseen(world, stratum))).gathered).prior;
  const ways = deviation === 0 ? WAYS : WAYS_THAT_BELIEVE;
  const cards: Done['cards'][number][] = [];
  let compared = 0;
  let nextComparison = 0;
  for (const number of numbers) {
    const card = drawCard(truth, arriving, stratum, number, createRandom(seed + 1_000_003 * (number + 1)));
    const go = (way: Way) => {
      const here = visit(world, knowing, card);
      switch (way) {
        case 'as the tool advises':
          return asAdvised(here, minds);
        case 'the best plan, no checks':
          return withoutChecks(here, minds);
        case 'always reball':
          return alwaysReball(here);
        case 'fixed flow by symptom':
          return flowBySymptom(here, world, card);
        case 'most probable first':
          return mostProbableFirst(here, minds, world, card);
        case 'cheapest check first':
          return cheapestCheckFirst(here, minds, world);
        case 'perfect information':
          return oracle(here, card);
      }
    };
    const went: { [way: string]: Went } = {};
    for (const way of ways) went[way] = await go(way);
    cards.push({ number, went });
    if (minds.planner.calls >= nextComparison && minds.latest) {
      nextComparison = minds.planner.calls + COMPARE_EVERY;
      const { known, advised } = minds.latest;
      const differs = disagreement(advised, await assess(believed, shop, known.record));
      if (differs) throw new Error(`these are not the tool's decisions: ${differs}`);
      compared++;
    }
  }
  return { task, cards, planner: minds.planner, compared };
}

// Imported for its types and names, too: then there is no parent to answer.
parentPort?.on('message', async (task: Task) => parentPort?.postMessage(await take(task)));
