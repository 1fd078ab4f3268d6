import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { follow, type Row } from '../../src/survival/followed.ts';
import { medianTime } from '../../src/survival/median-time.ts';
import { logLogLimits, plainLimits, productLimit, survivalAt } from '../../src/survival/product-limit.ts';

const SEED = 20_260_301;
const row = fc.record({
  time: fc.integer({ min: 0, max: 40 }),
  failed: fc.integer({ min: 0, max: 3 }),
  censored: fc.integer({ min: 0, max: 3 }),
});
const rows = fc
  .array(row, { minLength: 1, maxLength: 25 })
  .filter((list) => list.some((r) => r.failed + r.censored > 0));
const check = (...property: Parameters<typeof fc.assert>) => fc.assert(property[0], { seed: SEED, numRuns: 300 });
const curveOf = (list: readonly Row[]) => productLimit(follow(list));

describe('the product-limit estimate of survival', () => {
  it('is the share still working where every card was followed until it failed', () =>
    check(
      fc.property(fc.array(fc.integer({ min: 0, max: 30 }), { minLength: 1, maxLength: 60 }), (times) => {
        const curve = curveOf(times.map((time) => ({ time, failed: 1, censored: 0 })));
        curve.time.forEach((time, at) => {
          const share = times.filter((one) => one > time).length / times.length;
          expect(curve.survival[at]).toBeCloseTo(share, 12);
          // Greenwood then is the binomial variance
          if (share > 0) expect(curve.variance[at]).toBeCloseTo((share * (1 - share)) / times.length, 12);
        });
      }),
    ));

  it('does not care in which order the cards are listed, nor whether cards of one day stand in one row or several', () =>
    check(
      fc.property(rows, fc.infiniteStream(fc.nat()), (list, keys) => {
        const split = list.flatMap(({ time, failed, censored }) => [
          { time, failed, censored: 0 },
          { time, failed: 0, censored },
        ]);
        const shuffled = split
          .map((one) => ({ one, key: keys.next().value as number }))
          .sort((a, b) => a.key - b.key)
          .map(({ one }) => one);
        expect(curveOf(shuffled)).toEqual(curveOf(list));
      }),
    ));

  it('is not changed up to the last failure by how long the others were followed after it', () =>
    check(
      fc.property(rows, fc.integer({ min: 1, max: 50 }), (list, later) => {
        const last = Math.max(...list.map((r) => (r.failed > 0 ? r.time : -1)));
        const longer = list.flatMap((r) =>
          r.time >= last
            ? [
                { ...r, censored: 0 },
                { ...r, failed: 0, time: r.time + later },
              ]
            : [r],
        );
        const [before, after] = [curveOf(list), curveOf(longer)];
        before.time.forEach((time, at) => {
          if (before.failed[at] === 0) return;
          const same = after.time.indexOf(time);
          expect(after.survival[same]).toBe(before.survival[at]);
          expect(after.variance[same]).toEqual(before.variance[at]);
        });
      }),
    ));

  it('never rises, stays within 0 and 1 with its limits about it, and the at-risk table falls by who failed or was lost', () =>
    check(
      fc.property(rows, (list) => {
        const curve = curveOf(list);
        let last = 1;
        curve.time.forEach((_, at) => {
          const s = curve.survival[at]!;
          expect(s).toBeLessThanOrEqual(last);
          expect(s).toBeGreaterThanOrEqual(0);
          last = s;
          const next = curve.atRisk[at + 1] ?? 0;
          expect(curve.atRisk[at]! - curve.failed[at]! - curve.censored[at]!).toBe(next);
          if (!(s > 0 && s < 1)) return;
          for (const { low, high } of [logLogLimits(curve, at), plainLimits(curve, at)]) {
            expect(low).toBeLessThanOrEqual(s);
            expect(high).toBeGreaterThanOrEqual(s);
            expect(low).toBeGreaterThanOrEqual(0);
            expect(high).toBeLessThanOrEqual(1);
          }
        });
      }),
    ));

  it('has its median interval about the median', () =>
    check(
      fc.property(rows, (list) => {
        const { median, low, high } = medianTime(curveOf(list));
        if (median === null) return;
        expect(low).not.toBeNull();
        expect(low!).toBeLessThanOrEqual(median);
        if (high !== null) expect(high).toBeGreaterThanOrEqual(median);
      }),
    ));

  it('counts cards lost on the day of a failure as at risk on it', () => {
    // 4 at risk on day 3, one fails, one is lost: S = 3/4, then 2 at risk on day 5
    const curve = curveOf([
      { time: 3, failed: 1, censored: 1 },
      { time: 5, failed: 1, censored: 1 },
    ]);
    expect([...curve.atRisk]).toEqual([4, 2]);
    expect([...curve.survival]).toEqual([0.75, 0.375]);
  });

  it('takes parts of cards: ten comebacks half due to the remedy are five failures and five losses', () => {
    const half = Array.from({ length: 10 }, () => ({ time: 9, failed: 0.5, censored: 0.5 }));
    expect(curveOf([...half, { time: 20, failed: 0, censored: 10 }]).survival[0]).toBeCloseTo(15 / 20, 12);
  });
});

describe('survival asked for at a time', () => {
  const three = curveOf([{ time: 200, failed: 0, censored: 3 }]);

  it('says how little three cards without a failure say', () => {
    // Clopper & Pearson with no failure in 3: 0.025^(1/3) = 0.2924
    const at = survivalAt(three, 90);
    expect(at).toMatchObject({ survival: 1, atRisk: 3, high: 1 });
    expect(at.low).toBeCloseTo(0.2924, 4);
  });

  it('is unknown beyond the last card followed, not the last figure', () =>
    expect(survivalAt(three, 201)).toEqual({ time: 201, atRisk: 0, survival: null, low: null, high: null }));

  it('is nought after all have failed', () =>
    expect(survivalAt(curveOf([{ time: 5, failed: 2, censored: 0 }]), 30)).toMatchObject({
      survival: 0,
      low: 0,
      high: null,
    }));

  it('is whole before the first failure, and holds between failures', () => {
    const curve = curveOf([
      { time: 10, failed: 1, censored: 0 },
      { time: 50, failed: 0, censored: 9 },
    ]);
    expect(survivalAt(curve, 9.9)).toMatchObject({ survival: 1, atRisk: 10 });
    expect(survivalAt(curve, 10)).toMatchObject({ survival: 0.9, atRisk: 10 });
    expect(survivalAt(curve, 49)).toMatchObject({ survival: 0.9, atRisk: 9 });
  });

  it('is not asked for before the card left the bench', () =>
    expect(() => survivalAt(three, -1)).toThrow('give a time of 0 or more'));
});

describe('rows that cannot be used', () => {
  it('are named with what is wrong', () => {
    const good = { time: 1, failed: 1, censored: 0 };
    expect(() => follow([good, { time: -2, failed: 1, censored: 0 }])).toThrow('Row 2: time is -2.');
    expect(() => follow([{ time: 1, failed: Number.NaN, censored: 0 }])).toThrow('Row 1: failed is NaN.');
    expect(() => follow([{ time: 1, failed: 0, censored: Number.POSITIVE_INFINITY }])).toThrow('Row 1: censored');
    expect(() => follow([])).toThrow('Nobody was followed');
    expect(() => follow([{ time: 4, failed: 0, censored: 0 }])).toThrow('Nobody was followed');
  });
});
