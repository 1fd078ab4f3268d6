/** Holds the knowledge away from the screens and answers with assessments, the newest question first. */
import { readRules } from 'virtual:rules';
import { assess } from '../assess.ts';
import { parseKnowledge } from '../knowledge/parse.ts';
import { sayProblem } from '../knowledge/say-problem.ts';
import { Shop } from '../shop/schema.ts';
import { makeCatalogue } from './catalogue.ts';
import { createClerk } from './clerk.ts';
import type { FromWorker, ToWorker } from './exchange.ts';

async function openKnowledge(shop: Shop | null) {
  const byPath = new Map(Object.entries(await readRules()));
  const parsed = await parseKnowledge(byPath);
  if (!parsed.ok) throw new Error(parsed.problems.map(sayProblem).join('\n'));
  const { knowledge } = parsed;
  const profile = shop ?? Shop.parse(byPath.get('shop.json'));
  return {
    catalogue: makeCatalogue(knowledge, profile),
    assess: (record: unknown, draws: number, plan: boolean) => assess(knowledge, profile, record, { draws, plan }),
  };
}

const clerk = createClerk(openKnowledge, (message: FromWorker) => self.postMessage(message));
self.addEventListener('message', (event: MessageEvent<ToWorker>) => clerk.hear(event.data));
