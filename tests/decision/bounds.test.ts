/** Upper bounds hold on generated problems, and are met where a closed form says so. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { perfectInformation } from '../../src/decision/bounds.ts';
import { confusionBound } from '../../src/decision/confusion.ts';
import { solveExactly } from '../../src/decision/exact.ts';
import { afterTest, isOffered, openPlay } from '../../src/decision/play.ts';
import { evsi } from '../../src/decision/worth.ts';
import { decisionProblem } from './generated-problems.ts';
import { plainValue } from './plain-expectimax.ts';
import { party, problem, repair, stop, T1, test } from './published-problems.ts';

const SLACK = 1e-9;
const testsOnly = decisionProblem({ conditions: 5, stops: 4, tests: 3, remedies: 0, moving: false });

describe('what no plan can beat', () => {
  it('holds when conditions that look alike have to share what is done, at the start and after every test', () => {
    let tighter = 0;
    fc.assert(
      fc.property(testsOnly, (given) => {
        const play = openPlay(given);
        const seen = perfectInformation(play);
        const confused = confusionBound(play);
        const value = plainValue(given);
        expect(confused(play.start)).toBeGreaterThanOrEqual(value - SLACK);
        expect(confused(play.start)).toBeLessThanOrEqual(seen(play.start) + SLACK);
        if (confused(play.start) < seen(play.start) - SLACK) tighter++;
        for (let index = 0; index < given.tests.length; index++) {
          if (!isOffered(play, play.start, index)) continue;
          given.tests[index]!.outcomes.forEach((_, outcome) => {
            const next = afterTest(play, play.start, index, outcome);
            if (!next) return;
            const rest = plainValue(given, {
              belief: Array.from(next.belief, (weight) => weight / next.mass),
              done: new Map([[given.tests[index]!.id, outcome]]),
              tried: new Map(),
              paid: new Set(given.tests[index]!.preparations),
            });
            expect(confused(next)).toBeGreaterThanOrEqual(next.mass * rest - SLACK);
          });
        }
      }),
      { seed: 30_01, numRuns: 150 },
    );
    expect(tighter).toBeGreaterThan(75);
  });

  it('is met by two equally likely conditions that nothing tells apart, and by two that one glance does', () => {
    const alike = (row: readonly number[]) =>
      openPlay(
        problem(
          ['core', 'memory'],
          [0.5, 0.5],
          stop('replace-core', 100, -40),
          stop('replace-memory', -30, 110),
          test('look', 0, { one: row, other: row.map((chance) => 1 - chance) }),
        ),
      );
    const blind = alike([0.3, 0.3]);
    // the better of (100 - 40) / 2 and (110 - 30) / 2
    expect(confusionBound(blind)(blind.start)).toBeCloseTo(40, 10);
    const sharp = alike([1, 0]);
    expect(confusionBound(sharp)(sharp.start)).toBeCloseTo(105, 10);
  });

  it('is no lower than all results for nothing, and meets the party without any', () => {
    fc.assert(
      fc.property(testsOnly, (given) => {
        const flat = {
          ...given,
          stops: given.stops.map((each) => ({ ...each, preparations: [] })),
        };
        const play = openPlay(flat);
        const now = Math.max(
          ...flat.stops.map(({ payoff }) => payoff.reduce((sum, pays, c) => sum + pays * flat.prior[c]!, 0)),
        );
        const everything =
          now +
          evsi(
            flat,
            flat.tests.map(({ id }) => id),
          );
        expect(confusionBound(play)(play.start)).toBeGreaterThanOrEqual(everything - SLACK);
      }),
      { seed: 30_02, numRuns: 150 },
    );
    const play = openPlay(party);
    // weights .4 and .4 are paired: 60 - .4 (150 - 110) ... = 70 - 16; the rest of the rain is known
    expect(confusionBound(play)(play.start)).toBeCloseTo(70 - 0.4 * (100 + 50 - 110), 10);
  });

  it('stays perfect information where remedies change what is there', () => {
    const play = openPlay(T1);
    expect(confusionBound(play)(play.start)).toBe(perfectInformation(play)(play.start));
  });

  it('holds with more ways of trying remedies than can be told apart', () => {
    // 13 remedies, one try each: 8192 sets of tried ones, more than are kept
    const faults = ['a', 'b', 'c'];
    const many = problem(
      faults,
      [0.5, 0.3, 0.2],
      stop('help', -60, -60, -60),
      ...Array.from({ length: 13 }, (_, index) =>
        repair(`r${index}`, 3 + index, ...faults.map((_fault, c) => (c === index % 3 ? 0.7 : 0))),
      ),
    );
    const few = { ...many, remedies: many.remedies.slice(0, 6) };
    const play = openPlay(many);
    const solved = solveExactly(few, { maxNodes: 100_000 });
    if (solved.kind !== 'exact') throw new Error('six remedies are few');
    // more remedies can only help, and knowing the fault can only help more
    expect(perfectInformation(play)(play.start)).toBeGreaterThanOrEqual(solved.value);
    // each fault known, its cheapest remedy again and again: cost / .7
    expect(perfectInformation(play)(play.start)).toBeCloseTo(-(0.5 * 3 + 0.3 * 4 + 0.2 * 5) / 0.7, 9);
  });
});
