import { execFile } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { RemediesAnswer } from '../../src/learning/answer.ts';
import { Shop } from '../../src/shop/schema.ts';
import { openStore } from '../../src/store/sqlite-store.ts';
import { inventedDays, reflowedCard } from '../learning/invented-cards.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'worth-the-heat-'));
const data = join(folder, 'data');
const files = join(folder, 'records');
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

function run(args: readonly string[], dataFolder = data): Promise<Ran> {
  return new Promise((resolve) => {
    execFile(
      process.execPath,
      [join(ROOT, 'src/cli/main.ts'), ...args],
      {
        cwd: ROOT,
        env: { ...process.env, WORTH_THE_HEAT_DATA: dataFolder, NO_COLOR: '', FORCE_COLOR: undefined },
        maxBuffer: 64 * 1024 * 1024,
      },
      (error, out, err) => resolve({ code: error ? Number(error.code) : 0, out, err }),
    );
  });
}

/** Invented cards; the bench of this test keeps them as its own. */
const cards = inventedDays(14, { medianDays: 90, shape: 1.1, followedDays: 300 }, 51).map((days, i) => {
  const { invented: _, ...record } = reflowedCard(`box-${i}`, days, 300);
  return record;
});

beforeAll(() => {
  mkdirSync(files);
  cards.forEach((card) => void writeFileSync(join(files, `${card.id}.json`), JSON.stringify(card)));
  const store = openStore({ folder: data, shopTemplate: join(ROOT, 'rules/shop.json') });
  for (const card of cards) expect(store.put(card, null).kind).toBe('stored');
  expect(store.put(reflowedCard('made-up', 3, 300), null).kind).toBe('stored');
  store.archive('box-3', true);
  store.close();
});

