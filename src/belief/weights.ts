/**
 * Weights of conditions as flat arrays: sums, products, scaling, and the same in logarithms where they are too small for
 * a double. Lengths are read once before each loop: read in it, they are checked again after every store.
 */
import type { Conditions } from './conditions.ts';

/** Below this a sum of weights may have lost conditions to underflow. */
const LEAST_TRUSTED_TOTAL = 1e-200;

export const trusted = (total: number): boolean => total >= LEAST_TRUSTED_TOTAL && total < Infinity;

/** Sum of values; four running sums, so that one addition need not wait for the one before. */
export function sum(values: Float64Array): number {
  let a = 0;
  let b = 0;
  let c = 0;
  let d = 0;
  let i = values.length - 1;
  for (; i >= 3; i -= 4) {
    a += values[i]!;
    b += values[i - 1]!;
    c += values[i - 2]!;
    d += values[i - 3]!;
  }
  for (; i >= 0; i--) a += values[i]!;
  return a + b + (c + d);
}

/** Sum of products of two arrays of one length. */
export function dot(values: Float64Array, by: Float64Array): number {
  let total = 0;
  for (let i = values.length - 1; i >= 0; i--) total += values[i]! * by[i]!;
  return total;
}

/** Multiplies every value by one number, in place. */
export function scale(values: Float64Array, by: number): void {
  const { length } = values;
  for (let i = 0; i < length; i++) values[i]! *= by;
}

/** Divides by `total`, in place: by its reciprocal, unless that overflows. */
export function divide(values: Float64Array, total: number): void {
  const by = 1 / total;
  if (by < Infinity) {
    scale(values, by);
    return;
  }
  const { length } = values;
  for (let i = 0; i < length; i++) values[i]! /= total;
}

/** Multiplies two arrays of one length, into the first. */
export function multiply(values: Float64Array, by: Float64Array): void {
  const { length } = values;
  for (let i = 0; i < length; i++) values[i]! *= by[i]!;
}

/** Multiplies two arrays of one length, into a new one. */
export function multiplied(values: Float64Array, by: Float64Array): Float64Array {
  const { length } = values;
  const result = new Float64Array(length);
  for (let i = 0; i < length; i++) result[i] = values[i]! * by[i]!;
  return result;
}

/** log of (product of the odds of the members, times every likelihood) for each condition; -Infinity where it is ruled out. */
export function logWeights(
  odds: ArrayLike<number>,
  each: readonly Float64Array[],
  { most, count, size, members }: Conditions,
): Float64Array {
  const logOdds = Float64Array.from(odds, Math.log);
  const logs = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    for (let slot = 0; slot < size[i]!; slot++) logs[i]! += logOdds[members[i * most + slot]!]!;
    for (const likelihood of each) logs[i]! += Math.log(likelihood[i]!);
  }
  return logs;
}

/** Turns logarithms of weights into chances that sum to one, in place; returns the logarithm of their sum before. */
export function fromLogarithms(logs: Float64Array): number {
  let highest = -Infinity;
  for (const log of logs) if (log > highest) highest = log;
  if (highest === -Infinity) return -Infinity;
  const { length } = logs;
  for (let i = 0; i < length; i++) logs[i] = Math.exp(logs[i]! - highest);
  const total = sum(logs);
  divide(logs, total);
  return Math.log(total) + highest;
}
