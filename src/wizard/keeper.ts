/**
 * Keeps the record: on this device at once, on the server a moment later. What was typed survives a reload, a crash and
 * a server that is gone.
 */
import { type ReadonlySignal, signal } from '@preact/signals';
import type { Record } from '../record/schema.ts';
import { type Copy, type Kept, looksLikeRecord, openDevice, type Shelf, same } from './device.ts';
import { messages } from './language.ts';

export type Keeping =
  | { readonly state: 'idle' }
  | { readonly state: 'saving' }
  | { readonly state: 'saved' }
  /** what the server said when it refused; null: it does not answer */
  | { readonly state: 'on-this-device'; readonly refusal: string | null }
  /** the server holds a version that did not come from here */
  | { readonly state: 'changed-elsewhere'; readonly id: string };

export interface Listed {
  readonly id: string;
  readonly title: string;
  readonly changed: string;
  readonly invented: boolean;
  readonly unsaved: boolean;
  /** the server's number for this version; 0: the server never had it */
  readonly revision: number;
  readonly archived: boolean;
}

export interface Surroundings {
  readonly fetch: (path: string, init?: RequestInit) => Promise<Response>;
  readonly storage: Shelf;
  readonly now: () => Date;
}

export interface Keeper {
  readonly keeping: ReadonlySignal<Keeping>;
  /** a card as another window of this device has just changed it */
  readonly changedInAnotherWindow: ReadonlySignal<Record | null>;
  /** the browser says that another window has written under this key */
  hear(key: string | null): void;
  /** on this device now, on the server after a short quiet */
  keep(record: Record): void;
  open(id: string): Promise<Kept | null>;
  /** the record as it is kept, without touching what is said about keeping */
  peek(id: string): Promise<Record | null>;
  /** archived ones too, marked so */
  list(): Promise<{ readonly cards: readonly Listed[]; readonly server: boolean }>;
  /** false: the server did not do it */
  archive(id: string, archived: boolean): Promise<boolean>;
  /** settles a version that was changed elsewhere */
  settle(which: 'mine' | 'theirs'): Promise<Record | null>;
  /** sends everything that is only on this device */
  sync(): Promise<void>;
}

const QUIET_MS = 300;
const RETRY_MS = [2_000, 5_000, 15_000, 30_000];

