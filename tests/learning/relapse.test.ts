import { beforeAll, describe, expect, it } from 'vitest';
import { withLearntRelapse } from '../../src/assess/learnt-relapse.ts';
import { assess } from '../../src/assess.ts';
import { survives } from '../../src/belief/serve.ts';
import type { Knowledge } from '../../src/knowledge/knowledge.ts';
import { loadKnowledge, loadShop } from '../../src/knowledge/load.ts';
import { RemediesAnswer } from '../../src/learning/answer.ts';
import { learnRelapses, weighAnew } from '../../src/learning/learn-relapse.ts';
import { remediesFrom } from '../../src/learning/remedies.ts';
import { type ServiceTime, servicesOf } from '../../src/learning/service-times.ts';
import { countSoftly, type SoftCounts } from '../../src/learning/soft-counts.ts';
import { auditShop } from '../../src/shop/audit.ts';
import type { LearntRelapse, Shop } from '../../src/shop/schema.ts';
import { follow } from '../../src/survival/followed.ts';
import { learnShapeAndRate, type RelapseLaw } from '../../src/survival/relapse-law.ts';
import { inventedDays, reflowedCard } from './invented-cards.ts';

let knowledge: Knowledge;
let shop: Shop;
beforeAll(async () => {
  const [known, profile] = await Promise.all([loadKnowledge(), loadShop()]);
  if (!known.ok || !profile.ok) throw new Error('rules/ is not sound');
  knowledge = known.knowledge;
  shop = profile.shop;
});

const BUMPS = 'core-bump-fracture';
const TRUTH = { medianDays: 90, shape: 1.1, followedDays: 400 };
const faultAt = (id: string) => knowledge.faults.findIndex((fault) => fault.id === id);
const taughtBumps = (remedy?: string): LearntRelapse => ({
  fault: BUMPS,
  ...(remedy === undefined ? {} : { remedy }),
  medianDays: 90,
  shape: 1.4,
  n: 60,
  basis: 'shop',
  hits: 52,
  trials: 58,
  since: '2025-01-07',
});

/** Cards of which a stated share was masked, the others cured; weights by Bayes' rule under the book, as the fold has them. */
function halfCured(count: number, masked: number, book: RelapseLaw, seed: number): SoftCounts[] {
  const days = inventedDays(count, TRUTH, seed);
  return days.map((relapse, i) => {
    const back = i < count * masked ? relapse : null;
    const service: ServiceTime = {
      record: `card-${i}`,
      remedy: 'reflow-core',
      stay: ['reflow-core'],
      since: '2026-01-01T00:00:00Z',
      days: back ?? TRUTH.followedDays,
      ended: back === null ? 'still-working' : 'came-back',
      dayUnknown: false,
      timeline: [],
    };
    const asleep = masked * survives(book, TRUTH.followedDays);
    const dormant = asleep / (asleep + 1 - masked);
    return {
      service,
      because: null,
      unjudged: null,
      failed: back === null ? 0 : 1,
      asleep:
        back === null
          ? [
              { relapsed: -1, dormant: [0], chance: dormant },
              { relapsed: -1, dormant: [], chance: 1 - dormant },
            ]
          : [{ relapsed: 0, dormant: [], chance: 1 }],
    };
  });
}

