import { execFile } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { LetterAnswer } from '../../src/letter/schema.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'worth-the-heat-letter-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

function letter(args: readonly string[], environment: NodeJS.ProcessEnv = {}): Promise<Ran> {
  return new Promise((resolve) => {
    execFile(
      process.execPath,
      [join(ROOT, 'src/cli/main.ts'), 'letter', ...args],
      { cwd: ROOT, env: { ...process.env, WORTH_THE_HEAT_DATA: folder, ...environment }, maxBuffer: 1 << 26 },
      (error, out, err) => resolve({ code: error ? Number(error.code) : 0, out, err }),
    );
  });
}

const CASE = 'cases/one-memory-chip.json';
const FEW = ['--draws', '20'];
const DAY = ['--date', '2026-04-20'];

describe('worth-the-heat letter', () => {
  it('prints the page as plain text, dated, valid, with advice first', async () => {
    const { code, out, err } = await letter([CASE, ...FEW, ...DAY]);
    expect(err).toBe('');
    expect(code).toBe(0);
    expect(out).toMatch(/Date 20 April 2026 · Valid until 4 May 2026/);
    expect(out).toMatch(/OUR ADVICE\nThe repair is worth it\nReplacing one memory chip/);
    for (const heading of ['WHAT CAME IN', 'WHAT WE FOUND', 'YOUR CHOICES', 'WHAT THIS RESTS ON', 'YOUR DECISION'])
      expect(out).toContain(`\n${heading}\n`);
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(110);
  });

  it('prints the value itself with --json, as its schema says', async () => {
    const { code, out } = await letter([CASE, ...FEW, ...DAY, '--json', '--paper', 'letter', '--language', 'de']);
    expect(code).toBe(0);
    const answer = LetterAnswer.parse(JSON.parse(out));
    expect(answer.kind === 'letter' && [answer.language, answer.paper, answer.title]).toEqual([
      'de',
      'letter',
      'Die Reparatur lohnt sich',
    ]);
  });

  it('writes the page as HTML, prints nothing then, and warns of a price that one side loses by', async () => {
    const file = join(folder, 'page.html');
    const { code, out, err } = await letter([CASE, ...FEW, ...DAY, '--html', file, '--price', '20']);
    expect(code).toBe(0);
    expect(out).toBe('');
    expect(err).toMatch(/^At €20 the shop loses\. .*\nWrote .*page\.html\.\n$/);
    expect(readFileSync(file, 'utf8')).toContain('€20');
  });

  it('says what to do where there is no Chromium to print with', async () => {
    const file = join(folder, 'page.pdf');
    const { code, err } = await letter([CASE, ...FEW, '--pdf', file], { CHROMIUM: join(folder, 'no-such-browser') });
    expect(code).toBe(1);
    expect(err).toMatch(
      /There is no Chromium here to print with\. Install one .* or name one in the variable CHROMIUM/,
    );
    expect(err).toContain('--html');
    expect(existsSync(file)).toBe(false);
  });

  it.each([
    [['--paper', 'a5'], '--paper takes a4 or letter; "a5" is neither.'],
    [['--language', 'fr'], '--language takes en or de; "fr" is neither.'],
    [['--price', 'cheap'], '--price takes an amount of money, 0 or more; "cheap" is not one.'],
    [['--date', '2026-02-30'], '--date takes a day as year-month-day, such as 2026-03-31; "2026-02-30" is not one.'],
    [['--html', '/no/such/folder/page.html'], 'the page could not be written'],
  ])('refuses %j with the words that help', async (flags, words) => {
    const { code, err } = await letter([CASE, ...FEW, ...flags]);
    expect(code).toBe(1);
    expect(err).toContain(words);
  });

  it('has no letter for a record that cannot be used, and says everything wrong with it', async () => {
    const file = join(folder, 'bad.json');
    writeFileSync(file, JSON.stringify({ format: 1, id: 'bad', title: 'Bad', timeline: [{ type: 'seen' }] }));
    const { code, out, err } = await letter([file]);
    expect([code, out]).toEqual([1, '']);
    expect(err).toContain('this record cannot be used as it is');
    const json = await letter([file, '--json']);
    expect(json.code).toBe(1);
    expect(LetterAnswer.parse(JSON.parse(json.out)).kind).toBe('bad-record');
  });

  it('is in the overall help, and its own help names every flag', async () => {
    const { out } = await letter(['--help']);
    for (const flag of ['--html', '--pdf', '--paper', '--price', '--language', '--date', '--draws', '--json'])
      expect(out).toContain(flag);
  });
});
