import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { lifeline, sittingsOf } from '../../src/assess/timeline.ts';
import { assess } from '../../src/assess.ts';
import type { Knowledge } from '../../src/knowledge/knowledge.ts';
import { inLanguage } from '../../src/knowledge/load.ts';
import { Lifeline } from '../../src/lifeline.ts';
import type { Record as CardRecord, Event } from '../../src/record/schema.ts';
import type { Shop } from '../../src/shop/schema.ts';
import { knowledgeAndShop, workedCase, workedCases } from './worked-cases.ts';

let knowledge: Knowledge;
let shop: Shop;
beforeAll(async () => {
  ({ knowledge, shop } = await knowledgeAndShop());
});

const cameBack = workedCases.filter(({ record }) => record.timeline.some(({ type }) => type === 'treated'));

async function lifeOf(record: unknown): Promise<Lifeline> {
  const answer = await lifeline(knowledge, shop, record);
  if (answer.kind !== 'lifeline') throw new Error(JSON.stringify(answer));
  return answer;
}

const chanceOf = (life: Lifeline, fault: string, point = life.points.length - 1) =>
  life.points[point]!.chances![life.faults.findIndex((one) => one.fault === fault)] ?? 0;

describe("A card's life with the belief under it", () => {
  it.each(cameBack)(
    'ends where the assessment stands, to 1e-12, and has its published form: $file',
    async ({ record }) => {
      const life = await lifeOf(record);
      expect(Lifeline.parse(JSON.parse(JSON.stringify(life)))).toEqual(JSON.parse(JSON.stringify(life)));
      const assessment = await assess(knowledge, shop, record, { plan: false });
      if (assessment.kind !== 'assessed') throw new Error(JSON.stringify(assessment));
      // a card that works as far as anybody knows has no cause to rank
      expect(assessment.ranking.length > 0 || assessment.sound > 0.99).toBe(true);
      for (const { fault, chance } of assessment.ranking)
        expect(Math.abs(chanceOf(life, fault) - chance), fault).toBeLessThan(1e-12);
      expect(Math.abs(life.points.at(-1)!.sound! - assessment.sound)).toBeLessThan(1e-12);
    },
  );

  it('says at every point what an assessment would have said then', async () => {
    const { record } = workedCase('back-after-three-weeks');
    const life = await lifeOf(record);
    for (const [at, { events, sound }] of life.points.entries()) {
      const then = await assess(
        knowledge,
        shop,
        { ...record, timeline: record.timeline.slice(0, events[1] + 1) },
        { plan: false },
      );
      if (then.kind !== 'assessed') throw new Error(JSON.stringify(then));
      for (const { fault, chance } of then.ranking)
        expect(Math.abs(chanceOf(life, fault, at) - chance), `${fault} at ${at}`).toBeLessThan(1e-12);
      expect(Math.abs(sound! - then.sound)).toBeLessThan(1e-12);
    }
  });

  it('makes few points of many findings: one sitting is one', async () => {
    const { record } = workedCase('back-after-three-weeks');
    const life = await lifeOf(record);
    expect(record.timeline.length).toBeGreaterThan(30);
    expect(life.points.map(({ kind }) => kind)).toEqual([
      'arrived',
      'found',
      'treated',
      'found',
      'handed-back',
      'came-back',
      'found',
    ]);
    expect(life.points[1]!.findings).toHaveLength(26);
    // what is abnormal comes first
    expect(life.points[1]!.findings[0]!.abnormal).toBe(true);
    expect(life.points.map(({ words }) => words)).toContain('Came back after 21 days of work');
  });

  it('tells the fault that sleeps from the one that is gone: after heat that worked, what it may have masked', async () => {
    const life = await lifeOf(workedCase('reflowed-and-back').record);
    const at = life.points.findIndex(({ kind }) => kind === 'treated');
    const { chances, masked, sound, soundButMasked } = life.points[at]!;
    // a reflow that worked has masked more often than mended
    expect(sound!).toBeGreaterThan(0.9);
    expect(soundButMasked!).toBeGreaterThan(0.3);
    expect(soundButMasked!).toBeGreaterThanOrEqual(Math.max(...masked!) - 1e-9 - (1 - sound!));
    expect(soundButMasked!).toBeLessThanOrEqual(
      Math.min(
        sound!,
        masked!.reduce((sum, one) => sum + one, 0),
      ) + 1e-9,
    );
    for (const [fault, chance] of chances!.entries()) expect(chance + masked![fault]!).toBeLessThanOrEqual(1 + 1e-12);
    for (const point of life.points.slice(0, at)) expect(point.soundButMasked).toBe(0);
  });

  it('counts a price that was quoted as an event that tells nothing of the card, and leaves out what was only prepared', async () => {
    const { record } = workedCase('back-after-three-weeks');
    const at = record.timeline.findIndex(({ type }) => type === 'treated');
    const before = record.timeline[at - 1]!.at;
    const timeline = record.timeline.toSpliced(
      at,
      0,
      { type: 'quoted', at: before, option: 'reball-core-leaded', price: 380, validUntil: '2026-04-01' },
      { type: 'prepared', at: before, remedy: 'reball-core-leaded', process: { steps: [] } },
    );
    const life = await lifeOf({ ...record, timeline });
    const quoted = life.points.findIndex(({ kind }) => kind === 'quoted');
    expect(life.points[quoted]).toMatchObject({ words: 'Quoted: €380', mover: null });
    expect(life.points[quoted]!.chances).toEqual(life.points[quoted - 1]!.chances);
    expect(life.points).toHaveLength(8);
  });

  it('names what moved most at each point, and moves nothing at hand-back', async () => {
    const life = await lifeOf(workedCase('back-after-three-weeks').record);
    const [arrived, found, treated, , handedBack] = life.points;
    expect(arrived!.mover).toBeNull();
    expect(found!.mover!.what).toBe('core-joint-crack');
    expect(treated!.mover).toMatchObject({ what: 'sound' });
    expect(handedBack!.mover).toBeNull();
    for (const { mover, chances } of life.points) {
      if (mover === null || chances === null) continue;
      const at = life.points.findIndex((point) => point.mover === mover);
      const before = life.points[at - 1]!.chances!;
      const moves = chances.map((chance, fault) => Math.abs(chance - before[fault]!));
      expect(Math.abs(mover.to - mover.from)).toBeGreaterThanOrEqual(Math.max(...moves) - 1e-15);
    }
  });

  it('has no belief where an event is not possible after what went before, and says which', async () => {
    const { record } = workedCase('bridge-in-the-picture');
    const timeline: CardRecord['timeline'] = [
      ...record.timeline.filter(({ at }) => at <= '2026-03-11T09:54:00Z'),
      { type: 'handed-back', at: '2026-03-12T09:00:00Z' },
      { type: 'still-working', at: '2026-04-12T09:00:00Z' },
    ];
    expect(timeline.find(({ type }) => type === 'treated')).toMatchObject({ worked: false });
    const life = await lifeOf({ ...record, timeline });
    const whole = await assess(knowledge, shop, { ...record, timeline }, { plan: false });
    expect(whole.kind).toBe('contradiction');
    const last = life.points.at(-1)!;
    expect(last).toMatchObject({ kind: 'still-working', chances: null, sound: null, mover: null });
    expect(last.contradiction).toBe(whole.kind === 'contradiction' ? whole.sentence : '');
    expect(life.points.slice(0, -1).every(({ chances }) => chances !== null)).toBe(true);
    const german = await inLanguage(knowledge, 'de');
    const said = await assess(german, shop, { ...record, timeline }, { plan: false });
    const told = await lifeline(german, shop, { ...record, timeline });
    expect([
      said.kind === 'contradiction' && said.sentence,
      told.kind === 'lifeline' && told.points.at(-1)!.contradiction,
    ]).toEqual(Array(2).fill('Die Akte sagt, die Karte lief noch; nichts von dem, was bekannt ist, lässt das zu.'));
  });

  it('says of a record that cannot be used what is wrong with it', async () => {
    const answer = await lifeline(knowledge, shop, { format: 1, id: 'x', title: 'x' });
    expect(answer.kind).toBe('bad-record');
  });
});

