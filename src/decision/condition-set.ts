/**
 * A fixed list of conditions, stored so that a sum over conditions of a product over their faults takes one
 * multiplication per condition (Horner's rule over the tree of their sorted members).
 */
import type { CardCondition } from './card-model.ts';

/** Member code: twice the fault, plus one where it is dormant. */
export interface ConditionSet {
  readonly size: number;
  readonly conditions: readonly CardCondition[];
  /** member codes of condition c, ascending: `codes[starts[c]] .. codes[starts[c + 1] - 1]` */
  readonly starts: Int32Array;
  readonly codes: Int32Array;
  /** tree nodes, a parent before its children; node 0 is the empty condition */
  readonly nodeParent: Int32Array;
  readonly nodeCode: Int32Array;
  /** node of condition c */
  readonly nodeOf: Int32Array;
}

/**
 * Lists conditions and builds their tree. Throws where a condition is given twice or a fault stands twice in one.
 * Cost: linear in the members, after sorting them.
 */
export function conditionSet(conditions: readonly CardCondition[]): ConditionSet {
  const size = conditions.length;
  const starts = new Int32Array(size + 1);
  const codes: number[] = [];
  const nodeParent = [-1];
  const nodeCode = [-1];
  const children: Map<number, number>[] = [new Map()];
  const nodeOf = new Int32Array(size);
  const taken = new Set<number>();
  for (let c = 0; c < size; c++) {
    const { active, dormant } = conditions[c]!;
    const members = [...active.map((f) => 2 * f), ...dormant.map((f) => 2 * f + 1)].sort((a, b) => a - b);
    let node = 0;
    let last = -1;
    for (const code of members) {
      if (code >> 1 === last) throw new RangeError(`condition ${c} holds fault ${last} twice`);
      last = code >> 1;
      let child = children[node]!.get(code);
      if (child === undefined) {
        child = nodeParent.length;
        children[node]!.set(code, child);
        nodeParent.push(node);
        nodeCode.push(code);
        children.push(new Map());
      }
      node = child;
      codes.push(code);
    }
    if (taken.has(node)) throw new RangeError(`condition ${c} is listed twice`);
    taken.add(node);
    nodeOf[c] = node;
    starts[c + 1] = codes.length;
  }
  return {
    size,
    conditions,
    starts,
    codes: Int32Array.from(codes),
    nodeParent: Int32Array.from(nodeParent),
    nodeCode: Int32Array.from(nodeCode),
    nodeOf,
  };
}

/** Belief over conditions, spread over tree nodes (nodes that are no condition of the list weigh 0). */
export function nodeWeights(set: ConditionSet, belief: Float64Array): Float64Array {
  const weights = new Float64Array(set.nodeParent.length);
  for (let c = 0; c < set.size; c++) weights[set.nodeOf[c]!] = belief[c]!;
  return weights;
}

/**
 * sum over conditions c of belief[c] * product over members of ratio[code]. `weights` from `nodeWeights`; `work` is scratch
 * of the same length. Cost: one multiplication and addition per node.
 */
export function sumOfProducts(
  set: ConditionSet,
  weights: Float64Array,
  ratio: Float64Array,
  work: Float64Array,
): number {
  const { nodeParent, nodeCode } = set;
  work.set(weights);
  for (let node = nodeParent.length - 1; node > 0; node--) {
    const parent = nodeParent[node]!;
    work[parent] = work[parent]! + ratio[nodeCode[node]!]! * work[node]!;
  }
  return work[0]!;
}

/** Chance that each fault is active. */
export function activeChances(set: ConditionSet, belief: Float64Array, faults: number): Float64Array {
  const chances = new Float64Array(faults);
  for (let c = 0; c < set.size; c++) {
    for (let i = set.starts[c]!; i < set.starts[c + 1]!; i++) {
      const code = set.codes[i]!;
      if ((code & 1) === 0) chances[code >> 1] = chances[code >> 1]! + belief[c]!;
    }
  }
  return chances;
}
