/** New findings on a fold: the network sees what is active now, whatever led there. */

import type { Evidence, Network } from './network.ts';
import { factorAll } from './observe.ts';
import { chanceBySituation, type Fold, faultOf, isDormant, settle } from './trajectory.ts';

/** A fold with pieces of evidence beside it: what each says of each situation, reckoned once for all that is asked of it. */
export interface Sight {
  readonly fold: Fold;
  /** faults that are active in each situation */
  readonly shown: ActiveLists;
  readonly faults: number;
  /** P(piece | what is active in the situation): one array per piece, index = situation */
  readonly each: readonly Float64Array[];
}

/**
 * What tells of the work sees what lies dormant, too. Findings from before a treatment belong to the belief the fold began with; after it the
 * same check is new evidence. Cost: distinct situations times findings times members.
 */
export function lookAt(fold: Fold, network: Network, evidence: readonly Evidence[]): Sight {
  const shown = activeLists(fold);
  return { fold, shown, faults: network.faults.length, each: likelihoods(fold, shown, network, evidence) };
}

/** Weighs every trajectory by the chance of what is seen. Null where no trajectory allows it: a contradiction. */
export function observeFold({ fold, each }: Sight): Fold | null {
  const whole = new Float64Array(fold.situations.length).fill(1);
  for (const piece of each) for (let s = 0; s < whole.length; s++) whole[s]! *= piece[s]!;
  const weight = fold.chance.map((chance, i) => chance * whole[fold.now[i]!]!);
  return settle(fold, { situations: fold.situations, before: fold.before, now: fold.now, weight });
}

/** What the fold says with a set of pieces of evidence: chances of faults and the chance of the pieces. */
export interface Told {
  /** chance that each fault is active; null where the pieces exclude each other */
  readonly active: Float64Array | null;
  /** natural logarithm of the chance of the pieces, given the fold */
  readonly logChance: number;
}

export interface LeftOut {
  readonly all: Told;
  /** one per piece: with every piece but this one */
  readonly without: readonly Told[];
  /** one per piece: the logarithm of the chance of this piece alone */
  readonly logAlone: readonly number[];
}

/** Leaves out one piece of evidence at a time, each in one pass over the situations. Cost: situations times pieces. */
export function leaveOneOut({ fold, shown: lists, faults, each }: Sight): LeftOut {
  const chance = chanceBySituation(fold, fold.now);
  const told = (weight: Float64Array): Told => {
    const total = weight.reduce((sum, w) => sum + w, 0);
    if (!(total > 0)) return { active: null, logChance: Number.NEGATIVE_INFINITY };
    const active = new Float64Array(faults);
    for (let s = 0; s < weight.length; s++)
      for (let k = lists.starts[s]!; k < lists.starts[s + 1]!; k++) active[lists.active[k]!]! += weight[s]!;
    return { active: active.map((sum) => sum / total), logChance: Math.log(total) };
  };
  const before: Float64Array[] = [chance];
  for (const piece of each) before.push(before.at(-1)!.map((weight, s) => weight * piece[s]!));
  let after = new Float64Array(fold.situations.length).fill(1);
  const without: Told[] = [];
  for (let j = each.length - 1; j >= 0; j--) {
    without.unshift(told(before[j]!.map((weight, s) => weight * after[s]!)));
    after = after.map((product, s) => product * each[j]![s]!);
  }
  const logAlone = each.map((piece) => Math.log(chance.reduce((sum, weight, s) => sum + weight * piece[s]!, 0)));
  return { all: told(before.at(-1)!), without, logAlone };
}

function likelihoods(fold: Fold, shown: ActiveLists, network: Network, evidence: readonly Evidence[]): Float64Array[] {
  const faults = network.faults.length;
  // checks the evidence's shape; the odds play no part
  factorAll(network, new Float64Array(faults), evidence);
  let there: ActiveLists | null = null;
  return evidence.map(({ finding, weights }) => {
    const node = network.findings[finding]!;
    if (node.ofTheWork) there ??= activeLists(fold, true);
    const { starts, active } = node.ofTheWork ? there! : shown;
    const states = weights.length;
    const rows = new Float64Array(faults * states);
    const touches = new Uint8Array(faults);
    for (const { fault, cumulative } of node.given) {
      rows.set(cumulative, fault * states);
      touches[fault] = 1;
    }
    const cumulative = new Float64Array(states);
    const given = new Float64Array(starts.length - 1);
    for (let s = 0; s < given.length; s++) {
      cumulative.set(node.leak);
      for (let k = starts[s]!; k < starts[s + 1]!; k++) {
        const fault = active[k]!;
        if (touches[fault] === 0) continue;
        for (let x = 0; x < states; x++) cumulative[x]! *= rows[fault * states + x]!;
      }
      let below = 0;
      let likelihood = 0;
      for (let x = 0; x < states; x++) {
        likelihood += weights[x]! * (cumulative[x]! - below);
        below = cumulative[x]!;
      }
      given[s] = Math.max(0, likelihood);
    }
    return given;
  });
}

/** Active faults (dormant ones, too, where asked) of every situation, one after the other; those of situation s lie from `starts[s]` to `starts[s + 1]`. */
interface ActiveLists {
  readonly starts: Int32Array;
  readonly active: Uint16Array;
}

function activeLists({ situations }: Fold, dormantToo = false): ActiveLists {
  const starts = new Int32Array(situations.length + 1);
  let members = 0;
  for (const situation of situations) members += situation.length;
  const active = new Uint16Array(members);
  let filled = 0;
  for (let s = 0; s < situations.length; s++) {
    const situation = situations[s]!;
    for (let m = 0; m < situation.length; m++)
      if (dormantToo || !isDormant(situation[m]!)) active[filled++] = faultOf(situation[m]!);
    starts[s + 1] = filled;
  }
  return { starts, active };
}
