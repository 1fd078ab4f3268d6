import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { eventually, openWizard } from './wizard.ts';

/** Keeps what a screen reader would read out by itself: every new text of a place that is announced. */
const listen = (page: Page): Promise<void> =>
  page.evaluate(() => {
    const before = new WeakMap<Element, string>();
    const said: string[] = [];
    Object.assign(window, { said });
    const hear = () => {
      for (const place of document.querySelectorAll('[role="status"], [role="alert"], [aria-live]')) {
        const text = (place.textContent ?? '').trim();
        const isNew = before.has(place) && before.get(place) !== text && text !== '';
        if (isNew && place.getAttribute('aria-live') !== 'off') said.push(text);
        before.set(place, text);
      }
    };
    hear();
    new MutationObserver(hear).observe(document.body, { subtree: true, childList: true, characterData: true });
  });

const said = (page: Page): Promise<string[]> => page.evaluate(() => (window as unknown as { said: string[] }).said);

describe('Read out by itself', () => {
  it('is one sentence to an answer, the verdict with what moved, and not that it was saved', async () => {
    const wizard = await openWizard();
    await wizard.openCase('bump-or-ball', 'symptoms');
    await listen(wizard.page);
    await wizard.main.getByRole('radio').nth(1).check();
    await wizard.stored();
    await eventually(() => said(wizard.page)).toEqual([expect.stringMatching(/^Verdict so far: /)]);
  });

  it('is one sentence when the hand rests on a slider, however far it went', async () => {
    const wizard = await openWizard();
    await wizard.openCase('ball-crack-on-a-dear-card');
    const worth = wizard.main.getByRole('slider', { name: /^The card, working, is worth/ });
    await worth.waitFor();
    await listen(wizard.page);
    await worth.focus();
    for (let press = 0; press < 10; press++) await wizard.page.keyboard.press('ArrowLeft');
    // the card's own verdict is told when the screen opens
    const ofTheSlider = async () => (await said(wizard.page)).filter((text) => !text.startsWith('Verdict so far'));
    await eventually(ofTheSlider).toEqual([expect.stringMatching(/^The verdict /)]);
  });

  it('is trouble with keeping what was typed', async () => {
    const wizard = await openWizard({ ownBench: true, expected: /ERR_CONNECTION_REFUSED/ });
    await wizard.newCard();
    await wizard.stored();
    await listen(wizard.page);
    await wizard.bench.kill();
    await wizard.answer(/What kind of memory/, 'GDDR6');
    await eventually(async () => (await said(wizard.page)).join(' ')).toContain('Kept on this device');
  });
});
