/**
 * Upper bounds: no plan can be worth more. They cut the exact search short and put a number on how far a plan may be
 * from the best one.
 */
import { type Play, priceOfRemedy, type Situation, unpaid, weigh } from './play.ts';

/** Weighted upper bound on everything that can follow a situation. */
export type UpperBound = (situation: Situation) => number;

/** Up to this many ways of having tried the remedies are told apart; beyond, remedies count as untried for ever. */
const MOST_REMEDY_STATES = 4096;
/** Sweeps over the conditions when remedies count as untried for ever; every sweep is a valid bound, more are tighter. */
const SWEEPS = 60;

/**
 * Perfect information: from now on the condition is seen, at no cost, before every action; remedies stay as uncertain
 * as they are. Sum over c of belief[c] V(c), with V(c) = max over stops of the payoff and over remedies of
 * - price + fixed payoff + sum of chances times V. Preparations not yet paid are charged to whatever needs them.
 * It bounds every plan because a plan that may look can always ignore what it sees (Howard, IEEE Trans. SSC-2, 1966).
 * The first call for a set of tried remedies and paid preparations costs conditions x (stops + transitions); the rest O(conditions).
 *
 * @example perfectInformation(openPlay(T1))(openPlay(T1).start) // -7.7
 */
export function perfectInformation(play: Play): UpperBound {
  const values = play.remedyStates <= MOST_REMEDY_STATES ? valuesWhenSeen(play) : valuesWhenSeenForEver(play);
  return (situation) => weigh(situation.belief, values(situation.tried, situation.paid));
}

type SeenValues = (tried: Uint8Array, paid: number) => Float64Array;

function valuesWhenSeen(play: Play): SeenValues {
  const memory = new Map<number, Float64Array>();
  const values: SeenValues = (tried, paid) => {
    let key = 0;
    for (let r = tried.length - 1; r >= 0; r--) key = key * (play.attempts[r]! + 1) + tried[r]!;
    key = key * 2 ** 30 + paid;
    const known = memory.get(key);
    if (known) return known;
    const best = stopsWhenSeen(play, paid);
    for (let r = 0; r < tried.length; r++) {
      if (tried[r]! >= play.attempts[r]!) continue;
      const then = tried.slice();
      then[r] = then[r]! + 1;
      improve(play, r, paid, best, values(then, paid | play.needs.remedy[r]!), best);
    }
    memory.set(key, best);
    return best;
  };
  return values;
}

/** Remedies without end and with every preparation paid: looser, never invalid. Iterated from above, so valid after any number of sweeps. */
function valuesWhenSeenForEver(play: Play): SeenValues {
  const all = play.problem.preparations.reduce((set, _, preparation) => set | (1 << preparation), 0);
  let most = Number.NEGATIVE_INFINITY;
  for (const { payoff } of play.problem.stops) for (const pays of payoff) most = Math.max(most, pays);
  for (const { transitions } of play.problem.remedies)
    for (const { payoff } of transitions) most = Math.max(most, payoff);
  let values = new Float64Array(play.problem.conditions.length).fill(most);
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    const next = stopsWhenSeen(play, all);
    for (let r = 0; r < play.remedies.length; r++) improve(play, r, all, next, values, next);
    values = next;
  }
  return () => values;
}

function stopsWhenSeen(play: Play, paid: number): Float64Array<ArrayBuffer> {
  const best = new Float64Array(play.problem.conditions.length).fill(Number.NEGATIVE_INFINITY);
  play.problem.stops.forEach(({ payoff }, stop) => {
    const cost = unpaid(play, play.needs.stop[stop]!, paid);
    for (let c = 0; c < best.length; c++) best[c] = Math.max(best[c]!, payoff[c]! - cost);
  });
  return best;
}

function improve(
  play: Play,
  remedy: number,
  paid: number,
  best: Float64Array,
  then: Float64Array,
  out: Float64Array,
): void {
  const price = priceOfRemedy(play, paid, remedy);
  play.problem.remedies[remedy]!.transitions.forEach(({ fixed, payoff, to }, c) => {
    let value = fixed === 0 ? -price : fixed * payoff - price;
    for (const { condition, chance } of to) if (chance !== 0) value += chance * then[condition]!;
    out[c] = Math.max(best[c]!, value);
  });
}
