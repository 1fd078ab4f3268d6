import { execFile, spawn } from 'node:child_process';
import { closeSync, cpSync, existsSync, mkdtempSync, openSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { Assessment, NextAnswer } from '../../src/assessment.ts';
import { AuditAnswer, ExportAnswer, FactsAnswer, KnowledgeReportAnswer } from '../../src/knowledge/answers.ts';
import { Record as CardRecord } from '../../src/record/schema.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'worth-the-heat-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

function run(args: readonly string[], input = ''): Promise<Ran> {
  return new Promise((resolve) => {
    const child = execFile(
      process.execPath,
      [join(ROOT, 'src/cli/main.ts'), ...args],
      {
        cwd: ROOT,
        env: { ...process.env, WORTH_THE_HEAT_DATA: folder, NO_COLOR: '', FORCE_COLOR: undefined },
        maxBuffer: 64 * 1024 * 1024,
      },
      (error, out, err) => resolve({ code: error ? Number(error.code) : 0, out, err }),
    );
    child.stdin?.end(input);
  });
}

const CASE = 'cases/melted-connector.json';
const ESCAPE = String.fromCharCode(27);

describe('the command line', () => {
  it('prints a verdict, the next step and the causes for a record', async () => {
    const { code, out, err } = await run(['assess', CASE, '--draws', '50']);
    expect(code).toBe(0);
    expect(out).toMatch(/Verdict .*Replace the power connector/);
    expect(out).toContain('Where it points');
    expect(out).toContain('Burnt or melted power connector');
    expect(out).toContain('of 50 draws');
    expect(out).not.toContain(ESCAPE);
    expect(err).toBe('');
  });

  it.each([
    [['assess', CASE, '--draws', '20'], Assessment],
    [['next', CASE], NextAnswer],
    [['new', 'box-17'], CardRecord],
    [['audit'], AuditAnswer],
    [['audit', '--rules', 'no-such-folder'], AuditAnswer],
    [['knowledge'], ExportAnswer],
    [['knowledge', '--report'], KnowledgeReportAnswer],
    [['knowledge', '--facts'], FactsAnswer],
  ])('prints for %j --json what its published schema describes', async (args, schema) => {
    const { out, err } = await run([...args, '--json']);
    expect(err).toBe('');
    expect(schema.parse(JSON.parse(out))).toBeDefined();
  });

  it('reads a record from standard input, and begins one that it can assess', async () => {
    const made = await run([
      'new',
      'box-17',
      '--title',
      'Dead after transport',
      '--fact',
      'die-size=large',
      '--fact',
      'knocked=yes',
      '--fact',
      'owner-words=no-display',
      '--working',
      '420',
      '--as-is',
      '90',
      '--parts-after-work',
      '60',
    ]);
    expect(made.code).toBe(0);
    const { code, out } = await run(['next', '-'], made.out);
    expect(code).toBe(0);
    expect(out).toContain('Next');
  });

  it.each([
    [['assess'], /Name a record file/],
    [['assess', 'no-such-file.json'], /no such file/],
    [['assess', 'DEVELOPERS.md'], /no JSON from line 1, column 1 on, at # Developers/],
    [['audit', CASE], /takes options only/],
    [['knowledge', '--estimates', '--cases', 'no-such-folder'], /no-such-folder: there is no such folder/],
    [['knowledge', '--most', '3'], /add --estimates/],
    [['assess', CASE, '--max-faults', '9'], /whole number from 1 to 4/],
    [['assess', CASE, '--frobnicate'], /--help/],
    [['verdict'], /no command "verdict"/],
    [['assess', CASE, '--max-faults', '2', '--max-faults', '3'], /--max-faults is given more than once/],
    [['joint', '--ball', '-0.5', '--package-pad', '0.4', '--board-pad', '0.4'], /"-0\.5" cannot be the ball diameter/],
    [['letter', CASE, '--price', '-5'], /--price takes an amount of money, 0 or more; "-5"/],
    [['letter', CASE, '--price', '1e99'], /--price takes an amount of money up to 10000000/],
    [['new', 'Box 17'], /id/i],
    [['new', 'box-17', '--fact', 'die-size=enormous'], /die-size|die size/i],
    [['schemas', 'nothing'], /no schema "nothing"/],
    [['assess', CASE, '--rules', 'no-such-folder'], /no-such-folder/],
  ])('answers %j with exit code 1 and says what to do', async (args, words) => {
    const { code, out, err } = await run(args);
    expect(err).toMatch(words);
    expect(err).not.toContain('fault of the program');
    expect(out).toBe('');
    expect(code).toBe(1);
  });

  it.each([
    [
      'a field twice',
      '{"format":1,"id":"x","title":"this","title":"that","timeline":[]}',
      /"title" stands twice.*line 1/,
    ],
    ['another encoding', Buffer.from('{"format":1,"id":"x","title":"Prüfling","timeline":[]}', 'latin1'), /not UTF-8/],
    ['nothing', ' \n', /it is empty/],
    ['no object', 'null', /the record: A record is an object/],
    ['lists without end', '['.repeat(50_000) + ']'.repeat(50_000), /no JSON from line 1, column 502/],
  ])('loses nothing that was typed: a record with %s is refused', async (_, content, words) => {
    const path = join(folder, 'odd.json');
    writeFileSync(path, content);
    const { code, out, err } = await run(['assess', path]);
    expect(err).toMatch(words);
    expect([code, out]).toEqual([1, '']);
  });

  it('reads a record that begins with a byte-order mark', async () => {
    const path = join(folder, 'marked.json');
    writeFileSync(path, '\uFEFF{"format":1,"id":"x","title":"Marked","timeline":[]}');
    const { code, out } = await run(['assess', path, '--draws', '0']);
    expect([code, out.split('\n')[0]]).toEqual([0, 'Marked']);
  });

  it.skipIf(!existsSync('/dev/full'))('says in a line that an answer cannot be written', async () => {
    const full = openSync('/dev/full', 'w');
    const ended = await new Promise<{ code: number | null; err: string }>((resolve) => {
      const child = spawn(process.execPath, [join(ROOT, 'src/cli/main.ts'), 'audit'], {
        stdio: ['ignore', full, 'pipe'],
      });
      let err = '';
      child.stderr!.on('data', (chunk) => {
        err += chunk;
      });
      child.on('close', (code) => resolve({ code, err }));
    });
    closeSync(full);
    expect(ended).toMatchObject({ code: 1, err: expect.stringMatching(/^The answer cannot be written .*\n$/) });
  });

  it('holds the shop profile among the rules to what the knowledge knows', async () => {
    const rules = join(folder, 'rules');
    cpSync(join(ROOT, 'rules'), rules, { recursive: true });
    const shop = JSON.parse(readFileSync(join(rules, 'shop.json'), 'utf8'));
    writeFileSync(join(rules, 'shop.json'), JSON.stringify({ ...shop, equipment: [...shop.equipment, 'spoon'] }));
    const unknown = await run(['audit', '--rules', rules]);
    expect(unknown.out).toMatch(/rules\/shop\.json at equipment\[\d+\]: .*"spoon"/);
    writeFileSync(join(rules, 'shop.json'), JSON.stringify({ ...shop, margin: { fixed: -5, shareOfCost: 0.1 } }));
    const negative = await run(['audit', '--rules', rules]);
    expect(negative.out).toContain('rules/shop.json at margin.fixed: -5 is out of range');
    expect([unknown.code, negative.code]).toEqual([1, 1]);
  });

  it('names everything wrong with a bad record at once', async () => {
    const path = join(folder, 'bad.json');
    writeFileSync(path, JSON.stringify({ format: 1, id: 'Not An Id', title: '', timeline: [{ type: 'seen' }] }));
    const { code, err } = await run(['assess', path]);
    expect(code).toBe(1);
    expect(err.split('\n').filter((line) => line.trim() !== '').length).toBeGreaterThanOrEqual(3);
  });

  it('audits the knowledge, and exports it whole', async () => {
    const audited = await run(['audit']);
    expect(audited.code).toBe(0);
    expect(audited.out).toContain('sound');
    const exported = await run(['knowledge', '--json']);
    expect(exported.code).toBe(0);
    expect(JSON.parse(exported.out).faults.length).toBeGreaterThanOrEqual(49);
  });

  it('helps with every command without a manual', async () => {
    expect((await run(['help', 'assess'])).out).toBe((await run(['assess', '--help'])).out);
    expect((await run(['--version'])).out).toMatch(/^\d+\.\d+\.\d+\n$/);
    const overall = await run(['--help']);
    expect(overall.code).toBe(0);
    for (const name of ['assess', 'next', 'new', 'serve', 'audit', 'knowledge', 'schemas']) {
      expect(overall.out).toContain(`  ${name}`);
      const { code, out } = await run([name, '--help']);
      expect(code).toBe(0);
      expect(out).toContain(`usage: worth-the-heat ${name}`);
      expect(out).toContain('--json');
    }
  });
});
