import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { openWizard } from './wizard.ts';

/** A wide desk, a bench laptop, a phone, and 400 % zoom of a window 1280 wide. */
const SIZES = [
  { width: 1440, height: 900 },
  { width: 1024, height: 768 },
  { width: 390, height: 844 },
  { width: 320, height: 640 },
] as const;

/** Names of steps of which a word goes on in the next line. */
const brokenTabs = (page: Page): Promise<string[]> =>
  page.getByRole('navigation', { name: 'Schritte' }).evaluate((steps) =>
    [...steps.querySelectorAll('.step-name')].flatMap((name) => {
      const text = name.firstChild;
      if (text === null) return ['a step without a name'];
      const words = [...(text.textContent ?? '').matchAll(/\S+/g)];
      return words.flatMap(({ 0: word, index }) => {
        const range = document.createRange();
        range.setStart(text, index);
        range.setEnd(text, index + word.length);
        return range.getClientRects().length < 2 ? [] : [word];
      });
    }),
  );

/** What is to be seen and reaches beyond the panel it lies in; drawings and what scrolls by itself are left alone. */
const sticksOut = (page: Page): Promise<string[]> =>
  page.locator('.step').evaluate((panel) => {
    const edge = panel.getBoundingClientRect().right - Number.parseFloat(getComputedStyle(panel).paddingRight);
    return [...panel.querySelectorAll<HTMLElement>('*')]
      .filter((one) => one.closest('svg, .visually-hidden, .life-scroll, .sliders, .owner-sheet') === null)
      .filter((one) => one.checkVisibility() && getComputedStyle(one).clipPath === 'none')
      .filter((one) => one.closest('thead') === null || getComputedStyle(one.closest('thead')!).clipPath === 'none')
      .filter((one) => one.getBoundingClientRect().right > edge + 1)
      .map((one) => `${one.tagName} ${one.className} ${one.textContent?.slice(0, 40)}`);
  });

describe('Long German words', () => {
  it('break no name of a step and reach beyond no panel, whatever the window', async () => {
    const wizard = await openWizard({ locale: 'de-DE' });
    const { page } = wizard;
    const found: string[] = [];
    const inspect = async (screen: string) => {
      for (const size of SIZES) {
        await page.setViewportSize(size);
        const at = `${screen} at ${size.width}`;
        found.push(...(await brokenTabs(page)).map((word) => `${at}: ${word} breaks`));
        found.push(...(await sticksOut(page)).map((one) => `${at}: ${one}`));
      }
      await page.setViewportSize(SIZES[0]);
    };
    await page.getByRole('button', { name: 'Neue Karte' }).click();
    await page.locator('aside[data-pending="false"]').waitFor();
    await page.getByRole('link', { name: /^Messwerte/ }).click();
    await page.getByRole('textbox', { name: 'Kern, Widerstand gegen Masse', exact: true }).fill('0.3.1');
    await page.keyboard.press('Tab');
    await page.getByText(/enthält mehr als ein Trennzeichen/).waitFor();
    await inspect('readings of a new card, one wrong');
    for (const [id, step] of [
      ['ball-crack-on-a-dear-card', 'work'],
      ['errors-stay-after-the-chip', 'came-back'],
      ['memory-rail-short-nothing-else-known', 'verdict'],
      ['memory-rail-short-nothing-else-known', 'next'],
      ['lanes-lost-at-the-slot', 'tests'],
    ] as const) {
      await wizard.openCase(id, step);
      await page.locator('.step h1').waitFor();
      await inspect(`${step} of ${id}`);
    }
    expect(found).toEqual([]);
  });
});
