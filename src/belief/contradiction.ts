/** Findings that no condition allows together: which one breaks it, and which earlier ones it breaks against. */

/**
 * The first piece of evidence after which no condition is left, and a smallest-by-inclusion set of earlier pieces that
 * already forbids it: leave any one of them out and some condition allows the rest.
 *
 * `start[h]`: -Infinity where the odds rule condition h out. `likelihood[j][h]`: P(e_j | h); only whether it is 0 counts.
 * The evidence as a whole must be impossible. Earlier pieces are given up in order, so that recent ones stay.
 * Cost: conditions times pieces squared at worst.
 */
export function contradiction(
  start: Float64Array,
  likelihood: readonly Float64Array[],
): { finding: number; against: number[] } {
  let alive: number[] = [];
  for (let h = 0; h < start.length; h++) if (start[h]! > -Infinity) alive.push(h);
  const possible = alive;
  let finding = 0;
  for (; finding < likelihood.length; finding++) {
    const next = alive.filter((h) => likelihood[finding]![h]! > 0);
    if (next.length === 0) break;
    alive = next;
  }
  if (finding === likelihood.length) throw new Error('the evidence is possible: there is no contradiction to explain');

  const allowed = possible.filter((h) => likelihood[finding]![h]! > 0);
  let against = Array.from({ length: finding }, (_, j) => j);
  for (let j = 0; j < finding; j++) {
    const without = against.filter((other) => other !== j);
    if (!allowed.some((h) => without.every((other) => likelihood[other]![h]! > 0))) against = without;
  }
  return { finding, against };
}
