import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/decision/random.ts';
import { follow, type Row } from '../../src/survival/followed.ts';
import { gammaCumulative, gammaQuantile } from '../../src/survival/gamma-distribution.ts';
import { learnRate, learnShapeAndRate, type RelapseLaw } from '../../src/survival/relapse-law.ts';

const BOOK: RelapseLaw = { medianDays: 30, shape: 1.1, n: 8 };
const TRUE_MEDIAN = 90;

/** Invented relapses of a law with this median; followed for at most a year. */
function invented(count: number, shape: number, seed: number): Row[] {
  const random = createRandom(seed);
  return Array.from({ length: count }, () => {
    const days = TRUE_MEDIAN * (-Math.log(1 - random.next()) / Math.LN2) ** (1 / shape);
    return { time: Math.min(365, days), failed: days < 365 ? 1 : 0, censored: days < 365 ? 0 : 1 };
  });
}

describe.each([
  ['with its shape held', learnRate],
  ['with its shape learnt too', learnShapeAndRate],
])('a time to relapse out of the book, %s', (_, learn) => {
  it('is nudged by ten cases, and decided by a thousand', () => {
    // the book is worth 8 relapses: with ten more about half of the way, by the rate
    const ten = learn(BOOK, follow(invented(10, 1.1, 5)));
    expect(ten.medianDays).toBeGreaterThan(BOOK.medianDays * 1.15);
    expect(ten.medianDays).toBeLessThan(TRUE_MEDIAN * 0.95);
    const thousand = learn(BOOK, follow(invented(1000, 1.1, 6)));
    expect(Math.abs(thousand.medianDays / TRUE_MEDIAN - 1)).toBeLessThan(0.08);
    expect(thousand.low).toBeLessThan(TRUE_MEDIAN);
    expect(thousand.high).toBeGreaterThan(TRUE_MEDIAN);
  });

  it('grows longer by every day that a card goes on working, and is worth no more relapses for it', () =>
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 400 }), fc.integer({ min: 1, max: 400 }), (days, more) => {
        const short = learn(BOOK, follow([{ time: days, failed: 0, censored: 1 }]));
        const long = learn(BOOK, follow([{ time: days + more, failed: 0, censored: 1 }]));
        expect(long.medianDays).toBeGreaterThan(short.medianDays);
        expect(long.n).toBe(BOOK.n);
      }),
      { seed: 7, numRuns: 100 },
    ));

  it('is refused where the book states none', () =>
    expect(() => learn({ ...BOOK, n: 0 }, follow([{ time: 3, failed: 1, censored: 0 }]))).toThrow('n above 0, not 0'));
});

describe('the conjugate law', () => {
  it('learns in two goes what it learns at once', () =>
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            time: fc.integer({ min: 1, max: 300 }),
            failed: fc.double({ min: 0, max: 1, noNaN: true }),
            censored: fc.double({ min: 0.01, max: 1, noNaN: true }),
          }),
          { minLength: 2, maxLength: 30 },
        ),
        fc.nat(),
        (rows, cut) => {
          const at = 1 + (cut % (rows.length - 1));
          const first = learnRate(BOOK, follow(rows.slice(0, at)));
          const twice = learnRate(first, follow(rows.slice(at)));
          const once = learnRate(BOOK, follow(rows));
          expect(twice.medianDays / once.medianDays).toBeCloseTo(1, 10);
          expect(twice.n).toBeCloseTo(once.n, 10);
        },
      ),
      { seed: 8, numRuns: 200 },
    ));

  it('is the one worked by hand', () => {
    // shape 1, r0 = ln 2 / 10; prior Gamma(4, 40 / ln 2) = Gamma(4, 57.708); two relapses after 20 and 30 days, one still working at 50: Gamma(6, 157.708)
    const law = learnRate(
      { medianDays: 10, shape: 1, n: 4 },
      follow([
        { time: 20, failed: 1, censored: 0 },
        { time: 30, failed: 1, censored: 0 },
        { time: 50, failed: 0, censored: 1 },
      ]),
    );
    expect(law.n).toBe(6);
    expect(law.medianDays).toBeCloseTo((Math.LN2 * (40 / Math.LN2 + 100)) / 6, 10);
    // the rate lies above ln 2 / low with a chance of 2.5 %
    const rate = 40 / Math.LN2 + 100;
    expect(gammaCumulative(6, (rate * Math.LN2) / law.low)).toBeCloseTo(0.975, 9);
    expect(gammaCumulative(6, (rate * Math.LN2) / law.high)).toBeCloseTo(0.025, 9);
  });

  it('weighs shapes as a brute-force sum over shape and rate does', () => {
    const book = { medianDays: 40, shape: 1.2, n: 5 };
    const rows = invented(12, 2, 9).map((row) => ({ ...row, time: Math.round(row.time) }));
    // independent: prior of the rate by its density, integrated over the rate by the trapezoid rule in its logarithm
    let total = 0;
    let sum = 0;
    const spread = Math.sqrt(6) / Math.PI / Math.sqrt(book.n);
    for (let j = 0; j <= 40; j++) {
      const deviate = -2.5 + (5 * j) / 40;
      const k = book.shape * Math.exp(spread * deviate);
      const b = (book.n * book.medianDays ** k) / Math.LN2;
      let evidence = 0;
      for (let i = 0; i <= 4000; i++) {
        const rate = Math.exp(-40 + (45 * i) / 4000);
        const prior = b ** book.n * rate ** (book.n - 1) * Math.exp(-b * rate);
        const data = rows.reduce(
          (product, { time, failed }) =>
            product * (failed === 1 ? rate * k * time ** (k - 1) : 1) * Math.exp(-rate * time ** k),
          1,
        );
        evidence += prior * data * rate;
      }
      const weight = Math.exp(-0.5 * deviate * deviate) * evidence;
      total += weight;
      sum += weight * k;
    }
    expect(learnShapeAndRate(book, follow(rows)).shape).toBeCloseTo(sum / total, 5);
  });

  it('finds an early-failing shape among a thousand cases', () => {
    const learnt = learnShapeAndRate(BOOK, follow(invented(1000, 0.7, 10)));
    expect(Math.abs(learnt.shape - 0.7)).toBeLessThan(0.06);
  });
});

describe('points of the Gamma distribution', () => {
  it('and its chances undo each other', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 0.2, max: 2000, noNaN: true }),
        fc.double({ min: 0.001, max: 0.999, noNaN: true }),
        (a, q) => {
          expect(gammaCumulative(a, gammaQuantile(a, q))).toBeCloseTo(q, 8);
        },
      ),
      { seed: 11, numRuns: 200 },
    ));

  it('are refused outside 0 to 1', () => expect(() => gammaQuantile(2, 1)).toThrow('between 0 and 1'));
});
