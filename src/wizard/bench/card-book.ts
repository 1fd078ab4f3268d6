/**
 * What is known of every listed card: its record and its verdict so far. Cards are read and weighed one after another while
 * the list is on the screen, behind whatever the open card asks, and each version of a card only once.
 */
import { type ReadonlySignal, signal } from '@preact/signals';
import type { Assessment } from '../../assessment.ts';
import type { Record } from '../../record/schema.ts';
import { openWork } from '../../work-order/open-work.ts';
import type { Adviser } from '../adviser.ts';
import { isBlank } from '../desk.ts';
import type { Keeper, Listed } from '../keeper.ts';

export interface Entry {
  /** null: it cannot be had just now */
  readonly record: Record | null;
  /** null: there is none */
  readonly assessment: Assessment | null;
  /** of the work that is being done on it; null: none is, or it cannot be told */
  readonly atWork: AtWork | null;
}

export interface AtWork {
  /** the hold point that waits; null: none does any more */
  readonly step: { readonly number: number; readonly name: string } | null;
  readonly of: number;
}

export interface CardBook {
  /** by `versionOf` */
  readonly entries: ReadonlySignal<ReadonlyMap<string, Entry>>;
  /** reads up what is missing, all of it anew in another language; the answer stops it */
  follow(cards: readonly Listed[], language?: string): () => void;
}

export const versionOf = ({ id, revision, unsaved, changed }: Listed): string =>
  unsaved || revision === 0 ? `${id} ${changed}` : `${id} revision ${revision}`;

export function createCardBook({
  keeper,
  adviser,
}: {
  readonly keeper: Pick<Keeper, 'peek'>;
  readonly adviser: Pick<Adviser, 'assessOnce' | 'orderFor'>;
}): CardBook {
  let spoken = 'en';
  const entries = signal<ReadonlyMap<string, Entry>>(new Map());

  async function read(card: Listed): Promise<Entry> {
    const record = await keeper.peek(card.id);
    const assessment = record === null || isBlank(record) ? null : await adviser.assessOnce(record);
    return { record, assessment, atWork: record === null ? null : await atWorkOf(record, assessment) };
  }

  async function atWorkOf(record: Record, assessment: Assessment | null): Promise<AtWork | null> {
    if (assessment?.kind !== 'assessed' || openWork(record) === null) return null;
    const order = await adviser.orderFor(record, assessment, null);
    if (order?.kind !== 'order') return null;
    const step = order.steps.find(({ id }) => id === order.state.next);
    return { step: step ? { number: step.number, name: step.name } : null, of: order.steps.length };
  }

  return {
    entries,
    follow(cards, language = spoken) {
      if (language !== spoken) {
        spoken = language;
        entries.value = new Map();
      }
      let wanted = true;
      const readAll = async () => {
        for (const card of cards) {
          const version = versionOf(card);
          if (entries.value.has(version)) continue;
          const entry = await read(card);
          if (language !== spoken) return;
          if (entry.record !== null) entries.value = new Map(entries.value).set(version, entry);
          if (!wanted) return;
        }
      };
      void readAll();
      return () => {
        wanted = false;
      };
    },
  };
}
