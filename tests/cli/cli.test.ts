import { execFile } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
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
    [['assess', 'DEVELOPERS.md'], /not JSON/],
    [['assess', CASE, '--max-faults', '9'], /whole number from 1 to 4/],
    [['assess', CASE, '--frobnicate'], /--help/],
    [['verdict'], /no command "verdict"/],
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
