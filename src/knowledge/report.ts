/** What the knowledge rests on, and where it cannot tell faults apart. */
import type { Network } from '../belief/network.ts';
import type { Knowledge } from './knowledge.ts';
import type { Basis, Id } from './schema.ts';

export interface KnowledgeReport {
  readonly knowledge: string;
  /** how many numbers rest on each basis */
  readonly numbers: { readonly [basis in Basis['basis']]: number };
  /** the same for each kind of file */
  readonly byKind: { readonly [kind: string]: { readonly [basis in Basis['basis']]: number } };
  /** pairs that no finding parts by more than `threshold` */
  readonly inseparable: readonly Pair[];
  readonly threshold: number;
  /** the pairs hardest to tell apart, the hardest first */
  readonly closest: readonly Pair[];
}

export interface Pair {
  readonly faults: readonly [Id, Id];
  /** largest total-variation distance that one finding puts between the two */
  readonly separation: number;
  /** the finding that parts them best; null where none does at all */
  readonly finding: Id | null;
}

/** Two faults count as told apart if some finding comes out differently in at least one card of ten. */
export const INSEPARABLE = 0.1;
const CLOSEST_SHOWN = 20;

export function reportKnowledge(knowledge: Knowledge, threshold = INSEPARABLE): KnowledgeReport {
  const pairs = separations(knowledge.network);
  const byKind = Object.fromEntries(
    Object.entries(kindsOf(knowledge)).map(([kind, files]) => [kind, numbersByBasis(files)]),
  );
  return {
    knowledge: knowledge.version,
    numbers: numbersByBasis(kindsOf(knowledge)),
    byKind,
    inseparable: pairs.filter(({ separation }) => separation <= threshold),
    threshold,
    closest: pairs.slice(0, CLOSEST_SHOWN),
  };
}

function kindsOf(knowledge: Knowledge): { readonly [kind: string]: unknown } {
  const { faults, findings, preparations, checks, remedies, stops, windows, cautions, population, rules } = knowledge;
  const { procedures, holdPoints, packages } = knowledge;
  return {
    faults,
    findings,
    preparations,
    checks,
    remedies,
    procedures,
    holdPoints,
    packages,
    stops,
    windows,
    cautions,
    population,
    ...rules,
  };
}

/** Sample sizes say how firm a number is and are not counted as numbers of their own. */
const NOT_COUNTED = new Set(['n', 'hits', 'trials']);

/**
 * How many numbers rest on each basis: every number inside an object that carries a basis, each of a row's states for
 * itself; the innermost basis counts. Equivalent sample sizes, hits and trials are left out.
 */
export function numbersByBasis(value: unknown): { [basis in Basis['basis']]: number } {
  const counts = { standard: 0, published: 0, practice: 0, estimate: 0, shop: 0 };
  const walk = (inner: unknown, basis: Basis['basis'] | undefined) => {
    if (typeof inner === 'number' && basis !== undefined) counts[basis] += 1;
    if (typeof inner !== 'object' || inner === null) return;
    const own = (inner as { basis?: Basis['basis'] }).basis ?? basis;
    for (const [key, next] of Object.entries(inner)) if (!NOT_COUNTED.has(key)) walk(next, own);
  };
  walk(value, undefined);
  return counts;
}

/**
 * For every pair of faults, the largest total-variation distance between P(X | only the one) and P(X | only the other)
 * over all findings X, leak included: half the sum over states of the difference. 0: no finding tells them apart, 1: one
 * finding always does. Smallest first. Cost: pairs times states.
 */
export function separations(network: Network): Pair[] {
  const rows = network.findings.map((node) => {
    const given = new Map(node.given.map(({ fault, cumulative }) => [fault, cumulative]));
    return network.faults.map((_, fault) => distribution(node.leak, given.get(fault)));
  });
  const pairs: Pair[] = [];
  network.faults.forEach((first, f) => {
    network.faults.slice(f + 1).forEach((second, offset) => {
      let separation = 0;
      let finding: Id | null = null;
      rows.forEach((row, x) => {
        const distance = totalVariation(row[f]!, row[f + 1 + offset]!);
        if (distance > separation) {
          separation = distance;
          finding = network.findings[x]!.id;
        }
      });
      pairs.push({ faults: [first, second], separation, finding });
    });
  });
  return pairs.sort((a, b) => a.separation - b.separation);
}

function distribution(leak: Float64Array, row: Float64Array | undefined): Float64Array {
  const cumulative = leak.map((below, x) => below * (row?.[x] ?? 1));
  return cumulative.map((below, x) => below - (x === 0 ? 0 : cumulative[x - 1]!));
}

function totalVariation(a: Float64Array, b: Float64Array): number {
  return a.reduce((sum, p, x) => sum + Math.abs(p - b[x]!), 0) / 2;
}
