/** Which figures can be tried otherwise on a card, over which range, and what each is now. */

import { type Axis, type Changes, regionsAlong, thinkOtherwise, type VerdictRegion } from '../../assess/what-if.ts';
import type { WhatIf } from '../../assessment.ts';

export interface Slider {
  readonly axis: Axis;
  /** how its value is said */
  readonly unit: 'money' | 'minutes' | 'chance';
  /** the figure as assessed, in its unit */
  readonly now: number;
  readonly from: number;
  readonly to: number;
  readonly step: number;
  /** a figure of this many units is the change 1: the change is a factor on what is assessed; null: it is the figure itself */
  readonly per: number | null;
}

/** A figure runs to this many times what it is, and on to its nearest turning point where that is not out of all reason. */
const FURTHEST = 2.5;
const OUT_OF_REASON = 10;
const BEYOND_TURN = 1.15;
const SHORTEST_WORK = 0.25;

/** A slider has about this many stops: fine enough to find a turning point, coarse enough for arrow keys. */
const STOPS = 120;
const STEPS = [1, 2, 5, 10, 20, 50, 100] as const;

/** Figures that bear on nothing here (the parts of a repair that needs none) are left out. */
export function slidersFor(whatIf: WhatIf): readonly Slider[] {
  const { money, plans } = whatIf;
  const { subject } = thinkOtherwise(whatIf, {});
  const of = plans.find(({ id }) => id === whatIf.subject);
  const run = (axis: Axis, now: number, per: number | null, usual = FURTHEST * now): Slider => {
    const most = Math.max(usual, turnBeyond(whatIf, axis, now, per) * BEYOND_TURN, 1);
    const step = stepFor(most);
    return { axis, unit: 'money', now, from: 0, to: step * Math.ceil(most / step), step, per };
  };
  const sliders: Slider[] = [
    run('working', money.working, null),
    run('asIs', money.asIs, null, Math.max(FURTHEST * money.asIs, money.working / 2)),
  ];
  if (subject === null || of === undefined) return sliders;
  if (subject.partsCost > 0) sliders.push(run('partsTimes', subject.partsCost, subject.partsCost));
  if (of.stop === null && of.workMinutes > 0) {
    const slider = run('workMinutesTimes', of.workMinutes, of.workMinutes);
    const { step } = slider;
    sliders.push({ ...slider, unit: 'minutes', from: step * Math.ceil((SHORTEST_WORK * of.workMinutes) / step) });
    sliders.push(run('labourPerHour', money.labourPerHour, null));
  }
  if (of.works > 0) {
    // all plans of this verdict rise together, until the first of them always works
    const most = Math.max(...plans.filter(({ verdict }) => verdict === of.verdict).map(({ works }) => works));
    const to = Math.floor((100 * of.works) / most) / 100;
    sliders.push({ axis: 'worksTimes', unit: 'chance', now: of.works, from: 0, to, step: 0.01, per: of.works });
  }
  return sliders;
}

/** The nearest figure above the present one at which another verdict wins; 0 where there is none within reason. */
function turnBeyond(whatIf: WhatIf, axis: Axis, now: number, per: number | null): number {
  if (now <= 0) return 0;
  const scale = per ?? 1;
  const ahead = regionsAlong(whatIf, {}, axis, now / scale, (OUT_OF_REASON * now) / scale);
  return ahead.length > 1 ? ahead[0]!.to * scale : 0;
}

function stepFor(most: number): number {
  return STEPS.find((step) => most / step <= STOPS) ?? STEPS.at(-1)!;
}

/** What a slider at a figure means for `thinkOtherwise`. */
export function changeAt({ axis, per }: Slider, figure: number): Changes {
  return { [axis]: per === null ? figure : figure / per };
}

export function changesOf(sliders: readonly Slider[], figures: ReadonlyMap<Axis, number>): Changes {
  return Object.assign(
    {},
    ...sliders.map((slider) => {
      const figure = figures.get(slider.axis);
      return figure === undefined ? {} : changeAt(slider, figure);
    }),
  ) as Changes;
}

/** Where which verdict wins along a slider, in its own figures. */
export function bandsOf(whatIf: WhatIf, changes: Changes, slider: Slider): readonly VerdictRegion[] {
  const per = slider.per ?? 1;
  return regionsAlong(whatIf, changes, slider.axis, slider.from / per, slider.to / per).map(
    ({ from, to, verdict }) => ({ from: from * per, to: to * per, verdict }),
  );
}

/** How far along the slider a figure stands, in percent. */
export const shareAlong = ({ from, to }: Slider, figure: number): number =>
  (100 * (Math.min(to, Math.max(from, figure)) - from)) / (to - from);
