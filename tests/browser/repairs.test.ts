import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { inventedDays, reflowedCard } from '../learning/invented-cards.ts';
import { SCHEMES, SIZES } from './chromium.ts';
import type { ServedBench } from './served-bench.ts';
import { openWizard, wordsIn } from './wizard.ts';

/** Cards of the bench's own, as the server keeps them; every third of them invented where asked for. */
async function keep(bench: ServedBench, count: number, invented = false): Promise<void> {
  const days = inventedDays(count, { medianDays: 90, shape: 1.1, followedDays: 300 }, 51);
  for (const [at, served] of days.entries()) {
    const { invented: _, ...card } = reflowedCard(`box-${invented ? 'made-' : ''}${at}`, served, 300);
    const record = invented ? { ...card, invented: true } : card;
    const answer = await fetch(`${bench.address}/api/records/${card.id}`, {
      method: 'PUT',
      headers: { 'content-type': 'application/json', origin: bench.address },
      body: JSON.stringify({ record, revision: null }),
    });
    expect(answer.status).toBe(200);
  }
}

async function serious(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page })
    .options({ resultTypes: ['violations'] })
    .setLegacyMode()
    .analyze();
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(' ')).join(' | ')}`);
}

describe('How long the bench’s own repairs last', () => {
  it('teaches on an empty bench what must be entered, and is found from the list of cards', async () => {
    const { main, page } = await openWizard({ ownBench: true });
    await main.getByRole('link', { name: 'How long our repairs last' }).click();
    await main.getByRole('heading', { name: 'No repair can be followed yet' }).waitFor();
    expect(await wordsIn(main)).toContain('Handed back');
    expect(await serious(page)).toEqual([]);
    await main.getByRole('link', { name: 'Back to the bench' }).click();
    await main.getByRole('heading', { name: 'On the bench' }).waitFor();
  });

  it('draws each repair’s curve from all the server keeps, and says the same in words and in a table', async () => {
    const { main, page, bench } = await openWizard({ ownBench: true });
    await keep(bench, 14);
    await keep(bench, 2, true);
    await page.goto(`${bench.address}/#/repairs`);
    await main.getByRole('heading', { name: 'Reflow the core' }).waitFor();
    const picture = main.getByRole('img', { name: 'How long cards lasted after: Reflow the core' });
    await picture.waitFor();
    expect(await wordsIn(main)).toContain('done 14 times');
    const said = await wordsIn(main.locator('.repair-points'));
    expect(said).toMatch(/After 30 days \d+ of 100 still work \(\d+ to \d+\)\./);
    // a screen reader hears of the picture what is said below it
    expect(said).toContain((await picture.locator('desc').textContent())!.split('. ')[0]!);
    await main.getByText('In figures: Reflow the core').click();
    const table = main.getByRole('table', { name: 'In figures: Reflow the core' });
    const failed = await page.locator('.lasting-failed').count();
    // a row of the table for each step, and one for day 0
    expect(await table.getByRole('row').count()).toBe(failed + 2);
    await main.getByRole('heading', { name: 'Time until a masked fault comes back' }).waitFor();
    expect(await page.locator('.lasting-law').count()).toBeGreaterThan(0);

    await main.getByRole('checkbox', { name: 'Invented cards, too (2)' }).check();
    await main.getByText('done 16 times').waitFor();
    await page.getByRole('button', { name: /Auf Deutsch umschalten/ }).click();
    await main.getByText('16-mal gemacht').waitFor();
    expect(await wordsIn(main)).not.toMatch(/\b(still|days|of 100|working)\b/);
  });

  it.each(SCHEMES)('fits every window in the %s and leaves axe nothing to say', async (colorScheme) => {
    const { main, page, bench } = await openWizard({ ownBench: true, colorScheme });
    await keep(bench, 6);
    await page.goto(`${bench.address}/#/repairs`);
    await main.getByText('Too few were followed').waitFor();
    await main.getByText('In figures: Reflow the core').click();
    for (const size of SIZES) {
      await page.setViewportSize(size);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      expect(wide, `${size.width}`).toBeLessThanOrEqual(0);
    }
    expect(await serious(page)).toEqual([]);
    if (process.env.PICTURES !== undefined) {
      for (const size of SIZES.slice(0, 3)) {
        await page.setViewportSize(size);
        await page.screenshot({
          path: `${process.env.PICTURES}/repairs-${size.width}-${colorScheme}.png`,
          fullPage: true,
        });
      }
    }
  });
});
