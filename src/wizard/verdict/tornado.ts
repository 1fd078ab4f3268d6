/** Each figure alone from its low to its high end: where the surplus goes, on one scale. */
import type { Sensitivity } from '../../assessment.ts';
import { type Scale, scaleOver } from '../charts/scale.ts';

export interface TornadoBar {
  readonly input: Sensitivity['tornado'][number];
  /** from where the surplus stands now to where it goes; percent of the scale */
  readonly low: { readonly left: number; readonly width: number };
  readonly high: { readonly left: number; readonly width: number };
}

export interface TornadoChart {
  readonly scale: Scale;
  readonly bars: readonly TornadoBar[];
}

/** `marks` are drawn as lines over all bars (the surplus now, what is needed), so the scale holds them. */
export function tornadoOf(tornado: Sensitivity['tornado'], now: number, marks: readonly number[]): TornadoChart {
  const scale = scaleOver([now, ...marks, ...tornado.flatMap(({ atLow, atHigh }) => [atLow, atHigh])], 4);
  const between = (value: number) => {
    const [a, b] = [scale.at(now), scale.at(value)];
    return { left: Math.min(a, b), width: Math.abs(b - a) };
  };
  return {
    scale,
    bars: tornado.map((input) => ({ input, low: between(input.atLow), high: between(input.atHigh) })),
  };
}
