import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { accumulate } from '../../src/knowledge/compile.ts';
import { smallKnowledge } from './small-knowledge.ts';

const STATES = ['desktop', 'artifacts', 'no-image', 'nothing'];
const row = fc
  .array(fc.integer({ min: 0, max: 1000 }), { minLength: 1, maxLength: STATES.length })
  .filter((weights) => weights.some((weight) => weight > 0))
  .map((weights) => {
    const total = weights.reduce((a, b) => a + b, 0);
    const p = Object.fromEntries(weights.map((weight, i) => [STATES[i]!, weight / total]));
    return { p, n: 10, basis: 'estimate' as const };
  });

describe('A row of a finding', () => {
  it('accumulates from the most normal state to the most abnormal', () => {
    const p = { desktop: 0.5, artifacts: 0.25, nothing: 0.25 };
    expect([...accumulate({ p, n: 10, basis: 'estimate' }, STATES)]).toEqual([0.5, 0.75, 0.75, 1]);
  });

  it('never falls, stays within 0 and 1, and ends at exactly 1', () => {
    fc.assert(
      fc.property(row, (one) => {
        const cumulative = accumulate(one, STATES);
        expect(cumulative).toHaveLength(STATES.length);
        expect(cumulative.every((value, i) => value >= (cumulative[i - 1] ?? 0) && value <= 1)).toBe(true);
        expect(cumulative.at(-1)).toBe(1);
      }),
      { seed: 1 },
    );
  });

  it('gives back each probability as the step to its state, to rounding', () => {
    fc.assert(
      fc.property(row, (one) => {
        const cumulative = accumulate(one, STATES);
        STATES.forEach((state, i) => {
          expect(cumulative[i]! - (cumulative[i - 1] ?? 0)).toBeCloseTo(one.p[state] ?? 0, 12);
        });
      }),
      { seed: 2 },
    );
  });

  it('does not depend on the order in which its states are written', () => {
    fc.assert(
      fc.property(row, (one) => {
        const reversed = { ...one, p: Object.fromEntries(Object.entries(one.p).reverse()) };
        expect(accumulate(reversed, STATES)).toEqual(accumulate(one, STATES));
      }),
      { seed: 3 },
    );
  });
});

describe('The network', () => {
  it('lets a fault without a row leave the finding alone', async () => {
    const { network } = await smallKnowledge();
    const rails = network.findings.find(({ id }) => id === 'resistance-core')!;
    expect(rails.given.map(({ fault }) => network.faults[fault])).toEqual(['core-stage-short']);
    expect([...rails.leak]).toEqual([0.96, 0.99, 1]);
    expect([...rails.given[0]!.cumulative]).toEqual([0, 0.1, 1]);
  });
});
