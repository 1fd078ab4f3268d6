/**
 * A course of remedies: each is tried only while the card does not work, and the bench test afterwards tells perfectly.
 *
 * Were every remedy done whatever the test said, each fault would go its own way, so the chance of any "it would work
 * after the steps in T" is a product over faults. "Fixed at the last step" is "it works after the last and after none
 * before", which inclusion and exclusion turn into a sum of such products:
 *
 *     P(fixed at j) = sum over subsets T of the steps before j of (-1)^|T| P(works after each of T and after j)
 *
 * Exact, with any number of faults induced at once and nothing lumped; at most 4 terms for three steps.
 */
import { type ConditionSet, createVisit, sumOfProducts, type Visit, visitWhere } from './condition-set.ts';
import type { TreatmentTable } from './treatment.ts';

export const LONGEST_COURSE = 3;
const TERMS = 2 ** (LONGEST_COURSE - 1);
const QUANTITIES = 3;

/** Chances at the last step of a course: it is this step that makes the card work, and that it then ... */
export interface StepChances {
  readonly fixed: number;
  /** ... works to the horizon */
  readonly held: number;
  /** ... does not come back within the warranty */
  readonly kept: number;
}

/** The same per condition. */
export interface StepVectors {
  readonly fixed: Float64Array;
  readonly held: Float64Array;
  readonly kept: Float64Array;
}

/** Working store for one treatment table; its tables are rebuilt when the table's numbers change (`renewScratch`). */
export interface CourseScratch {
  readonly table: TreatmentTable;
  /** [term * 3 + quantity][member code] */
  readonly ratios: readonly Float64Array[];
  readonly bases: Float64Array;
  readonly visit: Visit;
  readonly place: Int32Array;
  readonly touched: Int32Array;
  readonly seen: Uint8Array;
}

export function courseScratch(table: TreatmentTable, set: ConditionSet): CourseScratch {
  const scratch = {
    table,
    ratios: Array.from({ length: TERMS * QUANTITIES }, () => new Float64Array(2 * table.faults)),
    bases: new Float64Array(TERMS * QUANTITIES),
    visit: createVisit(set),
    place: new Int32Array(set.nodeParent.length),
    touched: new Int32Array(table.faults),
    seen: new Uint8Array(table.faults),
  };
  renewScratch(scratch);
  return scratch;
}

/** What an untouched fault does: one of the host never stops the card, an active one of the card always does. */
export function renewScratch(scratch: CourseScratch): void {
  const { faults, host } = scratch.table;
  for (let fault = 0; fault < faults; fault++) leaveAlone(scratch, fault, host[fault] === 1);
}

/**
 * Chances at the last of `steps` (indices of treatments, 1 to 3), summed over a belief. `weights` from `nodeWeights`.
 * Cost: 3 * 2^(steps - 1) passes over the conditions.
 */
export function lastStep(
  set: ConditionSet,
  weights: Float64Array,
  steps: readonly number[],
  scratch: CourseScratch,
): StepChances {
  prepare(scratch, steps);
  const { ratios, bases, visit } = scratch;
  // The first term asks for the least, so what it rules out every term rules out.
  visitWhere(set, ratios[0]!, visit, scratch.place);
  let fixed = 0;
  let held = 0;
  let kept = 0;
  const terms = 2 ** (steps.length - 1);
  for (let term = 0; term < terms; term++) {
    const at = term * QUANTITIES;
    const sign = even(term) ? 1 : -1;
    fixed += sign * bases[at]! * sumOfProducts(visit, weights, ratios[at]!);
    held += sign * bases[at + 1]! * sumOfProducts(visit, weights, ratios[at + 1]!);
    kept += sign * bases[at + 2]! * sumOfProducts(visit, weights, ratios[at + 2]!);
  }
  restore(scratch);
  return { fixed: Math.max(0, fixed), held: Math.max(0, held), kept: Math.max(0, kept) };
}

/**
 * Chance that the last of `steps` makes the card work, per condition, for the tree nodes listed in `scratch.visit`; it is 0
 * for all others. `out[i]` belongs to the i-th node of the list. Cost: 2^(steps - 1) multiplications per node listed.
 */
export function lastFixed(
  set: ConditionSet,
  steps: readonly number[],
  scratch: CourseScratch,
  out: Float64Array,
): void {
  prepare(scratch, steps);
  const { ratios, bases, visit } = scratch;
  visitWhere(set, ratios[0]!, visit, scratch.place);
  const { count, parent, code, sum } = visit;
  out.fill(0, 0, count);
  const terms = 2 ** (steps.length - 1);
  for (let term = 0; term < terms; term++) {
    const ratio = ratios[term * QUANTITIES]!;
    const sign = even(term) ? 1 : -1;
    sum[0] = bases[term * QUANTITIES]!;
    out[0] = out[0]! + sign * sum[0]!;
    for (let i = 1; i < count; i++) {
      const product = sum[parent[i]!]! * ratio[code[i]!]!;
      sum[i] = product;
      out[i] = out[i]! + sign * product;
    }
  }
  restore(scratch);
}