describe('The sittings of a timeline', () => {
  const START = Date.parse('2026-01-01T00:00:00Z');
  const at = (hours: number) => new Date(START + hours * 3_600_000).toISOString();
  const event = fc.oneof(
    fc.constant((when: string): Event => ({ type: 'seen', at: when, finding: 'link', state: 'full', by: 'bench' })),
    fc.constant((when: string): Event => ({ type: 'seen', at: when, finding: 'onset', state: null, by: 'owner' })),
    fc.constant((when: string): Event => ({ type: 'treated', at: when, remedy: 'reflow-core', worked: true })),
    fc.constant((when: string): Event => ({ type: 'came-back', at: when })),
    fc.constant((when: string): Event => ({ type: 'note', at: when, text: 'a note' })),
  );
  const timelines = fc.array(fc.tuple(event, fc.integer({ min: 0, max: 40 })), { maxLength: 60 }).map((steps) => {
    let hours = 0;
    return steps.map(([make, more]): Event => {
      hours += more;
      return make(at(hours));
    });
  });

  it('hold every event but notes once, in order, and never two witnesses or two kinds of event', () => {
    fc.assert(
      fc.property(timelines, (timeline: CardRecord['timeline']) => {
        const sittings = sittingsOf(timeline);
        const held = sittings.flatMap(({ first, last }) =>
          timeline.slice(first, last + 1).filter(({ type }) => type !== 'note'),
        );
        expect(held).toEqual(timeline.filter(({ type }) => type !== 'note'));
        for (const { kind, first, last } of sittings) if (kind !== 'found' && kind !== 'told') expect(first).toBe(last);
      }),
    );
  });
});
