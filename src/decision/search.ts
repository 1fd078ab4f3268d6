/**
 * Best-first search over beliefs. It spends its effort where the plan can still gain most, holds a plan that gets
 * better the longer it runs, and bounds from above what any plan could be worth. Given enough effort it is exact.
 */
import type { Acting, ActNow } from './act-now.ts';
import type { UpperBound } from './bounds.ts';
import { following, oneStep, opensAny, valueOfOpening, WORTH_NOTHING } from './one-step.ts';
import {
  type Action,
  afterFailure,
  afterTest,
  bestStop,
  isLeft,
  isOffered,
  type Play,
  type Policy,
  payoffWhenFixed,
  priceOfRemedy,
  priceOfTest,
  type Situation,
} from './play.ts';

export interface Search {
  /** expected payoff of the plan found */
  readonly value: number;
  /** no plan is worth more; equal to `value` where the search came to its end */
  readonly upperBound: number;
  readonly policy: Policy;
  /** situations whose actions were all looked at */
  readonly expanded: number;
}

export interface SearchOptions {
  /** how much may be weighed, counted as `ActNow.work` counts; at least one situation is expanded */
  readonly effort: number;
  /** share of the gap to perfect information that is hoped for at first; default .15 */
  readonly trust?: number;
}

/** Only situations of at least this chance look through chains of tests that open each other before following them. */
const OPENING_FROM = 0.1;
/** Paths in a row that bring no new situation before more is hoped for. */
const MOST_IDLE = 50;

/** Values are weighted by the mass of the situation. */
interface Node {
  readonly situation: Situation;
  readonly acting: Acting;
  /** value of stopping, without any further action */
  stopping: number;
  /** value of the plan held from here on */
  lower: number;
  /** no plan is worth more from here on */
  upper: number;
  /** what the plan may come to: between the two, and what guides the search */
  hope: number;
  options: Option[] | undefined;
}

interface Option {
  readonly action: Action;
  /** what it pays and costs at once */
  readonly immediate: number;
  lower: number;
  upper: number;
  hope: number;
  /** not made before the option is followed */
  next: Node[] | undefined;
}

/**
 * AO* on beliefs (Nilsson 1980; Martelli & Montanari, CACM 21, 1978) with two-sided bounds. Every situation holds the
 * value of a real plan (first that of acting now, once expanded that of the best action with acting afterwards) and
 * perfect information as its upper bound; both are backed up along the path just followed. The path follows, at each situation, the
 * action with the most hope, at each outcome the branch with the most to gain. Hope is the value plus a share, `trust`,
 * of the gap to the upper bound: a small share makes good plans quickly. Where no hope is left the share doubles; at 1
 * hope is the upper bound itself, and what ends then is proved best. Situations met in different orders are one.
 */
