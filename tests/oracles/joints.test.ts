/**
 * Published answers on solder and heat. The source stands beside each test; figures that were not seen in a source are
 * never an oracle, but that they are marked so is tested.
 */
import { describe, expect, test } from 'vitest';
import { ALLOYS } from '../../src/joints/alloys.ts';
import { bakeNeeded, DRYING, FLOOR_LIFE_HOURS, MOISTURE_LEVELS } from '../../src/joints/bake.ts';
import { collapsedJoint, LANDS, landFit, sliceVolume } from '../../src/joints/ball-geometry.ts';
import { JOINT_SOURCES } from '../../src/joints/cited.ts';
import {
  arrheniusFactor,
  cycleRatio,
  engelmaierExponent,
  engelmaierMedianCycles,
  fitCycling,
  LEAD_FREE_CONSTANTS,
  SNPB_CONSTANTS,
} from '../../src/joints/fatigue.ts';
import { ALLOWANCES } from '../../src/joints/heat-budget.ts';
import { CEILINGS, packageCeiling, REFLOW_CLASSES, REVISION_C_DIFFERS } from '../../src/joints/reflow-window.ts';
import { VOID_LIMITS, voidAreaPercent } from '../../src/joints/void-area.ts';

describe('reflow classes, J-STD-020D table 5-2', () => {
  test('SnPb', () => {
    expect(REFLOW_CLASSES.snpb).toEqual({
      soakFrom: 100,
      soakTo: 150,
      liquidus: 183,
      soakSeconds: { atLeast: 60, atMost: 120 },
      averageRise: { atMost: 3 },
      secondsAboveLiquidus: { atLeast: 60, atMost: 150 },
      secondsNearCeiling: { atMost: 20 },
      fall: { atMost: 6 },
      secondsToPeak: { atMost: 360 },
    });
  });

  test('lead-free', () => {
    expect(REFLOW_CLASSES['lead-free']).toEqual({
      soakFrom: 150,
      soakTo: 200,
      liquidus: 217,
      soakSeconds: { atLeast: 60, atMost: 120 },
      averageRise: { atMost: 3 },
      secondsAboveLiquidus: { atLeast: 60, atMost: 150 },
      secondsNearCeiling: { atMost: 30 },
      fall: { atMost: 6 },
      secondsToPeak: { atMost: 480 },
    });
  });

  test('revision C allowed a longer lead-free soak', () => {
    expect(REVISION_C_DIFFERS.leadFreeSoakSeconds).toEqual({ atLeast: 60, atMost: 180 });
  });

  // J-STD-020D table 4-2: below 1.6 mm, 1.6 to 2.5 mm, 2.5 mm and more; below 350, 350 to 2000, above 2000 mm3
  test.each([
    [1.5, 300, 260],
    [1.5, 1000, 260],
    [1.5, 2100, 260],
    [1.6, 349.9, 260],
    [1.6, 350, 250],
    [2.4, 2000, 250],
    [2.4, 2000.1, 245],
    [2.5, 349, 250],
    [2.5, 350, 245],
    [4, 5000, 245],
  ])('a lead-free package of %d mm and %d mm3 is classified at %d degC (table 4-2)', (thickness, volume, celsius) => {
    const ceiling = packageCeiling('lead-free', { thickness, volume });
    expect([ceiling.lowest, ceiling.highest]).toEqual([celsius, celsius]);
  });

  test('SnPb ceilings run from 220 to 235 degC (range seen), and their cells are marked as from memory', () => {
    const { lowest, highest, cited } = packageCeiling('snpb', {});
    expect([lowest, highest, cited.seen]).toEqual([220, 235, 'memory']);
    expect(CEILINGS['lead-free'].cited.seen).toBe('quoted');
  });
});

