import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readCell, readMoment } from '../../src/joints/log-cells.ts';
import { type ReadLogOptions, readThermocoupleLog, type ThermocoupleLog } from '../../src/joints/thermocouple-log.ts';
import { type FileForm, fileOf, GOOD, sample } from './made-profiles.ts';

async function read(text: string | Iterable<string>, options?: ReadLogOptions): Promise<ThermocoupleLog> {
  const log = await readThermocoupleLog(text, options);
  if (log.kind === 'unreadable') throw new Error(log.problems.map(({ line, wrong }) => `${line}: ${wrong}`).join('\n'));
  return log;
}

async function refused(text: string, options?: ReadLogOptions) {
  const log = await readThermocoupleLog(text, options);
  if (log.kind === 'log') throw new Error('this was read');
  return log.problems.map(({ line, column, wrong, todo }) => `${line}/${column}: ${wrong}. ${todo}`).join('\n');
}

const FORMS: readonly FileForm[] = [
  { separator: ',', decimal: '.', unit: 'C', header: true, time: 's' },
  { separator: ',', decimal: '.', unit: 'C', header: false, time: 's' },
  { separator: ';', decimal: ',', unit: 'C', header: true, time: 's' },
  { separator: ';', decimal: ',', unit: 'C', header: false, time: 'clock', from: 40_000 },
  { separator: '\t', decimal: '.', unit: 'F', header: true, time: 'ms' },
  { separator: '\t', decimal: ',', unit: 'F', header: true, time: 'mm:ss' },
  { separator: ',', decimal: '.', unit: 'F', header: true, time: 'clock', from: 86_300 },
  { separator: ';', decimal: '.', unit: 'C', header: true, time: 'iso', from: 86_300 },
  { separator: ',', decimal: '.', unit: 'C', header: true, time: 'date and clock', from: 86_300 },
  { separator: ' ', decimal: '.', unit: 'C', header: false, time: 's' },
  { separator: '|', decimal: '.', unit: 'C', header: true, time: 'iso' },
];

describe('a log from any logger reads alike', () => {
  const two = {
    ...sample(GOOD, 0.5, 0.1),
    channels: [...sample(GOOD, 0.5, 0.1, 'TC1').channels, ...sample(GOOD, 0.5, 0.1, 'TC2').channels],
  };

  it.each(FORMS)('$time, $unit, header $header, "$separator" and "$decimal"', async (form) => {
    const log = await read(fileOf(two, form, form.unit === 'F' ? 3 : 1));
    expect(log.seconds.length).toBe(two.seconds.length);
    expect(log.channels.length).toBe(2);
    expect(log.problems).toEqual([]);
    for (let row = 0; row < log.seconds.length; row += 1) {
      expect(log.seconds[row]).toBeCloseTo(two.seconds[row]!, 3);
      for (const { celsius } of log.channels) expect(celsius[row]).toBeCloseTo(two.channels[0]!.celsius[row]!, 2);
    }
    // tenths of a degree Celsius remain visible as steps of 0.18 in Fahrenheit
    expect(log.channels[0]!.resolution).toBeCloseTo(0.1, 9);
  });

  it('wherever the text is cut into chunks', async () => {
    const text = fileOf(two, FORMS[0]!);
    const whole = await read(text);
    await fc.assert(
      fc.asyncProperty(fc.array(fc.integer({ min: 0, max: text.length }), { maxLength: 8 }), async (cuts) => {
        const at = [0, ...cuts.sort((a, b) => a - b), text.length];
        const log = await read(at.slice(1).map((end, i) => text.slice(at[i], end)));
        expect(log.seconds).toEqual(whole.seconds);
        expect(log.channels.map(({ celsius }) => celsius)).toEqual(whole.channels.map(({ celsius }) => celsius));
      }),
      { seed: 4, numRuns: 25 },
    );
  });

  it('with lines that end in a carriage return, with a line feed or without', async () => {
    const text = fileOf(two, FORMS[0]!);
    for (const ending of ['\r\n', '\r'])
      expect((await read(text.replaceAll('\n', ending))).seconds.length).toBe(two.seconds.length);
  });
});

