import { expect, it } from 'vitest';
import { pointsOf } from '../../src/assess/points.ts';
import { assess } from '../../src/assess.ts';
import { knowledgeAndShop, workedCases } from './worked-cases.ts';

it('Where a card points, said ahead, is what its assessment says: the same causes, chances and parts, in every worked case', async () => {
  const { knowledge, shop } = await knowledgeAndShop();
  for (const { record } of workedCases) {
    const points = await pointsOf(knowledge, shop, record);
    const assessment = await assess(knowledge, shop, record, { plan: false });
    if (assessment.kind !== 'assessed') throw new Error('a worked case is not assessed');
    expect(points).toEqual({
      ranking: assessment.ranking.map(({ evidence: _evidence, ...cause }) => cause),
      sites: assessment.sites,
      sound: assessment.sound,
    });
  }
});

it('A record that cannot be read points nowhere', async () => {
  const { knowledge, shop } = await knowledgeAndShop();
  expect(await pointsOf(knowledge, shop, { format: 1 })).toBeNull();
});
