/** What a remedy does to the belief: each fault goes its own way, and the bench test afterwards is evidence. */
import {
  chanceBySituation,
  type Fold,
  faultOf,
  isDormant,
  memberCode,
  type Situation,
  settle,
  situationKey,
  worksNow,
} from './trajectory.ts';

/** One remedy as chances per fault; what is left of one after `cures` and `masks` is: it stays. */
export interface Remedy {
  /** index = fault */
  readonly cures: ArrayLike<number>;
  readonly masks: ArrayLike<number>;
  /** chance that the work causes the fault on a card that does not have it */
  readonly induces: ArrayLike<number>;
}

/** Damage is followed a little further down than trajectories are, since several kinds of it may meet in one. */
const BRANCH_SHARE = 0.1;

/**
 * Treats every trajectory. An active fault is cured, masked (dormant: works now, comes back) or stays; a dormant one is
 * cured or stays dormant; an absent one may be induced, each independently of the others. `worked` is what the bench test told: true
 * where no fault of the card is active afterwards; null where nobody tested. `host`: 1 for faults that are not the card's.
 *
 * Null where `worked` is impossible: a contradiction. Exact; damage far below the fold's limit is dropped and counted as pruned.
 * Cost: distinct situations times outcomes, 3 per active fault and 2 per fault that can be induced.
 */
export function treat(fold: Fold, remedy: Remedy, worked: boolean | null, host: ArrayLike<number>): Fold | null {
  // a card that works shows that the work damaged nothing of it: such branches need not be walked
  const inducible = Array.from(remedy.induces, (chance, fault) => ({ fault, chance })).filter(
    ({ chance, fault }) => chance > 0 && !(worked === true && host[fault] !== 1),
  );
  const spared = worked === true ? sparedByWork(remedy, host) : null;
  const leastBranch = fold.least * BRANCH_SHARE;
  const { situations, chance } = asTheyLay(fold);
  const lay = situations.length;
  const before: number[] = [];
  const now: number[] = [];
  const weight: number[] = [];
  let dropped = 0;

  for (let at = 0; at < lay; at++) {
    const situation = situations[at]!;
    const present = new Set(situation.map(faultOf));
    const codes: number[] = [];

    const damage = (from: number, weightHere: number): void => {
      let untouched = weightHere;
      for (let k = from; k < inducible.length; k++) {
        const { fault, chance: induces } = inducible[k]!;
        if (present.has(fault)) continue;
        const hit = untouched * induces;
        untouched -= hit;
        if (hit < leastBranch) {
          dropped += hit;
          continue;
        }
        codes.push(memberCode(fault, 'induced'));
        damage(k + 1, hit);
        codes.pop();
      }
      if (!(untouched > 0)) return;
      const after = codes.toSorted((a, b) => a - b);
      if (worked !== null && worksNow(after, host) !== worked) return;
      before.push(at);
      now.push(situations.length);
      weight.push(untouched);
      situations.push(after);
    };

    const fate = (from: number, weightHere: number): void => {
      if (!(weightHere > 0)) return;
      const code = situation[from];
      if (code === undefined) {
        damage(0, weightHere);
        return;
      }
      const fault = faultOf(code);
      const cured = remedy.cures[fault]!;
      const masked = isDormant(code) ? 0 : remedy.masks[fault]!;
      fate(from + 1, weightHere * cured);
      if (masked > 0) {
        codes.push(memberCode(fault, 'dormant'));
        fate(from + 1, weightHere * masked);
        codes.pop();
      }
      const stays = weightHere * (1 - cured - masked);
      if (worked === true && !isDormant(code) && host[fault] !== 1) return;
      codes.push(isDormant(code) ? code : memberCode(fault, 'active'));
      fate(from + 1, stays);
      codes.pop();
    };

    let unharmed = chance[at]!;
    spared?.forEach((share, fault) => {
      if (!present.has(fault)) unharmed *= share;
    });
    fate(0, unharmed);
  }
  return settle(fold, { situations, before, now, weight, dropped });
}

/** Situations before the remedy, each once: how an active fault had come to be no longer matters. */
function asTheyLay(fold: Fold): { situations: Situation[]; chance: number[] } {
  const sums = chanceBySituation(fold, fold.now);
  const index = new Map<string, number>();
  const situations: Situation[] = [];
  const chance: number[] = [];
  fold.situations.forEach((situation, i) => {
    if (sums[i]! === 0) return;
    const plain = situation.map((code) => (isDormant(code) ? code : memberCode(faultOf(code), 'active')));
    const key = situationKey(plain);
    const known = index.get(key);
    if (known !== undefined) {
      chance[known]! += sums[i]!;
      return;
    }
    index.set(key, situations.length);
    situations.push(plain);
    chance.push(sums[i]!);
  });
  return { situations, chance };
}

/** Per fault of the card: the chance that the work does not cause it. */
function sparedByWork({ induces }: Remedy, host: ArrayLike<number>): Map<number, number> {
  const spared = new Map<number, number>();
  for (let fault = 0; fault < induces.length; fault++)
    if (induces[fault]! > 0 && host[fault] !== 1) spared.set(fault, 1 - induces[fault]!);
  return spared;
}
