import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { dataFolder } from '../../src/store/data-folder.ts';
import { openBench, temporaryFolder } from './bench-folder.ts';

const shopOf = (store: ReturnType<typeof openBench>) => {
  const found = store.shop();
  if (!found.ok) throw new Error(JSON.stringify(found.problems));
  return found.shop;
};

it('starts a new bench with the default profile, in a file that the user may edit', () => {
  const folder = temporaryFolder();
  const store = openBench(folder);
  const path = join(folder, 'shop.json');
  expect(shopOf(store).format).toBe(1);
  const text = readFileSync(path, 'utf8');
  writeFileSync(path, text.replace(/"warrantyDays": \d+/, '"warrantyDays": 77'));
  expect(shopOf(store).warrantyDays).toBe(77);
});

it('does not touch a profile that is there', () => {
  const folder = temporaryFolder();
  const first = openBench(folder);
  first.putShop({ ...shopOf(first), name: 'My bench' });
  first.close();
  expect(shopOf(openBench(folder)).name).toBe('My bench');
});

it('says where a profile stops being JSON', () => {
  const folder = temporaryFolder();
  const store = openBench(folder);
  writeFileSync(join(folder, 'shop.json'), '{\n  "format": 1,\n  "name" "My bench"\n}\n');
  const found = store.shop();
  expect(found.ok).toBe(false);
  expect(!found.ok && found.problems[0]).toMatchObject({ file: join(folder, 'shop.json'), kind: 'bad-json' });
  expect(!found.ok && found.problems[0]!.wrong).toContain('line 3');
});

it('refuses a profile in another encoding, whose umlauts would come out as question marks', () => {
  const folder = temporaryFolder();
  const store = openBench(folder);
  const path = join(folder, 'shop.json');
  const text = readFileSync(path, 'utf8').replace(/"name": "[^"]*"/, '"name": "Werkstatt für Karten"');
  writeFileSync(path, Buffer.from(text, 'latin1'));
  const found = store.shop();
  expect(!found.ok && found.problems[0]).toMatchObject({ file: path, wrong: 'this is not UTF-8 text' });
  writeFileSync(path, text);
  expect(shopOf(store).name).toBe('Werkstatt für Karten');
});

it('says which figures of a profile are wrong, all at once, and stores none of them', () => {
  const folder = temporaryFolder();
  const store = openBench(folder);
  const bad = { ...shopOf(store), currency: 'euro', warrantyDays: -1 };
  const put = store.putShop(bad);
  expect(!put.ok && put.problems.map(({ path }) => path)).toEqual(['currency', 'warrantyDays']);
  expect(shopOf(store).currency).not.toBe('euro');
});

it('leaves what was edited by hand beside a profile stored by the program', () => {
  const folder = temporaryFolder();
  const store = openBench(folder);
  const before = readFileSync(join(folder, 'shop.json'), 'utf8');
  store.putShop({ ...shopOf(store), name: 'My bench' });
  expect(readFileSync(join(folder, 'shop.json.before'), 'utf8')).toBe(before);
});

it('says so when the profile was taken away while the program runs', () => {
  const folder = temporaryFolder();
  const store = openBench(folder);
  rmSync(join(folder, 'shop.json'));
  const found = store.shop();
  expect(!found.ok && found.problems[0]!.todo).toContain('a new one is made');
});

it.each([
  ['where the user says', { WORTH_THE_HEAT_DATA: '/bench/data' }, 'linux', '/bench/data'],
  ['by the XDG specification', { XDG_DATA_HOME: '/home/a/data' }, 'linux', '/home/a/data/worth-the-heat'],
  ['without one', {}, 'linux', '/home/a/.local/share/worth-the-heat'],
  ['ignoring a relative one, as it wants', { XDG_DATA_HOME: 'data' }, 'linux', '/home/a/.local/share/worth-the-heat'],
  ['on macOS', {}, 'darwin', '/home/a/Library/Application Support/worth-the-heat'],
  ['on Windows', { APPDATA: '/home/a/AppData' }, 'win32', '/home/a/AppData/worth-the-heat'],
] as const)('keeps the data %s', (_, env, platform, folder) => {
  expect(dataFolder(env, platform, '/home/a')).toBe(folder);
});
