import type { Locator, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { openWizard } from './wizard.ts';

/** Shades of grey, of 255, from which on two places are told apart at a glance (estimate). */
const TOLD_APART = 12;

/**
 * How light it is on average, 0 to 255, as painted. Computed styles do not tell: a forced palette is put over them when they
 * are painted.
 */
async function lightness(page: Page, place: Locator): Promise<number> {
  const picture = `data:image/png;base64,${(await place.screenshot({ animations: 'disabled' })).toString('base64')}`;
  return page.evaluate(async (source) => {
    const image = new Image();
    image.src = source;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = image.width;
    canvas.height = image.height;
    const context = canvas.getContext('2d')!;
    context.drawImage(image, 0, 0);
    const { data } = context.getImageData(0, 0, image.width, image.height);
    let sum = 0;
    for (let at = 0; at < data.length; at += 4) sum += (data[at]! + data[at + 1]! + data[at + 2]!) / 3;
    return sum / (data.length / 4);
  }, picture);
}

describe.each(['light', 'dark'] as const)('Under a palette that is forced, %s,', (colorScheme) => {
  it('the answer given and the step one stands on are told from the others', async () => {
    const wizard = await openWizard({ forcedColors: 'active', colorScheme });
    const { page } = wizard;
    await wizard.openCase('bump-or-ball', 'card');
    const die = wizard.question(/How large is the core die/);
    const given = await lightness(page, die.getByRole('radio', { name: /^medium/ }));
    const other = await lightness(page, die.getByRole('radio', { name: /^small/ }));
    expect(Math.abs(given - other)).toBeGreaterThan(TOLD_APART);

    const card = page.getByRole('navigation', { name: 'Steps' }).getByRole('link', { name: /^Card/ });
    const here = await lightness(page, card);
    await wizard.step(/^History/);
    await page.getByRole('heading', { level: 1, name: 'What has it been through?' }).waitFor();
    expect(Math.abs((await lightness(page, card)) - here)).toBeGreaterThan(TOLD_APART);
  });

  it('the passes a board has left are told apart: spent, of this work, beyond what is tested, left', async () => {
    const wizard = await openWizard({ forcedColors: 'active', colorScheme });
    await wizard.openCase('ball-crack-on-a-dear-card', 'work');
    const cells = wizard.main.locator('.heat-row .heat-cells');
    const shades: number[] = [];
    for (const kind of ['spent', 'beyond', 'takes', 'free'])
      shades.push(await lightness(wizard.page, cells.locator(`[data-kind="${kind}"]:not([data-last="true"])`).first()));
    const steps = shades.slice(1).map((shade, at) => Math.abs(shade - shades[at]!));
    expect(Math.min(...steps)).toBeGreaterThan(TOLD_APART);
  });
});
