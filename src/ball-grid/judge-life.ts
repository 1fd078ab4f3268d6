/** How heat cycles wear leaded and lead-free joints: this card's use against a stated reference, never a promise. */
import type { Cited } from '../joints/cited.ts';
import {
  arrheniusFactor,
  type Cycling,
  daysUntil,
  ENGELMAIER_CITED,
  engelmaierExponent,
  engelmaierMedianCycles,
  LEAD_FREE_CONSTANTS,
  type LifeInUse,
  lifeInUse,
  SNPB_CONSTANTS,
} from '../joints/fatigue.ts';
import type { BallNumber } from '../record/ball-bounds.ts';
import type { EngelmaierAnswer, LifeAnswer, Lived } from './answer.ts';

type Given = { readonly [name in BallNumber]?: number | undefined };

/** What a use is compared with where nobody states a reference: an evening's use. Estimate, and said wherever it stands. */
export const USUAL_REFERENCE: Cycling = { swing: 40, hottest: 65, cyclesPerDay: 1 };

const USE = ['swingKelvin', 'hottestCelsius', 'cyclesPerDay'] as const;
const REFERENCE = ['referenceSwingKelvin', 'referenceHottestCelsius', 'referenceCyclesPerDay'] as const;
const LIVES = ['referenceCycles', 'referenceShape'] as const;

/** Ratios need no life of the reference: any stands for the reckoning. */
const ANY_LIFE = { characteristicCycles: 1, shape: 1 };

/** Null until the use is whole; a reference that is stated in part is no reference. */
export function judgeLife(given: Given): LifeAnswer | null {
  const use = cyclingOf(given, USE);
  const stated = cyclingOf(given, REFERENCE);
  if (use === null || missingOfLife(given).length > 0) return null;
  const cycling = stated ?? USUAL_REFERENCE;
  const { referenceCycles: cycles, referenceShape: shape } = given;
  const known = cycles === undefined || shape === undefined ? null : { characteristicCycles: cycles, shape };
  const reference = { cycling, ...(known ?? ANY_LIFE) };
  const lives = (solder: 'snpb' | 'lead-free') =>
    lifeInUse(solder, use, reference).map((life) => livedOf(life, use, cycling, known !== null));
  const [leaded] = lives('snpb');
  const leadFree = lives('lead-free');
  return {
    use: plain(use),
    reference: plain(cycling),
    referenceAssumed: stated === null,
    leaded: leaded!,
    leadFree,
    costsMore: costsMore(leaded!, leadFree),
    heatAlone: heatAlone(given.activationElectronvolts, use, cycling),
  };
}

/** What was begun of the use or its reference, and is not whole. */
export function missingOfLife(given: Given): readonly BallNumber[] {
  const begun = (names: readonly BallNumber[]) => names.some((name) => given[name] !== undefined);
  const lacks = (names: readonly BallNumber[]) => names.filter((name) => given[name] === undefined);
  // how often alone belongs to the strain, too
  const use = begun(['swingKelvin', 'hottestCelsius', 'activationElectronvolts', ...REFERENCE, ...LIVES]);
  const alone = begun(['cyclesPerDay']) && given.strainRange === undefined && given.dwellMinutes === undefined;
  return [
    ...(use || alone ? lacks(USE) : []),
    ...(begun(REFERENCE) || begun(LIVES) ? lacks(REFERENCE) : []),
    ...(begun(LIVES) ? lacks(LIVES) : []),
  ];
}

function heatAlone(activation: number | undefined, use: Cycling, reference: Cycling): LifeAnswer['heatAlone'] {
  if (activation === undefined) return null;
  const timesAsFast = arrheniusFactor(reference.hottest, use.hottest, activation);
  return { activationElectronvolts: activation, timesAsFast };
}

/** By every set of constants that was fitted to lead-free solder: one which says otherwise leaves it open. */
function costsMore(leaded: Lived, leadFree: readonly Lived[]): LifeAnswer['costsMore'] {
  const fitted = leadFree.filter(({ constants }) => constants !== LEADED_CONSTANTS);
  if (fitted.every(({ timesAsManyCycles }) => timesAsManyCycles < leaded.timesAsManyCycles)) return 'lead-free';
  if (fitted.every(({ timesAsManyCycles }) => timesAsManyCycles > leaded.timesAsManyCycles)) return 'leaded';
  return 'cannot-tell';
}

/** Those of leaded solder, which stand among the lead-free ones because pages apply them so. */
const LEADED_CONSTANTS = 'snpb-constants';

function livedOf(life: LifeInUse, use: Cycling, reference: Cycling, known: boolean): Lived {
  return {
    constants: life.constants,
    timesAsManyCycles: life.ratio,
    timesAsManyDays: (life.ratio * reference.cyclesPerDay) / use.cyclesPerDay,
    days: known
      ? {
          tenthFailed: daysUntil(life, 0.1),
          halfFailed: daysUntil(life, 0.5),
          characteristic: life.characteristicDays,
        }
      : null,
    cited: { ...citedOf(life.constants) },
  };
}

function citedOf(id: string): Cited {
  return (LEAD_FREE_CONSTANTS.find((one) => one.id === id) ?? SNPB_CONSTANTS).cited;
}

function cyclingOf(given: Given, [swing, hottest, perDay]: typeof USE | typeof REFERENCE): Cycling | null {
  const [a, b, c] = [given[swing], given[hottest], given[perDay]];
  return a === undefined || b === undefined || c === undefined ? null : { swing: a, hottest: b, cyclesPerDay: c };
}

const plain = ({ swing, hottest, cyclesPerDay }: Cycling): LifeAnswer['use'] => ({
  swingKelvin: swing,
  hottestCelsius: hottest,
  cyclesPerDay,
});

const ENGELMAIER = ['strainRange', 'dwellMinutes', ...USE] as const;

/** Engelmaier's median, from a strain range somebody worked out: the mean of the cycle lies half a swing below its top. */
export function judgeEngelmaier(given: Given): EngelmaierAnswer | null {
  const { strainRange: strain, dwellMinutes: dwell } = given;
  const use = cyclingOf(given, USE);
  if (strain === undefined || dwell === undefined || use === null) return null;
  const meanCelsius = use.hottest - use.swing / 2;
  const medianCycles = engelmaierMedianCycles(strain, meanCelsius, dwell);
  return {
    meanCelsius,
    exponent: engelmaierExponent(meanCelsius, dwell),
    medianCycles,
    medianDays: medianCycles / use.cyclesPerDay,
    cited: { ...ENGELMAIER_CITED },
  };
}

export function missingOfEngelmaier(given: Given): readonly BallNumber[] {
  const begun = given.strainRange !== undefined || given.dwellMinutes !== undefined;
  return begun ? ENGELMAIER.filter((name) => given[name] === undefined) : [];
}
