/** The knowledge as it stands in rules/, over cards of every class. */
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Gathered } from '../../src/evidence/evidence.ts';
import { gatherEvidence } from '../../src/evidence/gather.ts';
import { LIMITED_CHECKS, railsOf } from '../../src/evidence/safety.ts';
import type { Knowledge } from '../../src/knowledge/knowledge.ts';
import { loadKnowledge, loadShop } from '../../src/knowledge/load.ts';
import type { FactDefinition } from '../../src/knowledge/schema.ts';
import type { Event, FactAnswers } from '../../src/record/schema.ts';
import type { Shop } from '../../src/shop/schema.ts';
import { arrived, measured, record, seen } from './three-rails.ts';

let knowledge: Knowledge;
let shop: Shop;
beforeAll(async () => {
  const [rules, profile] = await Promise.all([loadKnowledge(), loadShop()]);
  if (!rules.ok || !profile.ok) throw new Error(JSON.stringify([rules, profile], null, 1));
  knowledge = rules.knowledge;
  shop = { ...profile.shop, equipment: knowledge.bench.equipment.map(({ id }) => id) };
});

async function gathered(timeline: readonly Event[]): Promise<Gathered> {
  const result = await gatherEvidence(knowledge, shop, record(...timeline));
  if (result.kind !== 'gathered') throw new Error(JSON.stringify(result.issues));
  return result.gathered;
}

/** Any answers to what a record can answer: each fact known or not. */
function anyFacts(definitions: readonly FactDefinition[]): fc.Arbitrary<FactAnswers> {
  const asked = definitions.filter(({ step }) => step !== 'derived');
  const each = asked.map(({ id, type }) =>
    fc.option(anyAnswer(type), { nil: undefined }).map((answer) => ({ id, answer })),
  );
  return fc.tuple(...each).map((answers) => {
    const facts: FactAnswers = {};
    for (const { id, answer } of answers) if (answer !== undefined) facts[id] = answer;
    return facts;
  });
}

function anyAnswer(type: FactDefinition['type']): fc.Arbitrary<FactAnswers[string]> {
  switch (type.kind) {
    case 'yes-no':
      return fc.boolean();
    case 'number':
      return type.whole
        ? fc.integer({ min: type.min, max: type.max })
        : fc.double({ min: type.min, max: type.max, noNaN: true });
    case 'choice':
      return fc.constantFrom(...type.values.map(({ id }) => id));
    case 'set':
      return fc.subarray(type.values.map(({ id }) => id));
  }
}

describe('windows', () => {
  test('whatever is known of a card, each reading that concerns it has exactly one window', async () => {
    const read = [...new Set(knowledge.windows.map(({ finding }) => finding))];
    await fc.assert(
      fc.asyncProperty(anyFacts(knowledge.facts), async (facts) => {
        const { windows, applicable } = await gathered([arrived(facts)]);
        const without = read.filter((finding) => applicable.has(finding) && !windows.has(finding));
        expect(without).toEqual([]);
      }),
      { seed: 41, numRuns: 300 },
    );
  });

  test('a third of an ohm on the core rail is sound on a large die and not on a small one', async () => {
    const core = async (die: string) =>
      (
        await gathered([arrived({ 'die-size': die }), measured('resistance-core', '0.31', { leads: '0' })])
      ).findings.find(({ finding }) => finding === 'resistance-core')?.state;
    expect(await core('large')).toBe('normal');
    expect(await core('small')).not.toBe('normal');
  });

  test('an open rail reads as high, never as short', async () => {
    for (const { id } of railsOf(knowledge)) {
      const { findings } = await gathered([measured(id, 'OL')]);
      expect(findings.find(({ finding }) => finding === id)?.state).toBe('high');
    }
  });
});

