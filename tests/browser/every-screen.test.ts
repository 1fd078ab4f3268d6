import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { SCHEMES, SIZES, STEPS } from './chromium.ts';
import { openWizard, type Wizard } from './wizard.ts';

/** Axe judges colours, which differ by scheme, and names, which differ by layout: one width of each layout is enough. */
const AXE_WIDTH = { light: 1440, dark: 360 } as const;

describe('Every screen', () => {
  it.each(SCHEMES)('fits from a wall monitor down to a small phone and reads well, in the %s', async (colorScheme) => {
    const wizard = await openWizard({ colorScheme });
    const found: string[] = [];
    await wizard.main.getByRole('button', { name: /Show all \d+ cases/ }).click();
    await inspect(wizard, 'empty bench', AXE_WIDTH[colorScheme], found);
    await wizard.newCard();
    await inspect(wizard, 'new card', AXE_WIDTH[colorScheme], found);
    await wizard.step(/^Readings/);
    await wizard.field('Core, resistance to ground').fill('0.3.1');
    await wizard.field('Memory, resistance to ground').fill('0.1');
    await wizard.weighed();
    await inspect(wizard, 'readings, one wrong and one short', AXE_WIDTH[colorScheme], found);
    await wizard.page.goto(`${wizard.bench.address}/#/`);
    await wizard.main
      .getByRole('link', { name: /Card of/ })
      .first()
      .waitFor();
    await inspect(wizard, 'bench with a card', AXE_WIDTH[colorScheme], found);
    for (const step of STEPS) {
      await wizard.openCase('bump-or-ball', step);
      await wizard.page.evaluate(() => {
        for (const folded of document.querySelectorAll('details')) folded.open = true;
      });
      await inspect(wizard, step, AXE_WIDTH[colorScheme], found);
    }
    expect(found).toEqual([]);
  });
});

async function inspect({ page }: Wizard, screen: string, axeWidth: number, found: string[]): Promise<void> {
  for (const size of SIZES) {
    await page.setViewportSize(size);
    const at = `${screen} at ${size.width} x ${size.height}`;
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    if (wide > 0) found.push(`${at}: ${wide} px wider than the window, ${await widest(page)}`);
    if (size.width === axeWidth) found.push(...(await serious(page)).map((said) => `${at}: ${said}`));
  }
}

async function serious(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page }).analyze();
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