describe('a time to relapse learnt from the shop’s own cards', () => {
  const book = { medianDays: 30, shape: 1.1, n: 8 };

  it('is nudged by ten cards and decided by a thousand, though half of them were cured and nobody knows which', () => {
    const ten = learnRelapses([book], halfCured(10, 0.5, book, 21))[0]!;
    expect(ten.law.medianDays).toBeGreaterThan(book.medianDays);
    expect(ten.law.medianDays).toBeLessThan(70);
    const thousand = learnRelapses([book], halfCured(1000, 0.5, book, 22))[0]!;
    expect(Math.abs(thousand.law.medianDays / TRUTH.medianDays - 1)).toBeLessThan(0.1);
    // about 500 were masked; a card cured for good is not taken for one asleep
    expect(Math.abs(thousand.trials - 500)).toBeLessThan(40);
  });

  it('without doubt who was masked is what the plain law learns', () => {
    const cards = halfCured(40, 1, book, 23);
    const sure = cards.map((card) => ({
      ...card,
      asleep: card.asleep.filter(({ relapsed, dormant }) => relapsed === 0 || dormant.length > 0),
    }));
    const rows = sure.map(({ service }) => ({
      time: service.ended === 'came-back' ? service.days + 0.5 : service.days,
      failed: service.ended === 'came-back' ? 1 : 0,
      censored: service.ended === 'came-back' ? 0 : 1,
    }));
    const learnt = learnRelapses([book], sure)[0]!;
    expect(learnt.law.medianDays).toBeCloseTo(learnShapeAndRate(book, follow(rows)).medianDays, 8);
    expect(learnt.hits + book.n).toBeCloseTo(learnt.law.n, 8);
  });

  it('is not learnt of a fault that no card can have had asleep', () => {
    const cards = halfCured(5, 0.5, book, 24).map((card) => ({
      ...card,
      asleep: [{ relapsed: -1, dormant: [], chance: 1 }],
    }));
    expect(learnRelapses([book, null], cards)).toEqual([null, null]);
  });

  it.each([20, null])(
    'weighs a card anew under another law as a whole new diagnosis does (back after %s days)',
    async (days) => {
      const record = reflowedCard('box-1', days, TRUTH.followedDays / 10);
      const [service] = servicesOf(record).times;
      const other = taughtBumps();
      const taught = withLearntRelapse(knowledge, { ...shop, learnt: { relapse: [other] } });
      const [before, after] = await Promise.all(
        [knowledge, taught].map((known) => countSoftly(known, shop, record, service!, 3)),
      );
      const at = faultAt(BUMPS);
      const laws = knowledge.faults.map(({ relapse }) => relapse ?? null);
      const others = laws.map((law, fault) => (fault === at ? other : law));
      const [was, anew, whole] = [
        weighAnew(before!, laws, laws),
        weighAnew(before!, laws, others),
        weighAnew(after!, others, others),
      ];
      // the fold shares a day out among competing causes, which is the only difference
      for (let fault = 0; fault < laws.length; fault++) {
        expect(anew.relapsed[fault]).toBeCloseTo(whole.relapsed[fault]!, 3);
        expect(anew.dormant[fault]).toBeCloseTo(whole.dormant[fault]!, 3);
      }
      // and the law does move this card
      const moved = anew.relapsed[at]! + anew.dormant[at]! - was.relapsed[at]! - was.dormant[at]!;
      expect(Math.abs(moved)).toBeGreaterThan(0.001);
    },
  );
});

describe('forty invented cards, reflowed with broken bumps that last three times as long as the book says', () => {
  let answer: RemediesAnswer;
  beforeAll(async () => {
    const cards = inventedDays(40, TRUTH, 31).map((days, i) => reflowedCard(`box-${i}`, days, TRUTH.followedDays));
    answer = await remediesFrom(knowledge, shop, cards);
  });

  it('are told as the published schema has it', () => expect(RemediesAnswer.safeParse(answer).error).toBeUndefined());

  it('move the book’s median of the bumps towards the truth', () => {
    const [law, ...more] = answer.relapse.filter(({ fault }) => fault === BUMPS);
    expect(more).toEqual([]);
    expect(law!.book.medianDays).toBe(30);
    expect(law!.learnt.medianDays).toBeGreaterThan(50);
    expect(law!.learnt.medianDays).toBeLessThan(115);
    expect(law!.hits).toBeGreaterThan(25);
    expect(answer.learnt.relapse.map(({ fault }) => fault)).toContain(BUMPS);
  });

  it('do not teach that balls relapse, though the book’s bumps could not have lasted so long', () => {
    const balls = answer.relapse.find(({ fault }) => fault === 'core-joint-crack');
    // all were bumps; were each law learnt by itself, 14 in 200 would be laid to the balls and make them slow
    expect(balls?.hits ?? 0).toBeLessThan(2);
    if (balls) expect(Math.abs(balls.learnt.medianDays / balls.book.medianDays - 1)).toBeLessThan(0.1);
  });

  it('count against the remedy by the assessment’s attribution, and sum up', () => {
    const [reflow] = answer.remedies;
    expect(reflow).toMatchObject({ remedy: 'reflow-core', done: 40, leftWorking: 40, neverHeardOf: 0, unjudged: [] });
    const { relapsed, damaged } = reflow!.because;
    expect(reflow!.backByRemedy).toBeCloseTo(relapsed + reflow!.because['did-not-take'] + damaged, 9);
    expect(reflow!.backByRemedy).toBeLessThanOrEqual(reflow!.back);
    expect(reflow!.backByRemedy).toBeGreaterThan(0.7 * reflow!.back);
    expect(reflow!.tooFew).toBeNull();
  });

  it('survive about as the law they were drawn from', () => {
    for (const { days, low, high } of answer.remedies[0]!.survival.filter(({ days }) => days <= 180)) {
      const truth = survives(TRUTH, days);
      // the interval is a 95 % one, and what comes back is not wholly the remedy's
      expect(low!).toBeLessThan(truth + 0.05);
      expect(high!).toBeGreaterThan(truth - 0.05);
    }
  });
});