describe('what a log says of itself', () => {
  it('takes Fahrenheit from the header, from a remark, from a line of units and from what is stated', async () => {
    const rows = '0,68\n1,70\n2,212\n';
    for (const head of ['t (s),TC1 [°F]\n', '# Unit: F\nt (s),TC1\n', 't,TC1\ns,degF\n'])
      expect((await read(head + rows)).channels[0]!.celsius[2]).toBeCloseTo(100, 9);
    expect((await read(`t,TC1\n${rows}`, { unit: 'F' })).channels[0]!.celsius[0]).toBeCloseTo(20, 9);
  });

  it('takes Celsius from a start at room temperature, which would be frost in Fahrenheit', async () => {
    expect((await read('0,21.5\n1,22.5\n2,24\n')).layout.channels[0]!.unitFrom).toBe('room at the start');
  });

  it('does not guess the unit of a log that begins at 72', async () => {
    expect(await refused('t,TC1\n0,72\n1,75\n2,80\n')).toContain(
      'whether "TC1" is in Celsius or Fahrenheit is not said',
    );
  });

  it('reads letters that count channels as names, not as units', async () => {
    const log = await read('Time,TC A,TC B,TC C\n0,20,21,22\n1,21,22,23\n2,22,23,24\n');
    expect(log.layout.channels.map(({ unitFrom }) => unitFrom)).toEqual(Array(3).fill('room at the start'));
  });

  it('tells milliseconds from seconds by the header, else by steps no profile has', async () => {
    expect((await read('Time (ms),T1\n0,20\n10,21\n20,22\n')).seconds[2]).toBeCloseTo(0.02, 12);
    expect((await read('0,20\n250,21\n500,22\n')).seconds[2]).toBeCloseTo(0.5, 12);
    expect((await read('0,20\n2,21\n4,22\n')).seconds[2]).toBe(4);
    expect((await read('Time (min),T1\n0,20\n0.5,21\n1,22\n')).seconds[2]).toBe(60);
  });

  it('takes days of a spreadsheet and counts of a computer as what they are', async () => {
    const day = 1 / 86_400;
    const days = [0, 1, 2].map((s) => `${(45_000.5 + s * day).toFixed(9)},${20 + s}`).join('\n');
    expect((await read(days)).seconds[2]).toBeCloseTo(2, 3);
    const unix = [0, 500, 1000].map((ms) => `${1_700_000_000_000 + ms},${20 + ms / 500}`).join('\n');
    expect((await read(unix)).seconds[2]).toBe(1);
  });

  it('leaves out counters, humidity, set points and words, and says why', async () => {
    const log = await read(
      'No,Time (s),TC1 (C),Humidity (%),Setpoint (C),Operator\n1,0,20,41,150,heat\n2,1,21,41,150,heat\n3,2,22,40,150,heat\n',
    );
    expect(log.channels.map(({ name }) => name)).toEqual(['TC1 (C)']);
    expect(log.layout.leftOut.map(({ name, because }) => `${name}: ${because}`)).toEqual([
      'No: it counts the rows',
      'Humidity (%): it is no thermocouple',
      'Setpoint (C): it is a set point',
      'Operator: it holds words',
    ]);
  });

  it('finds the step the readings come in, also where it is not a power of ten', async () => {
    const step = async (cells: readonly string[]) =>
      (await read(cells.map((cell, i) => `${i},${cell}`).join('\n'))).channels[0]!.resolution;
    expect(await step(['20.00', '20.25', '20.75', '22.50'])).toBeCloseTo(0.25, 12);
    expect(await step(['20', '21', '24', '28'])).toBe(1);
    expect(await step(['20.1', '20.2', '20.4', '20.7'])).toBeCloseTo(0.1, 12);
    expect(await step(['20', '21', '22.5', '24'])).toBeCloseTo(0.5, 12);
  });

  it('counts on past midnight, and past the hour of a clock without hours', async () => {
    expect([...(await read('23:59:58,20\n23:59:59,21\n00:00:00,22\n00:00:01,23\n')).seconds]).toEqual([0, 1, 2, 3]);
    expect([...(await read('59:58,20\n59:59,21\n00:00,22\n')).seconds]).toEqual([0, 1, 2]);
    expect([...(await read('11:59:59 AM,20\n12:00:00 PM,21\n12:00:01 PM,22\n')).seconds]).toEqual([0, 1, 2]);
    expect([
      ...(await read('28.02.2024 23:59:59;20\n29.02.2024 00:00:00;21\n01.03.2024 00:00:00;22\n')).seconds,
    ]).toEqual([0, 1, 86_401]);
  });

  it('passes midnight by the clock where the order of day and month cannot be told', async () => {
    const log = await read('05/06/2024 23:59:59,20\n05/07/2024 00:00:01,21\n05/07/2024 00:00:02,22\n');
    expect([...log.seconds]).toEqual([0, 2, 3]);
    const late = await read('05/12/2024 23:59:59,20\n05/13/2024 00:00:01,21\n05/13/2024 00:00:02,22\n');
    expect([...late.seconds]).toEqual([0, 2, 3]);
    const dated = await read('01/31/2024 23:59:59,20\n02/01/2024 00:00:01,21\n02/01/2024 00:00:02,22\n');
    expect([...dated.seconds]).toEqual([0, 2, 3]);
  });
});

