/**
 * json-rules-engine over facts of which any may be unknown.
 *
 * The library compares against `undefined` and calls the answer false, and its negation true: an unasked question would
 * count as a no. Here every comparison states beforehand what it means when its fact is unknown.
 */
import { Engine, type TopLevelCondition } from 'json-rules-engine';
import type { Id, Rule, RuleConditions } from '../knowledge/schema.ts';
import type { FactValue } from './evidence.ts';

export type Known = ReadonlyMap<Id, FactValue>;

/** What a rule needs to be judged; an unknown fact is no match unless `unknownMeans` says otherwise. */
export interface Judged {
  readonly id: Id;
  readonly conditions: RuleConditions;
  readonly unknownMeans?: Rule['unknownMeans'];
}

/** Rules compiled once; asked as often as records change. */
export type RuleSet = (facts: Known) => Promise<ReadonlySet<Id>>;

type Compare = (fact: FactValue, value: unknown) => boolean;

const isList = (value: unknown): value is readonly unknown[] => Array.isArray(value);
const ordered =
  (compare: (fact: number, value: number) => boolean): Compare =>
  (fact, value) =>
    typeof fact === 'number' && typeof value === 'number' && compare(fact, value);

/** Operators a rule may use. A known fact of another type never matches a positive one. */
export const OPERATORS: { readonly [name: string]: Compare } = {
  equal: (fact, value) => fact === value,
  notEqual: (fact, value) => fact !== value,
  in: (fact, value) => isList(value) && value.includes(fact),
  notIn: (fact, value) => isList(value) && !value.includes(fact),
  contains: (fact, value) => isList(fact) && (fact as readonly unknown[]).includes(value),
  doesNotContain: (fact, value) => isList(fact) && !(fact as readonly unknown[]).includes(value),
  lessThan: ordered((fact, value) => fact < value),
  lessThanInclusive: ordered((fact, value) => fact <= value),
  greaterThan: ordered((fact, value) => fact > value),
  greaterThanInclusive: ordered((fact, value) => fact >= value),
};

/** Suffix of the operator that is true when its fact is unknown. */
const OR_UNKNOWN = '-or-unknown';

/**
 * Compiles rules into one engine. The answer is the set of ids of the rules that match; it does not depend on their
 * order.
 *
 * An unknown fact counts, wherever it stands, as what makes the rule least likely to match, or most likely where
 * `unknownMeans` says `match` for it: under an odd number of negations the two swap. Ids are unique within a set. The
 * last answers are kept by the facts the rules ask for, since most edits of a record leave those alone.
 */
export function compileRules(rules: readonly Judged[]): RuleSet {
  if (rules.length === 0) return async () => new Set();
  const engine = new Engine(
    rules.map(({ id, conditions, unknownMeans }) => ({
      name: id,
      // The root must be a list; the event is found by the rule's name, so that the engine need not copy it.
      conditions: { all: [compile(conditions, unknownMeans ?? {}, false)] } as TopLevelCondition,
      event: { type: 'match' },
    })),
    { allowUndefinedFacts: true },
  );
  for (const [name, compare] of Object.entries(OPERATORS)) {
    engine.addOperator(
      name,
      (fact: FactValue | undefined, value: unknown) => fact !== undefined && compare(fact, value),
    );
    engine.addOperator(
      name + OR_UNKNOWN,
      (fact: FactValue | undefined, value: unknown) => fact === undefined || compare(fact, value),
    );
  }

  const asked = [...new Set(rules.flatMap(({ conditions }) => factsOf(conditions)))].sort();
  const answers = new Map<string, ReadonlySet<Id>>();
  let turn: Promise<unknown> = Promise.resolve();
  return (facts) => {
    const known = Object.fromEntries(asked.flatMap((fact) => (facts.has(fact) ? [[fact, facts.get(fact)]] : [])));
    const key = JSON.stringify(known);
    const answer = answers.get(key);
    if (answer) return Promise.resolve(answer);
    // A run that ends makes the engine skip what other runs have not begun: runs of one engine wait for each other.
    const run = turn.then(async () => {
      const { results } = await engine.run(known);
      const matched: ReadonlySet<Id> = new Set(results.map(({ name }) => name));
      remember(answers, key, matched);
      return matched;
    });
    turn = run.catch(() => undefined);
    return run;
  };
}

/** Every fact the conditions ask for, repetitions included. */
export function factsOf(conditions: RuleConditions): string[] {
  if ('all' in conditions) return conditions.all.flatMap(factsOf);
  if ('any' in conditions) return conditions.any.flatMap(factsOf);
  if ('not' in conditions) return factsOf(conditions.not);
  return [conditions.fact];
}

type Compiled =
  | { all: Compiled[] }
  | { any: Compiled[] }
  | { not: Compiled }
  | { fact: string; operator: string; value: unknown };

function compile(conditions: RuleConditions, means: NonNullable<Rule['unknownMeans']>, negated: boolean): Compiled {
  if ('all' in conditions) return { all: conditions.all.map((part) => compile(part, means, negated)) };
  if ('any' in conditions) return { any: conditions.any.map((part) => compile(part, means, negated)) };
  if ('not' in conditions) return { not: compile(conditions.not, means, !negated) };
  const { fact, operator, value } = conditions;
  if (!(operator in OPERATORS)) throw new Error(`unknown operator "${operator}": the audit lets none through`);
  const whenUnknown = (means[fact] === 'match') !== negated;
  return { fact, operator: whenUnknown ? operator + OR_UNKNOWN : operator, value };
}

const MOST_ANSWERS = 32;

function remember(answers: Map<string, ReadonlySet<Id>>, key: string, answer: ReadonlySet<Id>): void {
  const oldest = answers.keys().next();
  if (answers.size >= MOST_ANSWERS && !oldest.done) answers.delete(oldest.value);
  answers.set(key, answer);
}
