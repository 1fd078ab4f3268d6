import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lifeAxis } from '../../../src/wizard/came-back/life-axis.ts';

const DAY = 86_400_000;
const SHAPE = { wanted: 600, least: 25, most: 200, tail: 50 };

describe('The time axis of a life', () => {
  it('draws a day as long as another wherever it can', () => {
    const { places, spans } = lifeAxis([0, 4 * DAY, 6 * DAY, 11 * DAY], SHAPE);
    expect((places[1]! - places[0]!) / 4).toBeCloseTo((places[2]! - places[1]!) / 2, 6);
    expect((places[3]! - places[2]!) / 5).toBeCloseTo((places[1]! - places[0]!) / 4, 6);
    expect(spans.map(({ drawn }) => drawn)).toEqual(['true', 'true', 'true']);
    expect(places.at(-1)).toBeCloseTo(550, 3);
  });

  it('breaks a span of months, and lets hours on the bench keep apart', () => {
    const { spans, places } = lifeAxis([0, DAY / 24, 2 * DAY, 425 * DAY, 425.2 * DAY], SHAPE);
    expect(spans.map(({ drawn }) => drawn)).toEqual(['longer', 'true', 'broken', 'longer']);
    expect(spans[2]!.days).toBeCloseTo(423, 6);
    for (let at = 1; at < places.length; at++) expect(places[at]! - places[at - 1]!).toBeGreaterThanOrEqual(25 - 1e-9);
  });

  it('never lets two points meet or change places, draws no unbroken span longer than true, and fits where that can be', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 700, noNaN: true }), { minLength: 1, maxLength: 14 }), (gaps) => {
        let day = 0;
        const moments = gaps.map((gap) => {
          day += gap * DAY;
          return day;
        });
        const { places, width, at, spans } = lifeAxis(moments, SHAPE);
        for (let i = 1; i < places.length; i++) {
          const length = places[i]! - places[i - 1]!;
          expect(length).toBeGreaterThanOrEqual(SHAPE.least - 1e-9);
        }
        // one scale for all that is drawn true; what is broken would be longer, what is drawn longer shorter
        const scales = spans.flatMap(({ days, drawn }, i) =>
          drawn === 'true' && days > 0 ? (places[i + 1]! - places[i]!) / days : [],
        );
        expect(Math.max(0, ...scales) - Math.min(...(scales.length > 0 ? scales : [0]))).toBeLessThan(
          1e-3 * Math.max(1, ...scales),
        );
        expect(width).toBeGreaterThanOrEqual(SHAPE.wanted);
        if ((moments.length - 1) * SHAPE.least <= SHAPE.wanted - SHAPE.tail) expect(width).toBeCloseTo(SHAPE.wanted, 6);
        expect(at(moments.at(-1)! + DAY)).toBeLessThanOrEqual(width);
      }),
    );
  });

  it('has a width for a card that only just arrived', () => {
    expect(lifeAxis([5 * DAY], SHAPE)).toMatchObject({ places: [0], width: 600, spans: [] });
    expect(lifeAxis([], SHAPE).places).toEqual([]);
  });
});