describe('nothing is dropped without being counted', () => {
  const messy = [
    'Bench logger',
    '# unit: C',
    '',
    'Time (s),TC1,TC2',
    '0,20.0,20.5',
    '1,OL,21.0',
    '2,22.0,---',
    '3,23.0,NaN',
    '4,,24.0',
    '',
    '# pause',
    'Time (s),TC1,TC2',
    '5,25.x,25.5',
    '6,26.0,26.5,99',
    '3,27.0,27.5',
    'what,28.0,28.5',
    '7,9999,29.5',
    '8,30.0,30.5',
    'End of log',
  ].join('\n');

  it('counts skipped lines by reason and names line and column of each fault', async () => {
    const log = await read(messy);
    expect(Object.fromEntries(log.skipped.map(({ reason, count, firstLine }) => [reason, [count, firstLine]]))).toEqual(
      {
        blank: [2, 3],
        remark: [2, 2],
        'above the readings': [1, 1],
        header: [1, 4],
        'header again': [1, 12],
        'no time': [1, 16],
        'time goes back': [1, 15],
        'too many cells': [1, 14],
        'no row of readings': [1, 19],
      },
    );
    expect(log.seconds.length + log.skipped.reduce((sum, { count }) => sum + count, 0)).toBe(log.lines);
    expect(log.channels[0]!.gaps).toEqual({ empty: 1, marked: 1, impossible: 1, unreadable: 1 });
    expect(log.channels[1]!.gaps).toEqual({ empty: 0, marked: 2, impossible: 0, unreadable: 0 });
    expect(log.problems.map(({ line, column }) => [line, column])).toEqual([
      [13, 2],
      [14, 4],
      [15, 1],
      [16, 1],
      [19, 1],
    ]);
    expect(log.problems[0]!.wrong).toBe('"25.x" in "TC1" is no temperature');
    expect(log.problems[2]!.wrong).toBe('the time goes back from 5 to 3');
  });

  it('names problems up to the limit and counts the rest', async () => {
    const rows = Array.from({ length: 60 }, (_, i) => `${i},${i % 2 === 0 ? 20 + i : 'what'}`);
    const log = await read(rows.join('\n'), { mostProblems: 3 });
    expect([log.problems.length, log.problemsBeyond]).toEqual([3, 27]);
  });

  it('reads no profile from more faults than readings', async () => {
    const rows = ['0,20', '1,21', '2,22', ...Array.from({ length: 9 }, (_, i) => `word,${i}`)];
    expect(await refused(rows.join('\n'))).toContain('of 12 lines below the header only 3 could be read');
  });

  it.each([
    ['', 'the file is empty'],
    ['hello\nworld\n', 'no line is a row of readings'],
    ['TC1 (C),TC2 (C)\n20,21\n22,20\n21,19\n', 'no column holds the time'],
    ['Time,TC1\n0,5,20,1\n1,0,21,3\n1,5,22,0\n', 'the comma seems to separate and to be the decimal mark as well'],
    ['Time (s),State\n0,heat\n1,heat\n', 'no line is a row of readings'],
  ])('refuses %j and says what to do', async (text, wrong) => {
    const said = await refused(text);
    expect(said).toContain(wrong);
    expect(said).toMatch(/Export|State|Look/);
  });

  it('says which channels there are when one is asked for that is not', async () => {
    expect(await refused('Time (s),core,board\n0,20,20\n1,21,20\n', { channels: ['die'] })).toContain(
      'Channels here: core, board',
    );
    expect((await read('Time (s),core,board\n0,20,20\n1,21,20\n', { channels: ['board'] })).channels.length).toBe(1);
  });

  it('counts time by the row where that is stated', async () => {
    expect([...(await read('TC1 (C),TC2 (C)\n20,21\n22,20\n21,19\n', { secondsPerRow: 0.5 })).seconds]).toEqual([
      0, 0.5, 1,
    ]);
  });

  it('tells of progress on a long file', async () => {
    const seen: number[] = [];
    const text = Array.from({ length: 120_000 }, (_, i) => `${i / 10},${20 + (i % 7)}`).join('\n');
    await read(text, { onProgress: ({ lines }) => void seen.push(lines) });
    expect(seen.length).toBeGreaterThan(1);
    expect(seen.at(-1)).toBe(120_000);
  });

  it('reads a million rows (time and rate are printed, not asserted)', async () => {
    // a thousand rows written once; only the time is new in each block
    const cells = Array.from(
      { length: 1000 },
      (_, i) => `,${(20 + i / 5).toFixed(2)},${(19 + i / 5).toFixed(2)},${(18 + i / 5).toFixed(2)}\n`,
    );
    const chunks = ['Time (ms),TC1 (C),TC2 (C),TC3 (C)\n'];
    for (let block = 0; block < 1000; block += 1) {
      let text = '';
      for (let i = 0; i < 1000; i += 1) text += block * 1000 + i + cells[i]!;
      chunks.push(text);
    }
    const begun = performance.now();
    const log = await read(chunks);
    const took = performance.now() - begun;
    process.stdout.write(
      `a million rows of three channels: ${Math.round(took)} ms, ${Math.round(1e6 / took)} rows a millisecond\n`,
    );
    expect(log.seconds.length).toBe(1_000_000);
    expect(log.channels[2]!.celsius[999_999]).toBeCloseTo(18 + 999 / 5, 9);
  });
});

