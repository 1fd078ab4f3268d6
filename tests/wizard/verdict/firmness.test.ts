import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { VERDICTS } from '../../../src/assessment.ts';
import { firmnessOf, triesOf } from '../../../src/wizard/verdict/firmness.ts';

describe('How firm a verdict is', () => {
  const winners = (reball: number) => [
    { verdict: 'reball' as const, share: reball },
    { verdict: 'scrap' as const, share: 1 - reball },
  ];
  const word = (reball: number) => firmnessOf({ stands: reball, winners: winners(reball) }, 'reball');

  it('is firm, fairly firm or shaky by how often it wins, and open where another wins more often', () => {
    expect([word(0.95), word(0.8), word(0.55), word(0.45)]).toEqual(['firm', 'fair', 'shaky', 'open']);
  });
});

describe('A hundred tries', () => {
  it('round the verdict given as its words do and leave the rest to the others', () => {
    // by hand: 49.6 is said as 50; of the rest, 49 and 0 are whole, and the last try goes to the larger remainder
    const tries = triesOf(
      [
        { verdict: 'scrap', share: 0.496 },
        { verdict: 'reball', share: 0.4945 },
        { verdict: 'return', share: 0.0095 },
      ],
      'scrap',
    );
    expect(tries).toEqual([
      { verdict: 'scrap', count: 50 },
      { verdict: 'reball', count: 49 },
      { verdict: 'return', count: 1 },
    ]);
  });

  it('always add up to a hundred', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 1000 }), { minLength: 1, maxLength: VERDICTS.length }),
        (counts) => {
          const total = counts.reduce((sum, count) => sum + count, 0);
          const winners = counts.map((count, at) => ({ verdict: VERDICTS[at]!, share: count / total }));
          const tries = triesOf(winners, winners[0]!.verdict);
          expect(tries.reduce((sum, { count }) => sum + count, 0)).toBe(100);
          for (const { verdict, count } of tries) {
            const share = 100 * winners.find((winner) => winner.verdict === verdict)!.share;
            expect(Math.abs(count - share)).toBeLessThanOrEqual(1.5);
          }
        },
      ),
      { seed: 6 },
    );
  });
});
