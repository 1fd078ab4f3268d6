import { describe, expect, it } from 'vitest';
import { branchesOf, chanceOfTurning } from '../../../src/wizard/card/branches.ts';
import { byReason } from '../../../src/wizard/card/by-reason.ts';
import { sampleAssessment } from '../sample-assessment.ts';

const memoryTest = sampleAssessment.checks[0]!;

describe('What each result of a check would do', () => {
  const branches = branchesOf(memoryTest, sampleAssessment.verdict);

  it('takes from the stem what it is likely, until nothing is left', () => {
    expect(branches.map(({ above, below }) => [above, below])).toEqual([
      [1, 0.4],
      [0.4, 0],
    ]);
  });

  it('turns the verdict where another would follow: here in the four of ten in which one chip fails', () => {
    expect(branches.map(({ turns }) => turns)).toEqual([false, true]);
    expect(chanceOfTurning(branches)).toBeCloseTo(0.4, 12);
  });

  it('fills the stem even where rare results are left out of the list', () => {
    const fewer = branchesOf({ ...memoryTest, outcomes: memoryTest.outcomes.slice(0, 1) }, sampleAssessment.verdict);
    expect(fewer).toMatchObject([{ above: 1, below: 0 }]);
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
