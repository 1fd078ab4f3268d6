/** The smallest value that at least this share (0 to 1) of the values does not exceed (nearest rank); NaN of none. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = values.toSorted((one, other) => one - other);
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN;
}
