import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ATTRIBUTIONS, attribute } from '../../src/belief/attribute.ts';
import { enumerate } from '../../src/belief/conditions.ts';
import { lookAt, observeFold } from '../../src/belief/fold-observe.ts';
import type { Network } from '../../src/belief/network.ts';
import { posterior } from '../../src/belief/observe.ts';
import { failedBy, failedOnDay, type Service, stillWorking, survives } from '../../src/belief/serve.ts';
import { activeChancesOf, beginFold, type Fold, trajectoriesOf } from '../../src/belief/trajectory.ts';
import { type Remedy, treat } from '../../src/belief/treat.ts';

const FAULTS = 3;
const host = [0, 0, 1];
const must = (fold: Fold | null): Fold => {
  if (!fold) throw new Error('a contradiction where none was expected');
  return fold;
};
const total = (fold: Fold) => trajectoriesOf(fold).reduce((sum, trajectory) => sum + trajectory.chance, 0);

/** Every set of three faults with the given odds. */
function foldOf(odds: readonly number[]): Fold {
  const network: Network = { faults: ['a', 'b', 'host'], findings: [] };
  const observed = posterior(network, odds, [], FAULTS);
  if (observed.kind !== 'belief') throw new Error('no belief');
  return beginFold(observed.belief, 0, 0);
}

type Now = 'absent' | 'active' | 'dormant';
interface World {
  readonly now: readonly Now[];
  readonly chance: number;
}

/** The referee: worlds as plain lists of states, one fault after the other, nothing merged and nothing shared with the product. */
function worldsOf(odds: readonly number[]): World[] {
  let worlds: World[] = [{ now: [], chance: 1 }];
  for (const o of odds) {
    worlds = worlds.flatMap(({ now, chance }) => [
      { now: [...now, 'absent' as const], chance: chance / (1 + o) },
      { now: [...now, 'active' as const], chance: (chance * o) / (1 + o) },
    ]);
  }
  return worlds;
}

function treatWorlds(worlds: readonly World[], remedy: Remedy, worked: boolean | null): World[] {
  return worlds
    .flatMap(({ now, chance }) => {
      let after: World[] = [{ now: [], chance }];
      now.forEach((state, fault) => {
        const [c, m, i] = [remedy.cures[fault]!, remedy.masks[fault]!, remedy.induces[fault]!];
        const asleep = remedy.latent?.[fault] ?? 0;
        const fates: [Now, number][] =
          state === 'active'
            ? [
                ['absent', c],
                ['dormant', m],
                ['active', 1 - c - m],
              ]
            : state === 'dormant'
              ? [
                  ['absent', c],
                  ['dormant', 1 - c],
                ]
              : [
                  ['absent', 1 - i],
                  ['active', i * (1 - asleep)],
                  ['dormant', i * asleep],
                ];
        after = after.flatMap((world) =>
          fates.map(([next, p]) => ({ now: [...world.now, next], chance: world.chance * p })),
        );
      });
      return after;
    })
    .filter(
      ({ now }) => worked === null || now.every((state, fault) => state !== 'active' || host[fault] === 1) === worked,
    );
}

const activeIn = (worlds: readonly World[]) => {
  const sum = worlds.reduce((all, world) => all + world.chance, 0);
  return Array.from(
    { length: FAULTS },
    (_, fault) =>
      worlds.filter(({ now }) => now[fault] === 'active').reduce((all, world) => all + world.chance, 0) / sum,
  );
};

const chance = fc.integer({ min: 1, max: 400 }).map((k) => k / 1000);
const remedyOf = fc
  .record({
    cures: fc.tuple(chance, chance, chance),
    masks: fc.tuple(chance, chance, chance),
    induces: fc.tuple(chance, chance),
    latent: fc.option(chance, { nil: null }),
  })
  .map(
    ({ cures, masks, induces, latent }): Remedy => ({
      cures: [cures[0], cures[1], 0],
      masks: [masks[0], masks[1], 0],
      induces: [induces[0], induces[1], 0],
      ...(latent === null ? {} : { latent: [0, latent, 0] }),
    }),
  );