describe('two remedies after which bumps last differently', () => {
  it('have a law each where each was seen to relapse often enough, and one for all others', async () => {
    const long = inventedDays(14, { ...TRUTH, medianDays: 150 }, 33);
    const short = inventedDays(14, { ...TRUTH, medianDays: 12 }, 34);
    const cards = [
      ...long.map((days, i) => reflowedCard(`long-${i}`, days, TRUTH.followedDays)),
      ...short.map((days, i) => reflowedCard(`short-${i}`, days, TRUTH.followedDays, 'reball-core-leaded')),
    ];
    const { relapse } = await remediesFrom(knowledge, shop, cards);
    const median = (remedy: string | null) =>
      relapse.find((law) => law.fault === BUMPS && law.remedy === remedy)!.learnt.medianDays;
    expect(median('reball-core-leaded')).toBeLessThan(30);
    expect(median('reflow-core')).toBeGreaterThan(60);
    expect(median(null)).toBeGreaterThan(median('reball-core-leaded'));
    expect(median(null)).toBeLessThan(median('reflow-core'));
  });
});

describe('few cards', () => {
  it('are called too few to mean anything', async () => {
    const cards = [14, null, 40].map((days, i) => reflowedCard(`box-${i}`, days, 100));
    const { remedies } = await remediesFrom(knowledge, shop, cards);
    expect(remedies[0]!.tooFew).toContain('3 followed: too few to mean anything');
  });

  it('of which nothing was heard teach nothing', async () => {
    const card = reflowedCard('box-1', null, 100);
    const silent = { ...card, timeline: card.timeline.filter(({ type }) => type !== 'still-working') };
    const { remedies, relapse } = await remediesFrom(knowledge, shop, [silent]);
    expect(remedies[0]).toMatchObject({ leftWorking: 1, followed: 0, neverHeardOf: 1, survival: [], halfBack: null });
    expect(relapse).toEqual([]);
  });

  it('that cannot be judged count in full, with the reason', async () => {
    const card = reflowedCard('box-1', 20, 100);
    const broken = {
      ...card,
      timeline: card.timeline.map((event) => (event.type === 'treated' ? { ...event, remedy: 'pray-over-it' } : event)),
    };
    const { remedies } = await remediesFrom(knowledge, shop, [broken]);
    expect(remedies[0]).toMatchObject({ remedy: 'pray-over-it', back: 1, backByRemedy: 1 });
    expect(remedies[0]!.unjudged[0]!.why).toContain('pray');
  });
});

