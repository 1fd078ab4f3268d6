import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { STEPS } from '../../src/wizard/steps.ts';
import { SCHEMES, SIZES } from './chromium.ts';
import { openWizard, type Wizard } from './wizard.ts';

/** Axe judges colours, which differ by scheme, and names, which differ by layout: one width of each layout is enough. */
const AXE_WIDTH = { light: 1440, dark: 360 } as const;

/** The first half of the steps and the second: one test for all of them would be long on a busy machine. */
const HALVES = [STEPS.slice(0, STEPS.length / 2), STEPS.slice(STEPS.length / 2)].map((steps) => ({
  steps,
  named: steps.join(', '),
}));

describe.each(SCHEMES)('Every screen, in the %s,', (colorScheme) => {
  it('fits from a wide desk down to a small phone and reads well: the bench, a new card, readings gone wrong', async () => {
    const wizard = await openWizard({ colorScheme });
    const found: string[] = [];
    const inspect = (screen: string) => lookAt(wizard, screen, AXE_WIDTH[colorScheme], found);
    await wizard.main.getByRole('button', { name: /Show all \d+ cases/ }).click();
    await inspect('bench');
    await wizard.newCard();
    await inspect('new card');
    await wizard.step(/^Readings/);
    await wizard.field('Core, resistance to ground').fill('0.3.1');
    await wizard.field('Memory, resistance to ground').fill('0.1');
    await wizard.weighed();
    await inspect('readings, one wrong and one short');
    await wizard.page.goto(`${wizard.bench.address}/#/`);
    await wizard.main
      .getByRole('link', { name: /Card of/ })
      .first()
      .waitFor();
    await inspect('bench with a card');
    expect(found).toEqual([]);
  });

  it.each(HALVES)('fits and reads well with everything folded out: $named', async ({ steps }) => {
    // axe knocks at every frame; the owner's page lies in one that runs no script, as it should
    const wizard = await openWizard({ colorScheme, expected: /Blocked script execution in 'about:srcdoc'/ });
    const found: string[] = [];
    for (const step of steps) {
      await wizard.openCase('bump-or-ball', step);
      await wizard.page.evaluate(() => {
        for (const folded of document.querySelectorAll('details')) folded.open = true;
      });
      await lookAt(wizard, step, AXE_WIDTH[colorScheme], found);
    }
    expect(found).toEqual([]);
  });
});

async function lookAt({ page }: Wizard, screen: string, axeWidth: number, found: string[]): Promise<void> {
  for (const size of SIZES) {
    await page.setViewportSize(size);
    const at = `${screen} at ${size.width} x ${size.height}`;
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    if (wide > 0) found.push(`${at}: ${wide} px wider than the window, ${await widest(page)}`);
    if (size.width === axeWidth) found.push(...(await serious(page)).map((said) => `${at}: ${said}`));
  }
}

async function serious(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page })
    .options({ resultTypes: ['violations'] })
    .setLegacyMode()
    .analyze();
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, help, nodes }) => `${id}, ${help}: ${nodes.map(({ target }) => target.join(' ')).join(' | ')}`);
}

/** Whatever sticks out furthest, to be found in a hurry. */
function widest(page: Page): Promise<string> {
  return page.evaluate(() => {
    const right = (one: Element) => one.getBoundingClientRect().right;
    const out = [...document.querySelectorAll('main *')].toSorted((a, b) => right(b) - right(a))[0];
    return out === undefined ? '' : `${Math.round(right(out))} px: ${out.outerHTML.slice(0, 160)}`;
  });
}
