import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { STEPS } from '../../src/wizard/steps.ts';
import { eventually, factsOf, foundOf, openWizard } from './wizard.ts';

/** What holds the keyboard, in the words a screen reader would use, and whether the eye is shown it. */
interface Stop {
  readonly name: string;
  readonly question: string;
  readonly shown: boolean;
}

/** The owner's page asks for a price only; it has a test of its own. */
const ASKING = STEPS.filter((step) => step !== 'owner');

/** More stops than any screen has: whoever walks this far walks in circles. */
const TOO_FAR = 150;

describe('Hands that stay on the keyboard', () => {
  it('lead from an empty bench to a verdict: digits answer, Enter goes on, Ctrl+Z takes back', async () => {
    const { page, main, weighed, stored, panelWords } = await openWizard();
    const { keyboard } = page;
    const enter = async (times = 1) => {
      for (let i = 0; i < times; i++) await press(page, 'Enter');
    };
    await main.getByRole('heading', { name: 'Open a worked case' }).waitFor();
    await walkTo(page, /^New card/);
    await enter();
    await expectQuestion(page, /Name it/);
    await keyboard.type('Typed blind');
    await enter();
    for (const key of ['2', '3']) await digit(page, key);
    await keyboard.type('8');
    await enter();
    for (const key of ['2', '3', '2']) await digit(page, key);
    await keyboard.type('4');
    await enter(2);
    await digit(page, '2');
    await expectQuestion(page, /Worth working/);
    await keyboard.type('230-310');
    await enter();
    await keyboard.type('35');
    await enter();
    await keyboard.type('25');
    await enter(2);
    expect((await stored()).money, 'typed in place of the shop’s figures, not behind them').toEqual({
      working: { low: 230, likely: 270, high: 310 },
      asIs: 35,
      partsAfterWork: 25,
    });

    await main.getByRole('heading', { name: 'What has it been through?' }).waitFor();
    await expectQuestion(page, /months on end/);
    await press(page, '1');
    await weighed();
    const mined = await panelWords();
    await press(page, '2');
    await eventually(panelWords).not.toBe(mined);
    await press(page, 'Control+z');
    await eventually(panelWords).toBe(mined);
    expect(factsOf(await stored()).mined).toBe(true);
    await press(page, 'Shift+Enter');
    await main.getByRole('heading', { name: 'Which card is this, and what is it worth?' }).waitFor();
    await walkTo(page, /^On to history/);
    await enter();
    await expectQuestion(page, /months on end/);
    await untilHeading(page, 'What does the owner say it does?');
    await press(page, '2');
    await untilHeading(page, 'What can be seen without power?');
    await expectQuestion(page, /stands out on the board/);
    await digit(page, '1');
    await untilHeading(page, 'What do the rails read?');
    await expectQuestion(page, /Core, resistance to ground/);
    for (const typed of ['940m', '38R', '22', '420', '3k1', '4k2', '18k', '31k']) {
      await keyboard.type(typed);
      await enter();
    }
    // Enter after the last of them waits until power is allowed, and the column of voltages with it
    await expectQuestion(page, /Core, voltage/);
    for (const typed of ['0.78', '1.352', '960m', '1V8', '3.31', '5.03', '12.03', '12.05']) {
      await keyboard.type(typed);
      await enter();
    }
    await untilHeading(page, 'What do the tests show?');
    await walkTo(page, /Boot test|Known-good host/);
    if ((await page.locator('details:has(> summary:focus)').getAttribute('open')) === null) await enter();
    await walkTo(page, /how far does it get/);
    await press(page, '4');
    await weighed();
    await walkTo(page, /Memory test/);
    if ((await page.locator('details:has(> summary:focus)').getAttribute('open')) === null) await enter();
    await walkTo(page, /Where does the memory test find errors/);
    await press(page, '2');
    await weighed();
    await untilHeading(page, 'Which check is worth its minutes?');
    await walkTo(page, /^On to verdict/);
    await enter();
    await main.getByRole('heading', { name: 'Is it worth the heat?' }).waitFor();
    await main.getByRole('table', { name: 'Options compared' }).waitFor();

    const record = await stored();
    expect(record.title).toBe('Typed blind');
    expect(factsOf(record)).toMatchObject({ 'die-size': 'medium', 'memory-type': 'gddr6', 'memory-chips': 8 });
    expect(foundOf(record, 'resistance-12v-input')).toMatchObject({ typed: '31k' });
    expect(foundOf(record, 'voltage-core')).toMatchObject({ typed: '0.78' });
    expect(foundOf(record, 'start-up')).toMatchObject({ state: 'artifacts-from-first-image', by: 'bench' });
    expect(foundOf(record, 'memory-test')).toMatchObject({ state: 'one-chip' });
  });

  it('put a figure right by coming back to it: what is typed then takes its place', async () => {
    const { page, newCard, field, stored } = await openWizard();
    await newCard();
    await field('Worth working').fill('230');
    expect(await field('Worth as it lies there').inputValue(), 'the shop’s figure stays grey').toBe('');
    await field('Worth working').focus();
    await press(page, 'Enter');
    await page.keyboard.type('35');
    await press(page, 'Shift+Enter');
    await page.keyboard.type('250');
    expect((await stored()).money).toMatchObject({ working: 250, asIs: 35 });
    await page.reload();
    await expect.poll(() => field('Worth as it lies there').inputValue()).toBe('35');
    expect(await field('Left if the work fails').getAttribute('placeholder')).not.toBe('');
  });

  it('reach every question of every step with Tab, and the eye is shown where they are', async () => {
    const { openCase, page, main } = await openWizard();
    for (const step of ASKING) {
      await openCase('one-memory-chip', step);
      const heading = main.getByRole('heading', { level: 1 });
      await heading.focus();
      const stops: Stop[] = [];
      for (let i = 0; i < TOO_FAR; i++) {
        await page.keyboard.press('Tab');
        const stop = await whereItStands(page);
        if (stop === null) break;
        stops.push(stop);
      }
      expect(stops.length, step).toBeGreaterThan(0);
      expect(stops.length, step).toBeLessThan(TOO_FAR);
      expect(
        stops.filter(({ shown }) => !shown).map(({ name }) => name),
        step,
      ).toEqual([]);
      const reached = new Set(stops.map(({ question }) => question));
      const asked = await main
        .locator('[data-question]:visible')
        .evaluateAll((all) => all.map((one) => (one.textContent ?? '').trim()));
      expect(
        asked.filter((question) => !reached.has(question)),
        step,
      ).toEqual([]);
    }
  });
});

