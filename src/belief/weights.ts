/**
 * Weights of conditions as flat arrays: sums, products, scaling, and the same in logarithms where they are too small for
 * a double. Lengths are read once before each loop: read in it, they are checked again after every store.
 */
import type { Conditions } from './conditions.ts';

/** Below this a sum of weights may have lost conditions to underflow. */
const LEAST_TRUSTED_TOTAL = 1e-200;

export const trusted = (total: number): boolean => total >= LEAST_TRUSTED_TOTAL && total < Infinity;

/** Sum of values; of two halves side by side, so that one addition need not wait for the one before. */
export function sum(values: Float64Array): number {
  const { length } = values;
  const half = length >> 1;
  let low = 0;
  let high = 0;
  for (let i = 0; i < half; i++) {
    low += values[i]!;
    high += values[i + half]!;
  }
  if (length % 2 === 1) low += values[length - 1]!;
  return low + high;
}

/** Sum of products of two arrays of one length. */
export function dot(values: Float64Array, by: Float64Array): number {
  const { length } = values;
  let total = 0;
  for (let i = 0; i < length; i++) total += values[i]! * by[i]!;
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

/**
 * log of (product of the odds of the members, `empty` where there are none, times every likelihood) for each condition;
 * -Infinity where it is ruled out.
 */
export function logWeights(
  odds: ArrayLike<number>,
  each: readonly Float64Array[],
  { most, count, size, members }: Conditions,
  empty: number,
): Float64Array {
  const logOdds = Float64Array.from(odds, Math.log);
  const logs = new Float64Array(count);
  const logEmpty = Math.log(empty);
  for (let i = 0; i < count; i++) {
    if (size[i] === 0) logs[i] = logEmpty;
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
