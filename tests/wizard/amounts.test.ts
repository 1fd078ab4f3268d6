import { describe, expect, it } from 'vitest';
import { readAmount, writeAmount } from '../../src/wizard/amounts.ts';

describe('money as people type it', () => {
  it.each([
    ['150', 150],
    ['1,250', 1250],
    ['12,50', 12.5],
    ['1.250', 1250],
    ['1.250.000', 1250000],
    ['1.250,50', 1250.5],
    ['1,250.50', 1250.5],
    ['12.5', 12.5],
    ['€ 80', 80],
    ['0', 0],
    ['120-180', { low: 120, likely: 150, high: 180 }],
    ['120 – 180', { low: 120, likely: 150, high: 180 }],
    ['120 to 180', { low: 120, likely: 150, high: 180 }],
    ['120 130 180', { low: 120, likely: 130, high: 180 }],
    ['0 0 50', { low: 0, likely: 0, high: 50 }],
  ])('reads %s', (typed, amount) => {
    expect(readAmount(typed)).toEqual({ ok: true, amount });
  });

  it.each(['-5', '', 'much', '1 2 3 4', '180-120', '120 200 180', '1e3', '30 55 90120'])(
    'refuses %j and says what to do',
    (typed) => {
      expect(readAmount(typed)).toMatchObject({
        ok: false,
        wrong: expect.any(String),
        todo: expect.stringContaining('120-180'),
      });
    },
  );

  it('writes every amount so that it is read back the same', () => {
    for (const amount of [150, { low: 120, likely: 150, high: 180 }, { low: 1, likely: 2, high: 9 }]) {
      expect(readAmount(writeAmount(amount))).toEqual({ ok: true, amount });
    }
    expect(readAmount(writeAmount(100 / 3))).toEqual({ ok: true, amount: 33.33 });
  });
});
