import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Record } from '../../src/record/schema.ts';
import { createKeeper } from '../../src/wizard/keeper.ts';

const card = (title: string): Record => ({ format: 1, id: 'card-one', title, timeline: [] });

/** A server that keeps revisions and can be switched off. */
function makeServer() {
  const held = new Map<string, { record: Record; revision: number; archived?: boolean }>();
  const server = {
    held,
    up: true,
    puts: 0,
    fetch: async (path: string, init?: RequestInit): Promise<Response> => {
      if (!server.up) throw new TypeError('connection refused');
      const id = path.split('/')[2];
      const answer = (status: number, body: unknown) => new Response(JSON.stringify(body), { status });
      if (id === undefined) {
        return answer(200, {
          records: [...held.values()].map(({ record, revision, archived }) => {
            const { id, title } = record;
            return { id, title, revision, archived: archived === true, changed: '2026-01-01T00:00:00Z' };
          }),
        });
      }
      const have = held.get(id);
      if (path.endsWith('/archive')) {
        if (have === undefined) return answer(404, { wrong: 'none' });
        have.archived = JSON.parse(String(init?.body)).archived;
        return answer(200, { archived: have.archived });
      }
      if (init?.method !== 'PUT') return have ? answer(200, have) : answer(404, { error: 'none' });
      server.puts += 1;
      const { record, revision } = JSON.parse(String(init.body));
      if ((have?.revision ?? 0) !== revision) return answer(409, { wrong: 'another revision', ...have });
      held.set(id, { record, revision: revision + 1 });
      return answer(200, { revision: revision + 1 });
    },
  };
  return server;
}

function makeStorage() {
  const map = new Map<string, string>();
  return {
    map,
    full: false,
    get length() {
      return map.size;
    },
    key: (index: number) => [...map.keys()][index] ?? null,
    getItem: (key: string) => map.get(key) ?? null,
    removeItem: (key: string) => void map.delete(key),
    setItem(key: string, value: string) {
      if (this.full) throw new DOMException('full', 'QuotaExceededError');
      map.set(key, value);
    },
  };
}

const start = (server = makeServer(), storage = makeStorage()) => ({
  server,
  storage,
  keeper: createKeeper({ fetch: server.fetch, storage, now: () => new Date('2026-11-24T09:00:00Z') }),
});

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

