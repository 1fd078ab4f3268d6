/** What survival is estimated from: how many failed and how many were lost sight of, at which times. */

/** Some units that share a time. Counts need not be whole: a comeback that is half the remedy's fault counts half. */
export interface Row {
  /** time in service; any unit, the same in every row */
  readonly time: number;
  /** how many failed then */
  readonly failed: number;
  /** how many were still working then, and not followed further */
  readonly censored: number;
}

/** Rows with the same time as one, times rising; index = time. */
export interface Followed {
  readonly time: Float64Array;
  readonly failed: Float64Array;
  readonly censored: Float64Array;
}

/**
 * Rows as a sample: sorted by time, rows of one time added up, rows without a count left out. Order of rows does not matter.
 *
 * Throws a RangeError that names the row where a time or a count is below nought, infinite or not a number, and where nobody is
 * left. Cost: n log n.
 *
 * @example follow([{ time: 6, failed: 3, censored: 0 }, { time: 6, failed: 0, censored: 1 }]).censored[0] // 1
 */
export function follow(rows: Iterable<Row>): Followed {
  const kept: Row[] = [];
  let at = 0;
  for (const row of rows) {
    at++;
    for (const field of ['time', 'failed', 'censored'] as const)
      if (!(Number.isFinite(row[field]) && row[field] >= 0))
        throw new RangeError(
          `Row ${at}: ${field} is ${row[field]}. Times in service and counts are numbers of 0 or more: correct it or leave the row out.`,
        );
    if (row.failed + row.censored > 0) kept.push(row);
  }
  if (kept.length === 0) throw new RangeError('Nobody was followed: give at least one row with a count above 0.');
  kept.sort((a, b) => a.time - b.time);
  const time: number[] = [];
  const failed: number[] = [];
  const censored: number[] = [];
  for (const row of kept) {
    if (row.time !== time.at(-1)) {
      time.push(row.time);
      failed.push(0);
      censored.push(0);
    }
    failed[failed.length - 1]! += row.failed;
    censored[censored.length - 1]! += row.censored;
  }
  return {
    time: Float64Array.from(time),
    failed: Float64Array.from(failed),
    censored: Float64Array.from(censored),
  };
}
