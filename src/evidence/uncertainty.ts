/**
 * Standard uncertainty after the GUM (JCGM 100:2008). Every function takes and returns plain numbers in the unit of the
 * quantity; none rounds.
 */
import { normalQuantile } from './normal.ts';

/** What a meter states about itself: +-(percent of reading + digits counts of `resolution`). */
export interface MeterSpecification {
  readonly percent: number;
  readonly digits: number;
  readonly resolution: number;
}

/** Copper's resistance at T over that at 20 degC is 1 + alpha (T - 20): IEC 60028, alpha20 = 3.93e-3 /K. */
export const COPPER_PER_KELVIN = 3.93e-3;
const COPPER_REFERENCE_CELSIUS = 20;

/**
 * Anything inside +-halfWidth is equally likely: u = a / sqrt 3 (GUM 4.3.7).
 *
 * @example fromHalfWidth(15e-6) // 8.66e-6
 */
export function fromHalfWidth(halfWidth: number): number {
  return halfWidth / Math.sqrt(3);
}

/** Bounds at different distances below and above: u^2 = (below + above)^2 / 12 (GUM 4.3.8). */
export function fromAsymmetricBounds(below: number, above: number): number {
  return (below + above) / Math.sqrt(12);
}

/** A display that steps by d: u = d / sqrt 12 = 0.29 d (GUM F.2.2.1). */
export function fromResolution(step: number): number {
  return step / Math.sqrt(12);
}

/**
 * +-expanded at a stated level of confidence, taken as normal: u = expanded / z (GUM 4.3.4). The level lies inside (0,
 * 1).
 */
export function fromExpanded(expanded: number, level: number): number {
  return expanded / normalQuantile((1 + level) / 2);
}

/**
 * Half-width of a meter's specification at a reading: percent of the reading plus counts.
 *
 * @example meterHalfWidth(100, { percent: 1, digits: 2, resolution: 0.1 }) // 1.2: a reading of 98.8 to 101.2
 */
export function meterHalfWidth(reading: number, meter: MeterSpecification): number {
  return (meter.percent / 100) * Math.abs(reading) + meter.digits * meter.resolution;
}

export interface Repeats {
  readonly mean: number;
  /** standard deviation of one reading (n - 1) */
  readonly deviation: number;
  /** standard uncertainty of the mean: deviation / sqrt n */
  readonly uncertainty: number;
  readonly degreesOfFreedom: number;
}

/**
 * Type A: mean and spread of repeated readings (GUM 4.2). Needs two readings or more: one has no spread, and the spread
 * comes back as NaN rather than as 0.
 */
export function fromRepeats(readings: readonly number[]): Repeats {
  const count = readings.length;
  const mean = readings.reduce((sum, reading) => sum + reading, 0) / count;
  const squares = readings.reduce((sum, reading) => sum + (reading - mean) ** 2, 0);
  const deviation = count > 1 ? Math.sqrt(squares / (count - 1)) : Number.NaN;
  return { mean, deviation, uncertainty: deviation / Math.sqrt(count), degreesOfFreedom: count - 1 };
}

/** Independent components in quadrature: u = sqrt(sum u_i^2) (GUM 5.1.2, sensitivities already applied). */
export function combine(components: readonly number[]): number {
  return Math.hypot(...components);
}

/**
 * Covariance of the means of readings taken together, one row of readings per quantity (GUM 5.2.3, equation 17):
 * s(a, b) = sum (a_k - mean a)(b_k - mean b) / (n (n - 1)). Rows of equal length n >= 2; the matrix is symmetric.
 */
export function covarianceOfMeans(rows: readonly (readonly number[])[]): number[][] {
  const count = rows[0]?.length ?? 0;
  const centred = rows.map((row) => {
    const mean = row.reduce((sum, reading) => sum + reading, 0) / row.length;
    return row.map((reading) => reading - mean);
  });
  return centred.map((a) =>
    centred.map((b) => a.reduce((sum, offset, k) => sum + offset * (b[k] ?? Number.NaN), 0) / (count * (count - 1))),
  );
}

/**
 * The general law of propagation, correlations included (GUM 5.2.2 and H.2, equation H.9): the covariance of outputs y
 * is J S J^T, with J the outputs' sensitivities (rows: outputs, columns: inputs) and S the inputs' covariance.
 *
 * First order: exact for linear outputs. Cost: outputs^2 inputs^2.
 */
export function propagate(
  sensitivities: readonly (readonly number[])[],
  covariance: readonly (readonly number[])[],
): number[][] {
  return sensitivities.map((left) =>
    sensitivities.map((right) =>
      left.reduce(
        (sum, a, i) => sum + right.reduce((inner, b, j) => inner + a * b * (covariance[i]?.[j] ?? Number.NaN), 0),
        0,
      ),
    ),
  );
}

/** The correlation behind a covariance matrix: r_ij = s_ij / sqrt(s_ii s_jj). */
export function correlation(covariance: readonly (readonly number[])[], i: number, j: number): number {
  const at = (row: number, column: number): number => covariance[row]?.[column] ?? Number.NaN;
  return at(i, j) / Math.sqrt(at(i, i) * at(j, j));
}

/**
 * Effective degrees of freedom of a combined uncertainty (Welch-Satterthwaite, GUM G.4.1): u_c^4 / sum (u_i^4 / nu_i).
 * A component known exactly has infinitely many and drops out; with none left the answer is Infinity.
 */
export function effectiveDegreesOfFreedom(
  components: readonly { readonly u: number; readonly degreesOfFreedom: number }[],
): number {
  const combined = combine(components.map(({ u }) => u));
  const shares = components.reduce((sum, { u, degreesOfFreedom }) => sum + u ** 4 / degreesOfFreedom, 0);
  return combined ** 4 / shares;
}

/** What a copper path measured at `celsius` would measure at 20 degC: R20 = R / (1 + alpha (T - 20)) (IEC 60028). */
export function copperAtReference(resistance: number, celsius: number): number {
  return resistance / (1 + COPPER_PER_KELVIN * (celsius - COPPER_REFERENCE_CELSIUS));
}

/**
 * How far that corrected resistance moves per kelvin of error in the temperature, in ohm per kelvin (a size, not
 * signed).
 */
export function copperSensitivity(resistance: number, celsius: number): number {
  const factor = 1 + COPPER_PER_KELVIN * (celsius - COPPER_REFERENCE_CELSIUS);
  return (resistance * COPPER_PER_KELVIN) / (factor * factor);
}
