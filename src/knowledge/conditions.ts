/**
 * What a rule's conditions mean, and whether they can ever hold. An unknown fact counts as what keeps the rule from
 * matching, or as what makes it match where `unknownMeans` says so; under a negation the comparison is turned round to
 * that end. The evidence evaluates rules in exactly this way.
 */
import type { FactDefinition, RuleConditions } from './schema.ts';

export type Comparison = Extract<RuleConditions, { fact: string }>;

export interface Placed {
  readonly comparison: Comparison;
  readonly path: string;
  /** under a `not`, or with a negative operator */
  readonly negative: boolean;
}

export interface Claim {
  readonly conditions: RuleConditions;
  readonly unknownMeans?: { readonly [fact: string]: 'match' | 'no-match' } | undefined;
}

/** A fact's value; undefined is unknown. */
export type TriedValue = string | number | boolean | ReadonlySet<string> | undefined;

export type Satisfied =
  | { readonly kind: 'possible'; readonly example: ReadonlyMap<string, TriedValue> }
  | { readonly kind: 'impossible' }
  | { readonly kind: 'too-large' };

interface Operator {
  readonly suits: readonly FactDefinition['type']['kind'][];
  readonly list: boolean;
  readonly negative: boolean;
  readonly holds: (fact: Exclude<TriedValue, undefined>, value: Comparison['value']) => boolean;
}

const equalTo = (suits: Operator['suits'], negative: boolean): Operator => ({
  suits,
  list: false,
  negative,
  holds: (fact, value) => (fact === value) !== negative,
});
const among = (negative: boolean): Operator => ({
  suits: ['choice', 'number'],
  list: true,
  negative,
  holds: (fact, value) => (value as unknown[]).includes(fact) !== negative,
});
const having = (negative: boolean): Operator => ({
  suits: ['set'],
  list: false,
  negative,
  holds: (fact, value) => (fact as ReadonlySet<unknown>).has(value) !== negative,
});
const ordered = (holds: (fact: number, value: number) => boolean): Operator => ({
  suits: ['number'],
  list: false,
  negative: false,
  holds: (fact, value) => holds(fact as number, value as number),
});

/** The operators of json-rules-engine that rules may use, and the facts they suit. */
export const OPERATORS: { readonly [name: string]: Operator } = {
  equal: equalTo(['choice', 'yes-no', 'number'], false),
  notEqual: equalTo(['choice', 'yes-no', 'number'], true),
  in: among(false),
  notIn: among(true),
  contains: having(false),
  doesNotContain: having(true),
  lessThan: ordered((fact, value) => fact < value),
  lessThanInclusive: ordered((fact, value) => fact <= value),
  greaterThan: ordered((fact, value) => fact > value),
  greaterThanInclusive: ordered((fact, value) => fact >= value),
};

/** Every comparison of a condition, with its path inside the file. */
export function comparisonsOf(conditions: RuleConditions, path: string, negated = false): Placed[] {
  if ('all' in conditions)
    return conditions.all.flatMap((inner, i) => comparisonsOf(inner, `${path}.all[${i}]`, negated));
  if ('any' in conditions)
    return conditions.any.flatMap((inner, i) => comparisonsOf(inner, `${path}.any[${i}]`, negated));
  if ('not' in conditions) return comparisonsOf(conditions.not, `${path}.not`, true);
  return [{ comparison: conditions, path, negative: negated || OPERATORS[conditions.operator]?.negative === true }];
}

/** How many partial assignments are tried before the search gives up. */
export const MOST_ASSIGNMENTS = 100_000;

/**
 * Whether facts can be such that all of `claims` hold and none of `refuted` does. Only values that can tell the
 * comparisons apart are tried: named choices and one other, each bound of a number and a point between two bounds, each
 * subset of the named members of a set, and unknown (unless `allKnown`). Depth first with pruning; exact up to
 * MOST_ASSIGNMENTS, then `too-large`. Facts and operators must be known.
 */
