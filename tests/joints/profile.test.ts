import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { thinCurve } from '../../src/joints/curve.ts';
import { type Grade, gradeQuantity } from '../../src/joints/graded-limit.ts';
import { type JudgedProfile, judgeProfile } from '../../src/joints/judged-profile.ts';
import { type Measure, measureProfile, type Profile, type ProfileOptions } from '../../src/joints/profile.ts';
import { packageCeiling, packageWindow, type ReflowWindow } from '../../src/joints/reflow-window.ts';
import { sayProfile, sayVerdict } from '../../src/joints/say-profile.ts';
import { readThermocoupleLog } from '../../src/joints/thermocouple-log.ts';
import { type Corners, fileOf, GOOD, GOOD_BUT_SHORT, type Sampled, sample } from './made-profiles.ts';

const CORE: ReflowWindow = packageWindow('lead-free', { thickness: 2.6, volume: 3000 });
const LEADED: ReflowWindow = packageWindow('snpb', { thickness: 2.6, volume: 3000 });

function measured(sampled: Sampled, window = CORE, options: ProfileOptions = {}): Profile {
  return measureProfile(sampled, window.levels, options);
}

function quantity(profile: Profile, measure: Measure, channel = 0, heat = 0) {
  const found = profile.channels[channel]!.heats[heat]!.measures[measure];
  if (found.kind !== 'measured') throw new Error(`${measure}: ${found.because}`);
  return found;
}

function judged(sampled: Sampled, window = CORE): JudgedProfile {
  return judgeProfile(measured(sampled, window), window);
}

const gradeOf = (one: JudgedProfile, measure: Measure, heat = 0) =>
  one.heats[heat]!.rows.find((row) => row.measure === measure)!.grade;

const heldFor = (seconds: number, peak = 240): Corners => [
  [0, 20],
  [100, 150],
  [190, 200],
  [230, peak],
  [230 + seconds, peak],
  [330 + seconds, 40],
];

describe('a profile of straight stretches has the quantities worked by hand', () => {
  it.each([0.25, 0.5, 1, 2])('sampled every %d s without rounding', (step) => {
    const profile = measured(sample(GOOD, step, 0));
    expect(quantity(profile, 'soakSeconds').value).toBeCloseTo(90, 9);
    expect(quantity(profile, 'secondsAboveLiquidus').value).toBeCloseTo(71.5, 9);
    expect(quantity(profile, 'peak').value).toBeCloseTo(238, 9);
    expect(quantity(profile, 'averageRise').value).toBeCloseTo(1, 9);
    // the way from 20 degC to 150 degC in 100 s is the steepest; cooling is 198 K in 99 s
    expect(quantity(profile, 'steepestRise').value).toBeCloseTo(1.3, 6);
    expect(quantity(profile, 'steepestFall').value).toBeCloseTo(2, 6);
    // 233 degC is passed at 223 s and again at 270.5 s
    expect(quantity(profile, 'secondsNearPeak').value).toBeCloseTo(47.5, 9);
    // Tc is 245 degC for this package: 240 degC is not reached
    expect(quantity(profile, 'secondsNearCeiling').value).toBeCloseTo(0, 9);
    // 25 degC is passed at 100 * 5 / 130 s
    expect(quantity(profile, 'secondsToPeak').value).toBeCloseTo(228 - 500 / 130, 6);
  });

  it('interpolates crossings: the answer does not hang on where the samples fall', () => {
    for (const step of [0.3, 0.7, 1.1, 1.7])
      expect(quantity(measured(sample(GOOD, step, 0)), 'secondsAboveLiquidus').value).toBeCloseTo(71.5, 1);
  });

  it('bounds the truth where the readings are rounded to a whole degree', () => {
    const profile = measured(sample(GOOD, 1, 1));
    for (const [measure, truth] of [
      ['soakSeconds', 90],
      ['secondsAboveLiquidus', 71.5],
      ['peak', 238],
      ['secondsNearPeak', 47.5],
      ['averageRise', 1],
      ['steepestFall', 2],
    ] as const) {
      const { low, high } = quantity(profile, measure);
      expect(low, measure).toBeLessThanOrEqual(truth);
      expect(high, measure).toBeGreaterThanOrEqual(truth);
    }
  });

  it('takes the spread from the channels’ own peaks', () => {
    const hot = sample(heldFor(40, 243), 1, 0.1, 'core');
    const cool = sample(heldFor(40, 236), 1, 0.1, 'memory');
    const both = { seconds: hot.seconds, channels: [...hot.channels, ...cool.channels] };
    const profile = measured(both);
    expect(profile.spreadAtPeak!.value).toBeCloseTo(7, 9);
    const window: ReflowWindow = { ...CORE, kind: 'shop', spreadAtPeakAtMost: 5 };
    expect(judgeProfile(profile, window).spread!.grade).toBe('outside');
  });

  it('says which span its rates are taken over, and a longer one hides a short step', () => {
    const stepped: Corners = [
      [0, 20],
      [100, 100],
      [104, 120],
      [200, 200],
      [240, 240],
      [280, 240],
      [380, 40],
    ];
    const short = measured(sample(stepped, 0.5, 0), CORE, { rateSpanSeconds: 4 });
    const long = measured(sample(stepped, 0.5, 0), CORE, { rateSpanSeconds: 20 });
    expect(short.rateSpanSeconds).toBe(4);
    expect(quantity(short, 'steepestRise').value).toBeCloseTo(5, 9);
    expect(quantity(long, 'steepestRise').value).toBeLessThan(2.5);
  });
});