export function searchPlan(
  play: Play,
  tools: { readonly act: ActNow; readonly bound: UpperBound },
  options: SearchOptions,
): Search {
  const { act, bound } = tools;
  const nodes = new Map<number | string, Node>();
  let trust = options.trust ?? 0.15;
  let expanded = 0;

  const nodeOf = (situation: Situation): Node => {
    const known = nodes.get(situation.key);
    if (known) return known;
    const acting = act(situation);
    const { value } = acting;
    const upper = Math.max(value, bound(situation));
    const hope = value + trust * (upper - value);
    const node = { situation, acting, stopping: value, lower: value, upper, hope, options: undefined };
    nodes.set(situation.key, node);
    return node;
  };

  const expand = (node: Node) => {
    const { situation } = node;
    if (play.remedies.length > 0) node.stopping = bestStop(play, situation).value;
    node.options = [];
    for (const action of play.remedies) {
      if (!isLeft(play, situation, action.index)) continue;
      const price = situation.mass * priceOfRemedy(play, situation.paid, action.index);
      const failed = afterFailure(play, situation, action.index);
      const option = {
        action,
        immediate: payoffWhenFixed(play, situation, action.index) - price,
        lower: Number.NEGATIVE_INFINITY,
        upper: 0,
        hope: 0,
        next: failed ? [nodeOf(failed)] : [],
      };
      backUpOption(option);
      if (option.upper > node.lower) node.options.push(option);
    }
    for (const action of play.tests) {
      const test = action.index;
      if (!isOffered(play, situation, test)) continue;
      const immediate = -situation.mass * priceOfTest(play, situation.paid, test);
      const upper = immediate + bound({ ...situation, paid: situation.paid | play.needs.test[test]! });
      if (upper <= node.lower) continue;
      let lower = immediate + act.afterTest(situation, test);
      if (situation.mass >= OPENING_FROM && opensAny(play, situation, test)) {
        lower = Math.max(lower, valueOfOpening(play, act, bound, situation, test));
      }
      const hope = lower + trust * (upper - lower);
      node.options.push({ action, immediate, lower, upper, hope, next: undefined });
    }
    expanded++;
  };

  const open = (node: Node, option: Option) => {
    option.next = [];
    const { index } = option.action;
    for (let outcome = 0; outcome < play.problem.tests[index]!.outcomes.length; outcome++) {
      const next = afterTest(play, node.situation, index, outcome);
      if (next) option.next.push(nodeOf(next));
    }
    backUpOption(option);
  };

  /** Follows one path to a situation not yet expanded, expands it, and brings the news back. */
  const visit = (node: Node): void => {
    if (!node.options) {
      expand(node);
    } else {
      const option = most(node.options, ({ hope }) => hope);
      if (option && option.hope > node.lower) {
        if (!option.next) open(node, option);
        const branch = most(option.next!, ({ hope, lower }) => hope - lower);
        if (branch && branch.hope > branch.lower) visit(branch);
        backUpOption(option);
      }
    }
    backUpNode(node);
  };

  const hopeAnew = (node: Node, done: Set<Node>) => {
    if (done.has(node)) return;
    done.add(node);
    node.hope = node.lower + trust * (node.upper - node.lower);
    if (!node.options) return;
    for (const option of node.options) {
      if (option.next) {
        for (const next of option.next) hopeAnew(next, done);
        backUpOption(option);
      } else {
        option.hope = option.lower + trust * (option.upper - option.lower);
      }
    }
    backUpNode(node);
  };

  const root = nodeOf(play.start);
  const limit = act.work + options.effort;
  const enough = WORTH_NOTHING * play.start.mass;
  let idle = 0;
  while (root.upper - root.lower > enough && (expanded === 0 || act.work < limit)) {
    const before = expanded;
    const hopeless = root.hope - root.lower <= enough;
    if (!hopeless) visit(root);
    idle = expanded > before ? 0 : idle + 1;
    if (!hopeless && idle < MOST_IDLE) continue;
    if (trust >= 1) break;
    trust = Math.min(1, 2 * trust);
    hopeAnew(root, new Set());
    idle = 0;
  }

  // where the search has not been, one step of looking ahead does at least as well as the value counted there
  const beyond = following(oneStep(play, act, bound));
  const policy: Policy = (situation) => {
    const node = nodes.get(situation.key);
    if (!node?.options) return beyond(situation);
    const option = most(node.options, ({ lower }) => lower);
    const gains = option && option.lower > node.acting.value + WORTH_NOTHING * situation.mass;
    const action = gains ? option.action : node.acting.action;
    if (!action) throw new RangeError('Nothing can be done here: the problem offers neither a stop nor a remedy.');
    return action;
  };
  return { value: root.lower, upperBound: root.upper, policy, expanded };
}

function backUpOption(option: Option): void {
  let lower = option.immediate;
  let upper = option.immediate;
  let hope = option.immediate;
  for (const next of option.next!) {
    lower += next.lower;
    upper += next.upper;
    hope += next.hope;
  }
  option.lower = Math.max(option.lower, lower);
  option.upper = upper;
  option.hope = Math.max(option.lower, hope);
}

function backUpNode(node: Node): void {
  let upper = node.stopping;
  let hope = node.lower;
  for (const option of node.options!) {
    if (option.lower > node.lower) node.lower = option.lower;
    if (option.upper > upper) upper = option.upper;
    if (option.hope > hope) hope = option.hope;
  }
  node.upper = Math.max(node.lower, Math.min(node.upper, upper));
  node.hope = Math.max(node.lower, Math.min(node.upper, hope));
}

function most<T>(list: readonly T[], of: (item: T) => number): T | undefined {
  let best: T | undefined;
  for (const item of list) if (best === undefined || of(item) > of(best)) best = item;
  return best;
}
