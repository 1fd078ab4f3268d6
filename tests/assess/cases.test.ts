import { beforeAll, describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import { Assessment, VERDICTS } from '../../src/assessment.ts';
import type { Knowledge } from '../../src/knowledge/knowledge.ts';
import { SITES } from '../../src/knowledge/schema.ts';
import type { Shop } from '../../src/shop/schema.ts';
import { knowledgeAndShop, misses, workedCase, workedCases } from './worked-cases.ts';

let knowledge: Knowledge;
let shop: Shop;
beforeAll(async () => {
  ({ knowledge, shop } = await knowledgeAndShop());
});

const assessed = async (record: unknown) => {
  const assessment = await assess(knowledge, shop, record);
  if (assessment.kind !== 'assessed') throw new Error(JSON.stringify(assessment));
  return assessment;
};

describe('the worked cases', () => {
  it.each(workedCases)('$file leads where it must', async ({ record }) => {
    const assessment = await assessed(record);
    expect(misses(assessment, record.worked.expects)).toEqual([]);
    expect(Assessment.parse(JSON.parse(JSON.stringify(assessment)))).toEqual(JSON.parse(JSON.stringify(assessment)));
  });

  it('are at least 24, all invented, each with its reason', () => {
    expect(workedCases.length).toBeGreaterThanOrEqual(24);
    for (const { record } of workedCases) {
      expect(record.invented).toBe(true);
      expect(record.worked.why.length).toBeGreaterThan(20);
    }
  });

  it('lead between them to every verdict, and to a cause at every site', async () => {
    const verdicts = new Set<string>();
    const sites = new Set<string>();
    for (const { record } of workedCases) {
      const assessment = await assessed(record);
      verdicts.add(assessment.verdict.kind);
      // a card that works has no cause to rank
      if (assessment.ranking[0]) sites.add(assessment.ranking[0].site);
    }
    expect([...verdicts].sort()).toEqual([...VERDICTS].sort());
    expect([...sites].sort()).toEqual([...SITES].sort());
  });

  it('find a reball justified on one card and not on another with the same fault, for the money alone', async () => {
    const dear = workedCase('ball-crack-on-a-dear-card').record;
    const cheap = workedCase('ball-crack-on-a-cheap-card').record;
    expect((await assessed(dear)).verdict.kind).toBe('reball');
    expect((await assessed({ ...dear, money: cheap.money })).verdict.kind).toBe('scrap');
  });

  it('never say that no check pays beside one that does: then it gains too little to be begun', async () => {
    const told = { little: 0, nothing: 0 };
    for (const { file, record } of workedCases) {
      const { next, checks } = await assessed(record);
      if (next.kind !== 'act') continue;
      const pays = checks.some(({ state, worth }) => state === 'worth-it' && worth >= 1);
      const little = next.because.startsWith('No check gains enough to be begun');
      told[little ? 'little' : 'nothing'] += 1;
      if (pays) expect(little, file).toBe(true);
    }
    expect(told.little, 'both are told').toBeGreaterThan(0);
    expect(told.nothing).toBeGreaterThan(told.little);
  });
});
