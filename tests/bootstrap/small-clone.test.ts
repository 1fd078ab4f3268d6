import { Engine } from 'json-rules-engine';
import { expect, it } from 'vitest';
import clone from '../../src/bootstrap/small-clone.ts';

it('A copy of a rule is of the engine’s own classes, equal to it and shares nothing with it', () => {
  const engine = new Engine([
    {
      conditions: { all: [{ not: { fact: 'liquid', operator: 'equal', value: true } }, { any: [] }] },
      event: { type: 'match' },
    },
  ]);
  const [rule] = (engine as unknown as { rules: { conditions: { all: object[] } }[] }).rules;
  const copy = clone(rule!.conditions);
  expect(copy).toStrictEqual(rule!.conditions);
  expect(copy).not.toBe(rule!.conditions);
  expect(copy.all[0]).not.toBe(rule!.conditions.all[0]);
  expect(Object.getPrototypeOf(copy.all[0])).toBe(Object.getPrototypeOf(rule!.conditions.all[0]));
});
