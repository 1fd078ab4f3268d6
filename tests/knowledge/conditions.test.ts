import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { FactValue } from '../../src/evidence/evidence.ts';
import { compileRules } from '../../src/evidence/rules.ts';
import { type Claim, comparisonsOf, OPERATORS, satisfy } from '../../src/knowledge/conditions.ts';
import type { FactDefinition, RuleConditions } from '../../src/knowledge/schema.ts';

const words = (...ids: string[]) => ids.map((id) => ({ id, name: id }));
const TYPES: { readonly [fact: string]: FactDefinition['type'] } = {
  'die-size': { kind: 'choice', values: words('small', 'medium', 'large') },
  mined: { kind: 'yes-no' },
  'age-years': { kind: 'number', unit: 'years', min: 0, max: 4 },
  chips: { kind: 'number', unit: '', min: 0, max: 3, whole: true },
  'owner-words': { kind: 'set', values: words('artifacts', 'no-display') },
};
const definitions = new Map(
  Object.entries(TYPES).map(([id, type]): [string, FactDefinition] => [
    id,
    { id, name: id, question: id, type, step: 'card' },
  ]),
);

/** Every value that any comparison below can tell from another. */
const VALUES: { readonly [fact: string]: readonly (FactValue | undefined)[] } = {
  'die-size': ['small', 'medium', 'large', undefined],
  mined: [true, false, undefined],
  'age-years': [0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4, undefined],
  chips: [0, 1, 2, 3, undefined],
  'owner-words': [[], ['artifacts'], ['no-display'], ['artifacts', 'no-display'], undefined],
};

const comparison = fc.constantFrom(...Object.keys(TYPES)).chain((fact) => {
  const { kind } = TYPES[fact]!;
  const operators = Object.keys(OPERATORS).filter((name) => OPERATORS[name]!.suits.includes(kind));
  const single = {
    choice: fc.constantFrom('small', 'medium', 'large'),
    'yes-no': fc.boolean(),
    number: fc.integer({ min: 0, max: fact === 'chips' ? 3 : 4 }),
    set: fc.constantFrom('artifacts', 'no-display'),
  }[kind] as fc.Arbitrary<string | number | boolean>;
  return fc.constantFrom(...operators).chain((operator) => {
    const value = OPERATORS[operator]!.list ? fc.uniqueArray(single, { minLength: 1, maxLength: 3 }) : single;
    return value.map((one) => ({ fact, operator, value: one }) as RuleConditions);
  });
});
const { conditions } = fc.letrec<{ conditions: RuleConditions }>((tie) => ({
  conditions: fc.oneof(
    { maxDepth: 3, withCrossShrink: true },
    comparison,
    fc.array(tie('conditions'), { minLength: 1, maxLength: 3 }).map((all) => ({ all })),
    fc.array(tie('conditions'), { minLength: 1, maxLength: 3 }).map((any) => ({ any })),
    tie('conditions').map((not) => ({ not })),
  ),
}));
const claim: fc.Arbitrary<Claim> = fc.record({
  conditions,
  unknownMeans: fc.dictionary(fc.constantFrom(...Object.keys(TYPES)), fc.constantFrom('match', 'no-match')),
});

/** Whether the rules engine of the evidence matches the claim on some card: every combination of facts is tried. */
async function everMatches(claims: readonly Claim[], allKnown: boolean): Promise<boolean> {
  const ask = compileRules(claims.map((one, i) => ({ id: `rule-${i}`, ...one })) as Parameters<typeof compileRules>[0]);
  const facts = [...new Set(claims.flatMap((one) => comparisonsOf(one.conditions, '').map((p) => p.comparison.fact)))];
  const cards = facts.reduce<Map<string, FactValue>[]>(
    (some, fact) =>
      some.flatMap((card) =>
        VALUES[fact]!.filter((value) => !(allKnown && value === undefined)).map((value) =>
          value === undefined ? card : new Map([...card, [fact, value]]),
        ),
      ),
    [new Map()],
  );
  for (const card of cards) if ((await ask(card)).size === claims.length) return true;
  return false;
}

function asCard(example: ReadonlyMap<string, unknown>): Map<string, FactValue> {
  const known = [...example].filter(([, value]) => value !== undefined);
  return new Map(known.map(([fact, value]) => [fact, (value instanceof Set ? [...value] : value) as FactValue]));
}

describe('Whether a rule can ever fire', () => {
  it('agrees with the rules engine of the evidence tried on every card', async () => {
    await fc.assert(
      fc.asyncProperty(claim, fc.boolean(), async (one, allKnown) => {
        const found = satisfy([one], [], definitions, { allKnown });
        expect(found.kind).toBe((await everMatches([one], allKnown)) ? 'possible' : 'impossible');
      }),
      { numRuns: 150, seed: 20 },
    );
  });

  it('agrees with the rules engine on whether two rules can fire together', async () => {
    await fc.assert(
      fc.asyncProperty(claim, claim, async (one, two) => {
        const found = satisfy([one, two], [], definitions);
        expect(found.kind).toBe((await everMatches([one, two], false)) ? 'possible' : 'impossible');
      }),
      { numRuns: 60, seed: 21 },
    );
  });

  it('gives an example card on which the rules engine does as is claimed', async () => {
    await fc.assert(
      fc.asyncProperty(claim, claim, async (meets, fails) => {
        const found = satisfy([meets], [fails], definitions);
        if (found.kind !== 'possible') return;
        const ask = compileRules([
          { id: 'meets', ...meets },
          { id: 'fails', ...fails },
        ] as Parameters<typeof compileRules>[0]);
        expect([...(await ask(asCard(found.example)))]).toEqual(['meets']);
      }),
      { numRuns: 200, seed: 22 },
    );
  });

  it('knows that nothing lies between 1 and 2 chips, and that something lies between 1 and 2 years', () => {
    const between = (fact: string) =>
      satisfy(
        [
          {
            conditions: {
              all: [
                { fact, operator: 'greaterThan', value: 1 },
                { fact, operator: 'lessThan', value: 2 },
              ],
            },
          },
        ],
        [],
        definitions,
      ).kind;
    expect(between('chips')).toBe('impossible');
    expect(between('age-years')).toBe('possible');
  });

  it('says so when there are too many combinations to try', () => {
    const facts = new Map(
      Array.from({ length: 20 }, (_, i): [string, FactDefinition] => [
        `fact-${i}`,
        { id: `fact-${i}`, name: 'A fact', question: 'Which?', type: TYPES['die-size']!, step: 'card' },
      ]),
    );
    const either = [...facts.keys()].map((fact) => ({
      any: [
        { fact, operator: 'equal', value: 'small' },
        { fact, operator: 'notEqual', value: 'small' },
      ],
    }));
    const never = ['small', 'large'].map((value) => ({ fact: 'fact-19', operator: 'equal', value }));
    expect(satisfy([{ conditions: { all: either } }], [], facts).kind).toBe('possible');
    expect(satisfy([{ conditions: { all: [...either, ...never] } }], [], facts).kind).toBe('too-large');
  });
});