const oddsOf = fc.tuple(chance, chance, chance);

describe('a card through two treatments', () => {
  it('agrees with every world walked one by one', () => {
    fc.assert(
      fc.property(
        oddsOf,
        remedyOf,
        remedyOf,
        fc.constantFrom(true, false, null),
        fc.constantFrom(true, false, null),
        (odds, first, second, one, two) => {
          const fold = must(treat(must(treat(foldOf(odds), first, one, host)), second, two, host));
          const worlds = treatWorlds(treatWorlds(worldsOf(odds), first, one), second, two);
          const expected = activeIn(worlds);
          for (const [fault, value] of activeChancesOf(fold, FAULTS).entries())
            expect(Math.abs(value - expected[fault]!)).toBeLessThan(1e-10);
          expect(fold.logChance).toBeCloseTo(Math.log(worlds.reduce((sum, world) => sum + world.chance, 0)), 10);
          expect(total(fold)).toBeCloseTo(1, 12);
          expect(fold.pruned).toBeLessThan(1e-12);
        },
      ),
      { seed: 20261125, numRuns: 60 },
    );
  });

  it('is the same card after a remedy that does nothing, tested or not', () => {
    const nothing: Remedy = { cures: [0, 0, 0], masks: [0, 0, 0], induces: [0, 0, 0] };
    const fold = foldOf([0.3, 0.2, 0.1]);
    const before = activeChancesOf(fold, FAULTS);
    for (const [fault, value] of activeChancesOf(must(treat(fold, nothing, null, host)), FAULTS).entries())
      expect(value).toBeCloseTo(before[fault]!, 12);
  });

  it('sees the same finding as new evidence afterwards, and only through what is active', () => {
    const network: Network = {
      faults: ['a', 'b', 'host'],
      findings: [
        {
          id: 'x',
          states: ['normal', 'odd'],
          leak: new Float64Array([0.9, 1]),
          given: [{ fault: 0, cumulative: new Float64Array([0.2, 1]) }],
        },
      ],
    };
    const masksA: Remedy = { cures: [0, 0, 0], masks: [1, 0, 0], induces: [0, 0, 0] };
    const fold = must(treat(foldOf([1, 0.2, 0.1]), masksA, true, host));
    const seen = must(observeFold(lookAt(fold, network, [{ finding: 0, weights: new Float64Array([1, 0]) }])));
    // a is dormant wherever it was there: the finding tells nothing
    for (const trajectory of trajectoriesOf(seen)) {
      const same = trajectoriesOf(fold).find(
        (other) => JSON.stringify([other.before, other.now]) === JSON.stringify([trajectory.before, trajectory.now]),
      )!;
      expect(trajectory.chance).toBeCloseTo(same.chance, 12);
    }
    expect(seen.logChance - fold.logChance).toBeCloseTo(Math.log(0.9), 12);
  });
});