describe('what was learnt stands in the shop profile', () => {
  const cardBack = (days: number) => reflowedCard('box-1', days, 100);
  const relapsed = async (profile: Shop, days: number) => {
    const assessment = await assess(knowledge, profile, cardBack(days), { plan: false });
    if (assessment.kind !== 'assessed') throw new Error(assessment.kind);
    return assessment;
  };

  it('and an assessment reckons with it: bumps that are back after ten months are likelier where the shop has seen them last', async () => {
    const learnt = { relapse: [taughtBumps()] };
    const [book, own] = await Promise.all([relapsed(shop, 300), relapsed({ ...shop, learnt }, 300)]);
    expect(own.comeback!.attributions!.relapsed).toBeGreaterThan(book.comeback!.attributions!.relapsed + 0.01);
  });

  it('and a law after one remedy alone is used after that remedy, not after another', async () => {
    const lawAfter = (remedy: string) => ({ ...shop, learnt: { relapse: [taughtBumps(remedy)] } });
    const [all, same, other, book] = await Promise.all([
      relapsed({ ...shop, learnt: { relapse: [taughtBumps()] } }, 300),
      relapsed(lawAfter('reflow-core'), 300),
      relapsed(lawAfter('reball-core-leaded'), 300),
      relapsed(shop, 300),
    ]);
    expect(same.comeback!.attributions!.relapsed).toBeCloseTo(all.comeback!.attributions!.relapsed, 9);
    expect(other.comeback!.attributions).toEqual(book.comeback!.attributions);
  });

  it('and an assessment lists what it reckons with: count, events and what the book said, and no law that was not used', async () => {
    const [own, other] = [taughtBumps('reflow-core'), taughtBumps('reball-core-leaded')];
    const { audit } = await relapsed({ ...shop, learnt: { relapse: [taughtBumps(), own, other] } }, 300);
    const { relapse } = knowledge.faults.find(({ id }) => id === BUMPS)!;
    const { medianDays, shape, n, hits, trials, since } = taughtBumps();
    const listed = {
      fault: BUMPS,
      ...{ medianDays, shape, n, since, events: hits, cards: trials },
      prior: { medianDays: relapse!.medianDays, shape: relapse!.shape, n: relapse!.n },
    };
    expect(audit.relapse).toEqual([
      { ...listed, remedy: null },
      { ...listed, remedy: 'reflow-core' },
    ]);
    expect((await relapsed(shop, 300)).audit.relapse).toEqual([]);
  });

  it('and a plan is judged by it: what lasts longer holds longer', async () => {
    const holds = async (profile: Shop) => {
      const { worked: _, ...card } = cardBack(20);
      const arrived = { ...card, timeline: card.timeline.slice(0, -3) };
      const assessment = await assess(knowledge, profile, arrived, { plan: false });
      if (assessment.kind !== 'assessed') throw new Error(assessment.kind);
      const reflow = assessment.options.find(({ steps }) => steps.length === 1 && steps[0] === 'reflow-core');
      return reflow!.holds;
    };
    const learnt = { relapse: [{ ...taughtBumps(), medianDays: 900 }] };
    expect(await holds({ ...shop, learnt })).toBeGreaterThan((await holds(shop)) + 0.01);
  });

  it('and is kept out of what is learnt next: the same cards do not count twice', async () => {
    const cards = [reflowedCard('box-1', 200, 300), reflowedCard('box-2', 260, 300)];
    const once = await remediesFrom(knowledge, shop, cards);
    const again = await remediesFrom(knowledge, { ...shop, learnt: once.learnt }, cards);
    expect(again).toEqual(once);
  });

  it('and is refused where it speaks of what is not known', () => {
    const wrong = (entry: Partial<LearntRelapse>) =>
      auditShop(
        'shop.json',
        { ...shop, learnt: { relapse: [{ ...taughtBumps(), ...entry }] } },
        knowledge.bench,
        knowledge,
      ).map(({ path, wrong: words }) => `${path}: ${words}`);
    expect(wrong({})).toEqual([]);
    expect(wrong({ fault: 'bad-luck' })[0]).toContain(
      'learnt.relapse[0].fault: the knowledge knows no fault "bad-luck"',
    );
    expect(wrong({ fault: 'host-slot' })[0]).toContain('nothing masks "host-slot"');
    expect(wrong({ remedy: 'pray-over-it' })[0]).toContain('learnt.relapse[0].remedy: the knowledge knows no remedy');
    const twice = { ...shop, learnt: { relapse: [taughtBumps(), taughtBumps()] } };
    expect(auditShop('shop.json', twice, knowledge.bench, knowledge)[0]!.wrong).toContain('stands here twice');
  });
});
