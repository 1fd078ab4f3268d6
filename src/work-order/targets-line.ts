/** What the profile must keep to: the shop's own window where there is one, else the class of the package. */
import { windowOfShop } from '../assess/thermal-profile.ts';
import type { AlloyClass } from '../joints/alloys.ts';
import { type Measure, NEAR_KELVIN, type ProfileLevels } from '../joints/profile.ts';
import { CLASS_REVISION, packageWindow, type ReflowWindow } from '../joints/reflow-window.ts';
import { unitOf } from '../joints/say-profile.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { say } from '../knowledge/sayings.ts';
import type { PackageKnown } from '../record/schema.ts';
import type { Shop } from '../shop/schema.ts';
import { numberIn } from './order-steps.ts';
import type { SolderLine, TargetsLine } from './schema.ts';

type Spoken = Pick<Knowledge, 'sayings' | 'language'>;

/** Packages of today are rated for lead-free soldering, whatever their balls are. Common practice, no source; the label decides. */
const RATED = 'lead-free';

export function targetsLine(
  knowledge: Spoken,
  shop: Pick<Shop, 'reflowWindows'>,
  solder: SolderLine | null,
  known: PackageKnown,
  stated: ReflowWindow | undefined,
): TargetsLine | null {
  if (solder === null) return null;
  const own = shop.reflowWindows?.find((one) => one.solder === (solder.class === 'snpb' ? 'leaded' : solder.class));
  const window = stated ?? (own ? windowOfShop(own.window) : classWindow(solder, known));
  if (window === null) return null;
  const ofClass = window.kind === 'package-class' ? solder.class : null;
  return {
    window: ofClass === null ? window.name : nameClass(knowledge, ofClass),
    kind: window.kind,
    rows: [
      ...window.rows.map(({ measure, limit, cited }) => ({
        measure,
        name: nameMeasure(knowledge, measure, window.levels),
        limit: sayLimit(knowledge, limit, unitOf(measure)),
        cited: cited ? { ...cited } : null,
      })),
      ...(window.spreadAtPeakAtMost === undefined
        ? []
        : [
            {
              measure: 'spreadAtPeak',
              name: say(knowledge, 'measure-spread'),
              limit: sayLimit(knowledge, { atMost: window.spreadAtPeakAtMost }, 'K'),
              cited: null,
            },
          ]),
    ],
    words: ofClass === null ? [say(knowledge, 'target-own-window')] : classWords(knowledge, window),
  };
}

function classWindow(solder: SolderLine, { bodyMillimetres, bodyCubicMillimetres }: PackageKnown): ReflowWindow | null {
  if (solder.class === null) return null;
  const size = {
    ...(bodyMillimetres === undefined ? {} : { thickness: bodyMillimetres }),
    ...(bodyCubicMillimetres === undefined ? {} : { volume: bodyCubicMillimetres }),
  };
  return packageWindow(solder.class, size, RATED);
}

function nameClass(knowledge: Spoken, solder: AlloyClass): string {
  const name = (one: AlloyClass) => (one === 'snpb' ? 'SnPb' : say(knowledge, 'target-lead-free'));
  const slots = { standard: CLASS_REVISION, solder: name(solder) };
  return solder === RATED
    ? say(knowledge, 'target-window', slots)
    : say(knowledge, 'target-window-rated', { ...slots, rated: name(RATED) });
}

function classWords(knowledge: Spoken, { ceilingAtMost, levels }: ReflowWindow): string[] {
  const number = numberIn(knowledge);
  return [
    say(knowledge, 'target-ceilings'),
    say(knowledge, 'target-rated'),
    ...(ceilingAtMost === undefined || levels.ceiling === undefined
      ? []
      : [say(knowledge, 'target-ceiling-by-size', { ceiling: number(levels.ceiling), most: number(ceilingAtMost) })]),
    say(knowledge, 'target-this-board'),
  ];
}

function nameMeasure(knowledge: Spoken, measure: Measure, levels: ProfileLevels): string {
  const number = numberIn(knowledge);
  switch (measure) {
    case 'soakSeconds':
      return say(knowledge, 'measure-soak', { from: number(levels.soakFrom), to: number(levels.soakTo) });
    case 'averageRise':
      return say(knowledge, 'measure-average-rise', { liquidus: number(levels.liquidus) });
    case 'steepestRise':
      return say(knowledge, 'measure-steepest-rise');
    case 'secondsAboveLiquidus':
      return say(knowledge, 'measure-above-liquidus', { liquidus: number(levels.liquidus) });
    case 'peak':
      return say(knowledge, 'measure-peak');
    case 'secondsNearPeak':
      return say(knowledge, 'measure-near-peak', { kelvin: NEAR_KELVIN });
    case 'secondsNearCeiling':
      return levels.ceiling === undefined
        ? say(knowledge, 'measure-near-ceiling', { kelvin: NEAR_KELVIN })
        : say(knowledge, 'measure-above', { celsius: number(levels.ceiling - NEAR_KELVIN) });
    case 'steepestFall':
      return say(knowledge, 'measure-steepest-fall');
    case 'secondsToPeak':
      return say(knowledge, 'measure-to-peak');
  }
}

function sayLimit(
  knowledge: Spoken,
  { atLeast, atMost }: { readonly atLeast?: number; readonly atMost?: number },
  unit: string,
): string {
  const number = numberIn(knowledge);
  if (atLeast !== undefined && atMost !== undefined)
    return say(knowledge, 'figure-range', { from: number(atLeast), to: number(atMost), unit });
  return atLeast === undefined
    ? say(knowledge, 'target-at-most', { most: number(atMost!), unit })
    : say(knowledge, 'target-at-least', { least: number(atLeast), unit });
}
