/** The starting belief: shares of the population, one common factor, and what the card's history does to the odds. */

/** Wear is not trusted further than one decade either side of the age its share was stated for. */
const WEAR_CLAMP = 10;
/** relative width at which the bracket around kappa is closed */
const KAPPA_TOLERANCE = 1e-14;

/**
 * The factor kappa that gives the population its stated share of cards with more than one fault.
 *
 * With odds o_f = kappa s_f / (1 - s_f) and P(h) proportional to the product of o_f over h, over sets of at most `most`
 * faults, kappa solves P(two or more faults) = `moreThanOne`. It is a figure of the population of arriving cards: no
 * history enters it; history then moves the odds of one card, and with them how likely several faults are there.
 *
 * `shares`: one per fault, each in [0, 1), at least two above 0. `moreThanOne` in (0, 1).
 * Edges: with `most` below 2 no set has two faults; kappa is then the one of `most` = 2, so that single faults keep
 * their odds. Throws on anything outside those ranges.
 * Method: the chance rises with kappa from 0 to 1; bracket by doubling, then halve in the logarithm to 1e-14 relative.
 * Cost: n K + some hundred polynomial values. Source: model of this project; the chance is a ratio of elementary
 * symmetric polynomials e_k: (kappa^2 e_2 + ...) / (1 + kappa e_1 + kappa^2 e_2 + ...).
 *
 * @example solveKappa([0.5, 0.5], 0.2, 2) // solves k^2 / (1 + 2 k + k^2) = 0.2: 0.809017
 */
export function solveKappa(shares: ArrayLike<number>, moreThanOne: number, most: number): number {
  if (!(moreThanOne > 0 && moreThanOne < 1)) {
    throw new RangeError(`share of cards with more than one fault is ${moreThanOne}: give a number between 0 and 1`);
  }
  const odds = Float64Array.from(shares, (share, fault) => {
    if (!(share >= 0 && share < 1))
      throw new RangeError(`share of fault ${fault} is ${share}: give 0 or more, below 1`);
    return share / (1 - share);
  });
  return kappaFor(odds, Math.log(moreThanOne) - Math.log1p(-moreThanOne), Math.max(most, 2), 1);
}

/** Solves (kappa^2 e_2 + ...) / (empty + kappa e_1) = exp(wanted): it rises strictly with kappa and keeps its digits near 0 and 1. */
function kappaFor(odds: Float64Array, wanted: number, most: number, empty: number): number {
  const e = elementarySymmetric(odds, most);
  if (!(e[2]! > 0)) throw new RangeError('fewer than two faults have a share above 0: no card can have more than one');

  const excess = (kappa: number) => {
    let several = 0;
    for (let k = e.length - 1; k >= 2; k--) several = several * kappa + e[k]!;
    return Math.log(several) + 2 * Math.log(kappa) - Math.log(empty + kappa * e[1]!) - wanted;
  };
  let low = 1;
  let high = 1;
  while (excess(low) > 0) low /= 2;
  while (excess(high) < 0) high *= 2;
  while (high / low - 1 > KAPPA_TOLERANCE) {
    const middle = low * Math.sqrt(high / low);
    if (middle <= low || middle >= high) break;
    if (excess(middle) < 0) low = middle;
    else high = middle;
  }
  return low * Math.sqrt(high / low);
}

/** The two numbers that fit the starting belief to a population. */
export interface Population {
  readonly kappa: number;
  /** weight of the condition without any fault; conditions with faults weigh the product of their odds */
  readonly empty: number;
}

/**
 * Fits kappa and the weight of the empty condition to two stated figures: the share of arriving cards with nothing wrong at
 * all, and with more than one fault.
 *
 * With the empty condition left to the product, shares that add up to 1.4 faults a card and a fifth of cards with several
 * faults leave 44 % of arriving cards without any: shares then no longer mean "how many cards have it", and a fault once
 * found has company in 36 of 100 cards. A share of its own for the empty condition keeps both figures as stated.
 *
 * kappa solves P(two or more) / P(one) = several / (1 - none - several), which does not depend on the empty weight; then
 * empty = none / (1 - none) * (kappa e_1 + kappa^2 e_2 + ...). `none` and `several` in (0, 1), together below 1.
 * Edges: with `most` below 2 kappa is that of 2, as in `solveKappa`; with 0 the empty condition is all there is.
 *
 * @example solvePopulation([0.5, 0.5], 0.2, 0.2, 2) // kappa 2/3 (k^2 / 2k = 1/3), empty 0.25 (4/3 + 4/9)
 */
export function solvePopulation(shares: ArrayLike<number>, none: number, several: number, most: number): Population {
  if (!(none > 0 && several > 0 && none + several < 1)) {
    throw new RangeError(
      `shares of cards with no fault ${none} and with several ${several}: give two above 0, together below 1`,
    );
  }
  const odds = Float64Array.from(shares, (share) => share / (1 - share));
  // P(two or more | at least one) is the share that solveKappa meets once the empty condition weighs nothing
  const kappa = kappaFor(odds, Math.log(several) - Math.log1p(-none - several), Math.max(most, 2), 0);
  const faulty = totalOf(
    odds.map((o) => kappa * o),
    most,
    0,
  );
  return { kappa, empty: most === 0 ? 1 : (none / (1 - none)) * faulty };
}