export function createKeeper({ fetch, storage, now }: Surroundings): Keeper {
  const keeping = signal<Keeping>({ state: 'idle' });
  const device = openDevice(storage);
  const changedInAnotherWindow = signal<Record | null>(null);
  let timer: ReturnType<typeof setTimeout> | undefined;
  let failures = 0;
  let sending: Promise<void> | null = null;

  async function ask(path: string, init?: RequestInit): Promise<{ status: number; body: { [key: string]: unknown } }> {
    const response = await fetch(path, init);
    const body: unknown = await response.json().catch(() => null);
    return { status: response.status, body: typeof body === 'object' && body !== null ? { ...body } : {} };
  }

  async function send(copy: Copy): Promise<boolean> {
    const { record, revision } = copy;
    const answer = await ask(`api/records/${record.id}`, {
      method: 'PUT',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ record, revision }),
    }).catch(() => null);
    if (answer === null || answer.status >= 500) {
      keeping.value = { state: 'on-this-device', refusal: null };
      return false;
    }
    const { record: theirs } = answer.body;
    // another window on this device may have sent the very same version first
    const sentAlready = answer.status === 409 && looksLikeRecord(theirs) && same(theirs, record);
    if (answer.status === 409 && !sentAlready) {
      keeping.value = { state: 'changed-elsewhere', id: record.id };
      return true;
    }
    const next = answer.body.revision;
    if ((answer.status >= 400 && !sentAlready) || typeof next !== 'number') {
      keeping.value = { state: 'on-this-device', refusal: refusalIn(answer.body) };
      return true;
    }
    const latest = device.read(record.id) ?? copy;
    device.refresh({ ...latest, revision: next, unsaved: latest.record !== record && !same(latest.record, record) });
    return true;
  }

  async function sendAll(): Promise<void> {
    const unsaved = unsent();
    if (unsaved.length === 0) {
      // another window may have sent it
      if (keeping.value.state === 'saving') keeping.value = { state: 'saved' };
      return;
    }
    keeping.value = { state: 'saving' };
    for (const copy of unsaved) {
      if (!(await send(copy))) {
        schedule(RETRY_MS[Math.min(failures++, RETRY_MS.length - 1)]!);
        return;
      }
    }
    failures = 0;
    // what was typed while this was on its way is not saved yet
    if (keeping.value.state === 'saving' && unsent().length === 0) keeping.value = { state: 'saved' };
  }

  const unsent = (): readonly Copy[] =>
    device.all().filter((copy) => copy.unsaved && device.aside(copy.record.id) === null);

  function schedule(delay: number): void {
    clearTimeout(timer);
    timer = setTimeout(() => void sync(), delay);
  }

  /** One sending at a time; what changed meanwhile is sent after it. */
  async function sync(): Promise<void> {
    clearTimeout(timer);
    if (sending !== null) {
      schedule(QUIET_MS);
      return sending;
    }
    sending = sendAll().finally(() => {
      sending = null;
    });
    return sending;
  }

  return {
    keeping,
    changedInAnotherWindow,
    hear(key) {
      const record = device.changedUnder(key);
      if (record !== null) changedInAnotherWindow.value = record;
    },
    sync,
    keep(record) {
      const revision = device.read(record.id)?.revision ?? 0;
      device.write({ record, revision, unsaved: true, changed: now().toISOString() });
      if (device.aside(record.id) !== null) keeping.value = { state: 'changed-elsewhere', id: record.id };
      else if (keeping.value.state !== 'changed-elsewhere') keeping.value = { state: 'saving' };
      schedule(QUIET_MS);
    },
    async open(id) {
      const copy = device.read(id);
      if (copy !== null) device.shown(copy.record);
      const answer = await ask(`api/records/${id}`).catch(() => null);
      const { record, revision } = answer?.body ?? {};
      if (answer?.status !== 200 || !looksLikeRecord(record) || typeof revision !== 'number') {
        if (copy !== null && answer === null) keeping.value = { state: 'on-this-device', refusal: null };
        return copy;
      }
      if (device.aside(id) !== null) {
        keeping.value = { state: 'changed-elsewhere', id };
        return copy;
      }
      if (copy?.unsaved) {
        if (copy.revision === revision || same(copy.record, record)) schedule(0);
        else keeping.value = { state: 'changed-elsewhere', id };
        return copy;
      }
      device.refresh({ record, revision, unsaved: false, changed: now().toISOString() });
      device.shown(record);
      keeping.value = { state: 'saved' };
      return { record, revision };
    },
    async peek(id) {
      const copy = device.read(id);
      if (copy?.unsaved) return copy.record;
      const answer = await ask(`api/records/${id}`).catch(() => null);
      const { record, revision, changed } = answer?.body ?? {};
      if (!looksLikeRecord(record)) return copy?.record ?? null;
      // every card on the list is then on this device, should the server be gone next time
      if (typeof revision === 'number' && typeof changed === 'string' && !device.read(id)?.unsaved)
        device.refresh({ record, revision, unsaved: false, changed });
      return record;
    },
    async list() {
      const answer = await ask('api/records').catch(() => null);
      const server = answer?.status === 200;
      const cards = new Map<string, Listed>();
      for (const listed of readListed(answer?.body.records)) cards.set(listed.id, listed);
      if (server)
        device.rememberArchived(new Set([...cards.values()].filter((card) => card.archived).map(({ id }) => id)));
      const away = device.archived();
      for (const { record, revision, unsaved, changed } of device.all()) {
        if (!unsaved && server) continue;
        const { id, title, invented } = record;
        const archived = away.has(id);
        cards.set(id, { id, title, changed, invented: invented === true, unsaved, revision, archived });
      }
      return { cards: [...cards.values()].sort((a, b) => b.changed.localeCompare(a.changed)), server };
    },
    async archive(id, archived) {
      if (device.read(id)?.unsaved) await sync();
      const answer = await ask(`api/records/${id}/archive`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ archived }),
      }).catch(() => null);
      if (answer?.status !== 200) return false;
      const away = new Set(device.archived());
      if (archived) away.add(id);
      else away.delete(id);
      device.rememberArchived(away);
      return true;
    },
    async settle(which) {
      if (keeping.value.state !== 'changed-elsewhere') return null;
      const { id } = keeping.value;
      const copy = device.read(id);
      const aside = device.aside(id);
      if (copy !== null && aside !== null) {
        const record = which === 'mine' ? copy.record : aside.record;
        device.clearAside(id);
        keeping.value = { state: 'saving' };
        device.refresh({ ...copy, record, unsaved: true });
        device.shown(record);
        schedule(0);
        return record;
      }
      const answer = await ask(`api/records/${id}`).catch(() => null);
      const { record, revision } = answer?.body ?? {};
      if (copy === null || !looksLikeRecord(record) || typeof revision !== 'number') return null;
      keeping.value = { state: 'saved' };
      const theirs = which === 'theirs';
      device.refresh({ ...copy, record: theirs ? record : copy.record, revision, unsaved: !theirs });
      device.shown(theirs ? record : copy.record);
      if (!theirs) await sync();
      return theirs ? record : copy.record;
    },
  };
}

/** The server says what is wrong, and where in the record. */
function refusalIn(body: { [key: string]: unknown }): string {
  const { wrong, issues } = body;
  const [first] = Array.isArray(issues) ? (issues as { path?: unknown; wrong?: unknown }[]) : [];
  const said = typeof wrong === 'string' ? wrong : messages.value.keeping.refused;
  return typeof first?.wrong === 'string' ? `${said} ${String(first.path ?? '')}: ${first.wrong}` : said;
}

function readListed(value: unknown): Listed[] {
  if (!Array.isArray(value)) return [];
  return value.flatMap((item: { [key: string]: unknown } | null) => {
    const { id, title, changed, revision, invented, archived } = item ?? {};
    if (typeof id !== 'string' || typeof title !== 'string') return [];
    return [
      {
        id,
        title,
        changed: typeof changed === 'string' ? changed : '',
        invented: invented === true,
        unsaved: false,
        revision: typeof revision === 'number' ? revision : 0,
        archived: archived === true,
      },
    ];
  });
}
