import { describe, expect, it } from 'vitest';
import { holds } from '../../src/wizard/applies.ts';

const facts: { [fact: string]: string | number | boolean | string[] | null } = {
  'power-connectors': 'two-or-more',
  'memory-chips': 12,
  mined: null,
  'owner-words': ['artifacts'],
};
const factOf = (fact: string) => facts[fact];
const is = (fact: string, operator: string, value: string | number | boolean | string[]) => ({ fact, operator, value });
const two = is('power-connectors', 'equal', 'two-or-more');
const unknown = is('mined', 'equal', true);

describe('whether a question concerns a card', () => {
  it('stays open where the facts do not say', () => {
    expect(holds(unknown, factOf)).toBeUndefined();
    expect(holds({ not: unknown }, factOf)).toBeUndefined();
    expect(holds({ all: [two, unknown] }, factOf)).toBeUndefined();
    expect(holds(is('never-asked', 'notEqual', 'x'), factOf)).toBeUndefined();
  });

  it('is settled by what is known where that is enough', () => {
    expect(holds({ any: [unknown, two] }, factOf)).toBe(true);
    expect(holds({ all: [unknown, { not: two }] }, factOf)).toBe(false);
  });

  it('compares as the rules do', () => {
    expect(holds(is('memory-chips', 'greaterThanInclusive', 12), factOf)).toBe(true);
    expect(holds(is('memory-chips', 'lessThan', 12), factOf)).toBe(false);
    expect(holds(is('owner-words', 'contains', 'artifacts'), factOf)).toBe(true);
    expect(holds(is('owner-words', 'doesNotContain', 'artifacts'), factOf)).toBe(false);
    expect(holds(is('power-connectors', 'in', ['one', 'two-or-more']), factOf)).toBe(true);
    expect(holds(is('power-connectors', 'notIn', ['one']), factOf)).toBe(true);
  });
});