describe('keeping a card', () => {
  it('has it on this device at once and on the server after a short quiet, in one go', async () => {
    const { keeper, server, storage } = start();
    keeper.keep(card('a'));
    keeper.keep(card('ab'));
    expect(storage.map.get('worth-the-heat.record.card-one')).toContain('"ab"');
    expect(server.puts).toBe(0);
    await vi.advanceTimersByTimeAsync(400);
    expect(server.puts).toBe(1);
    expect(server.held.get('card-one')).toMatchObject({ revision: 1, record: { title: 'ab' } });
    expect(keeper.keeping.value).toEqual({ state: 'saved' });
  });

  it('does not call saved what was typed while an older version was on its way', async () => {
    const server = makeServer();
    const { fetch } = server;
    server.fetch = async (path, init) => {
      await new Promise((arrived) => setTimeout(arrived, 200));
      return fetch(path, init);
    };
    const { keeper } = start(server);
    keeper.keep(card('sent'));
    await vi.advanceTimersByTimeAsync(400);
    keeper.keep(card('typed meanwhile'));
    await vi.advanceTimersByTimeAsync(150);
    expect(server.held.get('card-one')?.record.title).toBe('sent');
    expect(keeper.keeping.value).toEqual({ state: 'saving' });
    await vi.advanceTimersByTimeAsync(1_000);
    expect(server.held.get('card-one')).toMatchObject({ revision: 2, record: { title: 'typed meanwhile' } });
    expect(keeper.keeping.value).toEqual({ state: 'saved' });
  });

  it('says that it is kept on this device while the server is gone, and sends it when it is back', async () => {
    const { keeper, server } = start();
    server.up = false;
    keeper.keep(card('typed offline'));
    await vi.advanceTimersByTimeAsync(400);
    expect(keeper.keeping.value.state).toBe('on-this-device');
    server.up = true;
    await vi.advanceTimersByTimeAsync(2_000);
    expect(server.held.get('card-one')?.record.title).toBe('typed offline');
    expect(keeper.keeping.value).toEqual({ state: 'saved' });
  });

  it('opens after a crash with what was typed last, not with what the server had', async () => {
    const first = start();
    first.keeper.keep(card('saved'));
    await vi.advanceTimersByTimeAsync(400);
    first.keeper.keep(card('typed just before the crash'));
    const again = start(first.server, first.storage);
    expect((await again.keeper.open('card-one'))?.record.title).toBe('typed just before the crash');
    await vi.advanceTimersByTimeAsync(400);
    expect(first.server.held.get('card-one')?.record.title).toBe('typed just before the crash');
  });

  it('overwrites nothing that was changed elsewhere, and lets the bench choose', async () => {
    const { keeper, server } = start();
    keeper.keep(card('mine'));
    await vi.advanceTimersByTimeAsync(400);
    server.held.set('card-one', { record: card('from another window'), revision: 7 });
    keeper.keep(card('mine, newer'));
    await vi.advanceTimersByTimeAsync(400);
    expect(keeper.keeping.value).toEqual({ state: 'changed-elsewhere', id: 'card-one' });
    expect(server.held.get('card-one')?.record.title).toBe('from another window');
    expect((await keeper.settle('mine'))?.title).toBe('mine, newer');
    await vi.advanceTimersByTimeAsync(400);
    expect(server.held.get('card-one')).toMatchObject({ revision: 8, record: { title: 'mine, newer' } });
  });

  it('sees no conflict where another window of this device sent the same version first', async () => {
    const { keeper, server } = start();
    server.held.set('card-one', { record: { timeline: [], title: 'same', id: 'card-one', format: 1 }, revision: 4 });
    keeper.keep(card('same'));
    await vi.advanceTimersByTimeAsync(400);
    expect(keeper.keeping.value).toEqual({ state: 'saved' });
    keeper.keep(card('newer'));
    await vi.advanceTimersByTimeAsync(400);
    expect(server.held.get('card-one')).toMatchObject({ revision: 5, record: { title: 'newer' } });
  });

  it('takes the other version when the bench says so', async () => {
    const { keeper, server } = start();
    keeper.keep(card('mine'));
    server.held.set('card-one', { record: card('theirs'), revision: 3 });
    await vi.advanceTimersByTimeAsync(400);
    expect((await keeper.settle('theirs'))?.title).toBe('theirs');
    await vi.advanceTimersByTimeAsync(400);
    expect(server.held.get('card-one')).toMatchObject({ revision: 3, record: { title: 'theirs' } });
  });

  it('loses nothing typed while an earlier version was on its way', async () => {
    const { keeper, server } = start();
    const { fetch } = server;
    const slow = createKeeper({
      storage: makeStorage(),
      now: () => new Date(0),
      fetch: async (path, init) => {
        await new Promise((resolve) => setTimeout(resolve, 1_000));
        return fetch(path, init);
      },
    });
    slow.keep(card('first'));
    await vi.advanceTimersByTimeAsync(500);
    slow.keep(card('second'));
    await vi.advanceTimersByTimeAsync(4_000);
    expect(server.held.get('card-one')).toMatchObject({ revision: 2, record: { title: 'second' } });
    expect(keeper.keeping.value.state).toBe('idle');
  });

  it('goes on in memory when this device is full', async () => {
    const { keeper, server, storage } = start();
    storage.full = true;
    keeper.keep(card('no room'));
    await vi.advanceTimersByTimeAsync(400);
    expect(server.held.get('card-one')?.record.title).toBe('no room');
  });

  it('survives a copy on this device that is no record', async () => {
    const { keeper, storage } = start();
    storage.map.set('worth-the-heat.record.card-one', '{"record":17}');
    storage.map.set('worth-the-heat.record.card-two', 'not json');
    expect(await keeper.open('card-one')).toBeNull();
    expect(await keeper.list()).toEqual({ cards: [], server: true });
  });

  it('lists what is only on this device together with what the server has', async () => {
    const { keeper, server } = start();
    server.held.set('card-two', { record: { ...card('on the server'), id: 'card-two' }, revision: 1 });
    server.up = false;
    keeper.keep(card('only here'));
    await vi.advanceTimersByTimeAsync(400);
    expect(await keeper.list()).toMatchObject({ server: false, cards: [{ id: 'card-one', unsaved: true }] });
    server.up = true;
    const { cards } = await keeper.list();
    expect(cards.map(({ id }) => id)).toEqual(['card-one', 'card-two']);
  });

  it('archives a card and takes it back, also one the server has not heard of yet', async () => {
    const { keeper, server } = start();
    keeper.keep(card('just typed'));
    expect(await keeper.archive('card-one', true)).toBe(true);
    expect(await keeper.list()).toMatchObject({ cards: [{ title: 'just typed', archived: true, unsaved: false }] });
    keeper.keep(card('changed in the archive'));
    expect((await keeper.list()).cards, 'a change does not bring it back').toMatchObject([
      { title: 'changed in the archive', archived: true, unsaved: true },
    ]);
    expect(await keeper.archive('card-one', false)).toBe(true);
    expect(await keeper.list()).toMatchObject({ cards: [{ archived: false, revision: 2 }] });
    server.up = false;
    expect(await keeper.archive('card-one', true)).toBe(false);
  });

  it('leaves archived cards in the archive while the server is gone, also one changed there and in a window opened since', async () => {
    const { keeper, server, storage } = start();
    keeper.keep(card('put away'));
    await keeper.archive('card-one', true);
    server.up = false;
    const away = { server: false, cards: [{ id: 'card-one', archived: true }] };
    expect(await keeper.list()).toMatchObject(away);
    keeper.keep(card('changed while put away'));
    expect(await keeper.list()).toMatchObject(away);
    const later = createKeeper({ fetch: server.fetch, storage, now: () => new Date() });
    expect(await later.list()).toMatchObject(away);
    server.up = true;
    await keeper.archive('card-one', false);
    server.up = false;
    expect(await later.list()).toMatchObject({ server: false, cards: [{ id: 'card-one', archived: false }] });
  });

  it('has every keystroke on this device before the next one can be made', async () => {
    const { keeper, storage } = start();
    const gone = () => Promise.reject(new TypeError('the server went with it'));
    for (const title of ['R', 'Re', 'Ret']) {
      keeper.keep(card(title));
      const afterCrash = createKeeper({ storage, now: () => new Date(0), fetch: gone });
      expect((await afterCrash.open('card-one'))?.record.title).toBe(title);
    }
  });

  it('lets two windows type on two cards at once, and neither loses a word', async () => {
    const first = start();
    const second = start(first.server, first.storage);
    const other = (title: string): Record => ({ ...card(title), id: 'card-two' });
    for (const word of ['a', 'ab', 'abc']) {
      first.keeper.keep(card(word));
      second.keeper.keep(other(`${word}!`));
      await vi.advanceTimersByTimeAsync(100);
    }
    await vi.advanceTimersByTimeAsync(1_000);
    expect(first.server.held.get('card-one')?.record.title).toBe('abc');
    expect(first.server.held.get('card-two')?.record.title).toBe('abc!');
  });

  it('says so when two windows type on the same card, and keeps both versions until one is chosen', async () => {
    const first = start();
    first.keeper.keep(card('begun'));
    await vi.advanceTimersByTimeAsync(400);
    // another computer: the same server, a device of its own
    const second = start(first.server);
    await second.keeper.open('card-one');
    second.keeper.keep(card('typed there'));
    first.keeper.keep(card('typed here'));
    await vi.advanceTimersByTimeAsync(1_000);
    const states = [first.keeper.keeping.value.state, second.keeper.keeping.value.state];
    expect(states.toSorted()).toEqual(['changed-elsewhere', 'saved']);
    const loser = states[0] === 'saved' ? second : first;
    const [kept] = [...loser.storage.map.values()].map((text) => JSON.parse(text).record.title);
    const held = first.server.held.get('card-one')?.record.title;
    expect([kept, held].toSorted()).toEqual(['typed here', 'typed there']);
  });

  it('shows in every window of this device what one of them writes, at once', async () => {
    const { server, storage, keeper } = start();
    keeper.keep(card('begun'));
    await vi.advanceTimersByTimeAsync(400);
    const second = start(server, storage).keeper;
    await second.open('card-one');
    keeper.keep(card('typed in the first window'));
    second.hear('worth-the-heat.record.card-one');
    expect(second.changedInAnotherWindow.value?.title).toBe('typed in the first window');
    second.hear('worth-the-heat.record.card-two');
    second.hear(null);
    second.keep(card('and on in the second'));
    await vi.advanceTimersByTimeAsync(1_000);
    expect(server.held.get('card-one')?.record.title).toBe('and on in the second');
    expect(second.keeping.value).toEqual({ state: 'saved' });
  });

  it('writes over nothing that another window typed while this one slept, and loses neither if both crash now', async () => {
    const { server, storage, keeper } = start();
    keeper.keep(card('begun'));
    await vi.advanceTimersByTimeAsync(400);
    const asleep = start(server, storage).keeper;
    await asleep.open('card-one');
    keeper.keep(card('typed while it slept'));
    asleep.keep(card('typed on waking'));
    expect(asleep.keeping.value).toEqual({ state: 'changed-elsewhere', id: 'card-one' });
    const afterCrash = start(server, storage).keeper;
    expect((await afterCrash.open('card-one'))?.record.title).toBe('typed on waking');
    expect(afterCrash.keeping.value).toEqual({ state: 'changed-elsewhere', id: 'card-one' });
    expect((await afterCrash.settle('theirs'))?.title).toBe('typed while it slept');
    await vi.advanceTimersByTimeAsync(1_000);
    expect(server.held.get('card-one')?.record.title).toBe('typed while it slept');
    expect(storage.map.size, 'nothing is left aside').toBe(1);
  });

  it('keeps its own version where that one is chosen, also while the server is gone', async () => {
    const { server, storage, keeper } = start();
    keeper.keep(card('begun'));
    await vi.advanceTimersByTimeAsync(400);
    const asleep = start(server, storage).keeper;
    await asleep.open('card-one');
    server.up = false;
    keeper.keep(card('typed while it slept'));
    asleep.keep(card('typed on waking'));
    expect((await asleep.settle('mine'))?.title).toBe('typed on waking');
    server.up = true;
    await vi.advanceTimersByTimeAsync(3_000);
    expect(server.held.get('card-one')?.record.title).toBe('typed on waking');
  });
});
