/** The best that can be done without any further test: remedies in the best order, and the best moment to stop. */
import { perfectInformation, type UpperBound } from './bounds.ts';
import {
  type Action,
  afterFailure,
  afterTest,
  bestStop,
  isLeft,
  type Play,
  payoffWhenFixed,
  priceOfRemedy,
  type Situation,
} from './play.ts';
import { stopTable } from './stop-table.ts';

export interface Acting {
  /** weighted by the situation's mass */
  readonly value: number;
  /** undefined where a problem offers neither a stop nor a remedy */
  readonly action: Action | undefined;
}
export interface ActNow {
  (situation: Situation): Acting;
  /** weighted value of doing a test, its price left out, and then acting on each outcome */
  readonly afterTest: (situation: Situation, test: number) => number;
  /** work done so far: conditions and what stops pay there, each once per outcome weighed. A measure of effort that no clock disturbs */
  readonly work: number;
}

/** Up to this many ways of having tried the remedies the best order is exact. */
const MOST_EXACT_STATES = 4096;

/**
 * Value of acting now. Without remedies it is the best stop. With remedies it is exact by dynamic programming over sets
 * of tried remedies where these are few, cut short by perfect information; else the better of stopping and of each
 * remedy followed by the greedy order (chance fixed over cost, Kadane & Simon 1977, best stop at every step), which is
 * the value of a real plan and so a lower bound. Remembers every situation it has met.
 *
 * @example actNow(openPlay(T4))(openPlay(T4).start).value // -15
 */
export function actNow(play: Play, bound: UpperBound = perfectInformation(play)): ActNow {
  const table = stopTable(play);
  const memory = new Map<number | string, Acting>();
  const exact = play.remedyStates <= MOST_EXACT_STATES;
  const act = (situation: Situation): Acting => {
    const known = memory.get(situation.key);
    if (known) return known;
    const { stop, value } = table.best(situation);
    let best: Acting = { value, action: play.stops[stop] };
    if (play.remedies.length > 0 && value < bound(situation)) {
      for (let r = 0; r < play.remedies.length; r++) {
        if (!isLeft(play, situation, r)) continue;
        let candidate = payoffWhenFixed(play, situation, r) - situation.mass * priceOfRemedy(play, situation.paid, r);
        const failed = afterFailure(play, situation, r);
        if (failed) {
          if (candidate + bound(failed) <= best.value) continue;
          candidate += exact ? act(failed).value : greedy(play, failed);
        }
        if (candidate > best.value) best = { value: candidate, action: play.remedies[r]! };
      }
    }
    memory.set(situation.key, best);
    return best;
  };
  const eachOutcome = (situation: Situation, test: number): number => {
    let sum = 0;
    for (let outcome = 0; outcome < play.problem.tests[test]!.outcomes.length; outcome++) {
      const next = afterTest(play, situation, test, outcome);
      if (next) sum += act(next).value;
    }
    return sum;
  };
  Object.defineProperty(act, 'work', { get: table.work });
  return Object.assign(act, {
    afterTest: play.remedies.length === 0 ? table.afterTest : eachOutcome,
  }) as ActNow;
}

/** Remedies by chance over cost until none is left, each step with the choice to stop instead. */
function greedy(play: Play, situation: Situation): number {
  const { value } = bestStop(play, situation);
  let pick = -1;
  let highest = Number.NEGATIVE_INFINITY;
  for (let r = 0; r < play.remedies.length; r++) {
    if (!isLeft(play, situation, r)) continue;
    const chance = chanceFixed(play, situation, r);
    const ratio = chance === 0 ? 0 : chance / priceOfRemedy(play, situation.paid, r);
    if (ratio > highest) {
      pick = r;
      highest = ratio;
    }
  }
  if (pick < 0) return value;
  const failed = afterFailure(play, situation, pick);
  const trying =
    payoffWhenFixed(play, situation, pick) -
    situation.mass * priceOfRemedy(play, situation.paid, pick) +
    (failed ? greedy(play, failed) : 0);
  return Math.max(value, trying);
}

/** Weighted chance that the remedy fixes it. */
export function chanceFixed(play: Play, situation: Situation, remedy: number): number {
  const { transitions } = play.problem.remedies[remedy]!;
  let sum = 0;
  for (let c = 0; c < transitions.length; c++) sum += situation.belief[c]! * transitions[c]!.fixed;
  return sum;
}
