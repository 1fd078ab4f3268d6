import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import type { Found } from '../../src/store/store.ts';
import { card, openBench, SHOP_TEMPLATE, temporaryFolder } from './bench-folder.ts';

const stored = (found: Found) => {
  if (found.kind !== 'found') throw new Error(`expected a record, got ${found.kind}`);
  return found.stored;
};

it('makes the data folder where it is missing, folders above it included', () => {
  const folder = join(temporaryFolder(), 'deep', 'down');
  openBench(folder);
  expect(existsSync(join(folder, 'records.sqlite'))).toBe(true);
  expect(existsSync(join(folder, 'shop.json'))).toBe(true);
});

it('has a record again after it was closed and opened', () => {
  const folder = temporaryFolder();
  const before = openBench(folder);
  expect(before.put(card('card-1'), null)).toEqual({ kind: 'stored', revision: 1 });
  before.close();
  const after = openBench(folder);
  expect(stored(after.get('card-1'))).toEqual({
    record: card('card-1'),
    revision: 1,
    changed: '2026-01-01T10:00:01.000Z',
    archived: false,
  });
});

it('has a record that was stored right before the power went', () => {
  const folder = temporaryFolder();
  // a process of its own that stores and kills itself without closing anything
  const script = `
    import { openStore } from ${JSON.stringify(new URL('../../src/store/sqlite-store.ts', import.meta.url).href)};
    const store = openStore({ folder: ${JSON.stringify(folder)}, shopTemplate: ${JSON.stringify(SHOP_TEMPLATE)} });
    store.put(${JSON.stringify(card('card-1'))}, null);
    process.kill(process.pid, 'SIGKILL');
  `;
  const cwd = fileURLToPath(new URL('../..', import.meta.url));
  const ended = spawnSync(process.execPath, ['--input-type=module', '--eval', script], { cwd, encoding: 'utf8' });
  expect(ended.stderr).toBe('');
  expect(ended.signal).toBe('SIGKILL');
  expect(stored(openBench(folder).get('card-1')).record).toEqual(card('card-1'));
});

it('keeps every revision, so that nothing typed is lost', () => {
  const store = openBench(temporaryFolder());
  store.put(card('card-1', 'first words'), null);
  store.put(card('card-1', 'second thoughts'), 1);
  expect(store.put(card('card-1', 'third'), 2)).toEqual({ kind: 'stored', revision: 3 });
  expect(store.history('card-1').map(({ revision }) => revision)).toEqual([1, 2, 3]);
  expect(stored(store.get('card-1', 1)).record.title).toBe('first words');
  expect(stored(store.get('card-1')).record.title).toBe('third');
  expect(store.get('card-1', 9)).toEqual({ kind: 'missing' });
});

it('refuses to write over a change made elsewhere, and shows it', () => {
  const folder = temporaryFolder();
  const here = openBench(folder);
  const there = openBench(folder);
  here.put(card('card-1', 'as it arrived'), null);
  there.put(card('card-1', 'changed there'), 1);
  const put = here.put(card('card-1', 'changed here'), 1);
  expect(put.kind === 'conflict' && stored(put.current).record.title).toBe('changed there');
  expect(stored(here.get('card-1')).revision).toBe(2);
  expect(here.put(card('card-1', 'changed here'), null).kind).toBe('conflict');
});

it('does not count the same record stored twice as a change, whatever it was based on', () => {
  const store = openBench(temporaryFolder());
  store.put(card('card-1'), null);
  // an answer that got lost on its way is asked for again
  expect(store.put(card('card-1'), null)).toEqual({ kind: 'stored', revision: 1 });
  expect(store.history('card-1')).toHaveLength(1);
});

it('takes in a record that an older folder already knew, so that nothing is stuck outside', () => {
  const store = openBench(temporaryFolder());
  expect(store.put(card('card-1'), 17)).toEqual({ kind: 'stored', revision: 1 });
});

it('stores nothing that does not read as a record, and says everything that is wrong', () => {
  const store = openBench(temporaryFolder());
  const bad = { ...card('card-1'), title: '', timeline: [{ type: 'note', at: 'yesterday', text: 'x' }] };
  const put = store.put(bad, null);
  expect(put.kind === 'bad-record' && put.issues.map(({ path }) => path)).toEqual(['title', 'timeline.0.at']);
  expect(store.list()).toEqual([]);
});

it('lists last changed first, with archived cards marked and not lost', () => {
  const store = openBench(temporaryFolder());
  store.put(card('card-1', 'one'), null);
  store.put(card('card-2', 'two'), null);
  expect(store.archive('card-1', true)).toBe(true);
  expect(store.archive('card-3', true)).toBe(false);
  store.put(card('card-1', 'one again'), 1);
  expect(store.list()).toEqual([
    {
      id: 'card-1',
      title: 'one again',
      changed: '2026-01-01T10:00:03.000Z',
      revision: 2,
      archived: true,
      invented: true,
    },
    { id: 'card-2', title: 'two', changed: '2026-01-01T10:00:02.000Z', revision: 1, archived: false, invented: true },
  ]);
  store.archive('card-1', false);
  expect(stored(store.get('card-1')).archived).toBe(false);
});

it('shows a stored text that no longer reads, with what is wrong, instead of dropping it', () => {
  const folder = temporaryFolder();
  const store = openBench(folder);
  store.put(card('card-1'), null);
  store.close();
  const database = new DatabaseSync(join(folder, 'records.sqlite'));
  database.exec(`UPDATE revisions SET body = '{"format": 1, "id": "card-1"}'`);
  database.close();
  const found = openBench(folder).get('card-1');
  expect(found.kind).toBe('unreadable');
  expect(found.kind === 'unreadable' && found.text).toBe('{"format": 1, "id": "card-1"}');
  expect(found.kind === 'unreadable' && found.issues.map(({ path }) => path)).toEqual(['title', 'timeline']);
});

it('leaves a folder of a newer version alone and says what to do', () => {
  const folder = temporaryFolder();
  openBench(folder).close();
  const path = join(folder, 'records.sqlite');
  const database = new DatabaseSync(path);
  database.exec('PRAGMA user_version = 99');
  database.close();
  expect(() => openBench(folder)).toThrow(/written by a newer version .*set WORTH_THE_HEAT_DATA to another folder/);
});

it('writes through to the disk: write-ahead log, full synchronisation', () => {
  const folder = temporaryFolder();
  openBench(folder).put(card('card-1'), null);
  const database = new DatabaseSync(join(folder, 'records.sqlite'), { readOnly: true });
  expect(database.prepare('PRAGMA journal_mode').get()!.journal_mode).toBe('wal');
  database.close();
});
