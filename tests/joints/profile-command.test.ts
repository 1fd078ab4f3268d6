import { execFile } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { ProfileAnswer } from '../../src/knowledge/profile-answer.ts';
import { publishedSchemas } from '../../src/knowledge/published.ts';
import { fileOf, GOOD, GOOD_BUT_SHORT, sample } from './made-profiles.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'profiles-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function run(args: readonly string[], input = ''): Promise<{ code: number; out: string; err: string }> {
  return new Promise((resolve) => {
    const child = execFile(
      process.execPath,
      [join(ROOT, 'src/cli/main.ts'), 'profile', ...args],
      { cwd: ROOT, maxBuffer: 64 * 1024 * 1024 },
      (error, out, err) => resolve({ code: error ? Number(error.code) : 0, out, err }),
    );
    child.stdin?.end(input);
  });
}

function write(name: string, text: string | Buffer): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

const FORM = { separator: ',', decimal: '.', unit: 'C', header: true, time: 's' } as const;
const good = write('good.csv', fileOf(sample(GOOD, 0.5, 0.1), FORM));
const short = write('short.csv', fileOf(sample(GOOD_BUT_SHORT, 0.5, 0.1), FORM));
const SIZE = ['--thickness', '2.6', '--volume', '3000'];

describe('worth-the-heat profile', () => {
  it('says in words that a good profile is inside, with each quantity and its bounds', async () => {
    const { code, out, err } = await run([good, ...SIZE]);
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/^The profile is inside J-STD-020D lead-free\.\n/);
    expect(out).toMatch(/Time above 217 °C +71\.5\d? ±0\.\d+ s +60 to 150 s +inside/);
    expect(out).toContain('not a recipe');
    expect(out).toContain('profile-record in-window 1.00');
  });

  it('answers as its published schema says, in JSON', async () => {
    const { out } = await run([short, ...SIZE, '--json']);
    const answer = JSON.parse(out) as unknown;
    const parsed = ProfileAnswer.parse(answer);
    expect(parsed).toMatchObject({ kind: 'judged', grade: 'outside' });
    const published = publishedSchemas().get('profile');
    const reader = z.fromJSONSchema(published as Parameters<typeof z.fromJSONSchema>[0]);
    expect(reader.safeParse(answer).error).toBeUndefined();
  });

  it('reads from standard input, and in Fahrenheit', async () => {
    const text = fileOf(sample(GOOD, 0.5, 0.1), { ...FORM, unit: 'F', header: false }, 2);
    expect((await run(['-', ...SIZE], text)).err).toContain('State the unit (--unit C or --unit F)');
    expect((await run(['-', ...SIZE, '--unit', 'F'], text)).out).toContain('The profile is inside');
  });

  it('judges by the shop’s own window', async () => {
    const window = {
      name: 'leaded, large core',
      levels: { soakFrom: 100, soakTo: 150, liquidus: 183 },
      limits: { peak: { atMost: 220 } },
    };
    const own = write('own.json', JSON.stringify(window));
    expect((await run([good, '--window', own])).out).toContain(
      'OUTSIDE the shop\'s window "leaded, large core": peak too high',
    );
    const broken = write('broken.json', JSON.stringify({ ...window, limits: { peek: { atMost: 220 } } }));
    const refused = await run([good, '--window', broken]);
    expect([refused.code, refused.err]).toEqual([1, expect.stringContaining('this is no reflow window')]);
    expect(refused.err).toContain('line 1, limits.peek: nothing reads "peek" here');
    expect((await run([good, '--window', own, '--alloy', 'leaded'])).err).toContain(
      "a window of the shop's own says it all",
    );
  });

  it.each([
    ['{\n  "name": "x",\n  "levels": {,}\n}', 'this is no JSON from line 3, column 14 on'],
    ['{\n  "name": "x",\n  "name": "y"\n}', '"name" stands twice in one object, the second time at line 3, column 3'],
    ['{\n  "name": "x",\n  "levels": {\n    "soakFrom": "100"\n  }\n}', 'line 4, levels.soakFrom: "100" is a text'],
    ['', 'it is empty. A window is a JSON object'],
    [Buffer.from('{"name": "f\xfcr Blei"}', 'latin1'), 'this is not UTF-8 text'],
  ])('reads a window as strictly as a record: %j', async (content, words) => {
    const file = write('strict.json', content);
    const { code, err } = await run([good, '--window', file]);
    expect(code).toBe(1);
    expect(err).toContain(`strict.json: `);
    expect(err).toContain(words);
  });

  it.each([
    [[], 'Name a logger'],
    [['no-such.csv'], 'there is no such file'],
    [[folder], 'that is a folder'],
    [[good, '--alloy', 'gold'], 'takes leaded, lead-free, Sn63Pb37'],
    [[good, '--alloy', 'Sn42Bi58'], 'has no class for Sn42Bi58'],
    [[good, '--thickness', 'thin'], '--thickness takes a number above nought'],
    [[good, '--unit', 'K'], '--unit takes C or F'],
    [[good, '--channel', 'die'], 'Channels here: TC1'],
    [[join(ROOT, 'README.md')], 'no profile can be read from this'],
  ])('refuses %j with what to do', async (args, said) => {
    const { code, out, err } = await run(args);
    expect([code, out]).toEqual([1, '']);
    expect(err).toContain(said);
  });

  it('tells of an unreadable file in JSON, too', async () => {
    const { code, out } = await run([join(ROOT, 'README.md'), '--json']);
    expect(code).toBe(1);
    expect(ProfileAnswer.parse(JSON.parse(out)).kind).toBe('unreadable');
  });

  it('names faulty lines behind the verdict', async () => {
    const lines = fileOf(sample(GOOD, 0.5, 0.1), FORM).split('\n');
    lines[100] = '49.5,hot';
    const { out } = await run([write('faulty.csv', lines.join('\n')), ...SIZE]);
    expect(out).toContain('line 101, column 2: "hot" in "TC1 (°C)" is no temperature');
  });
});
