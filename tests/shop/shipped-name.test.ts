import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { SHIPPED_NAME, shopNameIn } from '../../src/shop/shipped-name.ts';

it('says in the language of the page that the figures of the example profile are invented, and leaves a shop its own name', () => {
  const { name } = JSON.parse(readFileSync(new URL('../../rules/shop.json', import.meta.url), 'utf8')) as {
    name: string;
  };
  expect(shopNameIn('en', name)).toBe(name);
  expect(shopNameIn('de', name)).toBe(SHIPPED_NAME.de);
  expect(shopNameIn('fr', name), 'no words for it').toBe(name);
  expect(shopNameIn('de', 'Bench at the harbour')).toBe('Bench at the harbour');
});
