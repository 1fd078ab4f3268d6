/** Fatigue of joints by temperature cycles and ageing by heat: comparisons with a stated reference, never a promise. */
import type { Cited } from './cited.ts';

/** In eV per kelvin: 1.380649e-23 J/K over 1.602176634e-19 C, both exact in the SI of 2019. */
export const BOLTZMANN_EV = 1.380649e-23 / 1.602176634e-19;
export const KELVIN_AT_ZERO_CELSIUS = 273.15;

export interface Cycling {
  /** temperature swing, kelvin */
  readonly swing: number;
  /** hottest temperature of the cycle, degC */
  readonly hottest: number;
  /** cycles per day: how often the cycle itself runs, which is its frequency in the equation */
  readonly cyclesPerDay: number;
}

export interface NorrisLandzberg {
  readonly id: string;
  readonly name: string;
  readonly solder: 'snpb' | 'lead-free';
  /** n: exponent of the swing */
  readonly swingExponent: number;
  /** m: exponent of the frequency */
  readonly frequencyExponent: number;
  /** Ea / k in kelvin */
  readonly kelvin: number;
  readonly cited: Cited;
}

export const SNPB_CONSTANTS: NorrisLandzberg = {
  id: 'snpb',
  name: 'SnPb',
  solder: 'snpb',
  swingExponent: 1.9,
  frequencyExponent: 1 / 3,
  kelvin: 1414,
  cited: { source: 'esa-reliability-handbook', place: 'solder joint equation', seen: 'seen' },
};

/**
 * For lead-free solder no set of constants is agreed on (a published review finds none that holds), so that all of these
 * are used and their spread is the answer. Pan et al. fit a dwell time where the others have a frequency: longer dwell,
 * fewer cycles, which is the same direction. The SnPb constants stand among them because pages apply them so.
 */
export const LEAD_FREE_CONSTANTS: readonly NorrisLandzberg[] = [
  {
    id: 'pan-2005',
    name: 'SnAgCu, Pan et al.',
    solder: 'lead-free',
    swingExponent: 2.65,
    frequencyExponent: 0.136,
    kelvin: 2185,
    cited: { source: 'pan-2005', place: 'fitted constants', seen: 'quoted' },
  },
  {
    id: 'lall-2012',
    name: 'SAC305, Lall et al.',
    solder: 'lead-free',
    swingExponent: 2.3,
    frequencyExponent: 0.3,
    kelvin: 4562,
    cited: { source: 'lall-2012', place: 'fitted constants', seen: 'memory' },
  },
  { ...SNPB_CONSTANTS, id: 'snpb-constants', name: 'SnPb constants on lead-free solder', solder: 'lead-free' },
];

/** Said wherever a fatigue life is shown. */
export const LIFE_IS_A_COMPARISON =
  'This compares one way of use with a stated reference for the same joint; it says nothing of drops, bending, underfill, voids or bad wetting, and is no promise of life.';

/**
 * How many times as many cycles a joint lives in use as in the reference (Norris & Landzberg):
 *
 *     N_use / N_ref = (dT_ref / dT_use)^n (f_use / f_ref)^m exp(Ea/k (1/Tmax_use - 1/Tmax_ref)), Tmax in kelvin
 *
 * **Convention**: this is a ratio of cycles to failure. Slow cycling in the field (f_use < f_ref) makes the frequency
 * factor smaller than one: each slow cycle does more harm. Published pages disagree on which way up it stands; the inverse
 * ratio of *times* would carry (f_use / f_ref)^(m - 1). Days follow by dividing by cycles per day (`lifeInUse`), once.
 * A swing or frequency of nought or less is an error. Constant time.
 *
 * @example cycleRatio(SNPB_CONSTANTS, { swing: 50, hottest: 80, cyclesPerDay: 2 }, { swing: 100, hottest: 80, cyclesPerDay: 2 }) // 3.732131966147229
 */