describe('a profile against J-STD-020D', () => {
  it('is inside when all its rows are', () => {
    const verdict = judged(sample(GOOD, 1, 0.1));
    expect(verdict.grade).toBe('inside');
    expect(verdict.finding.weights['in-window']).toBeGreaterThan(0.97);
    expect(sayVerdict(verdict)).toBe('The profile is inside J-STD-020D lead-free.');
  });

  it('doubts the joints when the time above the liquidus is short', () => {
    const verdict = judged(sample(GOOD_BUT_SHORT, 1, 0.1));
    expect(verdict.grade).toBe('outside');
    expect(verdict.finding.weights['out-of-window']).toBeGreaterThan(0.97);
    expect(sayVerdict(verdict)).toContain('time above 217 °C too low');
    expect(sayProfile(measured(sample(GOOD_BUT_SHORT, 1, 0.1)), verdict)).toContain(
      'doubt the joints, not the package',
    );
  });

  it.each([
    [
      'while the board still heats',
      [
        [0, 20],
        [100, 150],
        [110, 155.5],
      ],
    ],
    [
      'at full heat, with a band still ahead',
      [
        [0, 20],
        [100, 150],
        [190, 200],
        [228, 238],
        [232, 238],
      ],
    ],
  ] as const)('does not judge what the readings stop before: %s', (_when, corners) => {
    const sampled = sample(corners as Corners, 0.5, 0.1);
    const verdict = judged(sampled);
    expect(verdict.grade).toBe('cannot-tell');
    for (const measure of ['peak', 'secondsAboveLiquidus', 'secondsNearCeiling', 'secondsToPeak'] as const)
      expect(gradeOf(verdict, measure)).toBe('cannot-tell');
    expect(verdict.finding.weights).toEqual({ 'in-window': 0.5, 'out-of-window': 0.5 });
  });

  it('judges what the readings settle before they stop', () => {
    const hot = judged(
      sample(
        [
          [0, 20],
          [100, 150],
          [190, 200],
          [250, 262],
        ],
        0.5,
        0.1,
      ),
    );
    expect(gradeOf(hot, 'peak')).toBe('outside');
    const cold = judged(
      sample(
        [
          [0, 20],
          [100, 150],
          [190, 200],
          [228, 208],
          [270, 180],
        ],
        0.5,
        0.1,
      ),
    );
    expect(gradeOf(cold, 'secondsAboveLiquidus')).toBe('outside');
  });

  it('lets a couple that came off in the heat neither spoil nor save the channel beside it', () => {
    const whole = sample(GOOD, 1, 0.1);
    const off = whole.channels[0]!.celsius.map((c, i) => (i > 120 ? Number.NaN : c));
    const both = { ...whole, channels: [...whole.channels, { name: 'TC2', celsius: off, resolution: 0.1 }] };
    expect(judged(both).grade).toBe('cannot-tell');
    expect(measured(both).spreadAtPeak).toBeUndefined();
  });

  it('never calls a board that did not melt its solder inside', () => {
    const verdict = judged(sample(heldFor(60, 205), 1, 0.1));
    expect(verdict.grade).toBe('outside');
    expect(gradeOf(verdict, 'secondsAboveLiquidus')).toBe('outside');
  });

  it.each([
    [242, 'inside'],
    [245, 'cannot-tell'],
    [245.05, 'cannot-tell'],
    [248, 'outside'],
  ] as const)('a peak of %d degC is %s where the package is classified at 245 degC', (peak, grade) => {
    expect(gradeOf(judged(sample(heldFor(40, peak), 1, 0.1)), 'peak')).toBe(grade);
  });

  it('takes near-ceiling time as a ceiling: 35 s above 255 degC is too long for a package at 260 degC', () => {
    const thin = packageWindow('lead-free', { thickness: 1, volume: 100 });
    expect(gradeOf(judged(sample(heldFor(25, 258), 1, 0.1), thin), 'secondsNearCeiling')).toBe('inside');
    expect(gradeOf(judged(sample(heldFor(40, 258), 1, 0.1), thin), 'secondsNearCeiling')).toBe('outside');
  });

  it('does not choose a ceiling for a package of unknown size', () => {
    const unknown = packageWindow('lead-free', {});
    expect(gradeOf(judged(sample(heldFor(40, 240), 1, 0.1), unknown), 'peak')).toBe('inside');
    expect(gradeOf(judged(sample(heldFor(40, 252), 1, 0.1), unknown), 'peak')).toBe('cannot-tell');
    expect(gradeOf(judged(sample(heldFor(40, 264), 1, 0.1), unknown), 'peak')).toBe('outside');
    expect(packageCeiling('lead-free', { thickness: 2 })).toMatchObject({ lowest: 245, highest: 260 });
  });

  it('keeps the ceiling of a lead-free package that is soldered with leaded balls', () => {
    const reballed = packageWindow('snpb', { thickness: 2.6, volume: 3000 }, 'lead-free');
    expect([reballed.levels.liquidus, reballed.levels.ceiling]).toEqual([183, 245]);
    expect(LEADED.levels.ceiling).toBe(220);
  });

  it('marks a ceiling that is from memory wherever it is shown', () => {
    const profile = measured(sample(heldFor(40, 210), 1, 0.1), LEADED);
    expect(sayProfile(profile, judgeProfile(profile, LEADED))).toMatch(/Peak .*this limit is from memory/);
  });

  it('says that it classifies packages and is no recipe', () => {
    const profile = measured(sample(GOOD, 1, 0.1));
    expect(sayProfile(profile, judgeProfile(profile, CORE))).toContain('not a recipe');
  });

  it('holds a shop’s own window to its own limits', () => {
    const own: ReflowWindow = {
      kind: 'shop',
      name: 'large core, leaded',
      levels: { soakFrom: 100, soakTo: 150, liquidus: 183 },
      rows: [
        { measure: 'peak', limit: { atLeast: 205, atMost: 220 }, cited: null },
        { measure: 'steepestRise', limit: { atMost: 1.5 }, cited: null },
      ],
    };
    const verdict = judged(sample(GOOD, 1, 0.1), own);
    expect(gradeOf(verdict, 'steepestRise')).toBe('inside');
    expect(sayVerdict(verdict)).toBe('The profile is OUTSIDE the shop\'s window "large core, leaded": peak too high.');
  });
});