describe('worth-the-heat remedies', () => {
  it('tells of the bench’s own records how many were done, how many are back, survival with its interval and who is at risk', async () => {
    const { code, out, err } = await run(['remedies']);
    expect(code).toBe(0);
    expect(out).toContain('14 record(s)');
    expect(out).toContain('Reflow the core  [reflow-core]');
    expect(out).toContain('done 14 · left working 14');
    expect(out).toMatch(/came back \d+, of which [\d.]+ count against it/);
    for (const days of [30, 90, 180, 365])
      expect(out).toMatch(
        new RegExp(`${days} days {3}(still working +\\d+ of 100 {2}\\(\\d+ to \\d+\\) {3}\\d+ at risk|not known)`),
      );
    expect(out).toMatch(
      /Broken bumps[^\n]*\n {4}median 30 days in the book \(worth 8 relapses\) -> [\d.]+ days learnt/,
    );
    expect(out).toMatch(/Weibull law fitted: 63 of 100 back by day \d+, shape [\d.]+ \+- [\d.]+/);
    expect(err).toContain('1 invented card(s) left out');
  });

  it('draws the curve of each repair on a page, in the language asked for, with every step of the JSON in its table', async () => {
    const page = join(folder, 'lasting.html');
    const [{ code, out }, json] = await Promise.all([
      run(['remedies', '--html', page, '--language', 'de']),
      run(['remedies', '--json']),
    ]);
    expect([code, out]).toEqual([0, '']);
    const html = readFileSync(page, 'utf8');
    const [reflow] = RemediesAnswer.parse(JSON.parse(json.out)).remedies;
    expect(html).toContain('<html lang="de">');
    expect(html).toContain('<title id="lasting-reflow-core-title">Wie lange Karten hielten nach: ');
    expect(html.match(/<th scope="row">\d+<\/th>/g)).toHaveLength(reflow!.steps.length);
    expect(reflow!.steps[0]).toMatchObject({ days: 0, atRisk: 14 });
    const read = html.replace(/<style>[^<]*<\/style>|<[^>]+>/g, ' ');
    expect(/\b(still|days|undefined|NaN)\b/i.exec(read)).toBeNull();
    const refused = await run(['remedies', '--language', 'de']);
    expect([refused.code, refused.err]).toEqual([1, expect.stringContaining('--html')]);
  });

  it('tells the same of the same records in files, as JSON that its published schema describes', async () => {
    const [stored, named] = await Promise.all([run(['remedies', '--json']), run(['remedies', files, '--json'])]);
    const answer = RemediesAnswer.parse(JSON.parse(named.out));
    expect(answer.records).toBe(14);
    // records are added up in another order
    const [mine, theirs] = [RemediesAnswer.parse(JSON.parse(stored.out)), answer];
    expect(mine.remedies.map(({ done, back }) => [done, back])).toEqual(
      theirs.remedies.map(({ done, back }) => [done, back]),
    );
    mine.relapse.forEach(({ learnt }, i) => {
      expect(learnt.medianDays).toBeCloseTo(theirs.relapse[i]!.learnt.medianDays, 6);
    });
  });

  it('says plainly when the numbers are too few', async () => {
    const { out } = await run(['remedies', join(files, 'box-0.json'), join(files, 'box-1.json')]);
    expect(out).toContain('2 followed: too few to mean anything');
  });

  it('takes silence for a working card only where it is asked to, and no longer than the warranty', async () => {
    const card = cards[0]!;
    const path = join(folder, 'silent.json');
    const timeline = card.timeline.filter(({ type }) => type !== 'came-back' && type !== 'still-working');
    writeFileSync(path, JSON.stringify({ ...card, id: 'silent', timeline }));
    const [plain, asked] = await Promise.all([
      run(['remedies', path]),
      run(['remedies', path, '--silent-until', '2027-06-01']),
    ]);
    expect(plain.out).toContain('never heard of again 1 (count for nothing)');
    expect(asked.out).toContain('silence up to 2027-06-01 counted as working, within the warranty');
    expect(asked.out).toMatch(/90 days {3}still working 100 of 100/);
    expect(asked.out).toContain('365 days   not known: none was followed so long');
  });

  it('writes what was learnt into the shop profile, keeps the one before, and reads it back', async () => {
    const own = join(folder, 'own');
    const store = openStore({ folder: own, shopTemplate: join(ROOT, 'rules/shop.json') });
    for (const card of cards) store.put(card, null);
    store.close();
    const { code, err } = await run(['remedies', '--write', '--data', own]);
    expect(code).toBe(0);
    expect(err).toContain('shop.json.before');
    const shop = Shop.parse(JSON.parse(readFileSync(join(own, 'shop.json'), 'utf8')));
    expect(shop.learnt!.relapse.some(({ fault, basis }) => fault === 'core-bump-fracture' && basis === 'shop')).toBe(
      true,
    );
    expect(JSON.parse(readFileSync(join(own, 'shop.json.before'), 'utf8')).learnt).toBeUndefined();
    const again = await run(['assess', 'cases/bumps-after-the-oven.json', '--draws', '0'], own);
    expect(again.code).toBe(0);
  });

  it.each([
    [['remedies', 'no-such-file.json'], 'there is no such file'],
    [['remedies', '--silent-until', '2026-02-31'], '"2026-02-31" is not one'],
    [['remedies', '--data', '/no/records/here'], 'no records are kept here yet'],
    [['remedies', '--write', '--invented'], 'Invented cards teach nothing'],
    [['remedies', '--write', '--shop', 'rules/shop.json'], 'leave --shop out'],
    [['remedies', 'package.json'], 'package.json: format: The record does not say which format it is in.'],
    [['remedies', 'src/survival'], 'there is no record in this folder'],
  ])('says of %j what is wrong and what to do', async (args, words) => {
    const { code, err } = await run(args);
    expect(code).toBe(1);
    expect(err).toContain(words);
  });

  it('will not count one card twice', async () => {
    const { code, err } = await run(['remedies', files, join(files, 'box-0.json')]);
    expect(code).toBe(1);
    expect(err).toContain('The record "box-0" is there twice');
  });
});