/** The same for every condition on its own. */
export function lastStepVectors(set: ConditionSet, steps: readonly number[], scratch: CourseScratch): StepVectors {
  prepare(scratch, steps);
  const vectors = Array.from({ length: QUANTITIES }, () => new Float64Array(set.size));
  const terms = 2 ** (steps.length - 1);
  for (let q = 0; q < QUANTITIES; q++) {
    const out = vectors[q]!;
    for (let c = 0; c < set.size; c++) {
      let total = 0;
      for (let term = 0; term < terms; term++) {
        const at = term * QUANTITIES + q;
        const ratio = scratch.ratios[at]!;
        let product = scratch.bases[at]!;
        for (let i = set.starts[c]!; i < set.starts[c + 1]!; i++) product *= ratio[set.codes[i]!]!;
        total += even(term) ? product : -product;
      }
      out[c] = Math.max(0, total);
    }
  }
  restore(scratch);
  return { fixed: vectors[0]!, held: vectors[1]!, kept: vectors[2]! };
}

/**
 * Fills ratios and bases for a course. A base is the product over all faults of the chance given "absent at the start";
 * a ratio is the chance given "active (or dormant) at the start" over that, so that each condition needs its members only.
 */
function prepare(scratch: CourseScratch, steps: readonly number[]): void {
  const { table, ratios, bases, touched, seen } = scratch;
  const { faults, cures, masks, induces, nothingNew, dormantAtHorizon, dormantAtWarranty } = table;
  if (steps.length < 1 || steps.length > LONGEST_COURSE) {
    throw new RangeError(`a course has 1 to ${LONGEST_COURSE} steps, not ${steps.length}`);
  }
  let many = 0;
  for (const step of steps) {
    for (const fault of table.touched[step]!) {
      if (seen[fault] === 1) continue;
      seen[fault] = 1;
      touched[many++] = fault;
    }
  }
  if (many < touched.length) touched[many] = -1;
  const last = steps.length - 1;
  const terms = 2 ** last;
  for (let term = 0; term < terms; term++) {
    const at = term * QUANTITIES;
    bases[at] = 1;
    bases[at + 1] = nothingNew[0]!;
    bases[at + 2] = nothingNew[1]!;
    for (let n = 0; n < many; n++) {
      const fault = touched[n]!;
      const toHorizon = dormantAtHorizon[fault]!;
      const toWarranty = dormantAtWarranty[fault]!;
      // start: 0 absent, 1 active, 2 dormant
      let absentWorks = 1;
      let absentHeld = 1;
      let absentKept = 1;
      for (let start = 0; start < 3; start++) {
        let active = start === 1 ? 1 : 0;
        let dormant = start === 2 ? 1 : 0;
        let absent = start === 0 ? 1 : 0;
        for (let j = 0; j <= last; j++) {
          const index = steps[j]! * faults + fault;
          const cured = cures[index]!;
          const masked = masks[index]!;
          const induced = absent * induces[index]!;
          absent += (active + dormant) * cured - induced;
          dormant += active * masked - dormant * cured;
          active = j === last || ((term >> j) & 1) === 1 ? 0 : active * (1 - cured - masked) + induced;
        }
        const works = absent + dormant;
        const held = absent + dormant * toHorizon;
        const kept = absent + dormant * toWarranty;
        if (start === 0) {
          absentWorks = works;
          absentHeld = held;
          absentKept = kept;
          bases[at] = bases[at]! * works;
          bases[at + 1] = bases[at + 1]! * held;
          bases[at + 2] = bases[at + 2]! * kept;
        } else {
          const code = 2 * fault + start - 1;
          ratios[at]![code] = works / absentWorks;
          ratios[at + 1]![code] = held / absentHeld;
          ratios[at + 2]![code] = kept / absentKept;
        }
      }
    }
  }
}

function restore(scratch: CourseScratch): void {
  const { touched, seen } = scratch;
  for (let n = 0; n < touched.length && touched[n]! >= 0; n++) {
    leaveAlone(scratch, touched[n]!, false);
    seen[touched[n]!] = 0;
  }
  touched[0] = -1;
}

function leaveAlone(scratch: CourseScratch, fault: number, ofHost: boolean): void {
  const { ratios, table } = scratch;
  for (let at = 0; at < ratios.length; at++) {
    const quantity = at % QUANTITIES;
    const ratio = ratios[at]!;
    ratio[2 * fault] = ofHost ? 1 : 0;
    ratio[2 * fault + 1] =
      ofHost || quantity === 0 ? 1 : quantity === 1 ? table.dormantAtHorizon[fault]! : table.dormantAtWarranty[fault]!;
  }
}

/** True for subsets with an even number of steps. */
function even(term: number): boolean {
  return term === 0 || term === 3;
}
