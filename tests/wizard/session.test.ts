import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Record } from '../../src/record/schema.ts';
import { place } from '../../src/wizard/address.ts';
import { createAdviser } from '../../src/wizard/adviser.ts';
import { answerFact, factAnswer } from '../../src/wizard/desk.ts';
import { createDrafts } from '../../src/wizard/drafts.ts';
import { createKeeper } from '../../src/wizard/keeper.ts';
import { createSession } from '../../src/wizard/session.ts';

const AT = '2026-11-24T09:00:00Z';
const worked: Record = {
  format: 1,
  id: 'worked-case',
  title: 'A worked case',
  invented: true,
  worked: { why: 'to learn from', expects: { verdict: ['reflow'] } },
  timeline: [{ type: 'arrived', at: AT, facts: { mined: false } }],
};

function makeStorage() {
  const map = new Map<string, string>();
  return {
    get length() {
      return map.size;
    },
    key: (index: number) => [...map.keys()][index] ?? null,
    getItem: (key: string) => map.get(key) ?? null,
    setItem: (key: string, value: string) => void map.set(key, value),
    removeItem: (key: string) => void map.delete(key),
  };
}

type Answer = (path: string, init?: RequestInit) => Promise<Response>;

const away: Answer = async (path) =>
  path === 'api/cases/worked-case'
    ? new Response(JSON.stringify({ record: worked }))
    : new Response(JSON.stringify({ wrong: 'the server is away' }), { status: 503 });

function openWindow(storage = makeStorage(), fetch = away) {
  const now = () => new Date(AT);
  const keeper = createKeeper({ fetch, storage, now });
  const adviser = createAdviser(() => ({ postMessage: () => {}, addEventListener: () => {} }), null);
  const session = createSession({
    adviser,
    keeper,
    drafts: createDrafts(storage),
    fetch,
    now,
    chance: () => 0.5,
    locale: 'en',
    shopProblem: null,
  });
  return { session, keeper, storage };
}

beforeEach(() => {
  vi.useFakeTimers();
  vi.stubGlobal('history', { pushState: () => {}, replaceState: () => {} });
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
  place.value = { screen: 'bench' };
});

describe('the open card', () => {
  it("becomes a card of one's own with the first answer to a worked case, and one keystroke takes that answer back", async () => {
    const { session } = openWindow();
    place.value = { screen: 'case', id: 'worked-case', step: 'card' };
    await session.follow(place.value);
    session.edit((record, at) => answerFact(record, 'mined', true, at));
    const mine = session.desk.value!.record;
    expect(mine.id).not.toBe('worked-case');
    expect(mine.worked).toBeUndefined();
    session.undo();
    expect(session.desk.value!.record).toEqual({ ...mine, timeline: worked.timeline });
  });

  it('follows what another window of this device writes on it, and undo leads back to what this one showed', async () => {
    const storage = makeStorage();
    const [here, there] = [openWindow(storage), openWindow(storage)];
    here.session.newCard();
    const opened = here.session.desk.value!.record;
    await there.session.follow({ screen: 'card', id: opened.id, step: 'card' });
    there.session.edit((record, at) => answerFact(record, 'mined', true, at));
    here.keeper.hear(`worth-the-heat.record.${opened.id}`);
    expect(factAnswer(here.session.desk.value!.record, 'mined')).toBe(true);
    here.session.undo();
    expect(here.session.desk.value!.record).toEqual(opened);
  });

  it('takes the version of another device if asked, and undo leads back to what was typed here', async () => {
    let held: Record | null = null;
    const other: Answer = async (path, init) => {
      if (!path.startsWith('api/records/') || held === null) return away(path);
      const status = init?.method === 'PUT' && !String(init.body).includes('"revision":7') ? 409 : 200;
      return new Response(JSON.stringify({ record: held, revision: 7 }), { status });
    };
    const { session, keeper } = openWindow(makeStorage(), other);
    session.newCard();
    const opened = session.desk.value!.record;
    held = answerFact(opened, 'mined', false, AT);
    session.edit((record, at) => answerFact(record, 'mined', true, at));
    await vi.advanceTimersByTimeAsync(1_000);
    expect(keeper.keeping.value).toMatchObject({ state: 'changed-elsewhere' });
    await session.settle('theirs');
    expect(factAnswer(session.desk.value!.record, 'mined')).toBe(false);
    session.undo();
    expect(factAnswer(session.desk.value!.record, 'mined')).toBe(true);
    await vi.advanceTimersByTimeAsync(1_000);
    expect(keeper.keeping.value, 'and what undo brought back is sent as the newer version').toEqual({ state: 'saved' });
  });

  it('takes back in one step what a pasted block put into the record and what it left aside, and brings back both', () => {
    const { session } = openWindow();
    session.newCard();
    session.drafts.set('known-good-resistance-core', 'was here');
    const aside = new Map([
      ['reading-resistance-memory', 'n/a'],
      ['known-good-resistance-core', null],
    ]);
    session.editWithDrafts((record, at) => answerFact(record, 'mined', true, at), aside);
    expect([...session.drafts.texts.value]).toEqual([['reading-resistance-memory', 'n/a']]);
    session.undo();
    expect(factAnswer(session.desk.value!.record, 'mined')).toBeUndefined();
    expect([...session.drafts.texts.value]).toEqual([['known-good-resistance-core', 'was here']]);
    session.redo();
    expect(factAnswer(session.desk.value!.record, 'mined')).toBe(true);
    expect([...session.drafts.texts.value]).toEqual([['reading-resistance-memory', 'n/a']]);
    session.edit((record, at) => answerFact(record, 'mined', false, at));
    session.undo();
    expect([...session.drafts.texts.value], 'another step leaves them').toHaveLength(1);
  });

  it('takes back what only went aside, and not the answer before it', () => {
    const { session } = openWindow();
    session.newCard();
    session.edit((record, at) => answerFact(record, 'mined', true, at));
    session.editWithDrafts((record) => record, new Map([['reading-resistance-core', 'n/a']]));
    session.undo();
    expect(session.drafts.texts.value.size).toBe(0);
    expect(factAnswer(session.desk.value!.record, 'mined')).toBe(true);
  });
});
