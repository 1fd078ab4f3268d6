/**
 * The two-layer network: faults above, findings below, each finding a noisy-MAX of its faults with a leak
 * (F. J. Diez, "Parameter adjustment in Bayes networks: the generalized noisy OR-gate", UAI 1993).
 */

/** One finding. Cumulative rows have one entry per state, do not fall, and end in 1. */
export interface FindingNode {
  readonly id: string;
  readonly states: readonly string[];
  /** P(X <= x | no fault) */
  readonly leak: Float64Array;
  /** P(X <= x | only this fault), for the faults that influence the finding */
  readonly given: readonly { readonly fault: number; readonly cumulative: Float64Array }[];
  /** it tells how the work was done, not what the card does: faults that do not show yet influence it as those that do */
  readonly ofTheWork?: boolean;
}

export interface Network {
  readonly faults: readonly string[];
  readonly findings: readonly FindingNode[];
}

/** Virtual evidence on one finding (Pearl 1988): a weight in [0, 1] per state; one-hot where crisp. */
export interface Evidence {
  /** index into `network.findings`; at most one piece of evidence per finding */
  readonly finding: number;
  readonly weights: Float64Array;
}
