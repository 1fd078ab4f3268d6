/** Sums of products that are too small for a double: when to distrust a sum, and the same sum in logarithms. */
import type { Conditions } from './conditions.ts';

/** Below this a sum of weights may have lost conditions to underflow. */
const LEAST_TRUSTED_TOTAL = 1e-200;

export const trusted = (total: number): boolean => total >= LEAST_TRUSTED_TOTAL && total < Infinity;

/** Sum of values, from the end: in a list of all sets that is where the small ones are. */
export function sum(values: Float64Array): number {
  let total = 0;
  for (let i = values.length - 1; i >= 0; i--) total += values[i]!;
  return total;
}

/** Divides by `total`, in place. */
export function divide(values: Float64Array, total: number): void {
  for (let i = 0; i < values.length; i++) values[i]! /= total;
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
  for (let i = 0; i < logs.length; i++) logs[i] = Math.exp(logs[i]! - highest);
  const total = sum(logs);
  divide(logs, total);
  return Math.log(total) + highest;
}
