import { describe, expect, it } from 'vitest';
import { sayGrade } from '../../src/wizard/say-reading.ts';
import { sayPrice } from '../../src/wizard/verdict/price-words.ts';
import {
  sayDays,
  sayDecibels,
  sayFrequency,
  sayMinutes,
  sayMinutesExactly,
  sayMoney,
  sayPercent,
  sayWeight,
  sayWhen,
  unbroken,
} from '../../src/wizard/words.ts';
import { sampleAssessment } from './sample-assessment.ts';

const manner = { locale: 'en-IE', currency: 'EUR' };

describe('figures in words', () => {
  it('holds a minus, a sign of money and a percent sign to their figure at the end of a line', () => {
    // UAX #14 lets a line end between a minus (HY, PR) and a currency sign (PR); U+2060 forbids it
    expect(sayMoney(-154, manner)).toBe('−\u2060€154');
    expect(unbroken('comes to -€5 over leaving')).toBe('comes to −\u2060€5 over leaving');
    expect(unbroken('-95\u00A0€')).toBe('−\u206095\u00A0€');
    expect(unbroken('20-30 min, on 2026-11-25, a 4-wire meter')).toBe('20-30 min, on 2026-11-25, a 4-wire meter');
    expect(sayPercent(0.06)).not.toMatch(/ /);
  });

  it('never rounds a small chance to none or a large one to certainty', () => {
    expect([0, 0.002, 0.47, 0.997, 1].map(sayPercent)).toEqual(['0%', '<\u00A01%', '47%', '>\u00A099%', '100%']);
    expect([0, 0.002, 0.04, 0.66, 0.96, 0.999, 1].map(sayFrequency)).toEqual([
      'never',
      'less than 1 of 100',
      '4 of 100',
      '66 of 100',
      '96 of 100',
      'nearly always',
      'always',
    ]);
  });

  it('says money in whole units and never a negative zero', () => {
    expect(sayMoney(117.6, manner)).toBe('€118');
    expect(sayMoney(-0.2, manner)).toBe('€0');
  });

  it('says bench time in minutes, longer work in quarter hours', () => {
    expect([7.6, 99, 150, 200].map(sayMinutes)).toEqual(['8 min', '99 min', '2.5 h', '3.25 h']);
    expect([7.6, 99, 145, 180].map(sayMinutesExactly)).toEqual(['8 min', '99 min', '2 h 25 min', '3 h']);
    expect([1, 14, 90, 365].map(sayDays)).toEqual(['1 day', '14 days', '3 months', '12 months']);
  });

  it('says the weight of evidence for what it is: ten decibels are ten to one', () => {
    expect([0.2, 2, -5, 10, -20, 20].map(sayWeight)).toEqual([
      'says nothing either way',
      'slightly for',
      'speaks against',
      'strongly for',
      'all but rules it out',
      'all but proves it',
    ]);
    expect([7.44, -4.1, 21.3].map(sayDecibels)).toEqual(['+7.4 dB', '−4.1 dB', '+21 dB']);
  });

  it('says a grade with its shares only where the reading is near an edge', () => {
    const name = (state: string) => state;
    expect(sayGrade(['normal', 'low', 'short'], [0.99, 0.01, 0], name)).toBe('normal');
    expect(sayGrade(['normal', 'low', 'short'], [0.38, 0.62, 0], name)).toBe('low 62%, normal 38%');
    expect(sayGrade(['normal', 'low'], [0, 0], name)).toBe('fits no state');
  });

  it('says when a card was changed', () => {
    const now = new Date('2026-11-24T12:00:00Z');
    expect(sayWhen('2026-11-24T11:59:40Z', 'en-IE', now)).toBe('just now');
    expect(sayWhen('2026-11-24T11:20:00Z', 'en-IE', now)).toBe('40 min ago');
    expect(sayWhen('2026-10-02T11:20:00Z', 'en-IE', now)).toBe('2 Oct 2026');
    expect(sayWhen('', 'en-IE', now)).toBe('at an unknown time');
  });
});

describe('the price in words', () => {
  const [reball, partOut] = sampleAssessment.options;

  it('names the band that serves bench and owner', () => {
    expect(sayPrice(reball!, manner)).toBe('Any price from €178 to €236 serves both sides.');
  });

  it('says that there is no such price when the owner cannot pay what the bench needs', () => {
    const poor = { ...reball!, ceiling: 90, justified: false };
    expect(sayPrice(poor, manner)).toBe('No price serves both: the bench needs €178, to the owner it is worth €90.');
  });

  it('says nothing where nothing is sold', () => {
    expect(sayPrice(partOut!, manner)).toBeNull();
  });
});
