/** The copy of each card on this device, shared by every window the browser has open on it. */
import type { Record } from '../record/schema.ts';

export interface Kept {
  readonly record: Record;
  /** the server's number for the version this one was based on; 0: the server never had it */
  readonly revision: number;
}

export interface Copy extends Kept {
  readonly unsaved: boolean;
  readonly changed: string;
}

export type Shelf = Pick<Storage, 'getItem' | 'setItem' | 'removeItem' | 'key' | 'length'>;

export interface Device {
  read(id: string): Copy | null;
  /** what was typed in this window; what another window has written meanwhile is put aside */
  write(copy: Copy): void;
  /** what is known of the copy has changed, not what this window shows */
  refresh(copy: Copy): void;
  /** this window shows the card like this from now on */
  shown(record: Record): void;
  all(): readonly Copy[];
  /** the record of the card whose copy another window has changed under this key; null: none of ours, or as this window knows it */
  changedUnder(key: string | null): Record | null;
  /** another window's version of this card that ours would have written over; it waits to be settled */
  aside(id: string): Copy | null;
  /** settled */
  clearAside(id: string): void;
  /** cards in the archive, as the server last said; it is asked again whenever it is there */
  archived(): ReadonlySet<string>;
  rememberArchived(ids: ReadonlySet<string>): void;
}

const PREFIX = 'worth-the-heat.record.';
const ARCHIVED = 'worth-the-heat.archived';
const ASIDE = 'worth-the-heat.aside.';

export function openDevice(storage: Shelf): Device {
  /** what could not even be stored on this device stays in memory */
  const memory = new Map<string, Copy>();
  /** each card as this window last showed or wrote it */
  const seen = new Map<string, Record>();

  function load(key: string): Copy | null {
    try {
      return readCopy(JSON.parse(storage.getItem(key) ?? 'null'));
    } catch {
      return null;
    }
  }

  const read = (id: string): Copy | null => memory.get(id) ?? load(PREFIX + id);

  function fits(key: string, copy: Copy): boolean {
    try {
      storage.setItem(key, JSON.stringify(copy));
      return true;
    } catch {
      return false;
    }
  }

  /** What the server has, too, gives way to what it has not. */
  function makeRoom(): boolean {
    const saved = all().filter(({ unsaved }) => !unsaved);
    for (const { record } of saved) storage.removeItem(PREFIX + record.id);
    return saved.length > 0;
  }

  function all(): readonly Copy[] {
    const ids = new Set(memory.keys());
    for (let i = 0; i < storage.length; i++) {
      const key = storage.key(i);
      if (key?.startsWith(PREFIX)) ids.add(key.slice(PREFIX.length));
    }
    return [...ids].map(read).filter((copy) => copy !== null);
  }

  function store(copy: Copy): void {
    const { id } = copy.record;
    if (fits(PREFIX + id, copy) || (copy.unsaved && makeRoom() && fits(PREFIX + id, copy))) memory.delete(id);
    else memory.set(id, copy);
  }

  /** A window that was asleep has not heard of another's changes: they are put aside, not written over. */
  function putAside(id: string, ours: Record): void {
    const held = load(PREFIX + id);
    const known = seen.get(id);
    if (held === null || known === undefined || same(held.record, known) || same(held.record, ours)) return;
    if (!fits(ASIDE + id, held)) memory.set(ASIDE + id, held);
  }

  return {
    read,
    all,
    write(copy) {
      putAside(copy.record.id, copy.record);
      seen.set(copy.record.id, copy.record);
      store(copy);
    },
    refresh: store,
    shown: (record) => void seen.set(record.id, record),
    changedUnder(key) {
      if (!key?.startsWith(PREFIX)) return null;
      const id = key.slice(PREFIX.length);
      const copy = load(key);
      const known = seen.get(id);
      if (copy === null || known === undefined || same(copy.record, known)) return null;
      seen.set(id, copy.record);
      return copy.record;
    },
    aside: (id) => memory.get(ASIDE + id) ?? load(ASIDE + id),
    archived() {
      try {
        const ids: unknown = JSON.parse(storage.getItem(ARCHIVED) ?? '[]');
        return new Set(Array.isArray(ids) ? ids.filter((id) => typeof id === 'string') : []);
      } catch {
        return new Set();
      }
    },
    rememberArchived(ids) {
      try {
        storage.setItem(ARCHIVED, JSON.stringify([...ids].sort()));
      } catch {
        // without it archived cards come back to the list while the server is gone, no worse
      }
    },
    clearAside(id) {
      memory.delete(ASIDE + id);
      storage.removeItem(ASIDE + id);
    },
  };
}

function readCopy(value: unknown): Copy | null {
  if (typeof value !== 'object' || value === null) return null;
  const { record, revision, unsaved, changed } = value as { [key: string]: unknown };
  if (!looksLikeRecord(record) || typeof revision !== 'number') return null;
  return { record, revision, unsaved: unsaved === true, changed: typeof changed === 'string' ? changed : '' };
}

/** Enough of a look to show it; whether it is a sound record is the assessment's business. */
export function looksLikeRecord(value: unknown): value is Record {
  if (typeof value !== 'object' || value === null) return false;
  const { id, title, timeline } = value as { [key: string]: unknown };
  return typeof id === 'string' && typeof title === 'string' && Array.isArray(timeline);
}

/** In whatever order the fields come back. */
export const same = (a: Record, b: Record): boolean =>
  a === b || JSON.stringify(a, sortKeys) === JSON.stringify(b, sortKeys);

function sortKeys(_key: string, value: unknown): unknown {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
  return Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)));
}