export function satisfy(
  claims: readonly Claim[],
  refuted: readonly Claim[],
  definitions: ReadonlyMap<string, FactDefinition>,
  options: { readonly allKnown?: boolean } = {},
): Satisfied {
  const placed = [...claims, ...refuted].flatMap((claim) => comparisonsOf(claim.conditions, ''));
  const facts = [...Map.groupBy(placed, ({ comparison }) => comparison.fact)]
    .map(([fact, uses]) => ({
      fact,
      values: [
        ...valuesThatMatter(
          definitions.get(fact)!,
          uses.map((use) => use.comparison),
        ),
        ...(options.allKnown === true ? [] : [undefined]),
      ],
    }))
    .sort((a, b) => a.values.length - b.values.length);
  const assigned = new Map<string, TriedValue>();
  let tried = 0;

  const search = (depth: number): Satisfied['kind'] => {
    if (++tried > MOST_ASSIGNMENTS) return 'too-large';
    const verdicts = [
      ...claims.map((claim) => holds(claim, assigned)),
      ...refuted.map((claim) => negate(holds(claim, assigned))),
    ];
    if (verdicts.includes(false)) return 'impossible';
    if (!verdicts.includes(undefined)) return 'possible';
    const { fact, values } = facts[depth]!;
    for (const value of values) {
      assigned.set(fact, value);
      const found = search(depth + 1);
      if (found !== 'impossible') return found;
      assigned.delete(fact);
    }
    return 'impossible';
  };
  const kind = search(0);
  return kind === 'possible' ? { kind, example: new Map(assigned) } : { kind };
}

/** True or false once the facts assigned so far decide it, undefined before. */
function holds(claim: Claim, assigned: ReadonlyMap<string, TriedValue>): boolean | undefined {
  const decide = (conditions: RuleConditions, negated: boolean): boolean | undefined => {
    if ('all' in conditions) return every(conditions.all.map((inner) => decide(inner, negated)));
    if ('any' in conditions) return negate(every(conditions.any.map((inner) => negate(decide(inner, negated)))));
    if ('not' in conditions) return negate(decide(conditions.not, !negated));
    if (!assigned.has(conditions.fact)) return undefined;
    const value = assigned.get(conditions.fact);
    if (value === undefined) return (claim.unknownMeans?.[conditions.fact] === 'match') !== negated;
    return OPERATORS[conditions.operator]!.holds(value, conditions.value);
  };
  return decide(claim.conditions, false);
}

function every(parts: readonly (boolean | undefined)[]): boolean | undefined {
  if (parts.includes(false)) return false;
  return parts.includes(undefined) ? undefined : true;
}

function negate(value: boolean | undefined): boolean | undefined {
  return value === undefined ? undefined : !value;
}

function valuesThatMatter(definition: FactDefinition, comparisons: readonly Comparison[]): TriedValue[] {
  const named = new Set(comparisons.flatMap(({ value }) => value as string | number | boolean));
  const { type } = definition;
  switch (type.kind) {
    case 'yes-no':
      return [true, false];
    case 'choice': {
      const other = type.values.find(({ id }) => !named.has(id));
      return [...type.values.filter(({ id }) => named.has(id)), ...(other ? [other] : [])].map(({ id }) => id);
    }
    case 'number': {
      const bounds = [...new Set([type.min, ...(named as Set<number>), type.max])].sort((a, b) => a - b);
      const between = bounds.slice(1).map((bound, i) => (type.whole ? bounds[i]! + 1 : (bound + bounds[i]!) / 2));
      return [...bounds, ...between].filter((value) => !type.whole || Number.isInteger(value));
    }
    case 'set':
      return subsetsOf([...(named as Set<string>)]);
  }
}

/** The example in words, for a message. */
export function sayExample(example: ReadonlyMap<string, TriedValue>): string {
  if (example.size === 0) return 'any card';
  return [...example]
    .map(([fact, value]) => {
      if (value === undefined) return `${fact} unknown`;
      if (value instanceof Set) return `${fact} {${[...value].join(', ')}}`;
      return `${fact} ${value === true ? 'yes' : value === false ? 'no' : String(value)}`;
    })
    .join(', ');
}

function subsetsOf(members: readonly string[]): ReadonlySet<string>[] {
  return Array.from(
    { length: 2 ** members.length },
    (_, pattern) => new Set(members.filter((_, i) => (pattern >> i) % 2 === 1)),
  );
}
