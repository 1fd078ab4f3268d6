/**
 * A posterior re-weighed for other values of the shares, history factors and rows of findings it was worked out with:
 *
 *     P'(h | e) is proportional to P(h | e) * product over members f of h of (odds'_f / odds_f)
 *                                         * product over findings X of P'(e_X | h) / P(e_X | h)
 *
 * which is the posterior itself again for the values it came from, whatever scaling (kappa) the odds were given. Only
 * conditions of the set are weighed; conditions outside it, and kappa, are taken as they are.
 *
 * States of a finding that weigh the same are one cell: a Dirichlet over states is a Dirichlet over cells.
 */
import type { ConditionSet } from './condition-set.ts';
import type { UncertainFinding } from './uncertainty.ts';

/** A row of a finding, over cells. `cumulative` is what is used; `mean` is what it came from. */
export interface CellRow {
  readonly mean: Float64Array;
  readonly cumulative: Float64Array;
}

/** One finding against the set. */
export interface FindingWeigher {
  /** row 0 is the leak; the others belong to `given` in its order, those of faults outside the set are left out (null) */
  readonly leak: CellRow;
  readonly given: readonly (CellRow | null)[];
  /** weight of each cell */
  readonly weights: Float64Array;
  /** how many of its rows are not at their likely values */
  changed: number;
  /** multiplies `belief` by P'(e | h) / P(e | h) */
  weigh(belief: Float64Array): void;
}

/** Null where the finding says nothing: every state weighs the same. */
export function findingWeigher(finding: UncertainFinding, set: ConditionSet): FindingWeigher | null {
  const ends = cellEnds(finding.weights);
  if (ends.length < 2) return null;
  const cells = ends.length;
  const weights = Float64Array.from(ends, (end) => finding.weights[end]!);
  const members = new Set<number>();
  for (const code of set.codes) if ((code & 1) === 0) members.add(code >> 1);
  // All cumulative rows in one array, row after row, so that the inner loop stays in it.
  const store = new Float64Array((finding.given.length + 1) * cells);
  const rowAt = (r: number) => store.subarray(r * cells, (r + 1) * cells);
  const leak = cellRow(finding.leak.p, ends, rowAt(finding.given.length));
  const given = finding.given.map((row, r) => (members.has(row.fault) ? cellRow(row.p, ends, rowAt(r)) : null));
  const rowOf = new Map(finding.given.map((row, r) => [row.fault, r]));

  const untouched: number[] = [];
  const touched: number[] = [];
  const starts = [0];
  /** where the rows of each touched condition begin in the store */
  const rows: number[] = [];
  for (let c = 0; c < set.size; c++) {
    const from = rows.length;
    for (let i = set.starts[c]!; i < set.starts[c + 1]!; i++) {
      const code = set.codes[i]!;
      const row = (code & 1) === 0 ? rowOf.get(code >> 1) : undefined;
      if (row !== undefined) rows.push(row * cells);
    }
    if (rows.length === from) untouched.push(c);
    else {
      touched.push(c);
      starts.push(rows.length);
    }
  }
  // P(e | h) = sum over cells of weight * (F - F before) = sum of (weight - next weight) * F
  const falls = Float64Array.from(weights, (weight, g) => weight - (g + 1 < cells ? weights[g + 1]! : 0));
  const likelihoodOfLeak = () => {
    let sum = 0;
    for (let g = 0; g < cells; g++) sum += falls[g]! * leak.cumulative[g]!;
    return Math.max(0, sum);
  };
  const likelihoods = new Float64Array(touched.length);
  const firsts = Int32Array.from(starts);
  const rowStarts = Int32Array.from(rows);
  const fill = () => {
    likelihoods.fill(0);
    for (let g = 0; g < cells; g++) {
      const common = falls[g]! * leak.cumulative[g]!;
      if (common === 0) continue;
      for (let t = 0; t < likelihoods.length; t++) {
        let product = common;
        for (let r = firsts[t]!; r < firsts[t + 1]!; r++) product *= store[rowStarts[r]! + g]!;
        likelihoods[t] = likelihoods[t]! + product;
      }
    }
  };
  fill();
  const before = Float64Array.from(likelihoods);
  const leakBefore = likelihoodOfLeak();
  return {
    leak,
    given,
    weights,
    changed: 0,
    weigh(belief) {
      fill();
      for (let t = 0; t < touched.length; t++) {
        const c = touched[t]!;
        belief[c] = before[t]! > 0 ? (belief[c]! * Math.max(0, likelihoods[t]!)) / before[t]! : 0;
      }
      const ratio = leakBefore > 0 ? likelihoodOfLeak() / leakBefore : 0;
      for (const c of untouched) belief[c] = belief[c]! * ratio;
    },
  };
}

/** Puts new chances of the cells into a row. */
export function setCells(row: CellRow, cells: ArrayLike<number>): void {
  let sum = 0;
  const last = row.cumulative.length - 1;
  for (let g = 0; g < last; g++) {
    sum += cells[g]!;
    row.cumulative[g] = sum;
  }
  row.cumulative[last] = 1;
}

/** Last state of each run of states that weigh the same. */
function cellEnds(weights: Float64Array): number[] {
  const ends: number[] = [];
  for (let x = 0; x < weights.length; x++) if (weights[x] !== weights[x + 1]) ends.push(x);
  return ends;
}

function cellRow(p: Float64Array, ends: readonly number[], cumulative: Float64Array): CellRow {
  const mean = new Float64Array(ends.length);
  let x = 0;
  ends.forEach((end, g) => {
    for (; x <= end; x++) mean[g] = mean[g]! + p[x]!;
  });
  const row = { mean, cumulative };
  setCells(row, mean);
  return row;
}
