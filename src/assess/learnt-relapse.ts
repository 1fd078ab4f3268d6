/** The shop's own times to relapse in place of the book's. */

import type { Assessed } from '../assessment.ts';
import type { Relapse } from '../belief/serve.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { Fault, Id } from '../knowledge/schema.ts';
import type { LearntRelapse, Shop } from '../shop/schema.ts';

/** Knowledge that a shop's records have taught something. */
interface Taught extends Knowledge {
  /** remedy -> fault -> time to relapse after this remedy alone */
  readonly relapseAfter: ReadonlyMap<Id, ReadonlyMap<Id, Relapse>>;
}

const taughtBy = new WeakMap<Knowledge, WeakMap<Shop, Knowledge>>();

/**
 * The knowledge with what the shop profile states as learnt: of each fault that heat can mask, the shop's median, shape and size in place of
 * the book's; after one remedy alone its own law, in `relapseAfter`. Everything else, the version too, is the book's; what is learnt of
 * faults that are not masked, or not known, changes nothing (the audit of the profile says so). The same answer for the same pair.
 */
export function withLearntRelapse(knowledge: Knowledge, shop: Shop): Knowledge {
  const learnt = shop.learnt?.relapse ?? [];
  if (learnt.length === 0) return knowledge;
  const shops = taughtBy.get(knowledge) ?? new WeakMap<Shop, Knowledge>();
  taughtBy.set(knowledge, shops);
  const known = shops.get(shop);
  if (known) return known;
  const taught = teach(knowledge, learnt);
  shops.set(shop, taught);
  return taught;
}

/** Time to relapse of a fault that this remedy masked; null where nothing masks it. */
export function relapseAfter(knowledge: Knowledge, fault: Fault, remedy: Id): Relapse | null {
  const own = 'relapseAfter' in knowledge ? (knowledge as Taught).relapseAfter.get(remedy)?.get(fault.id) : undefined;
  return own ?? relapseOf(fault);
}

/** Time to relapse of a fault, whatever masked it; null where nothing masks it. */
export function relapseOf({ relapse }: Fault): Relapse | null {
  return relapse ? { medianDays: relapse.medianDays, shape: relapse.shape } : null;
}

/**
 * The learnt laws that an assessment reckons with, each beside the book's it was learnt from: those after any remedy, and after a remedy
 * alone where that remedy was done on the card. `book`: the knowledge without what was learnt.
 */
export function learntLawsUsed(book: Knowledge, shop: Shop, done: readonly Id[]): Assessed['audit']['relapse'] {
  return (shop.learnt?.relapse ?? []).flatMap(({ fault, remedy, medianDays, shape, n, hits, trials, since }) => {
    const prior = book.faults.find(({ id }) => id === fault)?.relapse;
    if (!prior || (remedy !== undefined && !done.includes(remedy))) return [];
    return [
      {
        fault,
        remedy: remedy ?? null,
        medianDays,
        shape,
        n,
        events: hits,
        cards: trials,
        since,
        prior: { medianDays: prior.medianDays, shape: prior.shape, n: prior.n },
      },
    ];
  });
}

function teach(knowledge: Knowledge, learnt: readonly LearntRelapse[]): Taught {
  const overall = new Map(learnt.filter(({ remedy }) => remedy === undefined).map((law) => [law.fault, law]));
  const after = new Map<Id, Map<Id, Relapse>>();
  for (const { fault, remedy, medianDays, shape } of learnt) {
    if (remedy === undefined) continue;
    const laws = after.get(remedy) ?? new Map<Id, Relapse>();
    after.set(remedy, laws.set(fault, { medianDays, shape }));
  }
  return {
    ...knowledge,
    faults: knowledge.faults.map((fault) => {
      const own = overall.get(fault.id);
      if (!own || !fault.relapse) return fault;
      const { fault: _, remedy: __, ...relapse } = own;
      return { ...fault, relapse };
    }),
    relapseAfter: after,
  };
}