export function cycleRatio(constants: NorrisLandzberg, use: Cycling, reference: Cycling): number {
  for (const { swing, cyclesPerDay, hottest } of [use, reference])
    if (!(swing > 0 && cyclesPerDay > 0 && hottest > -KELVIN_AT_ZERO_CELSIUS))
      throw new RangeError(
        'Swing and cycles per day are above nought, and the hottest temperature above absolute nought.',
      );
  const { swingExponent, frequencyExponent, kelvin } = constants;
  return Math.exp(
    swingExponent * Math.log(reference.swing / use.swing) +
      frequencyExponent * Math.log(use.cyclesPerDay / reference.cyclesPerDay) +
      kelvin * (1 / toKelvin(use.hottest) - 1 / toKelvin(reference.hottest)),
  );
}

export interface LifeReference {
  readonly cycling: Cycling;
  /** cycles by which 63.2 % have failed under the reference */
  readonly characteristicCycles: number;
  /** Weibull shape: how sharply lives gather; taken over to the use */
  readonly shape: number;
}

export interface LifeInUse {
  readonly constants: string;
  readonly ratio: number;
  /** days by which 63.2 % have failed; Weibull with `shape` */
  readonly characteristicDays: number;
  readonly shape: number;
}

/**
 * The distribution of life in days under use: Weibull with the reference's shape, its scale the reference's cycles times
 * the ratio over cycles per day. Acceleration stretches time and leaves the shape (the usual assumption; it fails where
 * another mechanism takes over). One answer for SnPb; for lead-free one for each set of constants, shortest first: that
 * range is the answer.
 */
export function lifeInUse(solder: 'snpb' | 'lead-free', use: Cycling, reference: LifeReference): readonly LifeInUse[] {
  if (!(reference.characteristicCycles > 0 && reference.shape > 0))
    throw new RangeError('The reference has cycles and a shape above nought.');
  const sets = solder === 'snpb' ? [SNPB_CONSTANTS] : LEAD_FREE_CONSTANTS;
  return sets
    .map((constants): LifeInUse => {
      const ratio = cycleRatio(constants, use, reference.cycling);
      const characteristicDays = (reference.characteristicCycles * ratio) / use.cyclesPerDay;
      return { constants: constants.id, ratio, characteristicDays, shape: reference.shape };
    })
    .sort((a, b) => a.characteristicDays - b.characteristicDays);
}

/** P(still whole after so many days): exp(-(days / scale)^shape). Days below nought count as nought. */
export function survival(life: Pick<LifeInUse, 'characteristicDays' | 'shape'>, days: number): number {
  return Math.exp(-((Math.max(0, days) / life.characteristicDays) ** life.shape));
}

/** Days by which a share has failed: scale (-ln(1 - share))^(1 / shape); 0 and 1 give 0 and Infinity. */
export function daysUntil(life: Pick<LifeInUse, 'characteristicDays' | 'shape'>, share: number): number {
  if (!(share >= 0 && share <= 1)) throw new RangeError(`A share is from 0 to 1, not ${share}.`);
  return life.characteristicDays * (-Math.log1p(-share)) ** (1 / life.shape);
}

export const ENGELMAIER_CITED: Cited = { source: 'engelmaier-test-values', place: 'median cycles', seen: 'seen' };
/** Fatigue ductility coefficient of SnPb in Engelmaier's model. */
const ENGELMAIER_DUCTILITY = 0.325;

/**
 * Engelmaier's fatigue exponent c = -0.442 - 6e-4 T + 1.74e-2 ln(1 + 360 / t): T the cycle's mean solder temperature in
 * degC, t the half-cycle dwell in minutes, above nought. Source: published test values.
 *
 * @example engelmaierExponent(55, 15) // -0.4189915606473192
 */
export function engelmaierExponent(meanCelsius: number, dwellMinutes: number): number {
  if (!(dwellMinutes > 0)) throw new RangeError(`A dwell lasts longer than nought, not ${dwellMinutes} minutes.`);
  return -0.442 - 6e-4 * meanCelsius + 1.74e-2 * Math.log(1 + 360 / dwellMinutes);
}

/**
 * Median cycles to failure after Engelmaier: N50 = 1/2 (dgamma / (2 * 0.325))^(1/c), with dgamma the cyclic shear strain
 * range (a number, such as 0.065) and c from `engelmaierExponent`. For SnPb and stress free of leads; a strain range of
 * nought or less is an error.
 */
