/** What is said of a ball joint, in English. `de.ts` has the same keys. */
import type { MixNote } from '../../joints/ball-geometry.ts';
import type { Seen } from '../../joints/cited.ts';
import { LIFE_IS_A_COMPARISON } from '../../joints/fatigue.ts';
import type { Balls } from '../../record/balls.ts';

const format = new Intl.NumberFormat('en', { useGrouping: false, maximumFractionDigits: 10 });

const seen: Readonly<Record<Seen, string>> = { seen: 'seen', quoted: 'quoted', memory: 'from memory' };
const constants: Readonly<Record<string, string>> = {
  snpb: 'SnPb constants',
  'pan-2005': 'SnAgCu, Pan et al. 2005',
  'lall-2012': 'SAC305, Lall et al. 2012',
  'snpb-constants': 'constants of SnPb, as pages apply them',
};
const sources: Readonly<Record<string, string>> = {
  'ipc-7095': 'IPC-7095',
  'ipc-a-610': 'IPC-A-610',
  'esa-reliability-handbook': 'ESA handbook on solder joint life',
  'pan-2005': 'as quoted by others',
  'lall-2012': 'Lall et al. 2012',
  'engelmaier-test-values': 'published test values of the model',
};
const fields: Readonly<Record<keyof Balls, string>> = {
  ballMillimetres: 'ball diameter',
  packagePadMillimetres: 'package pad',
  boardPadMillimetres: 'board pad',
  pitchMillimetres: 'pitch',
  pasteCubicMillimetres: 'paste for one ball',
  leftMillimetres: 'height of solder left on the pads',
  ballAlloy: 'alloy of the balls',
  padAlloy: 'alloy on the pads',
  imageMillimetres: 'ball in the X-ray image',
  voidsMillimetres: 'voids in it',
  swingKelvin: 'swing',
  hottestCelsius: 'hottest temperature',
  cyclesPerDay: 'cycles a day',
  referenceSwingKelvin: 'swing of the reference',
  referenceHottestCelsius: 'hottest temperature of the reference',
  referenceCyclesPerDay: 'cycles a day of the reference',
  referenceCycles: 'life under the reference',
  referenceShape: 'Weibull shape of the reference',
  strainRange: 'shear strain range',
  dwellMinutes: 'dwell',
  activationElectronvolts: 'activation energy',
};