describe('what a record does not hold is not made up', () => {
  const cut = (sampled: Sampled, keep: (second: number) => boolean): Sampled => {
    const rows = [...sampled.seconds.keys()].filter((row) => keep(sampled.seconds[row]!));
    return {
      seconds: Float64Array.from(rows, (row) => sampled.seconds[row]!),
      channels: sampled.channels.map((channel) => ({
        ...channel,
        celsius: Float64Array.from(rows, (row) => channel.celsius[row]!),
      })),
    };
  };

  it('leaves the soak open when the record begins within it', () => {
    const verdict = judged(cut(sample(GOOD, 1, 0.1), (second) => second >= 150));
    expect(gradeOf(verdict, 'soakSeconds')).toBe('cannot-tell');
    expect(gradeOf(verdict, 'secondsToPeak')).toBe('cannot-tell');
    expect(gradeOf(verdict, 'secondsAboveLiquidus')).toBe('inside');
    expect(verdict.grade).toBe('cannot-tell');
  });

  it('knows a time above the liquidus only as "at least" when the record ends hot', () => {
    const short = judged(cut(sample(GOOD, 1, 0.1), (second) => second <= 275));
    expect(gradeOf(short, 'secondsAboveLiquidus')).toBe('cannot-tell');
    const long = judged(cut(sample(heldFor(200), 1, 0.1), (second) => second <= 420));
    expect(gradeOf(long, 'secondsAboveLiquidus')).toBe('outside');
  });

  it('bounds a time above the liquidus by what a gap may hide', () => {
    const gap = cut(sample(GOOD, 1, 0.1), (second) => second <= 255 || second >= 290);
    const { low, high } = quantity(measured(gap), 'secondsAboveLiquidus');
    // at the 2 K/s it falls with, the board may have passed 217 degC from 265.5 s to 278.5 s
    expect(low).toBeCloseTo(265.5 - 207, 0);
    expect(high).toBeCloseTo(278.5 - 207, 0);
    expect(high - low).toBeGreaterThan(10);
    expect(measured(gap).channels[0]!.gaps).toEqual([{ from: 255, to: 290 }]);
  });

  it('cannot tell a peak that a gap may hide', () => {
    const gap = cut(sample(heldFor(20, 243), 1, 0.1), (second) => second < 226 || second > 254);
    expect(gradeOf(judged(gap), 'peak')).toBe('cannot-tell');
  });

  it('leaves out a lone spike no board could follow, and says so', () => {
    const spiked = sample(GOOD, 1, 0.1);
    spiked.channels[0]!.celsius[250] = 300;
    const profile = measured(spiked);
    expect(profile.channels[0]!.spikes).toBe(1);
    expect(quantity(profile, 'peak').value).toBeCloseTo(238, 1);
    expect(sayProfile(profile, judgeProfile(profile, CORE))).toContain('1 lone reading(s) left out');
  });

  it('names a channel that was not connected', () => {
    const open = sample(GOOD, 1, 0.1);
    open.channels.push({
      name: 'open',
      celsius: new Float64Array(open.seconds.length).fill(Number.NaN),
      resolution: 0.1,
    });
    expect(measured(open).unusable).toEqual([{ name: 'open', because: 'it holds fewer than three readings' }]);
  });

  it('counts two heats as two: stick first, then settle', () => {
    const second = GOOD.map(([at, celsius]) => [at + 600, celsius] as const);
    const profile = measured(sample([...GOOD, ...second], 1, 0.1));
    expect(profile.channels[0]!.heats.length).toBe(2);
    for (const heat of [0, 1]) expect(quantity(profile, 'secondsAboveLiquidus', 0, heat).value).toBeCloseTo(71.5, 0);
    expect(profile.channels[0]!.heats[1]!.measures.secondsToPeak.kind).toBe('not-recorded');
  });

  it('counts idle minutes at room temperature neither as heating nor as heat', () => {
    const late: Corners = [[0, 27], ...GOOD.map(([at, celsius]) => [at + 600, Math.max(27, celsius)] as const)];
    expect(quantity(measured(sample(late, 1, 0.1)), 'secondsToPeak').value).toBeCloseTo(228 - 500 / 123, 0);
    expect(gradeOf(judged(sample(late, 1, 0.1)), 'secondsToPeak')).toBe('inside');
  });

  it('widens all durations by the step of a clock coarser than its readings', () => {
    const fine = sample(GOOD, 0.25, 0.1);
    const coarse = { ...fine, seconds: fine.seconds.map(Math.floor) };
    const { low, high } = quantity(measured(coarse), 'secondsAboveLiquidus');
    expect(low).toBeLessThanOrEqual(70.5);
    expect(high).toBeGreaterThanOrEqual(72.5);
  });

  it('widens the bounds by the thermocouples’ own tolerance where it is stated', () => {
    const profile = measured(sample(heldFor(40, 243), 1, 0.1), CORE, { sensorHalfWidth: 2.5 });
    expect(quantity(profile, 'peak').high).toBeGreaterThan(245);
    expect(gradeOf(judgeProfile(profile, CORE), 'peak')).toBe('cannot-tell');
  });
});

