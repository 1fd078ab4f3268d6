/** Holds the knowledge away from the screens and answers with assessments, the newest question first. */
import { readRules, readTranslation } from 'virtual:rules';
import { pointsOf } from '../assess/points.ts';
import { assess } from '../assess.ts';
import type { Assessed } from '../assessment.ts';
import { unpackKnowledge } from '../knowledge/packed.ts';
import { translate } from '../knowledge/translation.ts';
import type { Record } from '../record/schema.ts';
import type { Shop } from '../shop/schema.ts';
import { makeCatalogue } from './catalogue.ts';
import { createClerk } from './clerk.ts';
import type { FromWorker, ToWorker } from './exchange.ts';

async function openKnowledge(own: Shop | null, language: string) {
  const [rules, translation] = await Promise.all([readRules(), readTranslation(language)]);
  const written = unpackKnowledge(rules.knowledge);
  const knowledge = translation === null ? written : translate(written, translation);
  const shop = own ?? rules.shop;
  return {
    catalogue: makeCatalogue(knowledge, shop),
    assess: (record: unknown, draws: number, plan: boolean) => assess(knowledge, shop, record, { draws, plan }),
    point: (record: unknown) => pointsOf(knowledge, shop, record),
    order: async (record: Record, assessed: Assessed, remedy: string | null) =>
      (await import('../work-order/work-order.ts')).workOrder(knowledge, shop, record, assessed, {
        remedy: remedy ?? undefined,
      }),
    remedies: async (records: readonly Record[], until: string | null, onProgress: (weighed: number) => void) =>
      (await import('../learning/remedies.ts')).remediesFrom(knowledge, shop, records, {
        onProgress,
        ...(until === null ? {} : { silence: { until, warrantyDays: shop.warrantyDays } }),
      }),
    life: async (record: unknown) => (await import('../assess/timeline.ts')).lifeline(knowledge, shop, record),
  };
}

const clerk = createClerk(openKnowledge, (message: FromWorker) => self.postMessage(message));
self.addEventListener('message', (event: MessageEvent<ToWorker>) => clerk.hear(event.data));
