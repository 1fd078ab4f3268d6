import { describe, expect, it } from 'vitest';
import { branchesOf, chanceOfTurning } from '../../../src/wizard/card/branches.ts';
import { byReason } from '../../../src/wizard/card/by-reason.ts';
import { sampleAssessment } from '../sample-assessment.ts';

const memoryTest = sampleAssessment.checks[0]!;

describe('What each result of a check would do', () => {
  const branches = branchesOf(memoryTest, sampleAssessment.verdict);

  it('takes from the stem what it is likely, until nothing is left', () => {
    expect(branches.shown.map(({ above, below }) => [above, below])).toEqual([
      [1, 0.4],
      [0.4, 0],
    ]);
  });

  it('turns the verdict where another would follow: here in the four of ten in which one chip fails', () => {
    expect(branches.shown.map(({ turns }) => turns)).toEqual([false, true]);
    expect(chanceOfTurning(branches)).toBeCloseTo(0.4, 12);
  });

  it('leaves no rest where every result is listed', () => {
    expect(branches.rest).toBeNull();
  });

  it('gives the results too rare to be listed a branch of their own, so that the percentages add up to 100', () => {
    const [first, second] = memoryTest.outcomes;
    const outcomes = [
      { ...first!, chance: 0.754 },
      { ...second!, chance: 0.184 },
    ];
    const { shown, rest } = branchesOf({ ...memoryTest, outcomes }, sampleAssessment.verdict);
    expect(shown.at(-1)!.below).toBeCloseTo(0.062, 12);
    expect(rest).toEqual({ chance: 0.07, above: shown.at(-1)!.below, below: 0 });
  });

  it('ends the stem with the last result where what is missing is rounding only', () => {
    const [first, second] = memoryTest.outcomes;
    const outcomes = [
      { ...first!, chance: 0.6 },
      { ...second!, chance: 0.397 },
    ];
    const { shown, rest } = branchesOf({ ...memoryTest, outcomes }, sampleAssessment.verdict);
    expect(rest).toBeNull();
    expect(shown.at(-1)!.below).toBe(0);
  });
});

describe('What is closed', () => {
  it('stands under each reason, said once, the one that closes most first', () => {
    const power = 'Rails have not been measured to ground.';
    const image = 'Without an image there is nothing to compare.';
    expect(
      byReason([
        { name: 'Display outputs', reasons: [image, power] },
        { name: 'Boot test', reasons: [power] },
      ]),
    ).toEqual([
      { reason: power, names: ['Display outputs', 'Boot test'] },
      { reason: image, names: ['Display outputs'] },
    ]);
  });
});