describe('moisture', () => {
  test('floor life, J-STD-020 table 5-1: a year, four weeks, then 168, 72, 48 and 24 hours', () => {
    expect(MOISTURE_LEVELS.map((level) => FLOOR_LIFE_HOURS[level])).toEqual([
      'unlimited',
      8760,
      672,
      168,
      72,
      48,
      24,
      'as labelled',
    ]);
  });

  // J-STD-033 table 4-1, wet through | floor life passed by 72 h or less
  const d = (days: number) => 24 * days;
  test.each([
    ['2a', 1.4, [5, 3], [17, 11], [d(8), d(5)]],
    ['3', 1.4, [9, 7], [33, 23], [d(13), d(9)]],
    ['4', 1.4, [11, 7], [37, 23], [d(15), d(9)]],
    ['5', 1.4, [12, 7], [41, 24], [d(17), d(10)]],
    ['5a', 1.4, [16, 10], [54, 24], [d(22), d(10)]],
    ['2a', 2, [21, 16], [d(3), d(2)], [d(29), d(22)]],
    ['3', 2, [27, 17], [d(4), d(2)], [d(37), d(23)]],
    ['4', 2, [34, 20], [d(5), d(3)], [d(47), d(28)]],
    ['5', 2, [40, 25], [d(6), d(4)], [d(57), d(35)]],
  ] as const)(
    'level %s, body to %d mm: drying at 125, 90 and 40 degC (J-STD-033 table 4-1)',
    (level, bodyMillimetres, at125, at90, at40) => {
      const cells: readonly (readonly [number, number])[] = [at125, at90, at40];
      const floor = FLOOR_LIFE_HOURS[level] as number;
      const passed = (hours: number) => {
        const need = bakeNeeded({ level, bodyMillimetres, hours, room: 'within' });
        return need.kind === 'bake' ? need.choices.map((choice) => [choice.celsius, choice.hours]) : need;
      };
      expect(passed(floor + 73)).toEqual([125, 90, 40].map((celsius, i) => [celsius, cells[i]![0]]));
      expect(passed(floor + 72)).toEqual([125, 90, 40].map((celsius, i) => [celsius, cells[i]![1]]));
    },
  );

  test('drying of thicker bodies is marked as from memory', () => {
    const thick = DRYING.filter(({ thickness }) => thickness[0] >= 2);
    expect(thick.length).toBeGreaterThan(0);
    for (const { hours } of thick) for (const cell of Object.values(hours)) expect(cell.seen).toBe('memory');
  });
});