export function engelmaierMedianCycles(strainRange: number, meanCelsius: number, dwellMinutes: number): number {
  if (!(strainRange > 0)) throw new RangeError(`A strain range is above nought, not ${strainRange}.`);
  return 0.5 * (strainRange / (2 * ENGELMAIER_DUCTILITY)) ** (1 / engelmaierExponent(meanCelsius, dwellMinutes));
}

/**
 * How many times faster a thermally driven change runs at `hotCelsius` than at `useCelsius` (Arrhenius):
 * exp(Ea / k (1/T_use - 1/T_hot)), Ea in eV, T in kelvin. One at equal temperatures.
 *
 * @example arrheniusFactor(60, 100, 1.2) // 88.29574588463338
 */
export function arrheniusFactor(useCelsius: number, hotCelsius: number, activationEv: number): number {
  return Math.exp((activationEv / BOLTZMANN_EV) * (1 / toKelvin(useCelsius) - 1 / toKelvin(hotCelsius)));
}

export interface CyclingResult extends Cycling {
  readonly cycles: number;
}

export interface FittedCycling {
  /** ln N = intercept - n ln dT + m ln f + kelvin / Tmax */
  readonly intercept: number;
  readonly swingExponent: number;
  readonly frequencyExponent: number;
  readonly kelvin: number;
  /** of ln N about the fit, with the four fitted numbers taken off */
  readonly residualDeviation: number;
}

/**
 * Constants of the same equation from test results, by least squares on ln N = b0 + b1 ln dT + b2 ln f + b3 / Tmax[K]
 * (n = -b1, m = b2, Ea/k = b3; frequency in the unit it is given in, which shifts b0 alone). At least five results in
 * which all three vary, else an error. Solved by orthogonal triangles (modified Gram-Schmidt, columns centred first), so
 * that the closeness of 1/T from row to row costs no digits. Source: Yang 2007, example 7.2.
 */
export function fitCycling(results: readonly CyclingResult[]): FittedCycling {
  if (results.length < 5) throw new RangeError('Four numbers are fitted: five results or more are needed.');
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const columns = [
    results.map(({ swing }) => Math.log(swing)),
    results.map(({ cyclesPerDay }) => Math.log(cyclesPerDay)),
    results.map(({ hottest }) => 1 / toKelvin(hottest)),
  ];
  const means = columns.map(mean);
  const logs = results.map(({ cycles }) => Math.log(cycles));
  const logMean = mean(logs);
  const dot = (a: readonly number[], b: readonly number[]) => a.reduce((sum, value, i) => sum + value * b[i]!, 0);
  const basis: number[][] = [];
  const triangle: number[][] = [];
  columns.forEach((column, k) => {
    let left = column.map((value) => value - means[k]!);
    const size = Math.sqrt(dot(left, left));
    const row = basis.map((unit) => {
      const share = dot(unit, left);
      left = left.map((value, i) => value - share * unit[i]!);
      return share;
    });
    const length = Math.sqrt(dot(left, left));
    if (!(length > 1e-9 * size)) throw new RangeError('Swing, frequency and temperature must vary, each on its own.');
    basis.push(left.map((value) => value / length));
    triangle.push([...row, length]);
  });
  let residual = logs.map((value) => value - logMean);
  const shares = basis.map((unit) => {
    const share = dot(unit, residual);
    residual = residual.map((value, i) => value - share * unit[i]!);
    return share;
  });
  const slopes = [0, 0, 0];
  for (let k = 2; k >= 0; k -= 1) {
    let sum = shares[k]!;
    for (let later = k + 1; later < 3; later += 1) sum -= triangle[later]![k]! * slopes[later]!;
    slopes[k] = sum / triangle[k]![k]!;
  }
  const [swing, frequency, kelvin] = slopes as [number, number, number];
  return {
    intercept: logMean - slopes.reduce((sum, slope, k) => sum + slope * means[k]!, 0),
    swingExponent: -swing,
    frequencyExponent: frequency,
    kelvin,
    residualDeviation: Math.sqrt(dot(residual, residual) / (results.length - 4)),
  };
}

function toKelvin(celsius: number): number {
  return celsius + KELVIN_AT_ZERO_CELSIUS;
}