describe('power', () => {
  test('every check that powers the card is closed on a card nobody has measured, whatever is known of it', async () => {
    const powered = knowledge.checks.filter(({ powers }) => powers).map(({ id }) => id);
    expect(powered).toEqual(expect.arrayContaining(['boot-test', 'host-swap', 'memory-test', ...LIMITED_CHECKS]));
    await fc.assert(
      fc.asyncProperty(anyFacts(knowledge.facts), async (facts) => {
        const { closedChecks } = await gathered([arrived(facts)]);
        for (const check of powered) expect(closedChecks.get(check)?.[0]).toMatch(/^No power/);
      }),
      { seed: 42, numRuns: 100 },
    );
  });

  test('one rail left out, unsure or short keeps every powered check closed', async () => {
    const rails = railsOf(knowledge).map(({ id }) => id);
    const powered = knowledge.checks.filter(({ powers }) => powers).map(({ id }) => id);
    const card = arrived({ 'second-core-rail': true, 'power-connectors': 'two-or-more' });
    const sound = rails.map((rail) => seen(rail, 'normal'));
    const looked = seen('look-board', 'clean');
    expect((await gathered([card, looked, ...sound])).closedChecks.get('idle-current')).toBeUndefined();
    for (const [index, rail] of rails.entries()) {
      for (const spoilt of [[], [seen(rail, null)], [seen(rail, 'short')], [seen(rail, 'normal', 'owner')]]) {
        const { closedChecks } = await gathered([card, looked, ...sound.toSpliced(index, 1, ...spoilt)]);
        for (const check of powered) expect(closedChecks.get(check)?.[0], `${check} with ${rail}`).toMatch(/^No power/);
      }
    }
  });

  test('a core rail that reads open or in kilohms was not measured: power waits until it is taken again', async () => {
    const rails = railsOf(knowledge).map(({ id }) => id);
    const powered = knowledge.checks.filter(({ powers }) => powers).map(({ id }) => id);
    const card = arrived({ 'die-size': 'large', 'second-core-rail': true, 'power-connectors': 'two-or-more' });
    const others = rails.filter((rail) => rail !== 'resistance-core').map((rail) => seen(rail, 'normal'));
    const looked = seen('look-board', 'clean');
    for (const typed of ['OL', '12k']) {
      const missed = [card, looked, ...others, measured('resistance-core', typed)];
      const { closedChecks } = await gathered(missed);
      for (const check of powered)
        expect(closedChecks.get(check)?.[0], check).toMatch(/^No power on a reading that no such rail shows/);
      const again = await gathered([...missed, measured('resistance-core', '0.31')]);
      expect(again.closedChecks.has('idle-current')).toBe(false);
    }
    // other rails do read open: a blown fuse, a rail that this card does not use
    const open = await gathered([
      card,
      looked,
      ...rails.map((rail) => (rail === 'resistance-5v' ? measured(rail, 'OL') : seen(rail, 'normal'))),
    ]);
    expect(open.closedChecks.has('idle-current')).toBe(false);
  });

  test('with any rail short, no work is on offer that lifts no short and would be tried by powering it', async () => {
    const card = arrived({ 'second-core-rail': true, 'power-connectors': 'two-or-more' });
    for (const { id } of railsOf(knowledge)) {
      const { closedRemedies } = await gathered([card, seen(id, 'short')]);
      for (const remedy of ['thermal-service', 'replace-fans', 'reflash-firmware', 'replace-clock'])
        expect(closedRemedies.get(remedy)?.join(), `${remedy} with ${id} short`).toContain('A rail is short to ground');
      expect(closedRemedies.has('remove-shorted-capacitor')).toBe(false);
    }
  });

  test('with sound rails the limited checks open first, and the boot test after one of them', async () => {
    const sound = [seen('look-board', 'clean'), ...railsOf(knowledge).map(({ id }) => seen(id, 'normal'))];
    const first = await gathered(sound);
    expect(LIMITED_CHECKS.filter((check) => first.closedChecks.has(check))).toEqual([]);
    expect(first.closedChecks.get('boot-test')?.[0]).toMatch(/^First power only/);
    const second = await gathered([...sound, seen('idle-input-current', 'normal')]);
    expect(second.closedChecks.has('boot-test')).toBe(false);
    expect(second.closedChecks.has('host-swap')).toBe(false);
  });
});

