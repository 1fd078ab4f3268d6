import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { JointAnswer } from '../../src/ball-grid/answer.ts';
import { LIFE_IS_A_COMPARISON } from '../../src/joints/fatigue.ts';
import { publishedSchemas } from '../../src/knowledge/published.ts';
import { Balls } from '../../src/record/balls.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));

function run(...args: readonly string[]): Promise<{ code: number; out: string; err: string }> {
  return new Promise((resolve) => {
    execFile(process.execPath, [join(ROOT, 'src/cli/main.ts'), 'joint', ...args], { cwd: ROOT }, (error, out, err) =>
      resolve({ code: error ? Number(error.code) : 0, out, err }),
    );
  });
}

const PADS = ['--ball', '0.6', '--package-pad', '0,45', '--board-pad', '450 µm'];
const USE = ['--swing', '55', '--hottest', '85 °C', '--cycles', '3'];

describe('worth-the-heat joint', () => {
  it('tells a ball on its pads: stand-off, gap, how far it may sink, and the land as IPC-7095 is quoted', async () => {
    const { code, out, err } = await run(...PADS, '--pitch', '1');
    expect([code, err]).toEqual([0, '']);
    expect(out).toContain('Stand-off 0.437 mm after collapse, widest 0.627 mm, at a pitch of 1 mm.');
    expect(out).toContain('Gap to the neighbour 0.373 mm');
    expect(out).toMatch(/Neighbours touch where the package stands at 0\.\d+ mm: it may sink 0\.\d+ mm/);
    expect(out).toContain('Board pad 0.45 mm fits a ball of 0.6 mm: land 0.45 mm, 0.4 to 0.5 mm (IPC-7095, quoted).');
    expect(out).toContain('a real joint is lower and wider');
  });

  it('judges voids given one by one or together by each revision on its own', async () => {
    const one = await run('--image', '0.5', '--void', '0.15', '--void', '0.2', '--void', '50 µm');
    expect(one.out).toMatch(
      /revision D\/E: at most 25 %, BEYOND \(quoted\)\.\n.*revision F and later: at most 30 %, within/,
    );
    expect((await run('--image', '0.5', '--void', '0.15 0.2 0.05')).out).toBe(one.out);
  });

  it('compares leaded with lead-free against a reference, and says what that is not', async () => {
    const { out } = await run(
      ...USE,
      '--reference-swing',
      '100',
      '--reference-hottest',
      '100',
      '--reference-cycles',
      '24',
    );
    expect(out).toContain('The reference, as stated: 100 K up to 100 °C, 24 cycles a day.');
    expect(out).toMatch(/Lead-free: [\d.]+ to [\d.]+ times as many cycles/);
    expect(out).toContain('none is agreed on: the range is the answer');
    expect(out).toContain(LIFE_IS_A_COMPARISON);
  });

  it('answers in JSON as its published schema says; what was given fits a record as it stands', async () => {
    const { out } = await run(...PADS, '--pitch', '1', ...USE, '--ball-alloy', 'sac305', '--json');
    const answer = JSON.parse(out) as unknown;
    const parsed = JointAnswer.parse(answer);
    expect(parsed).toMatchObject({ kind: 'joint', given: { ballMillimetres: 0.6, ballAlloy: 'SAC305' } });
    if (parsed.kind !== 'joint') throw new Error('refused');
    expect(Balls.safeParse(parsed.given).success).toBe(true);
    const published = publishedSchemas().get('joint');
    const reader = z.fromJSONSchema(published as Parameters<typeof z.fromJSONSchema>[0]);
    expect(reader.safeParse(answer).error).toBeUndefined();
  });

  it('refuses everything that is wrong at once, by its option, and exits with 1', async () => {
    const args = ['--ball', '0.6.1', '--package-pad', '450', '--pitch', '1 V', '--void', 'many'];
    const { code, out, err } = await run(...args);
    expect([code, out]).toEqual([1, '']);
    expect(err.trim().split('\n')).toEqual([
      '--ball: "0.6.1" is not one number. Type one number with one decimal mark, such as 0.6 or 0,6.',
      '--package-pad: "450" cannot be the package pad. Give a figure above 0 and up to 5 mm.',
      expect.stringContaining('--pitch: "V" is volt, but this reading is in millimetres.'),
      expect.stringContaining('--void: "many" is not a number.'),
    ]);
    const json = await run(...args, '--json');
    expect([json.code, json.err]).toEqual([1, '']);
    const parsed = JointAnswer.parse(JSON.parse(json.out));
    expect(parsed).toMatchObject({ kind: 'refused', problems: [{ field: '--ball', typed: '0.6.1' }, {}, {}, {}] });
  });

  it.each([
    [
      ['--ball', '0.6'],
      ['--package-pad: It is missing.', '--board-pad: It is missing.'],
    ],
    [['--void', '0.1'], ['--image: It is missing. Give it: across a ball in its X-ray image.']],
    [
      ['--swing', '40', '--reference-swing', '40'],
      ['--hottest: It is missing.', '--reference-hottest: It is missing.'],
    ],
    [
      [...PADS, '--pitch', '0.45'],
      ['--package-pad: The package pad of 0.45 mm is as wide as the pitch', '--board-pad:'],
    ],
    [['--image', '0.5', '--void', '0.6'], ['--void: A void of 0.6 mm is wider than its ball']],
    [['--ball-alloy', 'SAC999'], ['--ball-alloy: "SAC999" is no alloy of the table. Choose one of Sn63Pb37']],
    [['--pad-alloy', 'SAC305'], ['--ball-alloy: It is missing. Name the alloy of the balls, too.']],
    [
      ['--strain', '0.01', '--dwell', '60'],
      ['--swing: It is missing.', '--cycles: It is missing.'],
    ],
    [[], ['Nothing was asked. Give --ball']],
    [['0.6'], ['joint takes options only, and "0.6" is none.']],
    [['--language', 'fr', ...PADS], ['--language takes en or de; "fr" is neither.']],
  ])('refuses %j and says what to do', async (args, said) => {
    const { code, out, err } = await run(...args);
    expect([code, out]).toEqual([1, '']);
    for (const part of said) expect(err).toContain(part);
  });

  it('speaks German where it is asked to, and tells its options in its help', async () => {
    expect((await run(...PADS, '--language', 'de')).out).toContain('Abstand 0,437 mm nach dem Zusammensinken');
    const { code, out } = await run('--help');
    expect(code).toBe(0);
    for (const flag of ['--ball', '--package-pad', '--left', '--void', '--reference-life', '--strain', '--json'])
      expect(out).toContain(flag);
    expect(out).toContain('an estimate, and the answer says so');
  });
});
