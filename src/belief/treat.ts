/** What a remedy does to the belief: each fault goes its own way, and the bench test afterwards is evidence. */
import { type Fold, faultOf, isDormant, memberCode, plainly, type Situation, settle } from './trajectory.ts';

/** One remedy as chances per fault; what is left of one after `cures` and `masks` is: it stays. */
export interface Remedy {
  /** index = fault */
  readonly cures: ArrayLike<number>;
  readonly masks: ArrayLike<number>;
  /** chance that the work causes the fault on a card that does not have it */
  readonly induces: ArrayLike<number>;
  /** of what it causes, the share that passes the bench test at first and opens in service; left out: none */
  readonly latent?: ArrayLike<number>;
}

/** Branches are followed a little further down than trajectories are: what the bench test then told is not weighed yet. */
const BRANCH_SHARE = 0.1;

/**
 * Treats every trajectory. An active fault is cured, masked (dormant: works now, comes back) or stays; a dormant one is
 * cured or stays dormant; an absent one may be induced, each independently of the others. `worked` is what the bench test told: true
 * where no fault of the card is active afterwards (what the work caused may lie latent in it); null where nobody tested. `host`: 1 for faults that are not the card's.
 *
 * Null where `worked` is impossible: a contradiction. Exact; branches far below the fold's limit are dropped and counted as pruned.
 * Cost: distinct situations times outcomes, 3 per active fault and 2 per fault that can be induced.
 */
export function treat(fold: Fold, remedy: Remedy, worked: boolean | null, host: ArrayLike<number>): Fold | null {
  const latent = (fault: number): number => remedy.latent?.[fault] ?? 0;
  // a card that works shows that nothing the work did to it is active: such branches need not be walked
  const inducible = Array.from(remedy.induces, (_, fault) => fault).filter(
    (fault) => remedy.induces[fault]! > 0 && (worked !== true || host[fault] === 1 || latent(fault) > 0),
  );
  const hits = Float64Array.from(inducible, (fault) => remedy.induces[fault]!);
  const sleeps = Float64Array.from(inducible, latent);
  const spared = worked === true ? sparedByWork(remedy, host) : null;
  const leastBranch = fold.least * BRANCH_SHARE;
  const { situations, chance } = plainly(fold);
  const lay = situations.length;
  const before: number[] = [];
  const now: number[] = [];
  const weight: number[] = [];
  let dropped = 0;

  const present = new Uint8Array(remedy.induces.length);
  let at = 0;
  let situation: Situation = [];
  /** what became of the members walked so far, and what the work caused, both by fault */
  const stayed: number[] = [];
  const induced: number[] = [];
  /** how many of both are active faults of the card */
  let failing = 0;

  const follow = (branch: number): boolean => {
    if (branch >= leastBranch) return branch > 0;
    dropped += branch;
    return false;
  };

  const damage = (from: number, branch: number): void => {
    let untouched = branch;
    for (let k = from; k < inducible.length; k++) {
      const fault = inducible[k]!;
      if (present[fault] === 1) continue;
      const hit = untouched * hits[k]!;
      untouched -= hit;
      if (!follow(hit)) continue;
      const own = host[fault] === 1 ? 0 : 1;
      const asleep = hit * sleeps[k]!;
      if (asleep > 0) {
        induced.push(memberCode(fault, 'latent'));
        damage(k + 1, asleep);
        induced.pop();
      }
      if (worked === true && own === 1) continue;
      induced.push(memberCode(fault, 'induced'));
      failing += own;
      damage(k + 1, hit - asleep);
      failing -= own;
      induced.pop();
    }
    if (!follow(untouched) || (worked !== null && (failing === 0) !== worked)) return;
    before.push(at);
    now.push(situations.length);
    weight.push(untouched);
    situations.push(inOrder(stayed, induced));
  };

  const fate = (from: number, branch: number): void => {
    if (!follow(branch)) return;
    const code = situation[from];
    if (code === undefined) {
      damage(0, branch);
      return;
    }
    const fault = faultOf(code);
    const dormant = isDormant(code);
    const own = dormant || host[fault] === 1 ? 0 : 1;
    const cured = remedy.cures[fault]!;
    const masked = dormant ? 0 : remedy.masks[fault]!;
    fate(from + 1, branch * cured);
    if (masked > 0) {
      stayed.push(memberCode(fault, 'dormant'));
      fate(from + 1, branch * masked);
      stayed.pop();
    }
    if (worked === true && own === 1) return;
    stayed.push(memberCode(fault, dormant ? 'dormant' : 'active'));
    failing += own;
    fate(from + 1, branch * (1 - cured - masked));
    failing -= own;
    stayed.pop();
  };

  for (at = 0; at < lay; at++) {
    situation = situations[at]!;
    for (const code of situation) present[faultOf(code)] = 1;
    let unharmed = chance[at]!;
    spared?.forEach((share, fault) => {
      if (present[fault] !== 1) unharmed *= share;
    });
    fate(0, unharmed);
    for (const code of situation) present[faultOf(code)] = 0;
  }
  return settle(fold, { situations, before, now, weight, dropped });
}

/** Two ascending lists as one. */
function inOrder(one: readonly number[], other: readonly number[]): number[] {
  const merged: number[] = [];
  let i = 0;
  for (const code of other) {
    while (i < one.length && one[i]! < code) merged.push(one[i++]!);
    merged.push(code);
  }
  while (i < one.length) merged.push(one[i++]!);
  return merged;
}

/** Per fault of the card that cannot lie latent: the chance that the work does not cause it. */
function sparedByWork({ induces, latent }: Remedy, host: ArrayLike<number>): Map<number, number> {
  const spared = new Map<number, number>();
  for (let fault = 0; fault < induces.length; fault++)
    if (induces[fault]! > 0 && host[fault] !== 1 && !(latent && latent[fault]! > 0))
      spared.set(fault, 1 - induces[fault]!);
  return spared;
}