describe('time in service', () => {
  const service: Service = {
    relapse: [{ medianDays: 30, shape: 1.2 }, { medianDays: 200, shape: 1.5 }, null],
    newPerDay: [1e-4, 2e-4, 0],
    host,
  };
  const heat: Remedy = { cures: [0.05, 0.6, 0], masks: [0.5, 0.3, 0], induces: [0.02, 0.01, 0] };

  it('lets an early failure point at the fault that comes back soon', () => {
    const out = must(treat(foldOf([0.2, 0.2, 0.05]), heat, true, host));
    const early = activeChancesOf(must(failedOnDay(out, 14, service)), FAULTS);
    const late = activeChancesOf(must(failedOnDay(out, 250, service)), FAULTS);
    expect(early[0]!).toBeGreaterThan(0.7);
    expect(late[1]!).toBeGreaterThan(early[1]!);
  });

  it('never raises the chance of a masked fault by longer survival', () => {
    const out = must(treat(foldOf([0.2, 0.2, 0.05]), heat, true, host));
    const dormant = (fold: Fold, fault: number) =>
      trajectoriesOf(fold)
        .filter(({ now }) => now.some((member) => member.fault === fault && member.standing === 'dormant'))
        .reduce((sum, { chance: c }) => sum + c, 0);
    let before = [1, 1];
    for (const days of [0, 5, 20, 60, 120, 400]) {
      const fold = must(stillWorking(out, days, service));
      const now = [dormant(fold, 0), dormant(fold, 1)];
      // fault 0 relapses soonest, so its share falls; of fault 1 the share among cards without fault 0 does
      expect(now[0]!).toBeLessThanOrEqual(before[0]! + 1e-12);
      before = now;
    }
  });

  it('never raises by longer survival that anything sleeps, nor any masked fault against a sound card, whatever laws do not slacken', () => {
    const law = fc.record({
      medianDays: fc.integer({ min: 2, max: 900 }),
      shape: fc.integer({ min: 10, max: 35 }).map((tenths) => tenths / 10),
    });
    fc.assert(
      fc.property(oddsOf, remedyOf, law, law, (odds, remedy, first, second) => {
        const out = treat(foldOf(odds), remedy, true, host);
        if (out === null) return;
        const only: Service = { relapse: [first, second, null], newPerDay: [0, 0, 0], host };
        let before: readonly number[] | null = null;
        for (const days of [0, 0.5, 3, 20, 60, 120, 400, 2000]) {
          const fold = stillWorking(out, days, only);
          if (fold === null) return;
          const asleep = (is: (fault: number) => boolean) =>
            trajectoriesOf(fold)
              .filter(({ now }) =>
                now.some(({ fault, standing }) => ['dormant', 'latent'].includes(standing) && is(fault)),
              )
              .reduce((sum, { chance: share }) => sum + share, 0);
          const any = asleep(() => true);
          const now = [any, ...[0, 1].map((one) => asleep((fault) => fault === one) / (1 - any))];
          now.forEach((share, at) => {
            expect(share).toBeLessThanOrEqual((before?.[at] ?? Number.POSITIVE_INFINITY) * (1 + 1e-9) + 1e-12);
          });
          before = now;
        }
      }),
      { seed: 20261125, numRuns: 120 },
    );
  });

  it('adds up: failing on one of the days, or still working after the last (closed form for one dormant fault)', () => {
    const only: Service = { relapse: [{ medianDays: 40, shape: 1.3 }, null, null], newPerDay: [0, 0, 0], host };
    const masked: Remedy = { cures: [0, 0, 0], masks: [1, 0, 0], induces: [0, 0, 0] };
    const out = must(treat(must(treat(foldOf([1e9, 1e-12, 1e-12]), masked, null, host)), masked, true, host));
    let sum = 0;
    for (let day = 0; day < 100; day++) sum += Math.exp(must(failedOnDay(out, day, only)).logChance - out.logChance);
    const left = Math.exp(must(stillWorking(out, 100, only)).logChance - out.logChance);
    expect(left).toBeCloseTo(survives({ medianDays: 40, shape: 1.3 }, 100), 6);
    expect(sum + left).toBeCloseTo(1, 6);
    // Weibull by its median: half are back by the median
    expect(survives({ medianDays: 40, shape: 1.3 }, 40)).toBeCloseTo(0.5, 12);
    // and with shape 2 one in 2^4 is left at twice the median: exp(-ln 2 (t / median)^shape)
    expect(survives({ medianDays: 40, shape: 2 }, 80)).toBeCloseTo(1 / 16, 12);
  });

  it('counts no new fault against a card that has it already (closed form, masked or cured at even chances)', () => {
    const even: Remedy = { cures: [0.5, 0, 0], masks: [0.5, 0, 0], induces: [0, 0, 0] };
    const out = must(treat(foldOf([1e9, 1e-12, 1e-12]), even, true, host));
    const law: Service = { relapse: [{ medianDays: 100, shape: 1 }, null, null], newPerDay: [0.01, 0, 0], host };
    const after = must(stillWorking(out, 100, law));
    const asleep = trajectoriesOf(after)
      .filter(({ now }) => now.some(({ standing }) => standing === 'dormant'))
      .reduce((sum, { chance }) => sum + chance, 0);
    // asleep: half of them still are; cured: exp(-0.01 a day) were spared the same fault anew
    expect(asleep).toBeCloseTo(0.5 / (0.5 + Math.exp(-1)), 9);
  });

  it.each([0, 1, 5, 31, 200])(
    'makes of a failure nobody can date the sum of its days (%d days, host, relapse and new faults)',
    (days) => {
      const out = must(treat(foldOf([0.3, 0.2, 0.1]), heat, true, host));
      const several: Service = {
        relapse: [{ medianDays: 40, shape: 1.3 }, { medianDays: 15, shape: 1.1 }, null],
        newPerDay: [2e-4, 1e-4, 0],
        host,
      };
      const chance = new Map<string, number>();
      for (let day = 0; day <= days; day++) {
        const failed = must(failedOnDay(out, day, several));
        const share = Math.exp(failed.logChance - out.logChance);
        for (const [fault, active] of activeChancesOf(failed, FAULTS).entries())
          chance.set(String(fault), (chance.get(String(fault)) ?? 0) + share * active);
        chance.set('all', (chance.get('all') ?? 0) + share);
      }
      const undated = must(failedBy(out, days, several));
      const all = Math.exp(undated.logChance - out.logChance);
      // telescoping: exact whatever the stretches
      expect(all).toBeCloseTo(chance.get('all')!, 10);
      expect(all).toBeLessThan(1);
      // the share of each cause takes hazards as steady within a stretch
      for (const [fault, active] of activeChancesOf(undated, FAULTS).entries())
        expect(Math.abs(all * active - chance.get(String(fault))!)).toBeLessThan(5e-4);
    },
  );

  it.each([
    [0.4, 200],
    [18.3, 22],
    [60, 60],
  ])('counts no failure before the card was last heard of as working (%d days, back by day %d)', (heard, days) => {
    const out = must(treat(foldOf([0.3, 0.2, 0.1]), heat, true, host));
    const several: Service = {
      relapse: [{ medianDays: 40, shape: 1.3 }, { medianDays: 15, shape: 1.1 }, null],
      newPerDay: [2e-4, 1e-4, 0],
      host,
    };
    const after = must(failedBy(out, days, several, heard));
    let all = 0;
    const chance = new Float64Array(FAULTS);
    for (let day = Math.floor(heard); day <= days; day++) {
      const failed = must(failedOnDay(out, day, several));
      const share = Math.exp(failed.logChance - out.logChance);
      all += share;
      activeChancesOf(failed, FAULTS).forEach((active, fault) => {
        chance[fault]! += share * active;
      });
    }
    expect(Math.exp(after.logChance - out.logChance)).toBeCloseTo(all, 10);
    for (const [fault, active] of activeChancesOf(after, FAULTS).entries())
      expect(Math.abs(all * active - chance[fault]!)).toBeLessThan(5e-4);
    // what shows as soon as the card is home has not shown on a later day
    if (heard >= 1) expect(activeChancesOf(after, FAULTS)[2]).toBe(0);
    expect(() => failedBy(out, 3, several, 9)).toThrow(RangeError);
  });

  it('takes a joint that passed the test and opened later as damage by the work, and lets the record of the work see it while it sleeps (by hand)', () => {
    const network: Network = {
      faults: ['a', 'b', 'host'],
      findings: [
        {
          id: 'profile',
          states: ['inside', 'outside'],
          leak: new Float64Array([0.8, 1]),
          given: [{ fault: 1, cumulative: new Float64Array([0.4, 1]) }],
          ofTheWork: true,
        },
      ],
    };
    const work: Remedy = { cures: [0.5, 0, 0], masks: [0.4, 0, 0], induces: [0, 0.2, 0], latent: [0, 0.5, 0] };
    const law = { medianDays: 40, shape: 1 };
    const only: Service = { relapse: [law, law, null], newPerDay: [0, 0, 0], host };
    const out = must(treat(foldOf([1e9, 1e-12, 1e-12]), work, true, host));
    // same law for both: after any day the odds are those of lying asleep, less who sleeps beside the other
    const damaged = (inside: number | null): number => {
      const seen =
        inside === null
          ? out
          : must(observeFold(lookAt(out, network, [{ finding: 0, weights: new Float64Array([inside, 1 - inside]) }])));
      return attribute(must(failedOnDay(seen, 21, only)), work)!.chances.damaged;
    };
    const survive = survives(law, 21);
    const hazard = (Math.LN2 / 40) * 1;
    const alone = -Math.expm1(-hazard) / hazard;
    const both = -Math.expm1(-2 * hazard) / (2 * hazard);
    const byHand = (told: number): number => {
      const onlyMasked = 0.4 * 0.8 * survive * alone;
      const onlyLatent = 0.5 * 0.1 * told * survive * alone;
      const each = 0.4 * 0.1 * told * survive ** 2 * both;
      return (onlyLatent + each) / (onlyLatent + onlyMasked + 2 * each);
    };
    // the record of the work: inside .8 without, .32 with the pillow joint; outside .2 and .68
    expect(damaged(null)).toBeCloseTo(byHand(1), 6);
    expect(damaged(1)).toBeCloseTo(byHand(0.32 / 0.8), 6);
    expect(damaged(0)).toBeCloseTo(byHand(0.68 / 0.2), 6);
  });

  it('lets a fault of the host show on the first day at home and on no later one', () => {
    const out = must(treat(foldOf([0.01, 0.01, 1]), heat, true, host));
    expect(activeChancesOf(must(failedOnDay(out, 0, service)), FAULTS)[2]!).toBeGreaterThan(0.9);
    expect(activeChancesOf(must(failedOnDay(out, 21, service)), FAULTS)[2]!).toBe(0);
  });
});

