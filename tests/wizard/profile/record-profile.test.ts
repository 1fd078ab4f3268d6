import { beforeAll, describe, expect, it } from 'vitest';
import { judgeLog } from '../../../src/assess/thermal-profile.ts';
import { assess } from '../../../src/assess.ts';
import type { Knowledge } from '../../../src/knowledge/knowledge.ts';
import { ProfileAnswer } from '../../../src/knowledge/profile-answer.ts';
import type { Record } from '../../../src/record/schema.ts';
import type { Shop } from '../../../src/shop/schema.ts';
import { profileOf, recordProfile, takeOutProfile } from '../../../src/wizard/profile/record-profile.ts';
import { knowledgeAndShop, workedCase } from '../../assess/worked-cases.ts';
import { fileOf, GOOD, GOOD_BUT_SHORT, sample } from '../../joints/made-profiles.ts';

let knowledge: Knowledge;
let shop: Shop;
beforeAll(async () => {
  ({ knowledge, shop } = await knowledgeAndShop());
});

const AT = '2026-11-24T09:00:00Z';
const CHOICE = { solder: 'lead-free', rated: 'lead-free' } as const;
const FORM = { separator: ',', decimal: '.', unit: 'C', header: true, time: 's' } as const;

async function judged(corners: typeof GOOD) {
  const answer = await judgeLog(fileOf(sample(corners, 1, 0.1), FORM), CHOICE);
  if (answer.kind !== 'judged') throw new Error(JSON.stringify(answer));
  return answer;
}

const withoutProfile = (): Record => takeOutProfile(workedCase('back-after-three-weeks').record);

describe('A thermocouple log as a finding', () => {
  it('is judged into its published form, inside and outside its window', async () => {
    const good = await judged(GOOD);
    expect(ProfileAnswer.parse(JSON.parse(JSON.stringify(good)))).toEqual(JSON.parse(JSON.stringify(good)));
    expect([good.grade, (await judged(GOOD_BUT_SHORT)).grade]).toEqual(['inside', 'outside']);
    const nonsense = await judgeLog('hello\nthis is no log\n', CHOICE);
    expect(nonsense).toMatchObject({ kind: 'unreadable' });
  });

  it('stands with the work it tells of, before the card was handed back, however late it is read', async () => {
    const { finding } = await judged(GOOD);
    const record = recordProfile(withoutProfile(), finding.weights, AT);
    const treated = record.timeline.findIndex(({ type }) => type === 'treated');
    expect(record.timeline[treated + 1]).toMatchObject({
      type: 'seen',
      finding: 'profile-record',
      state: 'in-window',
      by: 'bench',
    });
    expect(record.timeline[treated + 2]).toMatchObject({ type: 'handed-back' });
  });

  it('counts once: read again it replaces what was read before, and can be taken out', async () => {
    const [good, short] = [await judged(GOOD), await judged(GOOD_BUT_SHORT)];
    const once = recordProfile(workedCase('back-after-three-weeks').record, good.finding.weights, AT);
    const twice = recordProfile(once, short.finding.weights, AT);
    expect(twice.timeline.filter((event) => 'finding' in event && event.finding === 'profile-record')).toHaveLength(1);
    expect(profileOf(twice)).toMatchObject({ state: 'out-of-window' });
    expect(takeOutProfile(twice)).toEqual(withoutProfile());
    expect(takeOutProfile(withoutProfile()).timeline).toHaveLength(withoutProfile().timeline.length);
  });

  it('out of its window speaks for damage by the work, inside it against', async () => {
    const damaged = async (corners: typeof GOOD) => {
      const { finding } = await judged(corners);
      const base = workedCase('dead-on-the-bench-after-a-reball').record;
      const assessment = await assess(knowledge, shop, recordProfile(base, finding.weights, AT), { plan: false });
      if (assessment.kind !== 'assessed') throw new Error(JSON.stringify(assessment));
      return assessment.comeback!.attributions!.damaged;
    };
    expect(await damaged(GOOD_BUT_SHORT)).toBeGreaterThan((await damaged(GOOD)) + 0.02);
  });

  it('of a card without recorded work stands at the end, on the day it was read', async () => {
    const { finding } = await judged(GOOD);
    const record: Record = {
      format: 1,
      id: 'card',
      title: 'Card',
      timeline: [{ type: 'arrived', at: '2026-11-01T09:00:00Z', facts: {} }],
    };
    expect(recordProfile(record, finding.weights, AT).timeline.at(-1)).toMatchObject({
      finding: 'profile-record',
      at: AT,
    });
  });
});
