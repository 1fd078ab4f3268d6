import { describe, expect, it } from 'vitest';
import { tornadoOf } from '../../../src/wizard/verdict/tornado.ts';

const bar = (atLow: number, atHigh: number) => ({
  input: `${atLow} ${atHigh}`,
  name: 'What the card is worth working',
  low: 300,
  high: 450,
  atLow,
  atHigh,
  unit: 'money',
});

describe('What moves the surplus', () => {
  const { scale, bars } = tornadoOf([bar(-50, 150), bar(70, 20)], 50, [25]);

  it('is drawn from where it stands now to either end, whichever way the figure works', () => {
    // scale -50 to 150: 50 stands in the middle, 70 and 20 at 60 % and 35 %
    expect([scale.low, scale.high]).toEqual([-50, 150]);
    expect(bars[0]).toMatchObject({ low: { left: 0, width: 50 }, high: { left: 50, width: 50 } });
    expect(bars[1]!.low.left).toBeCloseTo(50, 9);
    expect(bars[1]!.low.width).toBeCloseTo(10, 9);
    expect(bars[1]!.high.left).toBeCloseTo(35, 9);
    expect(bars[1]!.high.width).toBeCloseTo(15, 9);
  });

  it('keeps what is needed in the picture even where no bar reaches it', () => {
    const far = tornadoOf([bar(40, 60)], 50, [500]).scale;
    expect(far.high).toBeGreaterThanOrEqual(500);
    expect(far.at(500)).toBeLessThanOrEqual(100);
  });

  it('draws a figure that moves nothing without dividing by nothing', () => {
    const still = tornadoOf([bar(50, 50)], 50, []);
    expect(still.bars[0]!.low.width).toBe(0);
    expect(Number.isFinite(still.bars[0]!.low.left)).toBe(true);
  });
});
