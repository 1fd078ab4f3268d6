/** What is typed of a ball joint, as it is read. */
import { describe, expect, it, test } from 'vitest';
import { BALL_FIELDS, BALL_NUMBERS, readBallNumber, readVoids } from '../../src/ball-grid/fields.ts';
import { BALL_BOUNDS, type BallBound } from '../../src/record/ball-bounds.ts';
import { Balls } from '../../src/record/balls.ts';

const wrong = (read: ReturnType<typeof readBallNumber>): string =>
  read.ok ? `read as ${read.value}` : `${read.refused.wrong} ${read.refused.todo}`;

describe('A length of a joint', () => {
  test.each([
    ['0.6', 0.6],
    ['0,6', 0.6],
    ['.6 mm', 0.6],
    ['600 µm', 0.6],
    ['600um', 0.6],
    // 24 thousandths of an inch of 25.4 mm
    ['24 mil', 0.6096],
    ['0.06 cm', 0.6],
  ])('typed as %s is %d mm', (typed, millimetres) => {
    const read = readBallNumber(typed, 'ballMillimetres', 'en');
    expect(read.ok && read.value).toBeCloseTo(millimetres, 12);
  });

  test.each([
    ['0.6.1', '"0.6.1" is not one number. Type one number with one decimal mark, such as 0.6 or 0,6.'],
    ['1,250', '"1,250" can be read as 1.250 or as 1250. Type 1.250 or 1250.'],
    ['600m', '"m" is not a unit or prefix known here. Type it as 0.6, 600 µm or 24 mil.'],
    ['0.6 V', '"V" is volt, but this reading is in millimetres.'],
    ['wide', '"wide" is not a number. Type it as 0.6, 600 µm or 24 mil.'],
    ['0', '"0" cannot be the ball diameter. Give a figure above 0 and up to 5 mm.'],
    ['-0.6', '"-0.6" cannot be the ball diameter. Give a figure above 0 and up to 5 mm.'],
    ['600', '"600" cannot be the ball diameter. Give a figure above 0 and up to 5 mm.'],
  ])('typed as %s is refused with what is wrong and what to do', (typed, said) => {
    expect(wrong(readBallNumber(typed, 'ballMillimetres', 'en'))).toContain(said);
  });

  it('is refused in German where German is spoken', () => {
    expect(wrong(readBallNumber('600', 'ballMillimetres', 'de'))).toBe(
      '„600“ kann nicht stimmen (Kugeldurchmesser). Eine Zahl über 0 und bis 5 mm angeben.',
    );
  });
});

describe('Other figures', () => {
  it('are read in their own units: kelvin, degrees, minutes or hours, thousands of cycles', () => {
    const value = (typed: string, name: Parameters<typeof readBallNumber>[1]) => {
      const read = readBallNumber(typed, name, 'en');
      return read.ok ? read.value : wrong(read);
    };
    expect(value('55 K', 'swingKelvin')).toBe(55);
    expect(value('85 °C', 'hottestCelsius')).toBe(85);
    expect(value('1.5 h', 'dwellMinutes')).toBe(90);
    expect(value('3k', 'referenceCycles')).toBe(3000);
    expect(value('0,5', 'cyclesPerDay')).toBe(0.5);
  });

  it('are taken up to their bounds by the reader and by the record alike, and no further', () => {
    for (const name of BALL_NUMBERS) {
      const bound: BallBound = BALL_BOUNDS[name];
      const fits = (value: number) => [
        readBallNumber(String(value), name, 'en').ok,
        Balls.safeParse({ [name]: value }).success,
      ];
      expect(fits(bound.most), name).toEqual([true, true]);
      expect(fits(bound.most * 1.01), name).toEqual([false, false]);
      const lowest = 'above' in bound ? bound.above : bound.least;
      expect(fits(lowest), name).toEqual(Array(2).fill('least' in bound));
      expect(fits(lowest - 1), name).toEqual([false, false]);
    }
  });

  it('each have a flag of their own', () => {
    const flags = BALL_NUMBERS.map((name) => BALL_FIELDS[name].flag);
    expect(new Set(flags).size).toBe(flags.length);
  });
});

describe('Voids', () => {
  test.each([
    ['0.15 0.2', [0.15, 0.2]],
    ['0,15; 0,2', [0.15, 0.2]],
    ['0,15, 0,2', [0.15, 0.2]],
    ['150 µm, 200 µm', [0.15, 0.2]],
    ['0.15', [0.15]],
    ['', []],
  ])('are typed one after the other: %s', (typed, widths) => {
    expect(readVoids(typed, 'en')).toEqual({ ok: true, values: widths });
  });

  it('are refused as a whole where one cannot be read, so that none is dropped in silence', () => {
    expect(readVoids('0.15 0.2.1', 'en')).toMatchObject({
      ok: false,
      refused: { wrong: '"0.2.1" is not one number.' },
    });
    expect(readVoids('0.15; -0.1', 'en')).toMatchObject({
      ok: false,
      refused: { wrong: '"-0.1" cannot be the width of a void.' },
    });
  });
});
