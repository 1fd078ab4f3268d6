import { beforeAll, describe, expect, it } from 'vitest';
import { assess } from '../../../src/assess.ts';
import type { WhatIf } from '../../../src/assessment.ts';
import type { Money, Record } from '../../../src/record/schema.ts';
import type { Shop } from '../../../src/shop/schema.ts';
import { moneyTried } from '../../../src/wizard/verdict/money-tried.ts';
import { slidersFor } from '../../../src/wizard/verdict/sliders.ts';
import { knowledgeAndShop, workedCase } from '../../assess/worked-cases.ts';

describe('What was tried and is kept', () => {
  let record: Record;
  let shop: Shop;
  let whatIf: WhatIf;
  let weigh: (money: Money) => Promise<WhatIf>;
  beforeAll(async () => {
    const opened = await knowledgeAndShop();
    shop = opened.shop;
    record = workedCase('one-memory-chip').record;
    weigh = async (money) => {
      const assessed = await assess(opened.knowledge, shop, { ...record, money }, { plan: false });
      if (assessed.kind !== 'assessed' || assessed.whatIf === undefined) throw new Error('the case is not assessed');
      return assessed.whatIf;
    };
    whatIf = await weigh(record.money!);
  });

  it('is what the card is worth, working and as it lies there, and not what the shop or the rules say', () => {
    const figures = new Map([
      ['working', 250],
      ['asIs', 30],
      ['labourPerHour', 90],
      ['workMinutesTimes', 45],
    ] as const);
    expect(moneyTried(whatIf, figures, record)).toEqual({ working: 250, asIs: 30 });
  });

  it('is the price of each part of the repair: assessed anew, they come to what was tried', async () => {
    const partsOf = (one: WhatIf) => slidersFor(one).find(({ axis }) => axis === 'partsTimes')!.now;
    const tried = 1.5 * partsOf(whatIf);
    const kept = { ...record.money!, ...moneyTried(whatIf, new Map([['partsTimes', tried]] as const), record) };
    expect(Object.keys(kept.parts!).length).toBeGreaterThan(0);
    const anew = await weigh(kept);
    expect(anew.subject).toBe(whatIf.subject);
    // prices are kept to the cent
    expect(Math.abs(partsOf(anew) - tried)).toBeLessThan(0.05);
  });

  it('leaves alone the prices of other parts that the record states', () => {
    const money: Money = { ...record.money!, parts: { 'no-such-part': 9 } };
    const tried = moneyTried(whatIf, new Map([['partsTimes', 45]] as const), { money });
    expect(tried.parts).toMatchObject({ 'no-such-part': 9 });
  });
});
