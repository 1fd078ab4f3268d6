/** A long curve thinned for drawing, without losing its peaks. */

export interface ThinCurve {
  readonly seconds: readonly number[];
  /** one list per channel; null where there is no reading */
  readonly celsius: readonly (readonly (number | null)[])[];
}

/**
 * At most about `points` points of a log: time is cut into points / 2 equal parts, and of each the first channel's
 * coolest and hottest row are kept with all channels' readings, together with each channel's own hottest row. Shorter
 * logs stay whole. Two decimals of a degree, three of a second. Cost: linear.
 */
export function thinCurve(
  seconds: Float64Array,
  channels: readonly { readonly celsius: Float64Array }[],
  points: number,
): ThinCurve {
  const rows = seconds.length <= points ? Array.from(seconds.keys()) : chosenRows(seconds, channels, points);
  const rounded = (value: number, to: number) => Math.round(value * to) / to;
  return {
    seconds: rows.map((row) => rounded(seconds[row]!, 1000)),
    celsius: channels.map(({ celsius }) =>
      rows.map((row) => (Number.isNaN(celsius[row]!) ? null : rounded(celsius[row]!, 100))),
    ),
  };
}

function chosenRows(
  seconds: Float64Array,
  channels: readonly { readonly celsius: Float64Array }[],
  points: number,
): number[] {
  const chosen = new Set<number>([0, seconds.length - 1]);
  for (const { celsius } of channels) {
    let top = -1;
    for (let row = 0; row < seconds.length; row += 1)
      if (top < 0 ? !Number.isNaN(celsius[row]!) : celsius[row]! > celsius[top]!) top = row;
    if (top >= 0) chosen.add(top);
  }
  const first = channels[0]?.celsius;
  const parts = Math.max(1, Math.floor(points / 2));
  const width = (seconds.at(-1)! - seconds[0]!) / parts || 1;
  let part = -1;
  let cold = 0;
  let hot = 0;
  for (let row = 0; row < seconds.length; row += 1) {
    const now = Math.min(parts - 1, Math.floor((seconds[row]! - seconds[0]!) / width));
    if (now !== part) {
      chosen.add(cold).add(hot);
      part = now;
      cold = row;
      hot = row;
    } else if (first) {
      if (first[row]! < first[cold]! || Number.isNaN(first[cold]!)) cold = row;
      if (first[row]! > first[hot]! || Number.isNaN(first[hot]!)) hot = row;
    }
  }
  chosen.add(cold).add(hot);
  return [...chosen].sort((a, b) => a - b);
}
