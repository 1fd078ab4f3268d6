/** A straight scale over given values, as shares of its width in percent. */
import { scaleLinear } from 'd3-scale';

export interface Scale {
  readonly low: number;
  readonly high: number;
  /** round values inside it */
  readonly ticks: readonly number[];
  /** where a value stands, 0 to 100, held at the ends */
  at(value: number): number;
}

/** Ends at round values around all that is given; `wanted` ticks, roughly. */
export function scaleOver(values: readonly number[], wanted = 5): Scale {
  const least = Math.min(...values);
  const most = Math.max(...values);
  const domain = least === most ? [least - 1, most + 1] : [least, most];
  const scale = scaleLinear().domain(domain).nice(wanted).range([0, 100]).clamp(true);
  const [low, high] = scale.domain() as [number, number];
  return { low, high, ticks: scale.ticks(wanted), at: (value) => scale(value) };
}