/**
 * What age or hours of use do to the odds of a fault that wears out: its Weibull hazard relative to the hazard at the
 * reference, (time / reference)^(shape - 1), with time / reference held within [0.1, 10].
 *
 * `time` and `reference` in the same unit, `reference` above 0. Shape 1: no wear, factor 1; above 1: older is likelier;
 * below 1: early failures. Edge: time 0 counts as a tenth of the reference. An unknown time has no factor: leave it out.
 * Source: W. Weibull, J. Appl. Mech. 18, 1951 (hazard of the Weibull distribution).
 *
 * @example wearFactor(6, 3, 2) // 2: twice the reference age, a hazard that grows in proportion to age
 */
export function wearFactor(time: number, reference: number, shape: number): number {
  if (!(time >= 0) || !(reference > 0) || !(shape > 0)) {
    throw new RangeError(
      `wear of ${time} against a reference of ${reference} with shape ${shape}: none may be negative`,
    );
  }
  const ratio = Math.min(WEAR_CLAMP, Math.max(1 / WEAR_CLAMP, time / reference));
  return ratio ** (shape - 1);
}

/**
 * Odds of each fault on this card: kappa s_f / (1 - s_f) times `factors[f]`, the product of its history and wear factors
 * (1 where nothing is known). All three run over the faults in the network's order.
 *
 * @example startingOdds([0.5], 0.8, [2]) // Float64Array [1.6]
 */
export function startingOdds(shares: ArrayLike<number>, kappa: number, factors: ArrayLike<number>): Float64Array {
  if (factors.length !== shares.length) {
    throw new RangeError(`${shares.length} shares and ${factors.length} factors: give one factor for each fault`);
  }
  return Float64Array.from(shares, (share, fault) => ((kappa * share) / (1 - share)) * factors[fault]!);
}

/** How the starting belief is spread over numbers of faults. */
export interface PriorShape {
  /** P(no fault), among sets of at most `most` */
  readonly none: number;
  /** P(two or more faults), among sets of at most `most` */
  readonly several: number;
  /** P(more than `most` faults) if faults were independent with these odds: what the cap leaves out */
  readonly excluded: number;
  /** chance[k]: P(exactly k faults) without the cap; one entry more than there are faults */
  readonly chance: Float64Array;
}

/**
 * Chances of no fault, of several, and of more than the cap allows.
 *
 * Independent faults with odds o_f have P(k faults) = e_k / product of (1 + o_f). The chances are built up fault by
 * fault from positive terms, and the tail is summed as such, so that a tail of 1e-12 keeps its digits.
 * `empty` weighs the condition without any fault against that product (`solvePopulation`).
 * Cost: n^2. Edge: odds must be finite and not negative.
 *
 * @example priorShape([1, 1], 1) // none 1/3, several 0, excluded 1/4
 */
export function priorShape(odds: ArrayLike<number>, most: number, empty = 1): PriorShape {
  const faults = odds.length;
  const chance = new Float64Array(faults + 1);
  chance[0] = 1;
  for (let fault = 0; fault < faults; fault++) {
    const o = odds[fault]!;
    if (!(o >= 0 && o < Infinity))
      throw new RangeError(`odds of fault ${fault} are ${o}: give a finite number, 0 or more`);
    const has = o / (1 + o);
    const hasNot = 1 / (1 + o);
    for (let k = fault + 1; k >= 0; k--) {
      chance[k] = chance[k]! * hasNot + (k > 0 ? chance[k - 1]! * has : 0);
    }
  }
  if (empty !== 1) {
    chance[0]! *= empty;
    const total = sum(chance, 0, faults);
    for (let k = 0; k <= faults; k++) chance[k]! /= total;
  }
  const kept = sum(chance, 0, most);
  return {
    none: chance[0]! / kept,
    several: sum(chance, 2, most) / kept,
    excluded: sum(chance, most + 1, faults),
    chance,
  };
}

/**
 * The prior mass that the cap of `most` faults leaves out: 1 - sum over k <= most of e_k / product of (1 + o_f), summed as
 * the tail that it is.
 *
 * @example excludedMass([1, 1], 1) // 0.25
 */
export function excludedMass(odds: ArrayLike<number>, most: number): number {
  return priorShape(odds, most).excluded;
}

/**
 * Elementary symmetric polynomials e_0..e_most of `values`: e_k is the sum over all sets of k values of their product.
 * Positive terms only where the values are. Cost: n times `most`.
 *
 * @example elementarySymmetric([2, 3], 2) // Float64Array [1, 5, 6]
 */
export function elementarySymmetric(values: ArrayLike<number>, most: number): Float64Array {
  const e = new Float64Array(most + 1);
  e[0] = 1;
  for (let i = 0; i < values.length; i++) {
    for (let k = most; k >= 1; k--) e[k] = e[k]! + e[k - 1]! * values[i]!;
  }
  return e;
}

/** Sum of the weights of all sets of at most `most` faults, the products of their odds; the empty set weighs `empty`. */
export function totalOf(odds: ArrayLike<number>, most: number, empty: number): number {
  return elementarySymmetric(odds, most).reduce((total, e, k) => (k === 0 ? total : total + e), empty);
}

function sum(values: Float64Array, from: number, to: number): number {
  let total = 0;
  for (let k = Math.min(to, values.length - 1); k >= from; k--) total += values[k]!;
  return total;
}
