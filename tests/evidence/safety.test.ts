/** Resistance before voltage before image, and the first power current-limited. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Gathered } from '../../src/evidence/evidence.ts';
import { gatherEvidence } from '../../src/evidence/gather.ts';
import { LIMITED_CHECKS } from '../../src/evidence/safety.ts';
import type { Event } from '../../src/record/schema.ts';
import type { Shop } from '../../src/shop/schema.ts';
import { arrived, measured, record, SHOP, seen, THREE_RAILS, treated } from './three-rails.ts';

async function gathered(timeline: readonly Event[], shop: Shop = SHOP): Promise<Gathered> {
  const result = await gatherEvidence(THREE_RAILS, shop, record(...timeline));
  if (result.kind !== 'gathered') throw new Error(JSON.stringify(result.issues));
  return result.gathered;
}
const reasons = async (check: string, timeline: readonly Event[], shop?: Shop): Promise<readonly string[]> =>
  (await gathered(timeline, shop)).closedChecks.get(check) ?? [];

const CARD = arrived({ 'die-size': 'large', 'second-core-rail': false });
const RAILS = [seen('resistance-core', 'normal'), seen('resistance-memory', 'low')];
const LIMITED = seen('idle-input-current', 'normal');

describe('no power before the rails are known not to be short', () => {
  test('names every rail that is missing', async () => {
    const [reason] = await reasons('boot-test', [CARD]);
    expect(reason).toBe('No power before these are known not to be short: The resistance-core, The resistance-memory.');
  });

  test('asks for the second core rail until the card is known to have none', async () => {
    const unknown = await reasons('idle-current', [arrived({ 'die-size': 'large' }), ...RAILS]);
    expect(unknown).toEqual([
      'No power before these are known not to be short: The resistance-core-second (The resistance-core-second: unless the card has none; say so).',
    ]);
    expect(await reasons('idle-current', [arrived({ 'second-core-rail': true }), ...RAILS])).toEqual([
      'No power before these are known not to be short: The resistance-core-second.',
    ]);
    expect(await reasons('idle-current', [CARD, ...RAILS])).toEqual([]);
  });

  test('"can\'t tell" is unknown, and so is what only the owner says', async () => {
    for (const doubt of [seen('resistance-core', null), seen('resistance-core', 'normal', 'owner')]) {
      const [reason] = await reasons('idle-current', [CARD, doubt, seen('resistance-memory', 'normal')]);
      expect(reason).toContain('The resistance-core');
    }
  });

  test('an answer taken back makes the rail unknown again', async () => {
    const [reason] = await reasons('idle-current', [CARD, ...RAILS, seen('resistance-core', null)]);
    expect(reason).toContain('No power before');
  });

  test('a short rail closes power, however it was found', async () => {
    for (const short of [seen('resistance-core', 'short'), measured('resistance-core', '0')]) {
      expect(await reasons('idle-current', [CARD, ...RAILS, short])).toEqual([
        'No power while a rail is short to ground: The resistance-core.',
      ]);
    }
    expect(await reasons('idle-current', [CARD, ...RAILS, measured('resistance-core', '0.31')])).toEqual([]);
  });

  test('a rail that is rather short than not is short; an even split, as on the edge itself, still lets limited power on', async () => {
    const rather = (short: number): Event => ({
      ...(seen('resistance-core', null) as Extract<Event, { type: 'seen' }>),
      weights: { normal: 1 - short, short },
    });
    expect(await reasons('idle-current', [CARD, ...RAILS, rather(0.5)])).toEqual([]);
    expect(await reasons('idle-current', [CARD, ...RAILS, rather(0.51)])).toEqual([
      'No power while a rail is short to ground: The resistance-core.',
    ]);
  });

  test('what a check needs must be rather so than not', async () => {
    const detected = (share: number): Event => ({
      ...(seen('start-up', null) as Extract<Event, { type: 'seen' }>),
      weights: { 'no-image': share, 'rails-missing': 1 - share },
    });
    const ready = [CARD, ...RAILS, LIMITED];
    expect(await reasons('memory-test', [...ready, detected(0.51)])).toEqual([]);
    expect(await reasons('memory-test', [...ready, detected(0.49)])).toEqual(['The card must be detected.']);
  });

  test('a reading that no window can judge has not been taken', async () => {
    const timeline = [
      arrived({ 'second-core-rail': false }),
      measured('resistance-core', '0.31'),
      seen('resistance-memory', 'normal'),
    ];
    const { closedChecks, setAside } = await gathered(timeline);
    expect(closedChecks.get('idle-current')?.[0]).toContain('The resistance-core');
    expect(setAside).toEqual([
      {
        finding: 'resistance-core',
        path: 'timeline.1',
        because: 'What this reading should be depends on what is not known yet: Die size.',
      },
    ]);
  });

  test('a knowledge that names no rails opens nothing', async () => {
    const knowledge = { ...THREE_RAILS, checks: THREE_RAILS.checks.filter(({ id }) => id !== 'rail-resistances') };
    const result = await gatherEvidence(knowledge, SHOP, record(CARD, ...RAILS, LIMITED));
    if (result.kind !== 'gathered') throw new Error();
    expect(result.gathered.closedChecks.get('boot-test')?.[0]).toContain('nothing here says which rails');
  });

  test('unpowered checks stay open', async () => {
    const { closedChecks } = await gathered([CARD]);
    expect(closedChecks.has('cooler-off')).toBe(false);
    expect(closedChecks.has('rail-resistances')).toBe(false);
  });
});

describe('first power from a supply that limits its current', () => {
  test('opens the limited checks with the rails, and the others after one of them', async () => {
    expect(await reasons('idle-current', [CARD, ...RAILS])).toEqual([]);
    expect(await reasons('rails-on-limited-supply', [CARD, ...RAILS])).toEqual([]);
    const [first] = await reasons('boot-test', [CARD, ...RAILS]);
    expect(first).toContain(
      'First power only from a current-limited supply: do "Check rails-on-limited-supply" or "Check idle-current" first.',
    );
    expect(await reasons('boot-test', [CARD, ...RAILS, LIMITED])).toEqual([]);
    expect(await reasons('boot-test', [CARD, ...RAILS, measured('voltage-core', '0.85')])).toEqual([]);
  });

  test('an idle current nobody could read has not been taken', async () => {
    expect(await reasons('boot-test', [CARD, ...RAILS, seen('idle-input-current', null)])).toHaveLength(1);
  });

  test('a bench without such a supply is told so, and powers nothing', async () => {
    const shop = { ...SHOP, equipment: [] };
    expect(await reasons('idle-current', [CARD, ...RAILS], shop)).toEqual([
      'Not on this bench: Current-limited bench supply.',
    ]);
    expect(await reasons('boot-test', [CARD, ...RAILS], shop)).not.toEqual([]);
  });
});

describe('work on the card', () => {
  test('makes its rails unknown and its next power the first again', async () => {
    const before = [CARD, ...RAILS, LIMITED];
    expect(await reasons('boot-test', before)).toEqual([]);
    const after = [...before, treated('reflow-core')];
    expect(await reasons('boot-test', after)).toEqual([
      'No power before these are known not to be short: The resistance-core, The resistance-memory.',
      'First power only from a current-limited supply: do "Check rails-on-limited-supply" or "Check idle-current" first.',
    ]);
    expect(await reasons('boot-test', [...after, ...RAILS])).toHaveLength(1);
    expect(await reasons('boot-test', [...after, ...RAILS, LIMITED])).toEqual([]);
  });
});

describe('over any record at all', () => {
  const state = { rail: ['normal', 'high', 'low', 'short', null], current: ['normal', 'high', null] };
  const rails = ['resistance-core', 'resistance-core-second', 'resistance-memory'];
  const event: fc.Arbitrary<Event> = fc.oneof(
    fc
      .record({
        rail: fc.constantFrom(...rails),
        state: fc.constantFrom(...state.rail),
        by: fc.constantFrom('bench' as const, 'owner' as const),
      })
      .map(({ rail, state, by }) => seen(rail, state, by)),
    fc
      .record({ rail: fc.constantFrom(...rails), typed: fc.constantFrom('0', '0.02', '0.03', '0.31', '5', 'OL') })
      .map(({ rail, typed }) => measured(rail, typed)),
    fc
      .record({ state: fc.constantFrom(...state.current), by: fc.constantFrom('bench' as const, 'owner' as const) })
      .map(({ state, by }) => seen('idle-input-current', state, by)),
    fc.constantFrom(...(['desktop', 'no-image', 'rails-missing'] as const)).map((image) => seen('start-up', image)),
    fc.constant(treated('reflow-core')),
    fc
      .record({ second: fc.constantFrom(true, false, null), die: fc.constantFrom('large', 'small', null) })
      .map(({ second, die }) => arrived({ 'second-core-rail': second, 'die-size': die })),
  );

  const shorts = (rail: string, die: string): readonly string[] =>
    rail === 'resistance-memory'
      ? ['0', '0.02', '0.03', '0.31']
      : die === 'small' && rail === 'resistance-core'
        ? ['0', '0.02', '0.03']
        : ['0', '0.02'];
  const start = fc.constantFrom<readonly Event[]>([], [CARD, ...RAILS], [CARD, ...RAILS, LIMITED]);

  test('never offers a powered check before the rails are known not to be short', async () => {
    let offered = 0;
    await fc.assert(
      fc.asyncProperty(start, fc.array(event, { maxLength: 10 }), async (sound, random) => {
        const timeline = [...sound, ...random];
        const { closedChecks } = await gathered(timeline);
        const open = THREE_RAILS.checks.filter(({ id, powers }) => powers && !closedChecks.has(id)).map(({ id }) => id);
        if (open.length === 0) return;
        offered += 1;
        const present = timeline.slice(timeline.findLastIndex(({ type }) => type === 'treated') + 1);
        const facts = Object.assign({}, ...timeline.map((e) => (e.type === 'arrived' ? e.facts : {})));
        const last = (finding: string) =>
          present.findLast((e) =>
            e.type === 'measured'
              ? e.finding === finding
              : e.type === 'seen' && e.by === 'bench' && e.finding === finding,
          );
        const needed = rails.filter((rail) => rail !== 'resistance-core-second' || facts['second-core-rail'] !== false);
        for (const rail of needed) {
          const observed = last(rail);
          if (observed?.type === 'seen') expect(observed.state).toMatch(/normal|high|low/);
          // of the numbers tried, these lie below the edge of short: 0.03 ohm on a large die, 0.1 ohm on a small one
          else if (observed?.type === 'measured') expect(shorts(rail, facts['die-size'])).not.toContain(observed.typed);
          else expect.fail(`${rail} was never measured since the last work, yet ${open.join(', ')} is offered`);
        }
        if (open.some((check) => !LIMITED_CHECKS.includes(check))) {
          const limited = last('idle-input-current');
          expect(limited?.type === 'seen' && limited.state).toBeTruthy();
        }
      }),
      { seed: 17, numRuns: 2000 },
    );
    // the law must not hold for want of cases
    expect(offered).toBeGreaterThan(200);
  });
});
