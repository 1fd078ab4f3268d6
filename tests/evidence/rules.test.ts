/** Rules over facts of which any may be unknown, run by json-rules-engine. */
import fc from 'fast-check';
import { Engine } from 'json-rules-engine';
import { describe, expect, test } from 'vitest';
import type { FactValue } from '../../src/evidence/evidence.ts';
import { compileRules, factsOf, type Judged, OPERATORS } from '../../src/evidence/rules.ts';
import type { RuleConditions } from '../../src/knowledge/schema.ts';

const known = (facts: { [id: string]: FactValue } = {}) => new Map(Object.entries(facts));
const matches = async (rule: Omit<Judged, 'id'>, facts: { [id: string]: FactValue } = {}): Promise<boolean> =>
  (await compileRules([{ id: 'rule', ...rule }])(known(facts))).has('rule');

const compare = (operator: string, value: string | number | boolean | string[]): RuleConditions => ({
  fact: 'fact',
  operator,
  value,
});

describe('an unasked question is not a no', () => {
  test('the library alone takes an unknown fact for one, which is why comparisons are wrapped here', async () => {
    const engine = new Engine(
      [{ conditions: { all: [{ fact: 'liquid', operator: 'notEqual', value: true }] }, event: { type: 'dry' } }],
      { allowUndefinedFacts: true },
    );
    expect((await engine.run({})).events).toHaveLength(1);
  });

  test.each(Object.keys(OPERATORS))('"%s" does not match an unknown fact by itself', async (operator) => {
    const value = operator === 'in' || operator === 'notIn' ? ['a'] : operator.includes('Than') ? 3 : 'a';
    expect(await matches({ conditions: compare(operator, value) })).toBe(false);
    expect(await matches({ conditions: compare(operator, value), unknownMeans: { fact: 'no-match' } })).toBe(false);
    expect(await matches({ conditions: compare(operator, value), unknownMeans: { fact: 'match' } })).toBe(true);
  });

  test('"not" says what unknown means too: the same as the negative operator does', async () => {
    const not: RuleConditions = { not: compare('equal', 'reball') };
    for (const unknownMeans of [{}, { fact: 'no-match' }, { fact: 'match' }] as const) {
      const wanted = 'fact' in unknownMeans && unknownMeans.fact === 'match';
      expect(await matches({ conditions: not, unknownMeans })).toBe(wanted);
      expect(await matches({ conditions: compare('notEqual', 'reball'), unknownMeans })).toBe(wanted);
      expect(await matches({ conditions: { not: { not: compare('equal', 'reball') } }, unknownMeans })).toBe(wanted);
    }
    expect(await matches({ conditions: not }, { fact: 'none' })).toBe(true);
    expect(await matches({ conditions: not }, { fact: 'reball' })).toBe(false);
  });

  test('each fact has its own meaning in one rule', async () => {
    const conditions: RuleConditions = {
      all: [
        { fact: 'heat-work', operator: 'notEqual', value: 'none' },
        { fact: 'liquid', operator: 'notEqual', value: true },
      ],
    };
    const unknownMeans = { 'heat-work': 'no-match', liquid: 'match' } as const;
    expect(await matches({ conditions, unknownMeans }, { 'heat-work': 'reflow' })).toBe(true);
    expect(await matches({ conditions, unknownMeans }, { liquid: false })).toBe(false);
  });
});

describe('operators on known facts', () => {
  test.each([
    ['equal', 'large', 'large', true],
    ['equal', 'large', 'small', false],
    ['notEqual', 'large', 'small', true],
    ['in', ['gddr5', 'gddr6'], 'gddr6', true],
    ['in', ['gddr5', 'gddr6'], 'hbm', false],
    ['notIn', ['gddr5', 'gddr6'], 'hbm', true],
    ['contains', 'artifacts', ['artifacts', 'no-display'], true],
    ['contains', 'artifacts', [], false],
    ['doesNotContain', 'artifacts', ['no-display'], true],
    ['doesNotContain', 'artifacts', [], true],
    ['lessThan', 4, 3, true],
    ['lessThan', 4, 4, false],
    ['lessThanInclusive', 4, 4, true],
    ['greaterThan', 4, 5, true],
    ['greaterThanInclusive', 4, 4, true],
    ['greaterThanInclusive', 4, 3, false],
    ['equal', true, false, false],
    ['equal', 0, 0, true],
    ['greaterThan', 4, 'many', false],
    ['contains', 'artifacts', 'artifacts', false],
  ] as const)('%s %j of %j is %s', async (operator, value, fact, expected) => {
    expect(await matches({ conditions: compare(operator, value as string | string[]) }, { fact })).toBe(expected);
  });

  test('a misspelt operator is a fault of the knowledge, found when it is compiled', () => {
    expect(() => compileRules([{ id: 'rule', conditions: compare('equals', 'a') }])).toThrow(
      'unknown operator "equals"',
    );
  });
});

