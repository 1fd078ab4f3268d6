import { beforeAll, describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import type { Assessed } from '../../src/assessment.ts';
import type { Knowledge } from '../../src/knowledge/knowledge.ts';
import type { Record as CardRecord } from '../../src/record/schema.ts';
import type { Shop } from '../../src/shop/schema.ts';
import { knowledgeAndShop, workedCase } from './worked-cases.ts';

let knowledge: Knowledge;
let shop: Shop;
beforeAll(async () => {
  ({ knowledge, shop } = await knowledgeAndShop());
});

const DAY = 86_400_000;

/** The worked case treated as its verdict says, paid for, back after some days and showing all of it again. */
function backAgain(id: string, remedy: string, paid: number | null, workedDays = 40): CardRecord {
  const { record } = workedCase(id);
  const last = Date.parse(record.timeline.at(-1)!.at);
  const on = (day: number, minute = 0) => new Date(last + day * DAY + minute * 60_000).toISOString();
  const returned = workedDays + 2;
  return {
    ...record,
    timeline: [
      ...record.timeline,
      { type: 'treated', at: on(1), remedy, worked: true },
      { type: 'handed-back', at: on(2), ...(paid === null ? {} : { paid }) },
      { type: 'came-back', at: on(returned), workedDays },
      ...record.timeline
        .filter((event) => event.type === 'seen' || event.type === 'measured')
        .map((event, at) => ({ ...event, at: on(returned, at + 1) })),
    ],
  };
}

async function judged(record: CardRecord, own: Shop = shop): Promise<Assessed> {
  const assessment = await assess(knowledge, own, record);
  if (assessment.kind !== 'assessed') throw new Error(JSON.stringify(assessment));
  return assessment;
}

const secondOf = ({ comeback }: Assessed) => comeback!.second;

describe('A second attempt under warranty', () => {
  it('is the first offer over again with what was paid as its price: whoever would lose by it takes the money back instead', async () => {
    const settled = new Set<string | null>();
    for (const paid of [10, 66, 67, 100, 170, 171, 400]) {
      const assessed = await judged(backAgain('clock-does-not-run', 'replace-clock', paid));
      const { advised, settlement, warranty } = secondOf(assessed);
      expect(warranty!.running).toBe(true);
      const { option } = advised!;
      const money = workedCase('clock-does-not-run').record.money!;
      const likely = (amount: typeof money.working) => (typeof amount === 'number' ? amount : amount.likely);
      const value =
        likely(money.partsAfterWork) + option.holds * (likely(money.working) - likely(money.partsAfterWork));
      const kept = assessed.whatIf!.plans.find(({ id }) => id === option.id)!.kept;
      // against the refund: the shop keeps the money if it holds and has the cost; the owner has the card instead of card and money
      const shopGains = kept * paid - option.cost.total - option.margin;
      const ownerGains = value + (1 - kept) * paid - (likely(money.asIs) + paid);
      expect(settlement).toBe(shopGains >= 0 && ownerGains >= 0 ? 'try-again' : 'refund-and-offer');
      settled.add(settlement);
    }
    expect([...settled].sort()).toEqual(['refund-and-offer', 'try-again']);
  });

  it('leaves no fee where it fails, so that under a fee the shop needs more of what was paid', async () => {
    const record = backAgain('clock-does-not-run', 'replace-clock', 100);
    const free = secondOf(await judged(record)).advised!;
    const fee = secondOf(await judged(record, { ...shop, policy: { kind: 'diagnostic-fee', fee: 20 } })).advised!;
    expect([free.least, free.most]).toEqual([free.option.floor, free.option.ceiling]);
    expect(fee.least).toBeCloseTo(free.least!, 9);
    expect(fee.option.floor!).toBeLessThan(fee.least! - 1);
  });

  it('does not ask what was paid where no repair is worth it: then the money goes back', async () => {
    const { settlement, again, advised } = secondOf(await judged(workedCase('back-after-three-weeks').record));
    expect(settlement).toBe('refund');
    expect(advised).toBeNull();
    expect(again!.option.justified).toBe(false);
    expect(again!.option.holds).toBeLessThan(0.1);
  });

  it('cannot be weighed while nobody has written down what was paid', async () => {
    expect(secondOf(await judged(backAgain('clock-does-not-run', 'replace-clock', null))).settlement).toBeNull();
  });

  it('is no matter where the card is sound: the work did not fail', async () => {
    const { settlement, warranty } = secondOf(await judged(workedCase('fuse-held-and-the-host-did-it').record));
    expect(warranty!.running).toBe(true);
    expect(settlement).toBe('not-the-card');
  });

  it('runs through its last day and no longer; a card that never left, or is the shop’s own, has none', async () => {
    const failedOn = async (days: number) =>
      secondOf(await judged(backAgain('clock-does-not-run', 'replace-clock', 100, days)));
    expect((await failedOn(shop.warrantyDays)).warranty).toMatchObject({ running: true, failedAfter: 90 });
    const over = await failedOn(shop.warrantyDays + 1);
    expect(over.warranty).toMatchObject({ running: false });
    expect(over.settlement).toBeNull();
    expect(secondOf(await judged(workedCase('bridge-in-the-picture').record)).warranty).toBeNull();
    const record = backAgain('clock-does-not-run', 'replace-clock', null);
    const own = secondOf(await judged({ ...record, money: { ...record.money!, ownStock: true } }));
    expect([own.warranty, own.settlement]).toEqual([null, null]);
  });
});

describe('What was spent before a second attempt', () => {
  it('decides nothing: whatever the owner paid, causes, options and verdict stay the same', async () => {
    const [little, much] = [
      await judged(backAgain('clock-does-not-run', 'replace-clock', 5)),
      await judged(backAgain('clock-does-not-run', 'replace-clock', 5000)),
    ];
    expect(secondOf(little).paid).toEqual({ last: 5, inAll: 5 });
    expect({ ...much, comeback: null }).toEqual({ ...little, comeback: null });
  });

  it('adds up over several attempts, and only the last work is under warranty', async () => {
    const first = backAgain('clock-does-not-run', 'replace-clock', 80);
    const last = Date.parse(first.timeline.at(-1)!.at);
    const record: CardRecord = {
      ...first,
      timeline: [
        ...first.timeline,
        { type: 'treated', at: new Date(last + DAY).toISOString(), remedy: 'replace-clock', worked: true },
        { type: 'handed-back', at: new Date(last + 2 * DAY).toISOString(), paid: 30 },
        { type: 'came-back', at: new Date(last + 9 * DAY).toISOString() },
      ],
    };
    const { paid, warranty } = secondOf(await judged(record));
    expect(paid).toEqual({ last: 30, inAll: 110 });
    // how long it worked was left out: until it was brought back
    expect(warranty).toMatchObject({ from: record.timeline.at(-2)!.at, failedAfter: 7 });
  });

  it('counts the heat of both, and more heat makes the same work riskier', async () => {
    const { record } = workedCase('back-after-three-weeks');
    const { heatCycles, damage } = secondOf(await judged(record));
    // the owner said that nobody had heated it before: that is none, and not unknown
    expect(heatCycles).toEqual({ before: 0, here: 2 });
    expect(damage.onceMore).toBeGreaterThan(damage.lastTime + 0.05);
    expect(damage.because.map(({ rule }) => rule)).toContain('second-heat-cycle-raises-damage');
    const [arrived, ...rest] = record.timeline;
    if (arrived?.type !== 'arrived') throw new Error('the case does not begin with its arrival');
    const known = { ...arrived, facts: { ...arrived.facts, 'heat-cycles': 1 } };
    expect(secondOf(await judged({ ...record, timeline: [known, ...rest] })).heatCycles).toEqual({
      before: 1,
      here: 2,
    });
    const { 'earlier-heat-work': _, ...facts } = arrived.facts;
    const unasked = await judged({ ...record, timeline: [{ ...arrived, facts }, ...rest] });
    expect(secondOf(unasked).heatCycles).toEqual({ before: null, here: 2 });
  });
});

describe('A card that came back, went out with nothing done to it, and came back again', () => {
  it('has the fault it had: ranking and reasons stay, and the warranty counts to the first return', async () => {
    const once = workedCase('back-after-three-weeks').record;
    const left = once.timeline.map((event) => (event.type === 'handed-back' ? { ...event, paid: 90 } : event));
    const looked = once.timeline.at(-1)!;
    if (looked.type !== 'seen') throw new Error('the case ends with a look');
    const last = Date.parse(looked.at);
    const on = (day: number) => new Date(last + day * DAY).toISOString();
    const first = await judged({ ...once, timeline: left });
    const out: CardRecord = {
      ...once,
      timeline: [...left, { type: 'handed-back', at: on(1) }, { type: 'still-working', at: on(20) }],
    };
    const again = await judged({
      ...out,
      timeline: [...out.timeline, { type: 'came-back', at: on(90), workedDays: 80 }, { ...looked, at: on(90) }],
    });
    expect(again.ranking.map(({ fault, chance }) => [fault, chance])).toEqual(
      first.ranking.map(({ fault, chance }) => [fault, chance]),
    );
    expect(again.comeback).toMatchObject({ returns: 2, workedDays: 21, attributions: first.comeback!.attributions });
    expect(secondOf(again).warranty).toEqual(secondOf(first).warranty);
    expect(secondOf(again).paid).toEqual({ last: 90, inAll: 90 });
    expect((await judged(out)).comeback).toMatchObject({ returns: 1, cameBack: true });
  });

  it('shows at the second return that a fault comes and goes, and takes the later finding', async () => {
    const { record } = workedCase('back-after-three-weeks');
    const looked = record.timeline.at(-1)!;
    if (looked.type !== 'seen') throw new Error('the case ends with a look');
    const on = (day: number) => new Date(Date.parse(looked.at) + day * DAY).toISOString();
    const again = await judged({
      ...record,
      timeline: [
        ...record.timeline,
        { type: 'handed-back', at: on(1) },
        { type: 'came-back', at: on(9) },
        { ...looked, state: 'crash-under-load', at: on(9) },
      ],
    });
    const item = again.evidence.find(({ finding }) => finding === looked.finding)!;
    expect(item.state).toBe('crash-under-load');
    expect(JSON.stringify(item)).toContain(looked.state as string);
  });
});

describe('A card that came back, nobody knows after how long', () => {
  it('has not failed before the day on which its owner said that it works: no computer of his is to blame any more', async () => {
    const { record } = workedCase('back-after-three-weeks');
    const undated = (heard: string | null): CardRecord => ({
      ...record,
      timeline: record.timeline.flatMap((event): CardRecord['timeline'] =>
        event.type !== 'came-back'
          ? [event]
          : [
              ...(heard === null ? [] : [{ type: 'still-working' as const, at: heard }]),
              { ...event, workedDays: null },
            ],
      ),
    });
    const why = async (heard: string | null) => (await judged(undated(heard))).comeback!.attributions!;
    const silent = await why(null);
    const heard = await why('2026-03-30T09:54:00Z');
    const dated = (await judged(record)).comeback!.attributions!;
    expect(silent['wrong-thing']).toBeGreaterThan(0.3);
    expect(heard['wrong-thing']).toBe(0);
    // between the 18th and the 21st day is near to the 21st
    for (const reason of ['relapsed', 'damaged', 'new-fault'] as const)
      expect(Math.abs(heard[reason] - dated[reason])).toBeLessThan(0.02);
  });
});

describe('Work after which nobody said whether the card works', () => {
  it('is explained as failed where what was found since says so, and is not where nothing was found', async () => {
    const { record } = workedCase('bridge-in-the-picture');
    const at = record.timeline.findLastIndex(({ type }) => type === 'treated');
    const unsaid = record.timeline.map((event, i) =>
      i === at && event.type === 'treated' ? { ...event, worked: null } : event,
    );
    const looked = await judged({ ...record, timeline: unsaid });
    expect(looked.comeback!.attributions).not.toBeNull();
    const nothing = await judged({ ...record, timeline: unsaid.slice(0, at + 1) });
    expect(nothing.comeback!.nothingActive).toBeGreaterThan(0.5);
    expect(nothing.comeback!.attributions).toBeNull();
  });
});
