/**
 * The stops of a problem, laid out for being weighed thousands of times. A course of remedies that cannot help a
 * condition pays the same there as anywhere else it cannot help: so each stop is kept as what it pays most often, and
 * the conditions where it pays something else.
 */
import { type Play, type Situation, unpaid } from './play.ts';

export interface StopTable {
  /** weighted value of the best stop; its index, or -1 without any */
  best(situation: Situation): { readonly stop: number; readonly value: number };
  /** weighted value of doing a test, its price left out, and then stopping in the best way: sum over outcomes */
  afterTest(situation: Situation, test: number): number;
  /** work done so far: conditions and what stops pay there, each once per outcome weighed */
  readonly work: () => number;
}

/**
 * Builds the table. Weighing all stops costs conditions + exceptions; a test costs that per outcome but the last, which
 * is what is left of the whole. Equal to weighing payoffs one by one, up to rounding.
 */
export function stopTable(play: Play): StopTable {
  const { stops, tests } = play.problem;
  const count = stops.length;
  const usual = new Float64Array(count);
  const starts = new Int32Array(count + 1);
  const where: number[] = [];
  const extra: number[] = [];
  stops.forEach(({ payoff }, stop) => {
    usual[stop] = majority(payoff);
    payoff.forEach((pays, condition) => {
      if (pays === usual[stop]) return;
      where.push(condition);
      extra.push(pays - usual[stop]!);
    });
    starts[stop + 1] = where.length;
  });
  const conditions = Int32Array.from(where);
  const extras = Float64Array.from(extra);
  const joint = new Float64Array(play.problem.conditions.length);
  const weighing = joint.length + conditions.length + count;
  const left = new Float64Array(count);

  const weighAll = (belief: Float64Array, mass: number, out: Float64Array) => {
    for (let stop = 0; stop < count; stop++) {
      let sum = mass * usual[stop]!;
      for (let i = starts[stop]!; i < starts[stop + 1]!; i++) sum += belief[conditions[i]!]! * extras[i]!;
      out[stop] = sum;
    }
  };
  // the tests of one situation are asked for one after the other
  let last: Situation | undefined;
  const totals = new Float64Array(count);
  const totalsOf = (situation: Situation) => {
    if (situation === last) return;
    weighAll(situation.belief, situation.mass, totals);
    last = situation;
  };

  const charges = new Map<number, Float64Array>();
  const chargesWith = (paid: number): Float64Array => {
    let known = charges.get(paid);
    if (!known) {
      known = Float64Array.from(play.needs.stop, (needs) => unpaid(play, needs, paid));
      charges.set(paid, known);
    }
    return known;
  };

  let work = 0;
  return {
    work: () => work,
    best: (situation) => {
      // the situation was made before it is weighed
      work += joint.length + weighing;
      totalsOf(situation);
      const charged = chargesWith(situation.paid);
      let stop = -1;
      let value = Number.NEGATIVE_INFINITY;
      for (let index = 0; index < count; index++) {
        const candidate = totals[index]! - situation.mass * charged[index]!;
        if (candidate > value) {
          stop = index;
          value = candidate;
        }
      }
      return { stop, value };
    },
    afterTest: (situation, test) => {
      work += weighing * tests[test]!.outcomes.length;
      totalsOf(situation);
      left.set(totals);
      const charged = chargesWith(situation.paid | play.needs.test[test]!);
      const { likelihood } = tests[test]!;
      const { belief } = situation;
      let value = 0;
      let massLeft = situation.mass;
      for (let outcome = 0; outcome < likelihood.length - 1; outcome++) {
        const row = likelihood[outcome]!;
        let mass = 0;
        for (let c = 0; c < joint.length; c++) {
          const weight = belief[c]! * row[c]!;
          joint[c] = weight;
          mass += weight;
        }
        massLeft -= mass;
        let best = Number.NEGATIVE_INFINITY;
        for (let stop = 0; stop < count; stop++) {
          let sum = mass * usual[stop]!;
          for (let i = starts[stop]!; i < starts[stop + 1]!; i++) sum += joint[conditions[i]!]! * extras[i]!;
          left[stop] = left[stop]! - sum;
          const candidate = sum - mass * charged[stop]!;
          if (candidate > best) best = candidate;
        }
        value += best;
      }
      let best = Number.NEGATIVE_INFINITY;
      for (let stop = 0; stop < count; stop++) {
        const candidate = left[stop]! - massLeft * charged[stop]!;
        if (candidate > best) best = candidate;
      }
      return value + best;
    },
  };
}

/** The value that more than half of the entries have, where there is one (Boyer & Moore, MJRTY, 1981); else one of them. */
function majority(values: Float64Array): number {
  let candidate = values[0] ?? 0;
  let votes = 0;
  for (const value of values) {
    if (votes === 0) candidate = value;
    votes += value === candidate ? 1 : -1;
  }
  return candidate;
}
