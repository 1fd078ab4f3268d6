/**
 * A fixed list of conditions, stored so that a sum over conditions of a product over their faults takes one
 * multiplication per condition (Horner's rule over the tree of their sorted members), and none for those it leaves at 0.
 */
import type { CardCondition } from './card-model.ts';

/** Member code: twice the fault, plus one where it is dormant. */
export interface ConditionSet {
  readonly size: number;
  readonly conditions: readonly CardCondition[];
  /** member codes of condition c, ascending: `codes[starts[c]] .. codes[starts[c + 1] - 1]` */
  readonly starts: Int32Array;
  readonly codes: Int32Array;
  /** tree nodes depth first; node 0 is the empty condition */
  readonly nodeParent: Int32Array;
  readonly nodeCode: Int32Array;
  /** first node after the subtree of each node */
  readonly nodeEnd: Int32Array;
  /** node of condition c */
  readonly nodeOf: Int32Array;
}

/**
 * Lists conditions and builds their tree. Throws where a condition is given twice or a fault stands twice in one.
 * Cost: sorting the conditions.
 */
export function conditionSet(conditions: readonly CardCondition[]): ConditionSet {
  const size = conditions.length;
  const members = conditions.map(({ active, dormant }, c) => {
    const codes = [...active.map((f) => 2 * f), ...dormant.map((f) => 2 * f + 1)].sort((a, b) => a - b);
    for (let i = 1; i < codes.length; i++) {
      if (codes[i]! >> 1 === codes[i - 1]! >> 1)
        throw new RangeError(`condition ${c} holds fault ${codes[i]! >> 1} twice`);
    }
    return codes;
  });
  const starts = new Int32Array(size + 1);
  for (let c = 0; c < size; c++) starts[c + 1] = starts[c]! + members[c]!.length;
  const order = members.map((_, c) => c).sort((a, b) => compareWords(members[a]!, members[b]!));
  const nodeParent = [-1];
  const nodeCode = [-1];
  const nodeOf = new Int32Array(size).fill(-1);
  const path = [0];
  let word: readonly number[] = [];
  order.forEach((c, place) => {
    const next = members[c]!;
    if (place > 0 && compareWords(word, next) === 0) throw new RangeError(`condition ${c} is listed twice`);
    let shared = 0;
    while (shared < word.length && shared < next.length && word[shared] === next[shared]) shared++;
    path.length = shared + 1;
    for (let i = shared; i < next.length; i++) {
      nodeParent.push(path[i]!);
      nodeCode.push(next[i]!);
      path.push(nodeParent.length - 1);
    }
    nodeOf[c] = path[next.length]!;
    word = next;
  });
  const nodeEnd = Int32Array.from(nodeParent, (_, node) => node + 1);
  for (let node = nodeParent.length - 1; node > 0; node--) {
    nodeEnd[nodeParent[node]!] = Math.max(nodeEnd[nodeParent[node]!]!, nodeEnd[node]!);
  }
  return {
    size,
    conditions,
    starts,
    codes: Int32Array.from(members.flat()),
    nodeParent: Int32Array.from(nodeParent),
    nodeCode: Int32Array.from(nodeCode),
    nodeEnd,
    nodeOf,
  };
}

/** Belief over conditions, spread over tree nodes (nodes that are no condition of the list weigh 0). */
export function nodeWeights(set: ConditionSet, belief: Float64Array): Float64Array {
  const weights = new Float64Array(set.nodeParent.length);
  for (let c = 0; c < set.size; c++) weights[set.nodeOf[c]!] = belief[c]!;
  return weights;
}

/** Nodes a sum visits: those without a member that makes every product 0. Reused from sum to sum. */
export interface Visit {
  count: number;
  readonly node: Int32Array;
  /** place of the parent in this list */
  readonly parent: Int32Array;
  readonly code: Int32Array;
  readonly sum: Float64Array;
}

export function createVisit(set: ConditionSet): Visit {
  const nodes = set.nodeParent.length;
  return {
    count: 0,
    node: new Int32Array(nodes),
    parent: new Int32Array(nodes),
    code: new Int32Array(nodes),
    sum: new Float64Array(nodes),
  };
}

/** Lists the nodes all of whose members have a ratio above 0. `place` is scratch, one entry per node. */
export function visitWhere(set: ConditionSet, ratio: Float64Array, visit: Visit, place: Int32Array): void {
  const { nodeParent, nodeCode, nodeEnd } = set;
  const nodes = nodeParent.length;
  let count = 1;
  visit.node[0] = 0;
  place[0] = 0;
  let node = 1;
  while (node < nodes) {
    const code = nodeCode[node]!;
    if (ratio[code] === 0) {
      node = nodeEnd[node]!;
      continue;
    }
    visit.node[count] = node;
    visit.code[count] = code;
    visit.parent[count] = place[nodeParent[node]!]!;
    place[node] = count;
    count++;
    node++;
  }
  visit.count = count;
}

/**
 * sum over conditions c of belief[c] * product over members of ratio[code], over the nodes visited. `weights` from
 * `nodeWeights`. Cost: one multiplication and addition per node visited.
 */
export function sumOfProducts(visit: Visit, weights: Float64Array, ratio: Float64Array): number {
  const { count, node, parent, code, sum } = visit;
  for (let i = 0; i < count; i++) sum[i] = weights[node[i]!]!;
  for (let i = count - 1; i > 0; i--) {
    const above = parent[i]!;
    sum[above] = sum[above]! + ratio[code[i]!]! * sum[i]!;
  }
  return sum[0]!;
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

function compareWords(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < a.length && i < b.length; i++) if (a[i] !== b[i]) return a[i]! - b[i]!;
  return a.length - b.length;
}
