/** What is said of balls from what was measured of them. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Joint } from '../../src/ball-grid/answer.ts';
import { judgeBalls } from '../../src/ball-grid/judge-balls.ts';
import { ALLOYS } from '../../src/joints/alloys.ts';
import { LEAD_FREE_CONSTANTS, LIFE_IS_A_COMPARISON } from '../../src/joints/fatigue.ts';
import type { Balls } from '../../src/record/balls.ts';

const judge = (given: Balls, around = {}) => judgeBalls(given, 'en', around);
const MEASURED: Balls = {
  ballMillimetres: 0.6,
  packagePadMillimetres: 0.45,
  boardPadMillimetres: 0.45,
  pitchMillimetres: 1,
};
const said = (joint: Joint, part: string) => joint.words.find((one) => one.part === part)?.lines.join(' ') ?? '';

const pads = fc.double({ min: 0.1, max: 0.9, noNaN: true });
const measured = fc.record({
  ballMillimetres: fc.double({ min: 0.1, max: 1, noNaN: true }),
  packagePadMillimetres: pads,
  boardPadMillimetres: pads,
  pitchMillimetres: fc.double({ min: 0.95, max: 3, noNaN: true }),
  pasteCubicMillimetres: fc.double({ min: 0, max: 0.2, noNaN: true }),
  leftMillimetres: fc.double({ min: 0, max: 0.1, noNaN: true }),
});
const runs = { seed: 20261125, numRuns: 300 };
const fine = 1e-9;

describe('The joint of a ball', () => {
  it('is that of the closed form: 0.6 mm on pads of 0.45 mm stands 0.4368 mm high and 0.6271 mm wide', () => {
    // stand-off and widest diameter derived by hand from the frustum volume, as in tests/oracles/joints.test.ts
    const { shape } = judge(MEASURED);
    expect(shape?.standOffMillimetres).toBeCloseTo(0.4368, 4);
    expect(shape?.widestMillimetres).toBeCloseTo(0.6271, 4);
    expect(shape?.neighbour?.gapMillimetres).toBeCloseTo(1 - 0.6271, 4);
    expect(shape?.lands.map(({ fit }) => fit)).toEqual(['fits', 'fits']);
  });

  it('holds all the solder there was: ball, metal of the paste, what stayed on both pads', () => {
    fc.assert(
      fc.property(measured, (given) => {
        const { cubicMillimetres: volume } = judge(given).shape!;
        expect(volume.ball + volume.paste + volume.left).toBeCloseTo(volume.whole, 9);
        expect(volume.paste).toBeCloseTo(given.pasteCubicMillimetres / 2, 12);
      }),
      runs,
    );
  });

  it('is drawn with that volume: its outline turned about the axis (trapezium rule) holds the solder', () => {
    fc.assert(
      fc.property(measured, (given) => {
        const { outline, cubicMillimetres } = judge(given).shape!;
        let volume = 0;
        for (let i = 1; i < outline.length; i += 1) {
          const [a, b] = [outline[i - 1]!, outline[i]!];
          volume +=
            ((Math.PI * (a.radiusMillimetres ** 2 + b.radiusMillimetres ** 2)) / 2) *
            (b.heightMillimetres - a.heightMillimetres);
        }
        expect(volume / cubicMillimetres.whole).toBeGreaterThan(0.99);
        expect(volume / cubicMillimetres.whole).toBeLessThan(1.01);
        expect(outline[0]!.radiusMillimetres).toBeCloseTo(given.boardPadMillimetres / 2, 9);
        expect(outline.at(-1)!.radiusMillimetres).toBeCloseTo(given.packagePadMillimetres / 2, 7);
      }),
      runs,
    );
  });

  it('stands lower on wider pads, and higher with more paste', () => {
    fc.assert(
      fc.property(measured, fc.double({ min: 1.01, max: 1.05, noNaN: true }), (given, wider) => {
        const height = (more: Balls) => judge({ ...given, leftMillimetres: 0, ...more }).shape!.standOffMillimetres;
        const board = given.boardPadMillimetres * wider;
        expect(height({ boardPadMillimetres: board, pitchMillimetres: 3 })).toBeLessThan(
          height({ pitchMillimetres: 3 }) + fine,
        );
        expect(height({ pasteCubicMillimetres: given.pasteCubicMillimetres + 0.05 })).toBeGreaterThan(height({}));
      }),
      runs,
    );
  });

  it('comes no nearer to its neighbour at a wider pitch, and may sink no less', () => {
    fc.assert(
      fc.property(measured, fc.double({ min: 1, max: 2, noNaN: true }), (given, wider) => {
        const [near, far] = [given.pitchMillimetres, given.pitchMillimetres * wider].map(
          (pitchMillimetres) => judge({ ...given, pitchMillimetres }).shape!.neighbour!,
        );
        expect(far!.gapMillimetres).toBeGreaterThanOrEqual(near!.gapMillimetres);
        expect(far!.gapOfPitch).toBeGreaterThanOrEqual(near!.gapOfPitch - fine);
        expect(far!.roomToSinkMillimetres).toBeGreaterThanOrEqual(near!.roomToSinkMillimetres - fine);
      }),
      runs,
    );
  });

  it('is the same upside down', () => {
    fc.assert(
      fc.property(measured, (given) => {
        const turned = {
          ...given,
          packagePadMillimetres: given.boardPadMillimetres,
          boardPadMillimetres: given.packagePadMillimetres,
        };
        expect(judge(turned).shape!.standOffMillimetres).toBeCloseTo(judge(given).shape!.standOffMillimetres, 9);
      }),
      runs,
    );
  });

  it('names what it still needs once it was begun, and asks for nothing before', () => {
    expect(judge({}).missing).toEqual([]);
    const begun = judge({ ballMillimetres: 0.6 });
    expect(begun.missing).toEqual([{ part: 'shape', fields: ['packagePadMillimetres', 'boardPadMillimetres'] }]);
    expect(said(begun, 'shape')).toBe('Still needed: package pad and board pad.');
  });

  it('is none where pads are as wide as the pitch: they would be one pad', () => {
    const { shape, problems } = judge({ ...MEASURED, boardPadMillimetres: 1 });
    expect(shape).toBeNull();
    expect(problems).toEqual([
      {
        field: 'boardPadMillimetres',
        wrong: 'The board pad of 1 mm is as wide as the pitch of 1 mm: neighbouring pads would touch.',
        todo: 'Measure the pad across its copper, and the pitch from middle to middle.',
      },
    ]);
  });

  it('says that neighbours touch where they do', () => {
    const joint = judge({ ...MEASURED, pitchMillimetres: 0.6 });
    expect(joint.shape?.neighbour?.roomToSinkMillimetres).toBe(0);
    expect(said(joint, 'shape')).toContain('Neighbouring joints touch: they are 0.027 mm wider');
  });

  it('quotes the land of IPC-7095, and says where the table has no such ball', () => {
    expect(said(judge({ ...MEASURED, boardPadMillimetres: 0.38 }), 'shape')).toContain(
      'Board pad 0.38 mm is too small for a ball of 0.6 mm: land 0.45 mm, 0.4 to 0.5 mm (IPC-7095, quoted).',
    );
    expect(said(judge({ ...MEASURED, ballMillimetres: 0.55 }), 'shape')).toContain('has no ball of 0.55 mm');
  });
});

describe('Two solders in one joint', () => {
  it('are the ball’s and that of what stays on the pads, by the volumes there are', () => {
    const { mixture } = judge({ ...MEASURED, ballAlloy: 'SAC305', padAlloy: 'Sn63Pb37', leftMillimetres: 0.03 });
    // by hand: ball pi 0.6^3 / 6 = .113097, left 2 (pi / 4) .45^2 .03 = .0095426 mm3; at 7.38 and 8.4 g/cm3
    const [ball, left] = [0.1130973 * 7.38, 0.0095426 * 8.4];
    expect(mixture?.mass?.Pb).toBeCloseTo((0.37 * left) / (ball + left), 6);
    expect(mixture?.volumeShareOfBall).toBeCloseTo(0.1130973 / (0.1130973 + 0.0095426), 6);
    expect(mixture?.leaded).toBe(true);
  });

  it('are not worked out while nobody knows how much stays, and the caution is said all the same', () => {
    const joint = judge({ ...MEASURED, ballAlloy: 'SAC305', padAlloy: 'Sn63Pb37' });
    expect(joint.mixture).toMatchObject({ mass: null, volumeShareOfBall: null });
    expect(said(joint, 'mixture')).toMatch(/how much of each is not known.*Below 220 °C/);
  });

  it('take the solder of the work for the balls where nobody says otherwise', () => {
    const { mixture } = judge({ padAlloy: 'SAC305' }, { ballAlloy: 'Sn63Pb37' });
    expect(mixture).toMatchObject({ ballAlloy: 'Sn63Pb37', padAlloy: 'SAC305' });
  });

  it('of bismuth and lead are warned of though the table has no density to mix them by', () => {
    const { mixture } = judge({ ballAlloy: 'Sn42Bi58', padAlloy: 'Sn63Pb37' });
    expect(mixture?.mass).toBeNull();
    expect(mixture?.notes.join(' ')).toContain('never mix them');
  });

  it('add up to one whatever is mixed', () => {
    const known = ALLOYS.filter(({ gramsPerCubicCentimetre }) => gramsPerCubicCentimetre !== null);
    const alloy = fc.constantFrom(...known.map(({ id }) => id));
    fc.assert(
      fc.property(measured, alloy, alloy, (given, ballAlloy, padAlloy) => {
        const { mixture } = judge({ ...given, leftMillimetres: 0.02, ballAlloy, padAlloy });
        expect(Object.values(mixture!.mass!).reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 9);
      }),
      runs,
    );
  });

  it('are refused by a name the table does not have', () => {
    expect(judge({ ballAlloy: 'SAC999' }).problems[0]).toMatchObject({
      field: 'ballAlloy',
      wrong: '"SAC999" is no alloy of the table.',
    });
  });
});

describe('Voids in the image', () => {
  it('are judged by each revision of IPC-A-610 on its own: 26 % is beyond one and within the other', () => {
    const joint = judge({ imageMillimetres: 0.5, voidsMillimetres: [0.15, 0.2, 0.05] });
    // (9 + 16 + 1) %, each (d / 0.5)^2
    expect(joint.voids?.percent).toBeCloseTo(26, 9);
    expect(joint.voids?.limits.map(({ within }) => within)).toEqual([false, true]);
    expect(said(joint, 'voids')).toMatch(/D\/E: at most 25 %, BEYOND \(quoted\).*30 %, within \(from memory\)/);
  });

  it('make the same area in any order', () => {
    const widths = fc.array(fc.double({ min: 0, max: 0.4, noNaN: true }), { maxLength: 12 });
    const shuffled = widths.chain((list) =>
      fc.tuple(fc.constant(list), fc.shuffledSubarray(list, { minLength: list.length })),
    );
    fc.assert(
      fc.property(shuffled, ([list, other]) => {
        const percent = (voidsMillimetres: number[]) =>
          judge({ imageMillimetres: 0.5, voidsMillimetres }).voids!.percent;
        expect(percent(other)).toBeCloseTo(percent(list), 9);
      }),
      runs,
    );
  });

  it('are refused where one is wider than its ball', () => {
    const { voids, problems } = judge({ imageMillimetres: 0.5, voidsMillimetres: [0.6] });
    expect(voids).toBeNull();
    expect(problems[0]?.wrong).toBe('A void of 0.6 mm is wider than its ball of 0.5 mm in the image.');
  });
});

const USE: Balls = { swingKelvin: 55, hottestCelsius: 85, cyclesPerDay: 3 };
const SAME: Balls = { referenceSwingKelvin: 55, referenceHottestCelsius: 85, referenceCyclesPerDay: 3 };

describe('Leaded and lead-free under heat cycles', () => {
  it('are compared with a reference that is stated, or said to be assumed', () => {
    expect(said(judge(USE), 'life')).toContain('as nobody stated one: 40 K up to 65 °C, 1 cycle a day (estimate)');
    expect(said(judge({ ...USE, ...SAME }), 'life')).toContain(
      'The reference, as stated: 55 K up to 85 °C, 3 cycles a day.',
    );
    expect(judge({ ...USE, referenceSwingKelvin: 55 }).missing).toEqual([
      { part: 'life', fields: ['referenceHottestCelsius', 'referenceCyclesPerDay'] },
    ]);
  });

  it('live as long as under the reference where the use is the reference, and then neither is worn more', () => {
    const { life } = judge({ ...USE, ...SAME });
    for (const { timesAsManyCycles, timesAsManyDays } of [life!.leaded, ...life!.leadFree]) {
      expect(timesAsManyCycles).toBeCloseTo(1, 12);
      expect(timesAsManyDays).toBeCloseTo(1, 12);
    }
    expect(life!.costsMore).toBe('cannot-tell');
  });

  it('are told by the closed form: SnPb with twice the swing at the same top and rate, by hand', () => {
    const { life } = judge({ ...USE, ...SAME, referenceSwingKelvin: 27.5 });
    // (1/2)^1.9 of Norris and Landzberg, SnPb
    expect(life!.leaded.timesAsManyCycles).toBeCloseTo(0.267943, 6);
  });

  it('give lead-free solder a range over all sets of constants, shortest first, and say the spread', () => {
    const joint = judge(USE);
    const ratios = joint.life!.leadFree.map(({ timesAsManyCycles }) => timesAsManyCycles);
    expect(ratios).toHaveLength(LEAD_FREE_CONSTANTS.length);
    expect(ratios).toEqual([...ratios].sort((a, b) => a - b));
    expect(said(joint, 'life')).toMatch(/They lie a factor of 1\.98 apart and none is agreed on/);
    expect(said(joint, 'life')).toContain('which of them lives longer under the reference is not in these figures');
    expect(said(joint, 'life')).toContain(LIFE_IS_A_COMPARISON);
  });

  it('say which solder a use wears more only where every set fitted to lead-free solder agrees', () => {
    const figure = fc.double({ min: 5, max: 120, noNaN: true });
    fc.assert(
      fc.property(figure, figure, figure, figure, (swingKelvin, hottestCelsius, cyclesPerDay, referenceSwingKelvin) => {
        const { life } = judge({ ...SAME, referenceSwingKelvin, swingKelvin, hottestCelsius, cyclesPerDay });
        const signs = life!.leadFree
          .filter(({ constants }) => constants !== 'snpb-constants')
          .map(({ timesAsManyCycles }) => Math.sign(life!.leaded.timesAsManyCycles - timesAsManyCycles));
        const agreed = { '1': 'lead-free', '-1': 'leaded' }[String(signs[0])];
        expect(life!.costsMore).toBe(signs.every((sign) => sign === signs[0]) && agreed ? agreed : 'cannot-tell');
      }),
      runs,
    );
  });

  it('count days once: cycles over cycles a day, and in days where the reference has a life', () => {
    const { life } = judge({ ...USE, ...SAME, referenceCycles: 3000, referenceShape: 2 });
    // 63.2 % by 3000 cycles at three a day; a tenth by 1000 sqrt(-ln .9), half by 1000 sqrt(ln 2) days
    expect(life!.leaded.days!.characteristic).toBeCloseTo(1000, 6);
    expect(life!.leaded.days!.tenthFailed).toBeCloseTo(324.59, 1);
    expect(life!.leaded.days!.halfFailed).toBeCloseTo(832.55, 1);
  });

  it('name how much faster heat alone works, by Arrhenius, beside the cycles', () => {
    // 60 C, 100 C, 1.2 eV -> 88.2957458846: published
    const hot = judge({
      ...USE,
      hottestCelsius: 100,
      ...SAME,
      referenceHottestCelsius: 60,
      activationElectronvolts: 1.2,
    });
    expect(hot.life?.heatAlone?.timesAsFast).toBeCloseTo(88.2957458846, 6);
    expect(said(hot, 'life')).toContain('runs 88.3 times as fast at 100 °C as at 60 °C of the reference (Arrhenius)');
    expect(judge({ activationElectronvolts: 0.7 }).missing[0]?.fields).toEqual([
      'swingKelvin',
      'hottestCelsius',
      'cyclesPerDay',
    ]);
  });

  it('give Engelmaier’s median from its published test values, for SnPb alone', () => {
    // T 55, dwell 15, strain range 0.065 -> 121.8015797 cycles: published test values of the model
    const joint = judge({ swingKelvin: 50, hottestCelsius: 80, cyclesPerDay: 2, strainRange: 0.065, dwellMinutes: 15 });
    expect(joint.engelmaier?.exponent).toBeCloseTo(-0.418991560647, 11);
    expect(joint.engelmaier?.medianCycles).toBeCloseTo(121.8015797, 6);
    expect(joint.engelmaier?.medianDays).toBeCloseTo(60.90078985, 6);
    expect(judge({ strainRange: 0.065 }).missing).toEqual([
      { part: 'engelmaier', fields: ['dwellMinutes', 'swingKelvin', 'hottestCelsius', 'cyclesPerDay'] },
    ]);
  });
});

describe('Every answer', () => {
  it('is what its schema says, in either language, whatever was given', () => {
    const some = fc.record({
      given: measured,
      alloys: fc.option(fc.constantFrom(...ALLOYS.map(({ id }) => id)), { nil: undefined }),
      life: fc.boolean(),
      language: fc.constantFrom('en', 'de'),
    });
    fc.assert(
      fc.property(some, ({ given, alloys, life, language }) => {
        const balls: Balls = {
          ...given,
          ...(alloys === undefined ? {} : { ballAlloy: alloys, padAlloy: 'SAC305' }),
          ...(life ? { ...USE, ...SAME, referenceCycles: 500, referenceShape: 1.5 } : {}),
        };
        expect(Joint.safeParse(judgeBalls(balls, language)).error).toBeUndefined();
      }),
      runs,
    );
  });
});