describe('safety of what was seen', () => {
  const powered = () => knowledge.checks.filter(({ powers }) => powers).map(({ id }) => id);
  const readyForPower = () => [
    arrived({ 'second-core-rail': true, 'power-connectors': 'two-or-more' }),
    seen('look-board', 'clean'),
    ...railsOf(knowledge).map(({ id }) => seen(id, 'normal')),
    seen('idle-input-current', 'normal'),
    seen('start-up', 'desktop'),
    seen('rail-sequence', 'stops-part-way'),
  ];

  test('a rail above tolerance closes every check that powers the card', async () => {
    for (const rail of ['core', 'core-second', 'memory', 'pcie-rail', '1v8', '5v'])
      for (const state of ['high', 'far-above']) {
        const { closedChecks, cautions } = await gathered([...readyForPower(), seen(`voltage-${rail}`, state)]);
        for (const check of powered())
          expect(closedChecks.get(check)?.join(' '), `${check} with ${rail} ${state}`).toMatch(/above tolerance/);
        expect(cautions).toContain('overvoltage-stop');
      }
  });

  test('a board without one of its power stages is not powered', async () => {
    for (const state of ['recovers', 'still-low', 'still-short']) {
      const { closedChecks } = await gathered([...readyForPower(), seen('stage-removed', state)]);
      for (const check of powered()) expect(closedChecks.get(check)?.join(' '), check).toMatch(/power stage is off/);
    }
  });

  test('a wet board is powered once it has been washed, whatever it looked like when it came', async () => {
    const wet = (cleaned: boolean | null) => [
      arrived({ liquid: true, 'board-cleaned': cleaned }),
      seen('look-board', 'corroded'),
      ...railsOf(knowledge).map(({ id }) => seen(id, 'normal')),
    ];
    for (const cleaned of [null, false]) {
      const { closedChecks } = await gathered(wet(cleaned));
      for (const check of powered()) {
        const told = closedChecks.get(check)?.filter((reason) => /dry it through/.test(reason));
        expect(told, `${check}: told once`).toHaveLength(1);
      }
    }
    // nobody knows of liquid, and still it is corroded
    for (const liquid of [null, false]) {
      const { closedChecks } = await gathered([arrived({ liquid }), ...wet(null).slice(1)]);
      for (const check of powered())
        expect(closedChecks.get(check)?.join(' '), check).toMatch(/corroded.*dry it through/);
    }
    const { closedChecks, findings } = await gathered(wet(true));
    for (const check of LIMITED_CHECKS) expect(closedChecks.get(check)).toBeUndefined();
    expect(findings.find(({ finding }) => finding === 'look-board')?.state).toBe('corroded');
  });
});

describe('rules', () => {
  test('every finding seen in any state, on any card, is gathered without a hitch', async () => {
    await fc.assert(
      fc.asyncProperty(
        anyFacts(knowledge.facts),
        fc.array(fc.tuple(fc.nat(), fc.nat(), fc.boolean()), { maxLength: 25 }),
        async (facts, picks) => {
          const observed = picks.map(([f, s, bench]) => {
            const { id, states } = knowledge.findings[f % knowledge.findings.length]!;
            return seen(id, states[s % states.length]!.id, bench ? 'bench' : 'owner');
          });
          const result = await gathered([arrived(facts), ...observed]);
          for (const { weights } of result.findings) {
            expect(Math.max(...weights)).toBe(1);
            expect(Math.min(...weights)).toBeGreaterThanOrEqual(0);
          }
          for (const { factor } of result.history) expect(factor).toBeGreaterThan(0);
        },
      ),
      { seed: 43, numRuns: 200 },
    );
  });
});
