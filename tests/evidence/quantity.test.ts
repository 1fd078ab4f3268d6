/** Numbers as people type them at a bench. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatQuantity, parseQuantity, type Quantity } from '../../src/evidence/quantity.ts';

const value = (typed: string, quantity: Quantity = 'resistance'): number | string => {
  const parsed = parseQuantity(typed, quantity);
  return parsed.kind === 'value' ? parsed.value : parsed.kind;
};
const wrong = (typed: string, quantity: Quantity = 'resistance'): string => {
  const parsed = parseQuantity(typed, quantity);
  if (parsed.kind !== 'error') throw new Error(`${typed} was read as ${JSON.stringify(parsed)}`);
  expect(parsed.typed).toBe(typed);
  expect(parsed.todo).not.toBe('');
  return `${parsed.wrong} ${parsed.todo}`;
};

describe('a reading as it is typed', () => {
  test.each([
    ['0.31', 0.31],
    ['.31', 0.31],
    ['0,31', 0.31],
    [',31', 0.31],
    ['310m', 0.31],
    ['310 m', 0.31],
    ['310 mΩ', 0.31],
    ['310 mohm', 0.31],
    ['310 milliohm', 0.31],
    ['310000u', 0.31],
    ['310000 µΩ', 0.31],
    ['310000 μΩ', 0.31],
    ['1k2', 1200],
    ['1K2', 1200],
    ['1.2k', 1200],
    ['1,2 kOhm', 1200],
    ['12 kΩ', 12000],
    ['12kΩ', 12000],
    ['1M5', 1.5e6],
    ['1.5M', 1.5e6],
    ['1.5meg', 1.5e6],
    ['4R7', 4.7],
    ['4r7', 4.7],
    ['4R7 ohm', 4.7],
    ['R47', 0.47],
    ['L47', 0.00047],
    ['4m7', 0.0047],
    ['470R', 470],
    ['3.1e-1', 0.31],
    ['  0.31  ', 0.31],
    ['+0.31', 0.31],
    ['0,310', 0.31],
    ['0', 0],
    ['-0.000', 0],
    ['5.', 5],
  ])('reads %s as %d ohm', (typed, ohms) => {
    expect(value(typed)).toBe(ohms);
  });

  test.each(['OL', 'ol', 'O.L', 'O.L.', '.OL', '0.L', 'open', 'Open', 'inf', 'infinity', '∞', 'OL MΩ', 'overload'])(
    'reads %s as over range, never as zero',
    (typed) => {
      expect(parseQuantity(typed, 'resistance')).toEqual({ kind: 'over-range', typed });
    },
  );

  test('keeps milli and mega apart by nine orders of magnitude', () => {
    expect(value('310m')).toBe(0.31);
    expect(value('310M')).toBe(310e6);
    expect(value('4m7')).toBe(0.0047);
    expect(value('4M7')).toBe(4.7e6);
  });

  test('reads voltages, currents, temperatures, shares', () => {
    expect(value('1V8', 'voltage')).toBe(1.8);
    expect(value('870 mV', 'voltage')).toBe(0.87);
    expect(value('12.1 V', 'voltage')).toBe(12.1);
    expect(value('420 mA', 'current')).toBe(0.42);
    expect(value('1A5', 'current')).toBe(1.5);
    expect(value('83,5 °C', 'temperature')).toBe(83.5);
    expect(value('18 K', 'temperature')).toBe(18);
    expect(value('-10', 'temperature')).toBe(-10);
    expect(value('25 %', 'percent')).toBe(25);
    expect(value('0.8', 'ratio')).toBe(0.8);
  });
});

describe('what could mean two things is refused with what to type instead', () => {
  test('a comma before three digits may be a thousand', () => {
    expect(wrong('1,000')).toContain('1.000 or as 1000');
    expect(wrong('12,500 k')).toContain('12.500 or as 12500');
  });

  test('a zero before L may be a short or an open', () => {
    expect(wrong('0L')).toContain('OL (letter O)');
    expect(wrong('0l')).toContain('OL (letter O)');
  });

  test('two separators', () => {
    expect(wrong('1.234,5')).toContain('more than one separator');
    expect(wrong('1,234,567')).toContain('more than one separator');
    expect(wrong('1 000')).toContain('"1 000" holds a space inside the number.');
    expect(wrong("1'200")).toContain('more than one separator');
  });
});

describe('what no reading can be is an error that keeps what was typed', () => {
  test('nothing, words, doubt', () => {
    expect(wrong('')).toContain('Nothing is typed');
    expect(wrong('   ')).toContain('Nothing is typed');
    for (const typed of [
      'short',
      'abc',
      '<0.1',
      '~0.3',
      '0.3?',
      '0.3-0.4',
      '1 2',
      '1k2k',
      'NaN',
      '0x10',
      '--1',
      '1e999',
    ]) {
      wrong(typed);
    }
  });

  test('a negative resistance or voltage names the probes', () => {
    expect(wrong('-0.1')).toContain('negative');
    expect(wrong('−12', 'voltage')).toContain('probes');
  });

  test('an absurd size names the prefix', () => {
    expect(wrong('5G')).toContain('M is mega');
    expect(wrong('1200MV', 'voltage')).toContain('m is milli');
    expect(wrong('230', 'voltage')).toContain('0 to 60');
    expect(wrong('300K', 'temperature')).toContain('-40 to 200');
    expect(wrong('120', 'percent')).toContain('0 to 100');
  });

  test('a reading in another unit says where it belongs', () => {
    expect(wrong('12 V')).toContain('"V" is volt, but this reading is in ohm');
    expect(wrong('4R7', 'voltage')).toContain('unit');
    expect(wrong('5 ohm', 'current')).toContain('"ohm" is ohm, but this reading is in ampere');
    expect(wrong('OL', 'temperature')).toContain('Over range');
  });
});

describe('written and read again', () => {
  const quantities: readonly (readonly [Quantity, number, number])[] = [
    ['resistance', 0, 1e9],
    ['voltage', 0, 60],
    ['current', 0, 100],
    ['temperature', -40, 200],
    ['percent', 0, 100],
    ['ratio', 0, 1000],
  ];
  test.each(quantities)('a %s comes back to the digits that were written', (quantity, min, max) => {
    const anySize = fc
      .tuple(fc.double({ min, max, noNaN: true }), fc.integer({ min: 0, max: 9 }))
      .map(([size, decades]) => size / 10 ** decades);
    fc.assert(
      fc.property(anySize, fc.integer({ min: 3, max: 15 }), (size, digits) => {
        fc.pre(size === 0 || Math.abs(size) > 1e-6);
        const back = parseQuantity(formatQuantity(size, quantity, digits), quantity);
        if (back.kind !== 'value') throw new Error(JSON.stringify(back));
        expect(Math.abs(back.value - size)).toBeLessThanOrEqual(Math.abs(size) * 0.5000001 * 10 ** (1 - digits));
      }),
      { seed: 7, numRuns: 500 },
    );
  });

  test('a code with a letter for its mark equals the same number with a prefix', () => {
    const digit = fc.integer({ min: 0, max: 9 });
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 999 }),
        fc.array(digit, { minLength: 1, maxLength: 4 }),
        (whole, digits) => {
          const fraction = digits.join('');
          expect(value(`${whole}k${fraction}`)).toBe(value(`${whole}.${fraction} kΩ`));
          expect(value(`${whole}R${fraction}`)).toBe(value(`${whole}.${fraction}`));
        },
      ),
      { seed: 8 },
    );
  });

  test('whatever is typed, it answers and keeps it', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'grapheme' }),
        fc.constantFrom(...quantities.map(([q]) => q)),
        (typed, quantity) => {
          const parsed = parseQuantity(typed, quantity);
          expect(parsed.typed).toBe(typed);
          if (parsed.kind === 'value') expect(Number.isFinite(parsed.value)).toBe(true);
        },
      ),
      { seed: 9, numRuns: 1000 },
    );
  });
});
