/** What a further step of a course costs, and bounds on what it can bring: a step changes something only where it acts on a fault. */
import type { CardModel } from './card-model.ts';
import type { ConditionSet } from './condition-set.ts';
import { type CourseScratch, lastFixed } from './course.ts';

/** A remedy is considered where it acts on a fault at least this probable; below, nobody would start with it. */
export const LEAST_FAULT_CHANCE = 0.002;

/** Price of a step, given the steps before it: preparations that last are paid by the first that needs them. */
export function stepPrices(model: CardModel) {
  const { money, treatments, preparations } = model;
  const preparationPrices = preparations.map(({ minutes }) => (minutes / 60) * money.labourPerHour);
  const alone = Float64Array.from(treatments, ({ minutes, parts, heatCycles }) => {
    const pieces = parts.reduce((sum, part) => sum + money.partPrices[part]!, 0);
    return (minutes / 60) * money.labourPerHour + pieces + heatCycles * money.consumablesPerHeatCycle;
  });
  const needs = treatments.map((treatment) => [...new Set(treatment.preparations)]);
  const of = (before: readonly number[], treatment: number) => {
    let price = alone[treatment]!;
    for (const preparation of needs[treatment]!) {
      if (preparations[preparation]!.lasts && before.some((step) => needs[step]!.includes(preparation))) continue;
      price += preparationPrices[preparation]!;
    }
    return price;
  };
  let dearest = 0;
  treatments.forEach((_, treatment) => {
    dearest = Math.max(dearest, of([], treatment));
  });
  return { alone, of, dearest };
}

/** What each treatment finds to act on. */
export function actsOn(set: ConditionSet, scratch: CourseScratch) {
  const { table } = scratch;
  const { treatments, faults, host, cures, masks, induces, dormantAtHorizon, nothingNew } = table;
  const treats = (treatment: number, fault: number) =>
    host[fault] === 0 && cures[treatment * faults + fault]! + masks[treatment * faults + fault]! > 0;
  const heldBy = (treatment: number, fault: number) =>
    cures[treatment * faults + fault]! + masks[treatment * faults + fault]! * dormantAtHorizon[fault]!;
  const mostHeld = new Float64Array(treatments);
  const causes = new Float64Array(treatments * treatments);
  for (let t = 0; t < treatments; t++) {
    for (const fault of table.touched[t]!) {
      if (!treats(t, fault)) continue;
      mostHeld[t] = Math.max(mostHeld[t]!, heldBy(t, fault) * nothingNew[0]!);
      for (let other = 0; other < treatments; other++) {
        causes[other * treatments + t] = causes[other * treatments + t]! + induces[other * faults + fault]!;
      }
    }
  }
  const nodes = set.nodeParent.length;
  const starts = new Int32Array(nodes + 1);
  const actors: number[] = [];
  for (let node = 0; node < nodes; node++) {
    for (let t = 0; t < treatments; t++) {
      let above = node;
      while (above > 0 && !treats(t, set.nodeCode[above]! >> 1)) above = set.nodeParent[above]!;
      if (above > 0) actors.push(t);
    }
    starts[node + 1] = actors.length;
  }
  const list = Int32Array.from(actors);
  const treaters = Array.from(host, (_, fault) =>
    Array.from({ length: treatments }, (_, t) => t).filter((t) => treats(t, fault)),
  );
  const fixed = new Float64Array(nodes);
  const covered = new Uint8Array(faults);
  /** nearest node on the way to the root, itself included, whose fault no earlier step acts on; -1: none */
  const lackingAt = new Int32Array(nodes);
  const causedBy = (steps: readonly number[], treatment: number) => {
    let sum = 0;
    for (const step of steps) sum += causes[step * treatments + treatment]!;
    return sum;
  };
  return {
    mostHeld,
    /** causes[a * treatments + b]: bound on the chance that a causes a fault that b acts on */
    causes,
    considered(likely: Float64Array): number[] {
      const considered: number[] = [];
      for (let t = 0; t < treatments; t++) {
        if (table.touched[t]!.some((fault) => treats(t, fault) && likely[fault]! >= LEAST_FAULT_CHANCE))
          considered.push(t);
      }
      return considered;
    },
    /** per node: belief in it and the card not working after `steps`, given the same before the last of them */
    stillOpen(weights: Float64Array, steps: readonly number[], before: Float64Array): Float64Array {
      lastFixed(set, steps, scratch, fixed);
      const { count, node } = scratch.visit;
      const open = Float64Array.from(before);
      for (let n = 0; n < count; n++) {
        const at = node[n]!;
        open[at] = Math.max(0, open[at]! - weights[at]! * fixed[n]!);
      }
      return open;
    },
    /** per treatment: bound on the chance that the card does not work after the steps and there is something to act on */
    acting(openAt: Float64Array, steps: readonly number[], open: number): Float64Array {
      const mass = new Float64Array(treatments);
      for (let node = 0; node < nodes; node++) {
        for (let i = starts[node]!; i < starts[node + 1]!; i++) mass[list[i]!] = mass[list[i]!]! + openAt[node]!;
      }
      return mass.map((sum, t) => Math.min(open, sum + causedBy(steps, t)));
    },
    /**
     * Per treatment: bound on the chance that it makes the card work as the last step after these, and that it holds. What no
     * earlier step acts on, the last one must cure; with all of that cured, it must still find something to act on.
     */
    holding(weights: Float64Array, openAt: Float64Array, steps: readonly number[], open: number): Float64Array {
      for (const step of steps) for (const fault of table.touched[step]!) if (treats(step, fault)) covered[fault] = 1;
      const gain = new Float64Array(treatments);
      const curable = new Float64Array(treatments);
      let all = 0;
      for (let node = 0; node < nodes; node++) {
        const code = set.nodeCode[node]!;
        const parent = set.nodeParent[node]!;
        const lacks = node > 0 && (code & 1) === 0 && host[code >> 1] === 0 && covered[code >> 1] === 0;
        lackingAt[node] = lacks ? node : node > 0 ? lackingAt[parent]! : -1;
        const lacking = lackingAt[node]!;
        if (lacking < 0) {
          all += weights[node]!;
          for (let i = starts[node]!; i < starts[node + 1]!; i++) {
            const t = list[i]!;
            gain[t] = gain[t]! + openAt[node]! * mostHeld[t]!;
          }
        } else if (weights[node]! > 0) {
          for (const t of treaters[set.nodeCode[lacking]! >> 1]!) {
            let holds = nothingNew[0]!;
            for (let at = lacking; at >= 0 && holds > 0; at = lackingAt[set.nodeParent[at]!]!) {
              holds *= heldBy(t, set.nodeCode[at]! >> 1);
            }
            if (holds === 0) continue;
            gain[t] = gain[t]! + openAt[node]! * holds;
            curable[t] = curable[t]! + weights[node]!;
          }
        }
      }
      for (const step of steps) for (const fault of table.touched[step]!) covered[fault] = 0;
      return gain.map((sum, t) => {
        const caused = causedBy(steps, t) * Math.min(1, all + curable[t]!);
        return Math.min(open * mostHeld[t]!, sum + caused * mostHeld[t]!);
      });
    },
  };
}
