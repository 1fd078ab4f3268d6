/**
 * A tighter upper bound than perfect information: conditions that the tests cannot always tell apart have to share
 * what is done about them.
 */
import { perfectInformation, type UpperBound } from './bounds.ts';
import { type Play, unpaid } from './play.ts';

/** Only the likeliest conditions are paired: the others weigh little. */
const MOST_CONDITIONS = 60;
/** Pairs kept, those that cost most at the start. Any selection of pairs is a valid bound. */
const MOST_PAIRS = 120;
/** Sets of tests are kept as bits of one integer. */
const MOST_TESTS = 22;

interface Pair {
  readonly one: number;
  readonly other: number;
  /** per test: sum over outcomes of the smaller chance, and of the geometric mean of both */
  readonly overlap: Float64Array;
  readonly affinity: Float64Array;
}

/**
 * Perfect information less what confusion costs at least. Take two conditions with weights x and y. On every outcome of
 * whatever is tested, one action serves both. Against knowing, that loses at least g times the smaller weight on this
 * outcome, g = best(one) + best(other) - max over stops of (stop(one) + stop(other)), because the loss is concave and
 * homogeneous in the weights. Over all outcomes of all tests still to come this sums to at least g min(x, y) omega, omega
 * being the overlap of their distributions: at least the product of the single overlaps, and at least
 * 1 - sqrt(1 - rho^2) with rho the product of the affinities (L. Le Cam, Asymptotic Methods in Statistical Decision
 * Theory, 1986, for conditionally independent tests). Pairs that share no weight add up. Valid without remedies; with remedies it is perfect
 * information itself. Each call costs O(conditions + pairs), the first with a set of tests done and preparations paid also stops x conditions + pairs x (tests + stops).
 */
export function confusionBound(play: Play): UpperBound {
  const seen = perfectInformation(play);
  const { tests, stops } = play.problem;
  if (play.remedies.length > 0 || tests.length > MOST_TESTS || stops.length === 0) return seen;
  const pairs = costliestPairs(play);
  const members = [...new Set(pairs.flatMap(({ one, other }) => [one, other]))];
  const places = new Map(members.map((condition, place) => [condition, place]));
  const ones = Int32Array.from(pairs, ({ one }) => places.get(one)!);
  const others = Int32Array.from(pairs, ({ other }) => places.get(other)!);
  const left = new Float64Array(members.length);

  const regretsWith = remembered((paid) => {
    const regret = regretOfSharing(play, paid);
    return Float64Array.from(pairs, ({ one, other }) => regret(one, other));
  });
  const overlapsAfter = remembered((done) => Float64Array.from(pairs, (pair) => overlapOf(pair, done)));
  const costsOf = remembered((key) => {
    const regrets = regretsWith(key % 2 ** 30);
    const overlaps = overlapsAfter(Math.floor(key / 2 ** 30));
    return regrets.map((regret, pair) => Math.max(0, regret * overlaps[pair]!));
  });

  return (situation) => {
    let done = 0;
    for (let test = 0; test < situation.seen.length; test++) if (situation.seen[test] !== 0) done |= 1 << test;
    const cost = costsOf(done * 2 ** 30 + situation.paid);
    for (let place = 0; place < members.length; place++) left[place] = situation.belief[members[place]!]!;
    let lost = 0;
    for (let pair = 0; pair < cost.length; pair++) {
      const one = ones[pair]!;
      const other = others[pair]!;
      const shared = Math.min(left[one]!, left[other]!);
      if (shared === 0 || cost[pair] === 0) continue;
      lost += cost[pair]! * shared;
      left[one] = left[one]! - shared;
      left[other] = left[other]! - shared;
    }
    return seen(situation) - lost;
  };
}

function remembered(compute: (key: number) => Float64Array): (key: number) => Float64Array {
  const memory = new Map<number, Float64Array>();
  return (key) => {
    let known = memory.get(key);
    if (!known) {
      known = compute(key);
      memory.set(key, known);
    }
    return known;
  };
}

