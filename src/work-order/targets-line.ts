/** What the profile must keep to: the shop's own window where there is one, else the class of the package. */
import { windowOfShop } from '../assess/thermal-profile.ts';
import { CLASSES_ARE_CEILINGS, packageWindow, type ReflowWindow } from '../joints/reflow-window.ts';
import { nameMeasure, unitOf } from '../joints/say-profile.ts';
import type { PackageKnown } from '../record/schema.ts';
import type { Shop } from '../shop/schema.ts';
import type { SolderLine, TargetsLine } from './schema.ts';

/** Packages of today are rated for lead-free soldering, whatever their balls are. Common practice, no source; the label decides. */
const RATED = 'lead-free';

export function targetsLine(
  shop: Pick<Shop, 'reflowWindows'>,
  solder: SolderLine | null,
  known: PackageKnown,
  stated: ReflowWindow | undefined,
): TargetsLine | null {
  if (solder === null) return null;
  const own = shop.reflowWindows?.find((one) => one.solder === (solder.class === 'snpb' ? 'leaded' : solder.class));
  const window = stated ?? (own ? windowOfShop(own.window) : classWindow(solder, known));
  if (window === null) return null;
  return {
    window: window.name,
    kind: window.kind,
    rows: [
      ...window.rows.map(({ measure, limit, cited }) => ({
        measure,
        name: nameMeasure(measure, window.levels),
        limit: sayLimit(limit, unitOf(measure)),
        cited: cited ? { ...cited } : null,
      })),
      ...(window.spreadAtPeakAtMost === undefined
        ? []
        : [
            {
              measure: 'spreadAtPeak',
              name: 'Spread at peak',
              limit: `at most ${window.spreadAtPeakAtMost} K`,
              cited: null,
            },
          ]),
    ],
    words: window.kind === 'package-class' ? classWords(window) : ["The shop's own window."],
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

function classWords(window: ReflowWindow): string[] {
  const { ceilingAtMost, levels } = window;
  return [
    CLASSES_ARE_CEILINGS,
    'The package is taken as rated for lead-free soldering (common practice, no source): its label decides.',
    ...(ceilingAtMost === undefined
      ? []
      : [
          `Its ceiling is ${levels.ceiling} to ${ceilingAtMost} °C by its size, which is not known: keep to ${levels.ceiling} °C.`,
        ]),
    'Set the profile on this board, with thermocouples: thickness and copper differ.',
  ];
}

function sayLimit({ atLeast, atMost }: { atLeast?: number; atMost?: number }, unit: string): string {
  if (atLeast !== undefined && atMost !== undefined) return `${atLeast} to ${atMost} ${unit}`;
  return atLeast === undefined ? `at most ${atMost} ${unit}` : `at least ${atLeast} ${unit}`;
}
