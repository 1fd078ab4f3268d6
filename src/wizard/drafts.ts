/** What was typed and cannot be read yet, kept on this device beside the record until it is put right. */
import { type ReadonlySignal, signal } from '@preact/signals';

export interface Drafts {
  readonly texts: ReadonlySignal<ReadonlyMap<string, string>>;
  open(record: string): void;
  /** the open card goes on under another name, and what was typed on it goes along */
  carry(record: string): void;
  set(field: string, text: string | null): void;
  /** the browser says that another window has written under this key */
  hear(key: string | null): void;
}

const PREFIX = 'worth-the-heat.drafts.';

const isEntry = (entry: unknown): entry is [string, string] =>
  Array.isArray(entry) && entry.length === 2 && entry.every((part) => typeof part === 'string');

export function createDrafts(storage: Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>): Drafts {
  const texts = signal<ReadonlyMap<string, string>>(new Map());
  let key = '';

  function stored(): ReadonlyMap<string, string> {
    try {
      const entries: unknown = JSON.parse(storage.getItem(key) ?? '[]');
      if (!Array.isArray(entries)) return new Map();
      return new Map(entries.filter(isEntry));
    } catch {
      return new Map();
    }
  }

  function store(): void {
    try {
      if (texts.value.size === 0) storage.removeItem(key);
      else storage.setItem(key, JSON.stringify([...texts.value]));
    } catch {
      // a full store costs the draft on reload, not the typing
    }
  }

  return {
    texts,
    open(record) {
      key = PREFIX + record;
      texts.value = stored();
    },
    carry(record) {
      storage.removeItem(key);
      key = PREFIX + record;
      store();
    },
    hear(written) {
      if (written === key) texts.value = stored();
    },
    set(field, text) {
      if ((texts.value.get(field) ?? null) === text) return;
      const next = new Map(texts.value);
      if (text === null) next.delete(field);
      else next.set(field, text);
      texts.value = next;
      store();
    },
  };
}