/** Pairs of likely conditions by what their confusion costs at the start, costliest per weight first. */
function costliestPairs(play: Play): Pair[] {
  const { prior, tests } = play.problem;
  const likeliest = Array.from(prior.keys())
    .sort((one, other) => prior[other]! - prior[one]! || one - other)
    .slice(0, MOST_CONDITIONS);
  const regret = regretOfSharing(play, 0);
  const candidates: { i: number; j: number; each: number; most: number }[] = [];
  for (let i = 0; i < likeliest.length; i++) {
    for (let j = 0; j < i; j++) {
      const [one, other] = [likeliest[i]!, likeliest[j]!];
      const each = regret(one, other);
      if (each > 0) candidates.push({ i, j, each, most: each * Math.min(prior[one]!, prior[other]!) });
    }
  }
  // an overlap is at most 1: candidates whose regret alone costs less than what is kept need not be looked at
  candidates.sort((one, other) => other.most - one.most);
  const roots = tests.map(({ likelihood }) =>
    likelihood.map((row) => Float64Array.from(likeliest, (c) => Math.sqrt(row[c]!))),
  );
  const rated: { pair: Pair; rate: number; cost: number }[] = [];
  for (const { i, j, each, most } of candidates) {
    if (rated.length === MOST_PAIRS && most <= rated.at(-1)!.cost) break;
    const [one, other] = [likeliest[i]!, likeliest[j]!];
    const overlap = new Float64Array(tests.length);
    const affinity = new Float64Array(tests.length);
    roots.forEach((rows, test) => {
      let common = 0;
      let alike = 0;
      for (const row of rows) {
        const smaller = Math.min(row[i]!, row[j]!);
        common += smaller * smaller;
        alike += row[i]! * row[j]!;
      }
      overlap[test] = common;
      affinity[test] = alike;
    });
    const pair = { one, other, overlap, affinity };
    const rate = each * overlapOf(pair, 0);
    rated.push({ pair, rate, cost: rate * Math.min(prior[one]!, prior[other]!) });
    // kept sorted by insertion, costliest first
    for (let k = rated.length - 1; k > 0 && rated[k]!.cost > rated[k - 1]!.cost; k--)
      [rated[k - 1], rated[k]] = [rated[k]!, rated[k - 1]!];
    if (rated.length > MOST_PAIRS) rated.pop();
  }
  return rated.sort((one, other) => other.rate - one.rate).map(({ pair }) => pair);
}

/** g of two conditions: what one stop for both loses against the best stop for each, at equal weights. */
function regretOfSharing(play: Play, paid: number): (one: number, other: number) => number {
  const { stops, conditions } = play.problem;
  const payoffs = stops.map(({ payoff }, stop) => {
    const charge = unpaid(play, play.needs.stop[stop]!, paid);
    return charge === 0 ? payoff : payoff.map((pays) => pays - charge);
  });
  const best = new Float64Array(conditions.length).fill(Number.NEGATIVE_INFINITY);
  for (const payoff of payoffs) for (let c = 0; c < best.length; c++) best[c] = Math.max(best[c]!, payoff[c]!);
  return (one, other) => {
    let shared = Number.NEGATIVE_INFINITY;
    for (let stop = 0; stop < payoffs.length; stop++) {
      const both = payoffs[stop]![one]! + payoffs[stop]![other]!;
      if (both > shared) shared = both;
    }
    return best[one]! + best[other]! - shared;
  };
}

/** Lower bound on the overlap of all results still to come: 1 where nothing is left to test, 0 where they never agree. */
function overlapOf({ overlap, affinity }: Pair, done: number): number {
  let product = 1;
  let rho = 1;
  for (let test = 0; test < overlap.length; test++) {
    if (done & (1 << test)) continue;
    product *= overlap[test]!;
    rho *= affinity[test]!;
  }
  return Math.max(product, 1 - Math.sqrt(Math.max(0, 1 - rho * rho)));
}