describe('solder', () => {
  // a compiled table of solder alloys
  test.each([
    ['Sn63Pb37', 183, 183, 8.4],
    ['Sn60Pb40', 183, 191, 8.5],
    ['SAC305', 217, 220, 7.38],
    ['SAC405', 217, 220, 7.44],
    ['SAC105', 215, 227, 7.32],
    ['SnCu0.7', 227, 227, 7.31],
    ['SnAg3.5', 221, 221, 7.37],
    ['Sn42Bi58', 138, 138, null],
  ])('%s melts from %d to %d degC', (id, solidus, liquidus, density) => {
    const alloy = ALLOYS.find((one) => one.id === id)!;
    expect([alloy.solidusCelsius, alloy.liquidusCelsius, alloy.gramsPerCubicCentimetre]).toEqual([
      solidus,
      liquidus,
      density,
    ]);
    expect(Object.values(alloy.mass).reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
  });

  test('lands for balls, IPC-7095', () => {
    expect(LANDS.map(({ ball, land, from, to }) => [ball, land, from, to])).toEqual([
      [0.75, 0.55, 0.5, 0.6],
      [0.6, 0.45, 0.4, 0.5],
      [0.5, 0.4, 0.35, 0.45],
    ]);
    expect(landFit(0.6, 0.45).kind).toBe('fits');
    expect(landFit(0.6, 0.38).kind).toBe('too-small');
    expect(landFit(0.6, 0.52).kind).toBe('too-large');
    expect(landFit(0.45, 0.35).kind).toBe('no-row');
  });

  // arithmetic on the volume of a spherical segment; no paste, no load, equal pads
  test.each([
    [0.75, 0.55, 0.5543, 0.7809],
    [0.6, 0.45, 0.4368, 0.6271],
    [0.5, 0.4, 0.3469, 0.5295],
    [0.4, 0.35, 0.2565, 0.4339],
    [0.3, 0.25, 0.2012, 0.3209],
  ])('a %d mm ball on %d mm pads settles to %d mm and is %d mm wide', (ballDiameter, pad, height, widest) => {
    const joint = collapsedJoint({ ballDiameter, packagePad: pad, boardPad: pad });
    expect(joint.height).toBeCloseTo(height, 4);
    expect(joint.widest).toBeCloseTo(widest, 4);
  });

  test('the same by cutting the joint into thin discs (Simpson on the arc)', () => {
    const joint = collapsedJoint({ ballDiameter: 0.6, packagePad: 0.5, boardPad: 0.4 });
    // the ball's middle from the lower pad and its radius, by hand from two points of the circle
    const centre = (joint.height ** 2 + 0.25 ** 2 - 0.2 ** 2) / (2 * joint.height);
    const squared = 0.2 ** 2 + centre ** 2;
    const discs = 2000;
    let volume = 0;
    for (let k = 0; k <= discs; k += 1) {
      const z = (k * joint.height) / discs;
      const weight = k === 0 || k === discs ? 1 : k % 2 === 1 ? 4 : 2;
      volume += (weight * Math.PI * (squared - (z - centre) ** 2) * joint.height) / (3 * discs);
    }
    expect(volume).toBeCloseTo((Math.PI * 0.6 ** 3) / 6, 12);
    expect(sliceVolume(0.2, 0.25, joint.height)).toBeCloseTo(volume, 12);
    expect(joint.widest).toBeCloseTo(2 * Math.sqrt(squared), 12);
  });

  test('voids, area = diameter squared: 30, 45 and 60 % wide are 9, 20.25 and 36 %', () => {
    for (const [wide, area] of [
      [0.3, 9],
      [0.45, 20.25],
      [0.6, 36],
    ] as const)
      expect(voidAreaPercent(1, [wide])).toBeCloseTo(area, 12);
  });

  test('IPC-A-610 allows 25 % of the image in D and E (quoted), 30 % later (from memory, and marked so)', () => {
    expect(VOID_LIMITS.map(({ percent, cited }) => [percent, cited.seen])).toEqual([
      [25, 'quoted'],
      [30, 'memory'],
    ]);
  });

  test('allowances: three passes of a part (a maker’s guide), one rework of a location (IPC paper), six of a board (IPC-TM-650 2.6.27)', () => {
    expect(Object.fromEntries(ALLOWANCES.map(({ id, most }) => [id, most]))).toEqual({
      'part-passes': 3,
      'location-reworks': 1,
      'board-passes': 6,
    });
  });

  test('every figure names a source that is listed', () => {
    const cited = [
      ...ALLOWANCES,
      ...VOID_LIMITS,
      ...LEAD_FREE_CONSTANTS,
      SNPB_CONSTANTS,
      ...Object.values(CEILINGS),
    ].map(({ cited: { source } }) => source);
    expect(cited.filter((source) => !(source in JOINT_SOURCES))).toEqual([]);
  });
});

describe('fatigue and ageing', () => {
  test('Norris-Landzberg exponents 1.9 and 1/3 and 1414 K for SnPb (ESA handbook, FIDES)', () => {
    expect([SNPB_CONSTANTS.swingExponent, SNPB_CONSTANTS.frequencyExponent, SNPB_CONSTANTS.kelvin]).toEqual([
      1.9,
      1 / 3,
      1414,
    ]);
    // by hand: (100/40)^1.9 (2/48)^(1/3) exp(1414 (1/333.15 - 1/373.15))
    const byHand = 2.5 ** 1.9 * (2 / 48) ** (1 / 3) * Math.exp(1414 * (1 / 333.15 - 1 / 373.15));
    const use = { swing: 40, hottest: 60, cyclesPerDay: 2 };
    expect(cycleRatio(SNPB_CONSTANTS, use, { swing: 100, hottest: 100, cyclesPerDay: 48 })).toBeCloseTo(byHand, 12);
  });

  test('slow cycling in the field takes cycles off: the frequency factor is below one', () => {
    const test = { swing: 60, hottest: 80, cyclesPerDay: 48 };
    expect(cycleRatio(SNPB_CONSTANTS, { ...test, cyclesPerDay: 6 }, test)).toBeCloseTo(0.5, 12);
  });

  test('lead-free after Pan et al. 2005: 2.65, 0.136, 2185 K (second hand), and never alone', () => {
    const pan = LEAD_FREE_CONSTANTS.find(({ id }) => id === 'pan-2005')!;
    expect([pan.swingExponent, pan.frequencyExponent, pan.kelvin]).toEqual([2.65, 0.136, 2185]);
    expect(LEAD_FREE_CONSTANTS.length).toBeGreaterThan(1);
  });

  test('twelve tests give the published fit (G. Yang, Life Cycle Reliability Engineering, 2007, example 7.2)', () => {
    const cycles = [208, 225, 308, 142, 108, 169, 131, 1300, 650, 258, 6231, 1450];
    const hottest = [80, 80, 80, 100, 120, 100, 120, 80, 100, 120, 30, 30];
    const swing = [120, 120, 120, 140, 160, 120, 120, 50, 70, 90, 50, 70];
    const frequency = [1, 2, 3, 2, 2, 2, 2, 2, 2, 2, 2, 2];
    const fit = fitCycling(
      cycles.map((n, i) => ({ cycles: n, hottest: hottest[i]!, swing: swing[i]!, cyclesPerDay: frequency[i]! })),
    );
    expect(fit.intercept).toBeCloseTo(9.517, 3);
    expect(fit.swingExponent).toBeCloseTo(2.0635, 4);
    expect(fit.frequencyExponent).toBeCloseTo(0.3452, 4);
    expect(fit.kelvin).toBeCloseTo(2006.4, 1);
  });

  test('Engelmaier: 55 degC and 15 minutes give c = -0.418991560647, a strain of 0.065 a median of 121.8015797 cycles (published test values)', () => {
    expect(engelmaierExponent(55, 15)).toBeCloseTo(-0.418991560647, 12);
    expect(engelmaierMedianCycles(0.065, 55, 15)).toBeCloseTo(121.8015797, 7);
  });

  test('Arrhenius: 60 to 100 degC at 1.2 eV is 88.2957458846 times as fast (published test value)', () => {
    expect(arrheniusFactor(60, 100, 1.2)).toBeCloseTo(88.2957458846, 9);
  });
});
