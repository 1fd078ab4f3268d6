/** Means, paired differences and calibration, each with what is needed to doubt it. */

export interface Estimate {
  readonly mean: number;
  /** half-width of the 95 % interval */
  readonly half: number;
}

/** Mean of independent values. Two values at least; with fewer there is no interval. */
export function estimate(values: readonly number[]): Estimate {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  const error = Math.sqrt(squares / (values.length - 1) / values.length);
  return { mean, half: studentT95(values.length - 1) * error };
}

/**
 * Mean of values that come in groups which share their luck: the interval is that of the groups' sums around the mean
 * (the linearised ratio estimator, W. G. Cochran, Sampling Techniques, 3rd ed. 1977, section 6; from memory).
 */
export function estimateInGroups(groups: readonly (readonly number[])[]): Estimate {
  const count = groups.reduce((sum, group) => sum + group.length, 0);
  const total = (group: readonly number[]) => group.reduce((sum, value) => sum + value, 0);
  const mean = groups.reduce((sum, group) => sum + total(group), 0) / count;
  const squares = groups.reduce((sum, group) => sum + (total(group) - group.length * mean) ** 2, 0);
  const error = Math.sqrt((squares * groups.length) / (groups.length - 1)) / count;
  return { mean, half: studentT95(groups.length - 1) * error };
}

/**
 * 97.5 % point of Student's t: the table to 30 degrees of freedom, beyond it the first two terms of the expansion around
 * the normal's (M. Abramowitz and I. Stegun, Handbook of Mathematical Functions, 1964, 26.7.5; from memory): to 0.0002.
 *
 * @example 60 degrees of freedom: 2.0003
 */
function studentT95(freedom: number): number {
  return STUDENT_T95[freedom - 1] ?? (freedom < 1 ? Number.NaN : 1.959964 + 2.37227 / freedom + 2.8225 / freedom ** 2);
}
const STUDENT_T95 = [
  12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.16, 2.145, 2.131, 2.12, 2.11,
  2.101, 2.093, 2.086, 2.08, 2.074, 2.069, 2.064, 2.06, 2.056, 2.052, 2.048, 2.045, 2.042,
];

export interface Forecast {
  readonly stated: number;
  readonly came: boolean;
}

export interface Bin {
  readonly from: number;
  readonly to: number;
  readonly count: number;
  readonly stated: number;
  readonly came: number;
}

export interface Calibration {
  readonly count: number;
  readonly stated: number;
  readonly came: number;
  readonly bins: readonly Bin[];
  /** mean over forecasts of |share that came - mean stated| in their bin */
  readonly error: number;
  /** what `error` would be on average if every stated chance were right: bins are never filled evenly by luck alone */
  readonly errorOfLuck: number;
  /** mean squared difference of stated chance and what came (G. W. Brier, Monthly Weather Review 78, 1950) */
  readonly brier: number;
  /** the same if the overall share had been stated every time */
  readonly brierOfShare: number;
}

const BINS = 10;

/** Reliability in ten equal bins of the stated chance. */
export function calibrate(forecasts: readonly Forecast[]): Calibration {
  const mean = (of: (forecast: Forecast) => number, among = forecasts) =>
    among.reduce((sum, forecast) => sum + of(forecast), 0) / among.length;
  const came = ({ came }: Forecast) => (came ? 1 : 0);
  const binOf = ({ stated }: Forecast) => Math.min(BINS - 1, Math.floor(stated * BINS));
  let luck = 0;
  const bins = Array.from({ length: BINS }, (_, at) => {
    const inside = forecasts.filter((forecast) => binOf(forecast) === at);
    // mean absolute deviation of a sum of independent events, as of a normal with its variance
    luck += Math.sqrt((2 / Math.PI) * inside.reduce((sum, { stated }) => sum + stated * (1 - stated), 0));
    return {
      from: at / BINS,
      to: (at + 1) / BINS,
      count: inside.length,
      stated: mean(({ stated }) => stated, inside),
      came: mean(came, inside),
    };
  }).filter(({ count }) => count > 0);
  const share = mean(came);
  return {
    count: forecasts.length,
    stated: mean(({ stated }) => stated),
    came: share,
    bins,
    error: bins.reduce((sum, bin) => sum + bin.count * Math.abs(bin.stated - bin.came), 0) / forecasts.length,
    errorOfLuck: luck / forecasts.length,
    brier: mean((forecast) => (forecast.stated - came(forecast)) ** 2),
    brierOfShare: share * (1 - share),
  };
}
