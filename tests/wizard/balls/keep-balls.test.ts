import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BALL_NUMBERS } from '../../../src/ball-grid/fields.ts';
import type { Record as CardRecord } from '../../../src/record/schema.ts';
import { ballsOf, withBall } from '../../../src/wizard/balls/keep-balls.ts';

const bare: CardRecord = { format: 1, id: 'a-card', title: 'a card', timeline: [] };

describe('What is typed of balls', () => {
  it('is kept by kind of package, and leaves the other one alone', () => {
    const core = withBall(bare, 'core', 'ballMillimetres', 0.5);
    const both = withBall(core, 'memory', 'ballMillimetres', 0.4);
    expect(both.balls).toEqual({ core: { ballMillimetres: 0.5 }, memory: { ballMillimetres: 0.4 } });
    expect(withBall(both, 'memory', 'ballMillimetres', undefined)).toEqual(core);
  });

  it('leaves no trace on the record when all of it is taken out again, in any order', () => {
    const names = fc.uniqueArray(fc.constantFrom(...BALL_NUMBERS), { minLength: 1 });
    const inAndOut = names.chain((list) =>
      fc.tuple(fc.constant(list), fc.shuffledSubarray(list, { minLength: list.length })),
    );
    fc.assert(
      fc.property(inAndOut, ([list, out]) => {
        const full = list.reduce((record, name) => withBall(record, 'core', name, 0.4), bare);
        expect(Object.keys(ballsOf(full, 'core')).sort()).toEqual([...list].sort());
        expect(out.reduce((record, name) => withBall(record, 'core', name, undefined), full)).toEqual(bare);
      }),
      { seed: 20261125, numRuns: 100 },
    );
  });
});