describe('why it failed again', () => {
  it('gives five answers that sum to one, and none for a card never treated', () => {
    fc.assert(
      fc.property(
        oddsOf,
        remedyOf,
        fc.constantFrom(true, false),
        fc.integer({ min: 1, max: 400 }),
        (odds, remedy, worked, days) => {
          const fold = foldOf(odds);
          expect(attribute(fold, remedy)).toBeNull();
          const treated = treat(fold, remedy, worked, host);
          if (!treated) return;
          const back = worked
            ? failedOnDay(treated, days, {
                relapse: [{ medianDays: 30, shape: 1.2 }, { medianDays: 200, shape: 1.5 }, null],
                newPerDay: [1e-4, 1e-4, 0],
                host,
              })
            : treated;
          const answer = back && attribute(back, remedy);
          if (!answer) return;
          expect(ATTRIBUTIONS.reduce((sum, attribution) => sum + answer.chances[attribution], 0)).toBeCloseTo(1, 10);
        },
      ),
      { seed: 4, numRuns: 60 },
    );
  });

  it('names the wrong thing, the remedy that did not take, and the damage (one fault, by hand)', () => {
    const remedy: Remedy = { cures: [0.8, 0, 0], masks: [0, 0, 0], induces: [0, 0.1, 0] };
    // a alone (odds so high that it is certain), not working after: a stayed .2, or b was caused by the work .1
    const fold = must(treat(foldOf([1e12, 0, 0]), remedy, false, host));
    // worlds: a stays, b not: .2 * .9 · a stays, b: .2 * .1 (split evenly) · a cured, b: .8 * .1
    const whole = 0.2 * 0.9 + 0.2 * 0.1 + 0.8 * 0.1;
    const answer = attribute(fold, remedy)!;
    expect(answer.chances['did-not-take']).toBeCloseTo((0.18 + 0.01) / whole, 9);
    expect(answer.chances.damaged).toBeCloseTo((0.08 + 0.01) / whole, 9);
    const other = must(treat(foldOf([0, 1e12, 0]), remedy, false, host));
    expect(attribute(other, remedy)!.chances['wrong-thing']).toBeCloseTo(1, 9);
  });
});

it('lists every set the fold may begin with', () => {
  expect(trajectoriesOf(foldOf([0.5, 0.5, 0.5]))).toHaveLength(enumerate(3, 3).count);
});
