/** Profiles of straight stretches, whose quantities are known by hand, and the files that loggers make of them. */

/** seconds and degC at the corners */
export type Corners = readonly (readonly [number, number])[];

/**
 * Lead-free, by hand: soak 150 to 200 from 100 s to 190 s (90 s); 217 crossed at 207 s on the way up (1 K/s); peak 238 at
 * 228 s, held to 268 s; down at 2 K/s: 217 at 278.5 s. Above 217: 71.5 s. Rise from 217 to the peak: 21 K in 21 s.
 */
export const GOOD: Corners = [
  [0, 20],
  [100, 150],
  [190, 200],
  [228, 238],
  [268, 238],
  [367, 40],
];

/** The same, held for 10 s: above 217 for 41.5 s. */
export const GOOD_BUT_SHORT: Corners = [
  [0, 20],
  [100, 150],
  [190, 200],
  [228, 238],
  [238, 238],
  [337, 40],
];

export function temperatureAt(corners: Corners, second: number): number {
  const next = corners.findIndex(([at]) => at >= second);
  if (next <= 0) return (next === 0 ? corners[0]! : corners.at(-1)!)[1];
  const [t0, c0] = corners[next - 1]!;
  const [t1, c1] = corners[next]!;
  return c0 + ((second - t0) / (t1 - t0)) * (c1 - c0);
}

export interface Sampled {
  readonly seconds: Float64Array;
  readonly channels: { readonly name: string; readonly celsius: Float64Array; readonly resolution: number }[];
}

/** One channel at a steady step, rounded to the resolution (0: not rounded). */
export function sample(corners: Corners, step: number, resolution: number, name = 'TC1'): Sampled {
  const last = corners.at(-1)![0];
  const seconds = Float64Array.from({ length: Math.floor(last / step + 1e-9) + 1 }, (_, i) => i * step);
  const rounded = (c: number) => (resolution === 0 ? c : Math.round(c / resolution) * resolution);
  const celsius = seconds.map((second) => rounded(temperatureAt(corners, second)));
  return { seconds, channels: [{ name, celsius, resolution }] };
}

export interface FileForm {
  readonly separator: string;
  readonly decimal: '.' | ',';
  readonly unit: 'C' | 'F';
  readonly header: boolean;
  readonly time: 's' | 'ms' | 'mm:ss' | 'clock' | 'iso' | 'date and clock';
  /** seconds after midnight at which the log begins */
  readonly from?: number;
}

const two = (n: number) => String(n).padStart(2, '0');

/** A logger's file of some channels, with as many decimals as asked for. */
export function fileOf(sampled: Sampled, form: FileForm, decimals = 1): string {
  const { separator, decimal, unit, header, time, from = 0 } = form;
  const number = (value: number, digits: number) => value.toFixed(digits).replace('.', decimal);
  const clock = (second: number) => {
    const day = Math.floor((from + second) / 86_400);
    const whole = Math.floor(from + second) % 86_400;
    const fine = Math.round(((from + second) % 1) * 1000);
    const text = `${two(Math.floor(whole / 3600))}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}`;
    return { day, text: fine === 0 ? text : `${text}.${String(fine).padStart(3, '0')}` };
  };
  const timeCell = (second: number): string => {
    switch (time) {
      case 's':
        return number(second, 2);
      case 'ms':
        return String(Math.round(second * 1000));
      case 'mm:ss':
        return `${two(Math.floor(second / 60))}:${(second % 60).toFixed(1).padStart(4, '0')}`;
      case 'clock':
        return clock(second).text;
      case 'iso':
        return `2024-02-${28 + clock(second).day}T${clock(second).text}Z`;
      case 'date and clock':
        return `${28 + clock(second).day}.02.2024${separator}${clock(second).text}`;
    }
  };
  const timeHeader = { s: 'Time (s)', ms: 'Time (ms)', 'mm:ss': 'Time', clock: 'Time', iso: 'Timestamp' } as const;
  const head = [
    time === 'date and clock' ? `Date${separator}Time` : timeHeader[time],
    ...sampled.channels.map(({ name }) => `${name} (°${unit})`),
  ].join(separator);
  const rows = Array.from(sampled.seconds, (second, row) =>
    [
      timeCell(second),
      ...sampled.channels.map(({ celsius }) => {
        const c = celsius[row]!;
        return Number.isNaN(c) ? '' : number(unit === 'F' ? c * 1.8 + 32 : c, decimals);
      }),
    ].join(separator),
  );
  return `${[...(header ? [head] : []), ...rows].join('\n')}\n`;
}