describe('laws of a profile', () => {
  /** A profile of random corners: heated in steps, held, cooled. */
  const anyProfile = fc
    .record({
      room: fc.integer({ min: 15, max: 30 }),
      soakAt: fc.integer({ min: 60, max: 180 }),
      soak: fc.integer({ min: 30, max: 160 }),
      peak: fc.integer({ min: 2100, max: 2550 }),
      rise: fc.integer({ min: 10, max: 60 }),
      hold: fc.integer({ min: 0, max: 100 }),
      fall: fc.integer({ min: 40, max: 200 }),
    })
    .map(({ room, soakAt, soak, peak, rise, hold, fall }): Corners => {
      const [a, b, c, d] = [soakAt, soakAt + soak, soakAt + soak + rise, soakAt + soak + rise + hold];
      return [
        [0, room],
        [a, 150],
        [b, 200],
        [c, peak / 10],
        ...(hold > 0 ? [[d, peak / 10] as const] : []),
        [d + fall, 40],
      ];
    });
  const RUNS = { seed: 20, numRuns: 60 };
  const grades = (one: JudgedProfile) => one.heats[0]!.rows.map(({ measure, grade }) => [measure, grade] as const);
  const opposite = (a: Grade, b: Grade) => a !== b && a !== 'cannot-tell' && b !== 'cannot-tell';

  it('a shifted clock changes nothing', async () => {
    await fc.assert(
      fc.asyncProperty(anyProfile, fc.integer({ min: 0, max: 86_399 }), async (corners, from) => {
        const base = { separator: ',', decimal: '.', unit: 'C', header: true, time: 'clock' } as const;
        const logs = await Promise.all(
          [0, from].map((start) => readThermocoupleLog(fileOf(sample(corners, 1, 0.1), { ...base, from: start }))),
        );
        const [a, b] = logs.map((log) =>
          log.kind === 'log' ? judgeProfile(measureProfile(log, CORE.levels), CORE) : undefined,
        );
        expect(b).toEqual(a);
      }),
      { ...RUNS, numRuns: 20 },
    );
  });

  it('the unit changes nothing', async () => {
    await fc.assert(
      fc.asyncProperty(anyProfile, async (corners) => {
        const form = { separator: ';', decimal: ',', header: true, time: 's' } as const;
        const [a, b] = await Promise.all(
          (['C', 'F'] as const).map((unit) =>
            readThermocoupleLog(fileOf(sample(corners, 1, 0.1), { ...form, unit }, unit === 'C' ? 1 : 2)),
          ),
        );
        if (a?.kind !== 'log' || b?.kind !== 'log') throw new Error('not read');
        const [inC, inF] = [a, b].map((log) => judgeProfile(measureProfile(log, CORE.levels), CORE));
        expect(grades(inF!)).toEqual(grades(inC!));
        const value = (one: JudgedProfile) =>
          one.heats[0]!.rows.map(({ measured: m }) => (m.kind === 'measured' ? m.value : -1));
        for (const [i, v] of value(inC!).entries()) expect(value(inF!)[i]).toBeCloseTo(v, 6);
      }),
      { ...RUNS, numRuns: 20 },
    );
  });

  it('the order of the channels changes nothing', () => {
    fc.assert(
      fc.property(anyProfile, anyProfile, (one, other) => {
        const a = sample(one, 1, 0.1, 'a');
        const b = sample(other, 1, 0.1, 'b');
        const seconds = a.seconds.length >= b.seconds.length ? a.seconds : b.seconds;
        const filled = (sampled: Sampled) => {
          const celsius = new Float64Array(seconds.length).fill(Number.NaN);
          celsius.set(sampled.channels[0]!.celsius);
          return { ...sampled.channels[0]!, celsius };
        };
        const [there, back] = [
          [filled(a), filled(b)],
          [filled(b), filled(a)],
        ].map((channels) => judgeProfile(measureProfile({ seconds, channels }, CORE.levels), CORE));
        expect(back!.grade).toBe(there!.grade);
        expect(back!.chanceInside).toBe(there!.chanceInside);
        expect([...back!.heats].reverse()).toEqual(there!.heats);
      }),
      RUNS,
    );
  });

  it('noise below the step of the logger flips no verdict', () => {
    fc.assert(
      fc.property(
        anyProfile,
        fc.constantFrom(0.1, 0.25, 0.5, 1),
        fc.constantFrom(0.5, 1, 2),
        fc.boolean(),
        fc.infiniteStream(fc.integer({ min: -1000, max: 1000 })),
        (corners, resolution, step, roundedAgain, stream) => {
          const clean = sample(corners, step, resolution);
          const noisy: Sampled = {
            seconds: clean.seconds,
            channels: clean.channels.map((channel) => ({
              ...channel,
              celsius: channel.celsius.map((c) => {
                const noise = ((stream.next().value as number) / 1000) * resolution;
                return roundedAgain ? Math.round((c + noise) / resolution) * resolution : c + noise;
              }),
            })),
          };
          for (const window of [CORE, LEADED]) {
            const before = grades(judged(clean, window));
            const after = grades(judged(noisy, window));
            for (const [i, [measure, grade]] of before.entries())
              expect(opposite(grade, after[i]![1]), `${measure}: ${grade} became ${after[i]![1]}`).toBe(false);
          }
        },
      ),
      { seed: 21, numRuns: 150 },
    );
  });

  it('a limit moved outwards never takes the chance of being inside down', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -100, max: 100, noNaN: true }),
        fc.double({ min: 0, max: 10, noNaN: true }),
        fc.double({ min: 0, max: 10, noNaN: true }),
        fc.double({ min: -100, max: 100, noNaN: true }),
        fc.double({ min: 0, max: 20, noNaN: true }),
        (value, below, above, atMost, more) => {
          const q = { value, low: value - below, high: value + above };
          const near = gradeQuantity(q, { atMost }).chanceInside;
          expect(gradeQuantity(q, { atMost: atMost + more }).chanceInside).toBeGreaterThanOrEqual(near);
          expect(near + gradeQuantity(q, { atLeast: atMost }).chanceInside).toBeCloseTo(1, 9);
        },
      ),
      { seed: 22, numRuns: 300 },
    );
  });

  it('a hotter ceiling of a smaller package never comes out lower', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('snpb' as const, 'lead-free' as const),
        fc.double({ min: 0.1, max: 5, noNaN: true }),
        fc.double({ min: 1, max: 5000, noNaN: true }),
        fc.double({ min: 0, max: 5, noNaN: true }),
        (rated, thickness, volume, more) => {
          const small = packageCeiling(rated, { thickness, volume }).lowest;
          expect(packageCeiling(rated, { thickness: thickness + more, volume }).lowest).toBeLessThanOrEqual(small);
          expect(packageCeiling(rated, { thickness, volume: volume + 1000 * more }).lowest).toBeLessThanOrEqual(small);
        },
      ),
      { seed: 23, numRuns: 200 },
    );
  });
});