describe('any text at all', () => {
  const cell = fc.oneof(
    fc.constantFrom(
      '',
      '---',
      'OL',
      '12:00:01',
      '01:10',
      '2024-05-01',
      'Time',
      'TC1 (C)',
      '"',
      '#',
      'nan',
      '1e3',
      '25,5',
    ),
    fc.integer({ min: -50, max: 400 }).map(String),
    fc.double({ min: 0, max: 300, noNaN: true }).map((value) => value.toFixed(2)),
    fc.string({ maxLength: 4 }),
  );
  const text = fc
    .tuple(fc.constantFrom(',', ';', '\t', ' ', '|'), fc.array(fc.array(cell, { maxLength: 5 }), { maxLength: 30 }))
    .map(([separator, rows]) => rows.map((cells) => cells.join(separator)).join('\n'));

  it('is read or refused with reasons, and every line is accounted for', async () => {
    await fc.assert(
      fc.asyncProperty(text, async (any) => {
        const log = await readThermocoupleLog(any);
        if (log.kind === 'unreadable') {
          expect(log.problems.length).toBeGreaterThan(0);
          return;
        }
        expect(log.seconds.length + log.skipped.reduce((sum, { count }) => sum + count, 0)).toBe(log.lines);
        for (const { celsius, gaps } of log.channels) {
          const missing = celsius.filter(Number.isNaN).length;
          expect(gaps.empty + gaps.marked + gaps.impossible + gaps.unreadable).toBe(missing);
        }
        for (let row = 1; row < log.seconds.length; row += 1)
          expect(log.seconds[row]!).toBeGreaterThanOrEqual(log.seconds[row - 1]!);
      }),
      { seed: 8, numRuns: 400 },
    );
  });
});

describe('single cells', () => {
  it.each([
    ['25.5', '.', 25.5],
    ['25,5', ',', 25.5],
    ['1.025,5', ',', 1025.5],
    ['-3', '.', -3],
    ['2.5e2', '.', 250],
    ['77 F', '.', 77],
    ['24,5°C', ',', 24.5],
  ] as const)('%s with "%s" is %d', (text, mark, value) => {
    expect(readCell(text, mark)).toMatchObject({ kind: 'number', value });
  });

  it.each(['25,5', '0x1F', '1 2', '12:30', 'hot', '25.5.1'])('"%s" is no number with a decimal point', (text) => {
    expect(readCell(text, '.').kind).toBe('unreadable');
  });

  it.each(['', ' ', '---', 'OL', 'O.L', 'nan', 'OPEN', '#N/A', 'Inf', '-'])('"%s" is a gap', (text) => {
    expect(readCell(text, '.').kind).toBe('gap');
  });

  it.each([
    ['00:01:23', 83],
    ['1:01:23 PM', 46_883],
    ['12:00:00 AM', 0],
    ['02:35.5', 155.5],
    ['00:00:10,25', 10.25],
    ['00:00:10:250', 10.25],
  ])('%s is %d seconds', (text, seconds) => expect(readMoment(text)?.seconds).toBe(seconds));

  it.each(['25:61', '12:30:99', '2024-13-01 10:00:00', '2024-05-01', 'noon'])('"%s" is no time', (text) => {
    expect(readMoment(text)).toBeUndefined();
  });

  it('reads time zones as one and the same moment', () => {
    const seconds = ['2024-05-01T12:00:00Z', '2024-05-01T14:00:00+02:00', '2024-05-01 07:30:00-0430'].map(
      (text) => readMoment(text)?.seconds,
    );
    expect(new Set(seconds).size).toBe(1);
  });
});
