import { execFile } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { WorksheetAnswer } from '../../src/work-order/schema.ts';
import { card, orderFor, workedUpTo } from '../work-order/cards.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'worth-the-heat-worksheet-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

function worksheet(...args: readonly string[]): Promise<Ran> {
  return new Promise((resolve) => {
    execFile(
      process.execPath,
      [join(ROOT, 'src/cli/main.ts'), 'worksheet', ...args],
      { cwd: ROOT, env: { ...process.env, WORTH_THE_HEAT_DATA: folder }, maxBuffer: 1 << 26 },
      (error, out, err) => resolve({ code: error ? Number(error.code) : 0, out, err }),
    );
  });
}

const CASE = 'cases/ball-crack-on-a-dear-card.json';

describe('worth-the-heat worksheet', () => {
  it('prints the job sheet of the advised remedy: what it melts, bake, heat, targets, hold points, cautions in full', async () => {
    const { code, out, err } = await worksheet(CASE);
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/^WORK ORDER {2}Reball the core, leaded balls/);
    expect(out).toContain('(an invented card)');
    for (const heading of ['Solder ', 'Bake ', 'Heat ', 'Profile ', 'HOLD POINTS', 'CAUTIONS'])
      expect(out).toContain(heading);
    const order = await orderFor(card('ball-crack-on-a-dear-card'));
    const flat = out.replace(/\s+/g, ' ');
    for (const { text } of order.cautions) expect(flat).toContain(text.replace(/\s+/g, ' '));
    for (const { name } of order.steps) expect(out).toContain(name);
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThanOrEqual(160);
  });

  it('prints the job sheet in German, and writes the page in it', async () => {
    const { code, out, err } = await worksheet(CASE, '--language', 'de');
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/^ARBEITSAUFTRAG {2}Kern reballen, bleihaltige Kugeln/);
    expect(out).toContain('VORBEREITEN');
    expect(out).toContain('Kein Druck auf Kolben oder Litze');
    expect(out).not.toMatch(/Must be so|Record:|µm/);
    const file = join(folder, 'auftrag.html');
    await worksheet(CASE, '--language', 'DE', '--html', file);
    expect(readFileSync(file, 'utf8')).toContain('<html lang="de">');
    const refused = await worksheet(CASE, '--language', 'fr');
    expect([refused.code, refused.out]).toEqual([1, '']);
    expect(refused.err).toContain('--language takes en or de; "fr" is neither.');
  });

  it('prints the value itself with --json, as its schema says', async () => {
    const { code, out } = await worksheet(CASE, '--json', '--remedy', 'replace-power-stage');
    expect(code).toBe(0);
    expect(WorksheetAnswer.parse(JSON.parse(out))).toMatchObject({ kind: 'order', remedy: 'replace-power-stage' });
  });

  it('writes the sheet as one HTML file for paper of either size', async () => {
    const file = join(folder, 'sheet.html');
    const { code, out, err } = await worksheet(CASE, '--html', file, '--paper', 'letter');
    expect([code, out]).toEqual([0, '']);
    expect(err).toBe(`Wrote ${file}.\n`);
    const html = readFileSync(file, 'utf8');
    expect(html).toContain('@page{size:letter portrait');
    expect(html).toContain('an invented card');
    expect(html).not.toMatch(/<script|src=|href=|@import|url\(/);
  });

  it('shows where work that has begun stands, and what comes now after a hold point that failed', async () => {
    const arrived = card('ball-crack-on-a-dear-card');
    const order = await orderFor(arrived);
    const record = workedUpTo(order, arrived, 'grid-after-cleaning');
    const file = join(folder, 'begun.json');
    const last = record.timeline.at(-1)!;
    if (last.type !== 'treated') throw new Error('work must have begun');
    last.process!.steps.push({ step: 'grid-after-cleaning', at: last.process!.steps.at(-1)!.at, outcome: 'failed' });
    writeFileSync(file, JSON.stringify(record));
    const { code, out } = await worksheet(file);
    expect(code).toBe(0);
    expect(out).toContain('> Stopped at "Ball grid intact after cleaning".');
    expect(out).toContain('[x]  9 Every ball wetted and in line'.replace('[x]', '[ ]'));
    expect(out).toContain('[!] 10 Ball grid intact after cleaning');
  });

  it('says what is out of order in a record, and ends with an error', async () => {
    const arrived = card('ball-crack-on-a-dear-card');
    const at = arrived.timeline.at(-1)!.at;
    const steps = [{ step: 'first-image', at, outcome: 'passed' }];
    const treated = { type: 'treated', at, remedy: 'reball-core-leaded', worked: null, process: { steps } };
    const file = join(folder, 'jumped.json');
    writeFileSync(file, JSON.stringify({ ...arrived, timeline: [...arrived.timeline, treated] }));
    const { code, err } = await worksheet(file);
    expect(code).toBe(1);
    expect(err).toContain('"Last the image" is recorded before "The card as it is, on record".');
  });

  it.each([
    [['--remedy', 'reball-cor'], '"reball-cor" is no remedy that is known here. Nearest are '],
    [['--level', '7'], '--level takes one of 1, 2, 2a, 3, 4, 5, 5a, 6; "7" is none of them.'],
    [['--thickness', 'thin'], '--thickness takes a number above nought up to 20; "thin" is not one.'],
    [['--hours', '-1'], '--hours takes a number from nought; "-1" is not one.'],
    [['--room', 'cellar'], '--room takes within or worse; "cellar" is neither.'],
    [['--paper', 'a5'], '--paper takes a4 or letter; "a5" is neither.'],
    [['--window', 'no-such-file.json'], 'no-such-file.json: there is no such file. Name a window file.'],
    [['--html', '/no/such/folder/sheet.html'], 'the sheet could not be written'],
  ])('refuses %j with the words that help', async (flags, words) => {
    const joined = flags[1]!.startsWith('-') ? [`${flags[0]}=${flags[1]}`] : flags;
    const { code, out, err } = await worksheet(CASE, ...joined);
    expect([code, out]).toEqual([1, '']);
    expect(err).toContain(words);
  });

  it('has no order where no work is advised, and says how to see one all the same', async () => {
    const { code, err } = await worksheet('cases/works-in-another-computer.json');
    expect(code).toBe(1);
    expect(err).toContain(
      'no work is advised, so there is no order. Choose a remedy to see its order all the same. (--remedy <id>)',
    );
  });

  it('records a hold point with what was seen there, and prints the record that has it', async () => {
    const arrived = card('ball-crack-on-a-dear-card');
    const order = await orderFor(arrived);
    const file = join(folder, 'rim.json');
    writeFileSync(file, JSON.stringify(workedUpTo(order, arrived, 'rim-looked-at')));
    const step = [file, '--step', 'rim-looked-at', '--at', '2027-06-01T10:00:00Z'];
    const { code, out } = await worksheet(
      ...step,
      '--outcome',
      'failed',
      '--seen',
      'ball-grid=bridged',
      '--note',
      'west row',
    );
    expect(code).toBe(0);
    const timeline = JSON.parse(out).timeline;
    expect(timeline.at(-1)).toMatchObject({ finding: 'ball-grid', state: 'bridged', step: 'rim-looked-at' });
    expect(timeline.at(-2).process.steps.at(-1)).toEqual({
      step: 'rim-looked-at',
      at: '2027-06-01T10:00:00Z',
      outcome: 'failed',
      note: 'west row',
    });
    const refused = await worksheet(...step, '--outcome', 'passed', '--seen', 'ball-grid=bridged');
    expect([refused.code, refused.out]).toEqual([1, '']);
    expect(refused.err).toContain('bridged" this hold point has failed.');
  });

  it('closes the work with whether the card works', async () => {
    const arrived = card('ball-crack-on-a-dear-card');
    const file = join(folder, 'works.json');
    writeFileSync(file, JSON.stringify(workedUpTo(await orderFor(arrived), arrived, 'load-held')));
    const { out } = await worksheet(file, '--works', 'yes');
    expect(JSON.parse(out).timeline.at(-1)).toMatchObject({ type: 'treated', worked: true });
  });

  it.each([
    [['--note', 'x'], '--note belongs to a hold point: name it with --step.'],
    [['--step', 'baked'], '--outcome takes passed, failed, left-out; it is missing.'],
    [['--step', 'baked', '--outcome', 'ok'], '"ok" is none of them.'],
    [['--step', 'baked', '--outcome', 'passed', '--at', 'noon'], '--at takes a date with time and zone'],
    [
      ['--step', 'baked', '--outcome', 'passed', '--seen', 'ball-grid'],
      '--seen takes a finding, "=" and what was found',
    ],
    [['--step', 'baked', '--works', 'yes'], '--step and --works are two records: give one after the other.'],
    [['--works', 'perhaps'], '--works takes yes or no; "perhaps" is neither.'],
    [['--works', 'yes'], 'No work has touched this card yet'],
  ])('records nothing with %j, and says why', async (flags, words) => {
    const { code, out, err } = await worksheet(CASE, ...flags);
    expect([code, out]).toEqual([1, '']);
    expect(err).toContain(words);
  });

  it('names every flag in its help', async () => {
    const { out } = await worksheet('--help');
    for (const flag of [
      '--remedy',
      '--alloy',
      '--level',
      '--thickness',
      '--side',
      '--hours',
      '--room',
      '--window',
      '--html',
      '--pdf',
      '--paper',
      '--step',
      '--outcome',
      '--works',
      '--json',
    ])
      expect(out).toContain(flag);
  });
});