describe('a set of rules', () => {
  const conditionsOver = (facts: readonly string[]) =>
    fc.letrec<{ tree: RuleConditions; leaf: RuleConditions }>((tie) => ({
      leaf: fc.record({
        fact: fc.constantFrom(...facts),
        operator: fc.constantFrom('equal', 'notEqual'),
        value: fc.constantFrom('a', 'b'),
      }),
      tree: fc.oneof(
        { maxDepth: 3 },
        tie('leaf'),
        fc.record({ all: fc.array(tie('tree'), { minLength: 1, maxLength: 3 }) }),
        fc.record({ any: fc.array(tie('tree'), { minLength: 1, maxLength: 3 }) }),
        fc.record({ not: tie('tree') }),
      ),
    })).tree;
  const FACTS = ['f', 'g', 'h'];
  const rules = fc.array(
    fc.record({
      conditions: conditionsOver(FACTS),
      unknownMeans: fc.dictionary(fc.constantFrom(...FACTS), fc.constantFrom('match' as const, 'no-match' as const)),
    }),
    { minLength: 1, maxLength: 6 },
  );
  const facts = fc.dictionary(fc.constantFrom(...FACTS), fc.constantFrom('a', 'b', 'c'));

  /** By hand: an unknown leaf is what makes the whole rule match, or not, as the rule says. */
  const byHand = (
    conditions: RuleConditions,
    values: { [id: string]: string },
    means: { [id: string]: 'match' | 'no-match' },
    negated = false,
  ): boolean => {
    if ('all' in conditions) return conditions.all.every((part) => byHand(part, values, means, negated));
    if ('any' in conditions) return conditions.any.some((part) => byHand(part, values, means, negated));
    if ('not' in conditions) return !byHand(conditions.not, values, means, !negated);
    const value = values[conditions.fact];
    if (value === undefined) return (means[conditions.fact] === 'match') !== negated;
    return (value === conditions.value) === (conditions.operator === 'equal');
  };

  test('matches what the conditions say by hand, in any order of the rules', async () => {
    await fc.assert(
      fc.asyncProperty(rules, facts, fc.boolean(), async (list, values, reversed) => {
        const named = list.map((rule, i) => ({ id: `rule-${i}`, ...rule }));
        const matched = await compileRules(reversed ? named.toReversed() : named)(known(values));
        const expected = named.filter((rule) => byHand(rule.conditions, values, rule.unknownMeans)).map(({ id }) => id);
        expect([...matched].sort()).toEqual(expected.sort());
      }),
      { seed: 5, numRuns: 200 },
    );
  });

  test('what is unknown and means no match can only keep a rule from matching, never make it match', async () => {
    await fc.assert(
      fc.asyncProperty(conditionsOver(FACTS), facts, async (conditions, values) => {
        if (!(await matches({ conditions }, values))) return;
        // it matched without the unknown facts: then it matches whatever they turn out to be
        for (const guess of ['a', 'b', 'c']) {
          const filled = Object.fromEntries(FACTS.map((fact) => [fact, values[fact] ?? guess]));
          expect(await matches({ conditions }, filled)).toBe(true);
        }
      }),
      { seed: 6, numRuns: 200 },
    );
  });

  test('asked at the same time about many cards, answers each as if asked alone', async () => {
    const rule = (id: string, value: string) => ({ id, conditions: compare('equal', value) });
    const ask = compileRules([rule('large', 'large'), rule('small', 'small')]);
    const cards = Array.from({ length: 100 }, (_, i) => ({ fact: ['large', 'small', `other-${i}`][i % 3]! }));
    const answers = await Promise.all(cards.map((card) => ask(known(card))));
    for (const [i, answer] of answers.entries()) {
      expect([...answer]).toEqual(cards[i]!.fact.startsWith('other') ? [] : [cards[i]!.fact]);
    }
  });

  test('a question asked in the very moment another one is answered is answered too', async () => {
    const ask = compileRules([
      { id: 'large', conditions: { any: [compare('equal', 'large'), compare('greaterThan', 0)] } },
    ]);
    const steps = async (count: number): Promise<void> => {
      for (let step = 0; step < count; step += 1) await undefined;
    };
    for (let delay = 0; delay < 60; delay += 1) {
      // another card each time: an answer already known would not be worked out again
      const first = ask(known({ fact: delay + 0.25 }));
      await steps(delay);
      const second = ask(known({ fact: delay + 0.75 }));
      expect([(await first).size, (await second).size], `after ${delay} steps`).toEqual([1, 1]);
    }
  });

  test('an empty set matches nothing', async () => {
    expect((await compileRules([])(known({ fact: 1 }))).size).toBe(0);
  });

  test('names the facts it asks for', () => {
    expect(
      factsOf({ all: [compare('equal', 'a'), { not: { any: [{ fact: 'g', operator: 'equal', value: 1 }] } }] }),
    ).toEqual(['fact', 'g']);
  });
});