async function press(page: Page, key: string): Promise<void> {
  await page.keyboard.press(key);
  await drawn(page);
}

/** A jump to another question is drawn with the frame after next, and out of a step only once its answers are weighed. */
async function drawn(page: Page): Promise<void> {
  await page.evaluate(async () => {
    const frame = () => new Promise((next) => requestAnimationFrame(next));
    for (let frames = 0; frames < 3; frames++) await frame();
  });
}

async function digit(page: Page, key: string): Promise<void> {
  await press(page, key);
  await press(page, 'Enter');
}

/** With Tab, and no further than once around, to what bears this name or belongs to this question. */
async function walkTo(page: Page, name: RegExp): Promise<void> {
  for (let i = 0; i < TOO_FAR; i++) {
    await page.keyboard.press('Tab');
    const stop = await whereItStands(page);
    if (stop !== null && (name.test(stop.name) || name.test(stop.question))) return;
  }
  throw new Error(`Tab never comes to ${name}.`);
}

/** Enter leads through the rest of a step and out of it. */
async function untilHeading(page: Page, heading: string): Promise<void> {
  for (let i = 0; i < TOO_FAR; i++) {
    await press(page, 'Enter');
    await page.locator('aside[data-pending="false"]').waitFor();
    await drawn(page);
    if (await page.getByRole('heading', { level: 1, name: heading }).isVisible()) return;
  }
  throw new Error(`Enter never comes to "${heading}".`);
}

async function expectQuestion(page: Page, words: RegExp): Promise<void> {
  await eventually(async () => (await whereItStands(page))?.question ?? 'nowhere').toMatch(words);
}

/** Null: outside the page. */
function whereItStands(page: Page): Promise<Stop | null> {
  return page.evaluate(() => {
    const here = document.activeElement;
    if (!(here instanceof HTMLElement) || here === document.body) return null;
    const near = [here, here.parentElement, here.parentElement?.parentElement].filter((one) => one != null);
    const look = () =>
      near.map((one) => {
        const { outlineStyle, outlineWidth, outlineColor, boxShadow } = getComputedStyle(one);
        return outlineStyle === 'none' ? boxShadow : `${outlineStyle} ${outlineWidth} ${outlineColor} ${boxShadow}`;
      });
    const held = look();
    here.blur();
    const left = look();
    here.focus({ preventScroll: true });
    const label = here instanceof HTMLInputElement ? here.labels?.[0]?.textContent : undefined;
    return {
      name: (here.getAttribute('aria-label') ?? label ?? here.textContent ?? '').trim(),
      question: (here.closest('[data-question]')?.textContent ?? '').trim(),
      shown: held.some((one, index) => one !== left[index]),
    };
  });
}
