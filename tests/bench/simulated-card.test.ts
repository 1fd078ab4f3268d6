import { beforeAll, describe, expect, it } from 'vitest';
import { conditionSet } from '../../src/decision/condition-set.ts';
import { describeCourse, describeStop } from '../../src/decision/plan.ts';
import { createRandom } from '../../src/decision/random.ts';
import type { Id } from '../../src/knowledge/schema.ts';
import { fullKnowledge } from './arrived-card.ts';
import { exampleShop } from './assessment.ts';
import { createKnowing, type Knowing, modelOf, unseen, visit, type World, worldOf } from './bench-visit.ts';
import { disturbed } from './disturbed-knowledge.ts';
import { type Dice, drawCard, type SimulatedCard } from './simulated-card.ts';
import { diagnosed } from './tool-advice.ts';
import { createMinds, flowBySymptom, mostProbableFirst } from './ways-of-working.ts';

const MIDDLE = 1;
let world: World;
let knowing: Knowing;

beforeAll(async () => {
  world = worldOf(await fullKnowledge(), await exampleShop());
  knowing = createKnowing(world);
});

const faults = (...ids: Id[]) => ids.map((id) => world.faultAt.get(id)!);

/** Cards that all have the same faults; only their dice differ. */
function cardsWith(ids: readonly Id[], count: number, seed: number): SimulatedCard[] {
  const random = createRandom(seed);
  const uniform = (length: number) => Float64Array.from({ length }, () => random.next());
  const finding = new Float64Array(world.truth.findings.length * (world.truth.faults.length + 1));
  return Array.from({ length: count }, (_, number) => {
    const dice: Dice = {
      finding,
      remedy: uniform(world.truth.remedies.length * world.truth.faults.length),
      harm: new Float64Array(world.truth.checks.length).fill(1),
      relapse: uniform(world.truth.faults.length),
      newFault: random.next(),
    };
    return { number, stratum: MIDDLE, faults: faults(...ids), ownerSays: 0, dice };
  });
}

