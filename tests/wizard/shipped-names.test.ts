import { readFileSync } from 'node:fs';
import { afterEach, describe, expect, it } from 'vitest';
import { chooseLanguage } from '../../src/wizard/language.ts';
import { shippedEn } from '../../src/wizard/messages/shipped-en.ts';
import { sayShopsName } from '../../src/wizard/shipped-names.ts';

const profile = JSON.parse(readFileSync(new URL('../../rules/shop.json', import.meta.url), 'utf8')) as unknown;
const forgetful = { setItem: () => undefined };
const speak = (language: 'en' | 'de') => chooseLanguage(language, forgetful, { lang: '' });

function namesIn(value: unknown): string[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, held]) => (key === 'name' ? [String(held)] : namesIn(held)));
}

describe('Names in the shop profile', () => {
  afterEach(() => speak('en'));

  it('are said in the language of the screen where they were shipped with it', async () => {
    await speak('de');
    expect(sayShopsName('Milliohm meter, four-wire')).toBe('Milliohmmeter, Vierleiter');
    const left = namesIn(profile).filter((name) => sayShopsName(name) === name);
    expect(left).toEqual([]);
  });

  it('stay as the shop wrote them where they are its own', async () => {
    await speak('de');
    expect(sayShopsName('The old yellow one')).toBe('The old yellow one');
    expect(sayShopsName('')).toBe('');
  });

  it('are the profile’s own words in English', () => {
    expect(namesIn(profile).map(sayShopsName)).toEqual(namesIn(profile));
    expect(new Set(namesIn(profile))).toEqual(new Set(Object.values(shippedEn)));
  });
});