export const en = {
  number: (value: number): string => format.format(value),
  fields,
  seen,
  constants,
  sources,
  given: (values: string) => `Given: ${values}.`,
  perDay: (cycles: string) => (cycles === '1' ? '1 cycle a day' : `${cycles} cycles a day`),
  headings: {
    shape: 'Joint',
    mixture: 'Solder mixed',
    voids: 'Voids',
    life: 'Leaded or lead-free under heat cycles',
    engelmaier: 'Median life after Engelmaier',
  },
  shape: {
    standOff: (height: string, widest: string, pitch: string) =>
      `Stand-off ${height} mm after collapse, widest ${widest} mm${pitch}.`,
    atPitch: (pitch: string) => `, at a pitch of ${pitch} mm`,
    volume: (whole: string) => `Solder ${whole} mm³.`,
    volumeOf: (whole: string, ball: string, more: string) => `Solder ${whole} mm³: ${ball} of the ball, ${more}.`,
    paste: (volume: string) => `${volume} of metal in the paste (half of its volume, estimate)`,
    left: (volume: string) => `${volume} left on both pads`,
    gap: (gap: string, percent: string) => `Gap to the neighbour ${gap} mm, ${percent} of the pitch.`,
    sink: (touch: string, room: string) =>
      `Neighbours touch where the package stands at ${touch} mm: it may sink ${room} mm, pressed or warped, and no further.`,
    touch: (over: string) => `Neighbouring joints touch: they are ${over} mm wider than the pitch leaves room for.`,
    noPitch: 'Give the pitch for the gap to the neighbour.',
    geometryAlone:
      'By the geometry alone: the weight of the package, solder mask and vias are not counted, so that a real joint is lower and wider. No chance of a short is given.',
    land: (side: 'package' | 'board', pad: string, fit: 'fits' | 'too-small' | 'too-large', ball: string) =>
      `${side === 'package' ? 'Package' : 'Board'} pad ${pad} mm ${
        { fits: 'fits', 'too-small': 'is too small for', 'too-large': 'is too large for' }[fit]
      } a ball of ${ball} mm`,
    landRow: (usual: string, from: string, to: string, source: string) =>
      `: land ${usual} mm, ${from} to ${to} mm (${source}).`,
    noRow: (ball: string, balls: string, source: string) =>
      `The table of lands has no ball of ${ball} mm; it has ${balls} mm (${source}).`,
  },
  mixture: {
    same: (alloy: string) => `One alloy, ${alloy}: what stays on the pads is taken as the same.`,
    sameSaid: (alloy: string) => `One alloy, ${alloy}, in ball and on the pads.`,
    mixed: (ball: string, share: string, pad: string, mass: string) =>
      `${ball} makes up ${share} of the volume, ${pad} the rest; by mass ${mass}.`,
    unknownVolumes: (ball: string, pad: string) =>
      `${ball} on ${pad}: how much of each is not known. Give the height of the solder left on the pads, or the paste, for the composition.`,
    unknownDensity: (ball: string, pad: string) =>
      `${ball} on ${pad}: the table has no density for one of them, so that the composition by mass is not worked out.`,
    note: (note: MixNote): string => {
      switch (note.id) {
        case 'mixes-in-part':
          return `Below ${note.celsius} °C the ${note.alloy} part does not melt through: the joint mixes in part, and unevenly.`;
        case 'lowers-melting':
          return 'Mixing in leaded solder lowers the melting range of a lead-free joint: common practice for taking parts off, not for joints that stay.';
        case 'lead':
          return 'Lead is above 0.1 % of the mass: rules on placing on the market and on repair differ by place; ask locally.';
        case 'bismuth-with-lead':
          return 'Bismuth with lead forms a phase that melts near 96 °C (from memory): never mix them.';
      }
    },
  },
  voids: {
    percent: (percent: string, count: number) =>
      `${count === 1 ? 'The void takes' : `${count} voids take`} ${percent} of the ball’s image; voids that overlap are counted twice.`,
    none: 'No void: 0 % of the ball’s image.',
    limit: (source: string, revision: string, percent: string, within: boolean, seenAs: string) =>
      `${source}, revision ${revision}: at most ${percent}, ${within ? 'within' : 'BEYOND'} (${seenAs}).`,
  },
  life: {
    use: (swing: string, hottest: string, cycles: string) =>
      `This use: a swing of ${swing} K up to ${hottest} °C, ${cycles}.`,
    stated: (swing: string, hottest: string, cycles: string) =>
      `The reference, as stated: ${swing} K up to ${hottest} °C, ${cycles}.`,
    assumed: (swing: string, hottest: string, cycles: string) =>
      `The reference, as nobody stated one: ${swing} K up to ${hottest} °C, ${cycles} (estimate). State your own.`,
    leaded: (cycles: string, days: string, source: string) =>
      `Leaded: ${cycles} times as many cycles as under the reference, ${days} times as many days (${source}).`,
    leadFree: (low: string, high: string, lowDays: string, highDays: string) =>
      `Lead-free: ${low} to ${high} times as many cycles, ${lowDays} to ${highDays} times as many days.`,
    spread: (sets: string, factor: string) =>
      `By each set of constants: ${sets}. They lie a factor of ${factor} apart and none is agreed on: the range is the answer, not a figure in it.`,
    costsMore: {
      leaded:
        'By every set fitted to lead-free solder, this use costs leaded joints the larger share of their life under the reference.',
      'lead-free':
        'By every set fitted to lead-free solder, this use costs lead-free joints the larger share of their life under the reference.',
      'cannot-tell': 'Which of the two this use wears more, against the reference, the constants do not tell.',
    },
    eachWithItself:
      'Each solder is compared with itself: which of them lives longer under the reference is not in these figures.',
    days: (solder: string, tenth: string, half: string, characteristic: string) =>
      `${solder}: one in ten failed after ${tenth} days, half after ${half}, 63.2 % after ${characteristic}.`,
    heatAlone: (activation: string, fast: string, hottest: string, reference: string) =>
      `Heat alone, beside the cycles: a change with an activation energy of ${activation} eV (as stated) runs ${fast} times as fast at ${hottest} °C as at ${reference} °C of the reference (Arrhenius).`,
    daysFrom: (cycles: string, shape: string) =>
      `With the stated life under the reference (63.2 % failed by ${cycles} cycles, Weibull shape ${shape}), taken for both solders:`,
    leadedName: 'Leaded',
    leadFreeName: (name: string) => `Lead-free, ${name}`,
    comparison: LIFE_IS_A_COMPARISON as string,
  },
  engelmaier: {
    median: (cycles: string, days: string, perDay: string) =>
      `Half of such leaded joints fail by ${cycles} cycles, ${days} days at ${perDay}.`,
    from: (strain: string, mean: string, dwell: string, exponent: string, source: string) =>
      `From a strain range of ${strain}, a mean of ${mean} °C and a dwell of ${dwell} min; exponent ${exponent} (${source}). For SnPb alone: no lead-free figure follows.`,
    comparison:
      'A figure to compare joints of the same kind by, as far as the strain range is known: no promise of life.',
  },
  missing: (fields: string) => `Still needed: ${fields}.`,
  and: 'and',
  refused: {
    outside: (typed: string, field: string) => `"${typed}" cannot be the ${field}.`,
    above: (least: string, most: string) => `Give a figure above ${least} and up to ${most}.`,
    from: (least: string, most: string) => `Give a figure from ${least} to ${most}.`,
    notOneNumber: (typed: string) => ({
      wrong: `"${typed}" is not one number.`,
      todo: 'Type one number with one decimal mark, such as 0.6 or 0,6.',
    }),
    voidOutside: (typed: string, most: string) => ({
      wrong: `"${typed}" cannot be the width of a void.`,
      todo: `Give widths from 0 to ${most} mm, such as 0.15 0.2.`,
    }),
    voidTooWide: (widest: string, image: string) => ({
      wrong: `A void of ${widest} mm is wider than its ball of ${image} mm in the image.`,
      todo: 'Measure both in the same image and in one unit.',
    }),
    padAsWideAsPitch: (field: string, pad: string, pitch: string) => ({
      wrong: `The ${field} of ${pad} mm is as wide as the pitch of ${pitch} mm: neighbouring pads would touch.`,
      todo: 'Measure the pad across its copper, and the pitch from middle to middle.',
    }),
    alloy: (typed: string, known: string) => ({
      wrong: `"${typed}" is no alloy of the table.`,
      todo: `Choose one of ${known}.`,
    }),
  },
};

export type BallMessages = typeof en;