describe('grades', () => {
  // JCGM 106:2012 7.3.3 examples 1 and 2: u = 0.05 and 8.6, as half-widths u sqrt 3
  it('gives the published chance of conformity', () => {
    const around = (value: number, u: number) => ({
      value,
      low: value - u * Math.sqrt(3),
      high: value + u * Math.sqrt(3),
    });
    expect(gradeQuantity(around(-5.47, 0.05), { atMost: -5.4 }).chanceInside).toBeCloseTo(0.92, 2);
    expect(gradeQuantity(around(509.7, 8.6), { atLeast: 490 }).chanceInside).toBeCloseTo(0.99, 2);
    // 7.4
    expect(gradeQuantity(around(13.6, 1.8), { atLeast: 12.5, atMost: 16.3 }).chanceInside).toBeCloseTo(0.66, 2);
  });

  it('counts an exact quantity at its limit as inside', () => {
    expect(gradeQuantity({ value: 5, low: 5, high: 5 }, { atMost: 5 }).grade).toBe('inside');
    expect(gradeQuantity({ value: 5, low: 5, high: 5 }, { atLeast: 5 }).grade).toBe('inside');
    expect(gradeQuantity({ value: 5.1, low: 5.1, high: 5.1 }, { atMost: 5 })).toMatchObject({
      grade: 'outside',
      side: 'above',
    });
  });
});

describe('a curve thinned for drawing', () => {
  it('keeps its ends and its peak, in order of time', () => {
    const long = sample(GOOD, 0.01, 0);
    const thin = thinCurve(long.seconds, long.channels, 400);
    expect(thin.seconds.length).toBeLessThan(500);
    expect(thin.seconds[0]).toBe(0);
    expect(thin.seconds.at(-1)).toBeCloseTo(367, 1);
    expect(Math.max(...thin.celsius[0]!.map((c) => c ?? 0))).toBeCloseTo(238, 2);
    expect([...thin.seconds].sort((a, b) => a - b)).toEqual(thin.seconds);
  });
});
