/**
 * What a bench check can come out as. A check that yields one or two findings has every pair of states; one that yields
 * more (all rail resistances) is coarsened: all normal, exactly one finding abnormal and in which state, several.
 *
 * A coarsened or merged experiment is still an experiment, so its worth is a lower bound on that of the full one.
 */

export interface CheckFinding {
  readonly id: string;
  /** from normal to most abnormal */
  readonly states: readonly string[];
  /** likelihood[state][condition]; for every condition the states sum to one */
  readonly likelihood: readonly Float64Array[];
}

/** States (indices) that a finding must be in for something else to be allowed; findings left out may be in any. */
export type Allowed = ReadonlyMap<string, readonly number[]>;

export interface Outcome {
  /**
   * `states`: every finding listed is in its state, those not listed are normal · `several`: two or more findings are
   * abnormal · `rare`: one of several outcomes too rare to follow one by one
   */
  readonly kind: 'states' | 'several' | 'rare';
  readonly findings: readonly { readonly finding: string; readonly state: string }[];
  readonly label: string;
  /** per entry of `permissions`: certain to be allowed after this outcome */
  readonly allows: readonly boolean[];
  readonly likelihood: Float64Array;
}

/** Outcomes less likely than this are followed together. */
export const RARE_OUTCOME = 0.004;
export const MOST_OUTCOMES = 12;
/** Up to this many findings a check's outcomes are all combinations of their states. */
const FULL_PRODUCT_FINDINGS = 2;

/**
 * Outcomes of one check, findings independent given the condition. `belief` weighs the conditions and decides which outcomes
 * are rare; rare ones are merged only with such as allow the same things. For every condition the likelihoods sum to one.
 *
 * Cost: outcomes * findings * conditions.
 */
export function outcomesOf(
  findings: readonly CheckFinding[],
  belief: Float64Array,
  permissions: readonly Allowed[] = [],
): Outcome[] {
  const all =
    findings.length <= FULL_PRODUCT_FINDINGS
      ? everyCombination(findings, belief.length, permissions)
      : allNormalOneOrSeveral(findings, belief.length, permissions);
  return mergeRare(all, belief);
}

function everyCombination(findings: readonly CheckFinding[], size: number, permissions: readonly Allowed[]): Outcome[] {
  let combinations: { states: number[]; likelihood: Float64Array }[] = [
    { states: [], likelihood: new Float64Array(size).fill(1) },
  ];
  for (const finding of findings) {
    combinations = combinations.flatMap(({ states, likelihood }) =>
      finding.likelihood.map((row, state) => ({
        states: [...states, state],
        likelihood: likelihood.map((value, c) => value * row[c]!),
      })),
    );
  }
  return combinations.map(({ states, likelihood }) => describe(findings, states, likelihood, permissions));
}

function allNormalOneOrSeveral(
  findings: readonly CheckFinding[],
  size: number,
  permissions: readonly Allowed[],
): Outcome[] {
  const others = productsOfOthers(findings, size);
  const normal = findings.map(() => 0);
  const first = findings[0]!;
  const outcomes = [
    describe(
      findings,
      normal,
      others[0]!.map((value, c) => value * first.likelihood[0]![c]!),
      permissions,
    ),
  ];
  findings.forEach((finding, i) => {
    for (let state = 1; state < finding.states.length; state++) {
      const states = normal.with(i, state);
      const likelihood = others[i]!.map((value, c) => value * finding.likelihood[state]![c]!);
      outcomes.push(describe(findings, states, likelihood, permissions));
    }
  });
  const rest = (of: (c: number) => number) => Float64Array.from({ length: size }, (_, c) => Math.max(0, of(c)));
  const several = (label: string, likelihood: Float64Array, allowed: boolean): Outcome => ({
    kind: 'several',
    findings: [],
    label,
    allows: permissions.map(() => allowed),
    likelihood,
  });
  const single = (c: number) => outcomes.reduce((sum, { likelihood }) => sum + likelihood[c]!, 0);
  if (permissions.length === 0)
    return [
      ...outcomes,
      several(
        'several',
        rest((c) => 1 - single(c)),
        true,
      ),
    ];
  // "Several, none of them in the way of anything": every finding in a state that every permission allows.
  const free = rest((c) => {
    let product = 1;
    for (const finding of findings) {
      let sum = 0;
      finding.likelihood.forEach((row, state) => {
        if (permissions.every((allowed) => isAllowed(allowed, finding.id, state))) sum += row[c]!;
      });
      product *= sum;
    }
    const counted = outcomes.reduce((sum, o) => (o.allows.every(Boolean) ? sum + o.likelihood[c]! : sum), 0);
    return product - counted;
  });
  return [
    ...outcomes,
    several('several-none-in-the-way', free, true),
    several(
      'several',
      rest((c) => 1 - single(c) - free[c]!),
      false,
    ),
  ];
}