describe('a simulated card', () => {
  it.each([
    [['memory-chip-failed'], ['replace-memory-chip']],
    [['core-bump-fracture', 'paste-degraded'], ['reflow-core']],
    [
      ['firmware-corrupt', 'fan-failed'],
      ['reflash-firmware', 'replace-fans'],
    ],
    [[], ['reball-core-leaded']],
  ])('with %j earns after %j what the formula of the plan says', async (ids, steps) => {
    const model = await modelOf(world, knowing, MIDDLE);
    const set = conditionSet([{ active: faults(...ids), dormant: [] }]);
    const at = steps.map((step) => model.treatments.findIndex(({ id }) => id === step));
    const plan = describeCourse(model, set, Float64Array.of(1), at);
    const cards = cardsWith(ids, 3000, 11);
    const went = await Promise.all(cards.map((card) => visit(world, knowing, card).treat(steps)));
    const mean = (of: (ended: (typeof went)[number]) => number) => went.reduce((sum, one) => sum + of(one), 0) / 3000;
    const spread = Math.sqrt(mean(({ surplus }) => surplus ** 2) - mean(({ surplus }) => surplus) ** 2);
    const fourErrors = (deviation: number) => 4 * (deviation / Math.sqrt(3000)) + 1e-9;
    const { works, held } = plan.chances;
    expect(Math.abs(mean((one) => Number(one.works)) - works)).toBeLessThan(fourErrors(Math.sqrt(works * (1 - works))));
    expect(Math.abs(mean((one) => Number(one.holds)) - held)).toBeLessThan(fourErrors(Math.sqrt(held * (1 - held))));
    expect(Math.abs(mean(({ surplus }) => surplus) - plan.surplus)).toBeLessThan(fourErrors(spread));
    expect(Math.abs(mean((one) => one.surplus - one.surplusLessMargin) - plan.margin)).toBeLessThan(
      fourErrors(world.shop.margin.shareOfCost * spread),
    );
  });

  it.each([
    ['return', []],
    ['return', ['memory-chip-failed']],
    ['leave-as-it-is', ['memory-chip-failed']],
    ['part-out', []],
  ])('earns by %s with %j what the formula of the stop says', async (id, ids) => {
    const model = await modelOf(world, knowing, MIDDLE);
    const set = conditionSet([{ active: faults(...ids), dormant: [] }]);
    const stop = describeStop(
      model,
      set,
      Float64Array.of(1),
      model.stops.findIndex((each) => each.id === id),
    );
    const went = cardsWith(ids, 3000, 12).map((card) => visit(world, knowing, card).stop(id).surplus);
    const mean = went.reduce((sum, one) => sum + one, 0) / went.length;
    const spread = Math.sqrt(went.reduce((sum, one) => sum + (one - mean) ** 2, 0) / went.length);
    expect(Math.abs(mean - stop.surplus)).toBeLessThan((4 * spread) / Math.sqrt(3000) + 1e-9);
  });

  it('shows each state as often as the knowledge says', async () => {
    const prior = diagnosed(world.truth, (await knowing(unseen(world, MIDDLE))).gathered).prior;
    const said = new Float64Array(8);
    for (let number = 0; number < 800; number++) {
      const { ownerSays } = drawCard(world.truth, prior, MIDDLE, number, createRandom(number));
      said[ownerSays] = said[ownerSays]! + 1;
    }
    // P(said) by the evidence itself: the chance of an owner's word for each state, scaled to one
    const chances = await Promise.all(
      Array.from(said, async (_, ownerSays) =>
        Math.exp(diagnosed(world.truth, (await knowing({ ...unseen(world, MIDDLE), ownerSays })).gathered).logChance),
      ),
    );
    const total = chances.reduce((sum, chance) => sum + chance, 0);
    const chiSquared = chances.reduce((sum, chance, state) => {
      const expected = (800 * chance) / total;
      return sum + (said[state]! - expected) ** 2 / expected;
    }, 0);
    // 7 degrees of freedom: 24.3 is passed once in a thousand (any table of chi-squared)
    expect(chiSquared).toBeLessThan(24.3);
  });

  it('is never powered before its resistances are known', async () => {
    const [card] = cardsWith(['memory-chip-failed'], 1, 13);
    const here = visit(world, knowing, card!);
    await expect(here.check('boot-test')).rejects.toThrow(/"boot-test" is closed here: No power before/);
    await here.check('rail-resistances');
    await expect(here.check('boot-test')).rejects.toThrow(/First power only from a current-limited supply/);
    await expect(here.check('rails-on-limited-supply')).rejects.toThrow(/Look the board over before the first power/);
    await here.check('visual-inspection');
    await here.check('rails-on-limited-supply');
    await here.check('boot-test');
    expect(here.saw('start-up')).toBeDefined();
  });

  it('meets every way of working with the order of safety kept', async () => {
    const prior = diagnosed(world.truth, (await knowing(unseen(world, MIDDLE))).gathered).prior;
    const minds = createMinds(world.truth, world);
    for (let number = 0; number < 60; number++) {
      const card = drawCard(world.truth, prior, MIDDLE, number, createRandom(500 + number));
      // a closed check throws
      await flowBySymptom(visit(world, knowing, card), world, card);
      await mostProbableFirst(visit(world, knowing, card), minds, world, card);
    }
  });
});

describe('disturbed knowledge', () => {
  it('still has rows that sum to one and effects that leave something over', () => {
    const { findings, remedies, faults: shares } = disturbed(world.truth, createRandom(3), 1);
    for (const { leak, given } of findings)
      for (const { p } of [leak, ...Object.values(given)])
        expect(Object.values(p).reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 12);
    for (const { effects } of remedies)
      for (const { cures, masks } of Object.values(effects)) expect(cures.p + (masks?.p ?? 0)).toBeLessThanOrEqual(1);
    expect(shares.filter(({ share }, at) => share.p === world.truth.faults[at]!.share.p)).toEqual([]);
  });
});
