import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { priceBand } from '../../src/decision/price.ts';
import { chanceKept, lossesAt, middlePrice, type Priced } from '../../src/letter/price.ts';

interface Terms {
  readonly works: number;
  readonly kept: number;
  readonly holds: number;
  readonly cost: number;
  readonly working: number;
  readonly asIs: number;
  readonly parts: number;
  readonly fee: number;
}

/** An option as the assessment holds it, its price band from the decision core. */
function option({ works, kept, holds, cost, working, asIs, parts, fee }: Terms): Priced {
  const margin = { fixed: 10, shareOfCost: 0.1 };
  const money = {
    working,
    asIs,
    partsAfterWork: parts,
    labourPerHour: 0,
    consumablesPerHeatCycle: 0,
    comebackCost: 0,
    wronglySoundCost: 0,
    feeWhenNotFixed: fee,
    warrantyDays: 90,
    horizonDays: 365,
    margin,
    partPrices: [],
    ownStock: false,
  };
  const band = priceBand(money, cost, { reached: [1], works, held: holds, kept });
  const needed = margin.fixed + margin.shareOfCost * cost;
  const surplus = parts + holds * (working - parts) - cost - asIs;
  return {
    id: 'some-repair',
    steps: ['some-repair'],
    stepNames: ['Some repair'],
    verdict: 'component-swap',
    name: 'Some repair',
    owner: 'Some repair',
    minutes: 60,
    cost: { total: cost, labour: cost, parts: 0, consumables: 0, comeback: 0 },
    heatCycles: 0,
    works,
    holds,
    surplus,
    floor: band.floor!,
    ceiling: band.ceiling!,
    margin: needed,
    justified: surplus >= needed,
  };
}

const terms = fc
  .record({
    works: fc.double({ min: 0.05, max: 1, noNaN: true }),
    keptShare: fc.double({ min: 0.3, max: 1, noNaN: true }),
    holdsShare: fc.double({ min: 0.3, max: 1, noNaN: true }),
    cost: fc.double({ min: 1, max: 500, noNaN: true }),
    working: fc.double({ min: 50, max: 2000, noNaN: true }),
    asIsShare: fc.double({ min: 0, max: 0.5, noNaN: true }),
    partsShare: fc.double({ min: 0, max: 0.5, noNaN: true }),
    fee: fc.constantFrom(0, 25),
  })
  .map(({ works, keptShare, holdsShare, cost, working, asIsShare, partsShare, fee }) => ({
    works,
    kept: works * keptShare,
    holds: works * keptShare * holdsShare,
    cost,
    working,
    asIs: working * asIsShare,
    parts: working * partsShare,
    fee,
  }));

describe('The price asked', () => {
  const band = (floor: number, ceiling: number): Priced => ({ ...option(EXAMPLE), floor, ceiling });

  it.each([
    [395, 485, 440],
    [135, 217, 180],
    [1048, 1213, 1130],
    [73, 92, 83],
    [467.4, 471.9, 470],
    [82.2, 82.7, 82.5],
    [-20, 80, 40],
    [0, 0, 0],
  ])('in a band from %d to %d is %d: the middle, rounded to what people ask', (floor, ceiling, price) => {
    expect(middlePrice(band(floor, ceiling))).toBe(price);
  });

  it('is none where the band is closed', () => {
    expect(middlePrice(band(300, 250))).toBeNull();
    expect(middlePrice(band(-10, -5))).toBeNull();
  });

  it('lies inside the band, and close to where both sides gain the same', () => {
    fc.assert(
      fc.property(terms, (drawn) => {
        const priced = option(drawn);
        const price = middlePrice(priced);
        fc.pre(price !== null);
        const floor = Math.max(0, priced.floor);
        expect(price).toBeGreaterThanOrEqual(floor);
        expect(price).toBeLessThanOrEqual(priced.ceiling);
        // rounding moves it by half a step, and a step is at most a quarter of the band or one
        const off = Math.abs(price! - (floor + priced.ceiling) / 2);
        expect(off).toBeLessThanOrEqual(Math.max(0.5, (priced.ceiling - floor) / 8) + 1e-9);
      }),
      { seed: 7 },
    );
  });
});

/** q .6, kept .55, cost 100 (margin 20), V 400, A 40, S 30, holds .5: floor 120 / .55, ceiling (215 - 40) / .55. */
const EXAMPLE: Terms = { works: 0.6, kept: 0.55, holds: 0.5, cost: 100, working: 400, asIs: 40, parts: 30, fee: 0 };

describe('A price outside the band', () => {
  it('costs the loser, on average, the distance to the edge as often as the price is kept', () => {
    const priced = option(EXAMPLE);
    expect(priced.floor).toBeCloseTo(120 / 0.55, 9);
    expect(priced.ceiling).toBeCloseTo(175 / 0.55, 9);
    // 218.18 - 200 = 18.18 short, kept in 55 of 100
    expect(lossesAt(priced, 200, 0)).toEqual({ shop: expect.closeTo(10, 9), owner: 0 });
    // 340 - 318.18 = 21.82 too much, paid and kept in 55 of 100
    expect(lossesAt(priced, 340, 0)).toEqual({ shop: 0, owner: expect.closeTo(12, 9) });
    expect(lossesAt(priced, 250, 0)).toEqual({ shop: 0, owner: 0 });
  });

  it('knows how often a price is kept from the band itself, with a fee or without, floor at nought or not', () => {
    fc.assert(
      fc.property(terms, (drawn) => {
        expect(chanceKept(option(drawn), drawn.fee)).toBeCloseTo(drawn.kept, 6);
      }),
      { seed: 11 },
    );
    // cost + margin = (1 - works) fee: 20 + 12 = 0.64 * 50, so the floor is 0 and only the width tells
    const atNought = option({ ...EXAMPLE, works: 0.36, kept: 0.3, holds: 0.28, cost: 20, fee: 50 });
    expect(atNought.floor).toBeCloseTo(0, 9);
    expect(chanceKept(atNought, 50)).toBeCloseTo(0.3, 9);
  });

  it('hurts somebody by exactly what the deal lacks, wherever it lies in a closed band', () => {
    fc.assert(
      fc.property(terms, fc.double({ min: 0, max: 1, noNaN: true }), (drawn, at) => {
        const priced = option(drawn);
        fc.pre(priced.ceiling < priced.floor && priced.ceiling > 0);
        const price = priced.ceiling + at * (priced.floor - priced.ceiling);
        const { shop, owner } = lossesAt(priced, price, drawn.fee);
        // between the two edges both lose, together what the surplus is short of the margin
        expect(shop + owner).toBeCloseTo(priced.margin - priced.surplus, 6);
      }),
      { seed: 13 },
    );
  });
});
