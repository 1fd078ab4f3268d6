/**
 * A generic decision problem under uncertainty: conditions nobody sees, tests that inform, remedies that change
 * conditions, stops that end. A card at the bench is one; so are the published problems the core is checked against.
 *
 * Values are to be maximised; costs are positive numbers that are subtracted.
 */

export interface Preparation {
  readonly id: string;
  /** paid once, by the first action that needs it */
  readonly cost: number;
}

/** Ends the episode: `payoff[c]` is what the condition pays then. A whole plan of remedies run to its end may be given as one stop. */
export interface StopAction {
  readonly kind: 'stop';
  readonly id: string;
  readonly payoff: Float64Array;
  readonly preparations: readonly number[];
}

/** Informs and changes nothing. Done at most once: the same check repeated on the same fault errs the same way. */
export interface TestAction {
  readonly kind: 'test';
  readonly id: string;
  readonly cost: number;
  readonly preparations: readonly number[];
  readonly outcomes: readonly string[];
  /** likelihood[outcome][condition]; for every condition the outcomes sum to one */
  readonly likelihood: readonly Float64Array[];
  /** offered only after each of these tests has been done with one of these outcomes (indices) */
  readonly requires: readonly { readonly test: string; readonly outcomes: readonly number[] }[];
  /** harm done by the test itself: expected loss, added to the cost */
  readonly harm?: number;
}

/** Where one condition goes. With chance `fixed` the card works and the episode ends with `payoff` (already an expectation); else it moves on. */
export interface Transition {
  readonly fixed: number;
  readonly payoff: number;
  /** chances of the conditions reached without being fixed; with `fixed` they sum to one */
  readonly to: readonly { readonly condition: number; readonly chance: number }[];
}

/** Changes conditions; at once it is seen whether that fixed it. */
export interface RemedyAction {
  readonly kind: 'remedy';
  readonly id: string;
  readonly cost: number;
  readonly preparations: readonly number[];
  readonly transitions: readonly Transition[];
  /** how many times it may be tried; default 1 */
  readonly attempts?: number;
}

export interface DecisionProblem {
  readonly conditions: readonly string[];
  /** sums to one */
  readonly prior: Float64Array;
  readonly preparations: readonly Preparation[];
  readonly stops: readonly StopAction[];
  readonly tests: readonly TestAction[];
  readonly remedies: readonly RemedyAction[];
}