/** For each finding the chance that all the others are normal, without dividing. */
function productsOfOthers(findings: readonly CheckFinding[], size: number): Float64Array[] {
  const products = findings.map(() => new Float64Array(size).fill(1));
  const running = new Float64Array(size).fill(1);
  const sweep = (i: number) => {
    for (let c = 0; c < size; c++) {
      products[i]![c] = products[i]![c]! * running[c]!;
      running[c] = running[c]! * findings[i]!.likelihood[0]![c]!;
    }
  };
  for (let i = 0; i < findings.length; i++) sweep(i);
  running.fill(1);
  for (let i = findings.length - 1; i >= 0; i--) sweep(i);
  return products;
}

function describe(
  findings: readonly CheckFinding[],
  states: readonly number[],
  likelihood: Float64Array,
  permissions: readonly Allowed[],
): Outcome {
  const named = findings.length <= FULL_PRODUCT_FINDINGS;
  const said = findings.flatMap((finding, i) =>
    named || states[i]! > 0 ? [{ finding: finding.id, state: finding.states[states[i]!]! }] : [],
  );
  return {
    kind: 'states',
    findings: said,
    label: said.length === 0 ? 'all-normal' : said.map(({ finding, state }) => `${finding}: ${state}`).join(', '),
    allows: permissions.map((allowed) => findings.every((finding, i) => isAllowed(allowed, finding.id, states[i]!))),
    likelihood,
  };
}

function isAllowed(allowed: Allowed, finding: string, state: number): boolean {
  return allowed.get(finding)?.includes(state) ?? true;
}

function mergeRare(outcomes: readonly Outcome[], belief: Float64Array): Outcome[] {
  const chanceOf = ({ likelihood }: Outcome) => likelihood.reduce((sum, value, c) => sum + value * belief[c]!, 0);
  const ranked = outcomes
    .map((outcome, place) => ({ outcome, place, chance: chanceOf(outcome) }))
    .filter(({ outcome }) => outcome.likelihood.some((value) => value > 0))
    .sort((a, b) => b.chance - a.chance || a.place - b.place);
  const groups = new Set(ranked.map(({ outcome }) => outcome.allows.join())).size;
  const rare = new Map<string, Outcome[]>();
  const kept: { outcome: Outcome; place: number }[] = [];
  for (const { outcome, place, chance } of ranked) {
    // Room is left for one bucket per group of permissions.
    if (chance >= RARE_OUTCOME && kept.length < MOST_OUTCOMES - groups) kept.push({ outcome, place });
    else rare.set(outcome.allows.join(), [...(rare.get(outcome.allows.join()) ?? []), outcome]);
  }
  const buckets = [...rare.values()].map((members): Outcome => {
    const [only] = members;
    if (members.length === 1) return only!;
    const likelihood = new Float64Array(belief.length);
    for (const member of members) for (let c = 0; c < likelihood.length; c++) likelihood[c]! += member.likelihood[c]!;
    const label = only!.allows.every(Boolean) ? 'rare' : 'rare-in-the-way';
    return { kind: 'rare', findings: [], label, allows: only!.allows, likelihood };
  });
  return [...kept.sort((a, b) => a.place - b.place).map(({ outcome }) => outcome), ...buckets];
}
