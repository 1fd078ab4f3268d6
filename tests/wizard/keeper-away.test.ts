import { describe, expect, it } from 'vitest';
import type { Record } from '../../src/record/schema.ts';
import { createKeeper } from '../../src/wizard/keeper.ts';

const card = (id: string, title: string): Record => ({ format: 1, id, title, timeline: [] });
const NOW = () => new Date('2026-11-24T09:00:00Z');

/** A bench with these cards on its server, and a device that holds so many characters. */
function bench(cards: readonly Record[], room = 5_000_000) {
  const map = new Map<string, string>();
  const around = {
    server: true,
    map,
    fetch: async (path: string): Promise<Response> => {
      if (!around.server) throw new TypeError('connection refused');
      const [, , id] = path.split('/');
      const dated = cards.map((record) => ({ record, revision: 3, changed: '2026-11-20T10:00:00Z' }));
      if (id === undefined)
        return Response.json({ records: dated.map(({ record, changed }) => ({ ...record, changed })) });
      const found = dated.find(({ record }) => record.id === id);
      return found === undefined ? Response.json({ wrong: 'none' }, { status: 404 }) : Response.json(found);
    },
    storage: {
      get length() {
        return map.size;
      },
      key: (index: number) => [...map.keys()][index] ?? null,
      getItem: (key: string) => map.get(key) ?? null,
      removeItem: (key: string) => void map.delete(key),
      setItem(key: string, value: string) {
        const others = [...map].filter(([held]) => held !== key).reduce((sum, [, text]) => sum + text.length, 0);
        if (others + value.length > room) throw new DOMException('full', 'QuotaExceededError');
        map.set(key, value);
      },
    },
  };
  const keeper = createKeeper({ fetch: around.fetch, storage: around.storage, now: NOW });
  return { around, keeper };
}

describe('a device away from its server', () => {
  it('lists and opens every card that its list once showed, dated as the server dated it', async () => {
    const { around, keeper } = bench([card('card-one', 'First'), card('card-two', 'Second')]);
    for (const { id } of (await keeper.list()).cards) await keeper.peek(id);
    around.server = false;
    const { cards, server } = await keeper.list();
    expect(server).toBe(false);
    expect(cards.map(({ title, changed }) => `${title} ${changed}`).toSorted()).toEqual([
      'First 2026-11-20T10:00:00Z',
      'Second 2026-11-20T10:00:00Z',
    ]);
    expect((await keeper.open('card-two'))?.revision).toBe(3);
  });

  it('never puts what the server holds in place of what was typed meanwhile', async () => {
    const { keeper } = bench([card('card-one', 'As the server has it')]);
    const looking = keeper.peek('card-one');
    keeper.keep(card('card-one', 'As it was typed'));
    await looking;
    expect((await keeper.peek('card-one'))?.title).toBe('As it was typed');
  });

  it('gives up what the server has, too, before what only it has', async () => {
    const { around, keeper } = bench([card('card-one', 'Saved'.repeat(20))], 400);
    await keeper.peek('card-one');
    expect(around.map.has('worth-the-heat.record.card-one')).toBe(true);
    around.server = false;
    keeper.keep(card('card-two', 'Typed'.repeat(40)));
    expect(around.map.get('worth-the-heat.record.card-two')).toContain('Typed');
    expect(around.map.has('worth-the-heat.record.card-one')).toBe(false);
  });
});
