/** Any Bayesian network of two-state variables, by enumeration of its joint. For tests only: nothing in the product is general. */
export interface Variable {
  readonly name: string;
  readonly parents: readonly string[];
  /** chances of the states 0 and 1, given the states of the parents */
  readonly rows: (...parents: number[]) => readonly number[];
}
/** parents before children */
export type GeneralNetwork = readonly Variable[];

export function query(network: GeneralNetwork, seen: Readonly<Record<string, number>>) {
  const ones = new Map<string, number>();
  let chanceOfEvidence = 0;
  const visit = (at: number, chance: number, states: Readonly<Record<string, number>>): void => {
    const variable = network[at];
    if (!variable) {
      chanceOfEvidence += chance;
      for (const { name } of network) ones.set(name, (ones.get(name) ?? 0) + chance * states[name]!);
      return;
    }
    const row = variable.rows(...variable.parents.map((parent) => states[parent]!));
    for (const [state, p] of row.entries()) {
      if ((seen[variable.name] ?? state) === state && p > 0)
        visit(at + 1, chance * p, { ...states, [variable.name]: state });
    }
  };
  visit(0, 1, {});
  return { chanceOfEvidence, chance: (name: string) => ones.get(name)! / chanceOfEvidence };
}
