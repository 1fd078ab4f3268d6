/** The balls of a reball, typed at the bench. */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { SCHEMES, SIZES } from './chromium.ts';
import { eventually, openWizard, type Wizard, wordsIn } from './wizard.ts';

const CASE = 'ball-crack-on-a-dear-card';
const MEASURED = { 'Ball diameter': '0.5', 'Package pad': '0,4', 'Board pad': '400 µm', Pitch: '0.8' };

async function openBalls(wizard: Wizard): Promise<void> {
  await wizard.main.locator('.balls-fold > summary').click();
  await wizard.field('Ball diameter').waitFor();
}

async function type(wizard: Wizard, values: { readonly [label: string]: string }): Promise<void> {
  for (const [label, value] of Object.entries(values)) await wizard.field(label).fill(value);
}

const drawing = ({ main }: Wizard) => main.getByRole('img', { name: /^Section of the joint/ });

async function violations(page: Page): Promise<string[]> {
  const found = await new AxeBuilder({ page })
    .include('.balls-fold')
    .options({ resultTypes: ['violations'] })
    .setLegacyMode()
    .analyze();
  return found.violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(' ')).join(' | ')}`);
}

describe('The balls of a reball', () => {
  it('are typed once, drawn, kept with the card, printed on the job sheet, and there again after a reload', async () => {
    const wizard = await openWizard();
    const { main, page, stored } = wizard;
    await wizard.openCase(CASE, 'work');
    await openBalls(wizard);
    expect(await drawing(wizard).count()).toBe(0);
    await type(wizard, MEASURED);
    await drawing(wizard).waitFor();
    expect(await drawing(wizard).getAttribute('aria-label')).toBe(
      'Section of the joint: stand-off 0.347 mm, widest 0.529 mm, gap to the neighbour 0.271 mm',
    );
    const part = main.locator('.balls-fold');
    expect(await wordsIn(part)).toContain('Board pad 0.4 mm fits a ball of 0.5 mm');
    await main.getByText('The joint in figures').click();
    const table = main.getByRole('table', { name: 'The joint in figures' });
    expect(await wordsIn(table)).toMatch(/Stand-off after collapse ?0\.347.*Gap to the neighbour ?0\.271/);

    // what stays on the pads is of another alloy than the work's
    await page.getByLabel('Alloy on the pads').selectOption('SAC305');
    await main.getByText('Paste, and solder that stays on the pads').click();
    await wizard.field('Height of solder left on the pads').fill('20 µm');
    await main.getByText(/Sn63Pb37 makes up 92\.87 % of the volume, SAC305 the rest/).waitFor();
    expect((await stored()).balls).toEqual({
      core: {
        ballMillimetres: 0.5,
        packagePadMillimetres: 0.4,
        boardPadMillimetres: 0.4,
        pitchMillimetres: 0.8,
        padAlloy: 'SAC305',
        leftMillimetres: 0.02,
      },
    });

    await page.reload();
    await main.getByText(/stand-off 0\.362 mm, gap 0\.26 mm/).waitFor();
    await openBalls(wizard);
    expect(await wizard.field('Board pad').inputValue()).toBe('0.4');
    expect(await page.getByLabel('Alloy on the pads').inputValue()).toBe('SAC305');

    await main.locator('.job-sheet > summary').click();
    const sheet = page.frameLocator('iframe').locator('.balls');
    await eventually(() => wordsIn(sheet)).toMatch(/Stand-off 0\.362 mm after collapse/);
    expect(await wordsIn(sheet)).toContain('(IPC-7095, quoted)');
  });

  it('show beside the field what is wrong with it, and lose nothing that was typed', async () => {
    const wizard = await openWizard();
    const { main, page, stored } = wizard;
    await wizard.openCase(CASE, 'work');
    await openBalls(wizard);
    await type(wizard, MEASURED);
    await drawing(wizard).waitFor();
    const ball = wizard.field('Ball diameter');
    await ball.fill('0.5.5');
    await ball.press('Tab');
    await main.getByText('"0.5.5" is not one number.').waitFor();
    expect(await ball.getAttribute('aria-invalid')).toBe('true');
    expect((await stored()).balls?.core?.ballMillimetres).toBe(0.5);
    await page.reload();
    await openBalls(wizard);
    expect(await wizard.field('Ball diameter').inputValue()).toBe('0.5.5');

    // two values that contradict each other are told at the one that cannot be
    await wizard.field('Ball diameter').fill('0.5');
    await wizard.field('Pitch').fill('0.35');
    await main.getByText('The board pad of 0.4 mm is as wide as the pitch of 0.35 mm').waitFor();
    expect(await drawing(wizard).count()).toBe(0);
    await wizard.field('Pitch').fill('0.52');
    await main.getByText('Neighbouring joints touch').waitFor();
    expect(await drawing(wizard).getAttribute('aria-label')).toContain('the neighbours touch');

    // what is emptied is taken off the record; all that was typed in one field is one step to take back
    await wizard.field('Pitch').fill('');
    await eventually(async () => (await stored()).balls?.core?.pitchMillimetres).toBeUndefined();
    await page.getByRole('button', { name: 'Undo' }).first().click();
    await eventually(() => wizard.field('Pitch').inputValue()).toBe('0.8');
  });

  it('tell voids against each revision, and leaded beside lead-free under this card’s heat cycles', async () => {
    const wizard = await openWizard();
    const { main } = wizard;
    await wizard.openCase(CASE, 'work');
    await openBalls(wizard);
    await type(wizard, { 'Ball in the X-ray image': '0.5', 'Voids in it, one after the other': '0,15; 0,2; 50 µm' });
    await main.getByText(/revision D\/E: at most 25 %, BEYOND/).waitFor();
    await main.getByText(/revision F and later: at most 30 %, within/).waitFor();
    await type(wizard, { Swing: '55', 'Hottest temperature': '85' });
    await main.getByText('Still needed: cycles a day.').waitFor();
    await type(wizard, { 'Cycles a day': '3' });
    await main.getByRole('img', { name: /^How many times as many cycles/ }).waitFor();
    const words = await wordsIn(main.locator('.balls-fold'));
    expect(words).toContain('as nobody stated one: 40 K up to 65 °C, 1 cycle a day (estimate)');
    expect(words).toContain('none is agreed on: the range is the answer');
    expect(words).toContain('is no promise of life');
    await main.getByText('The comparison in figures').click();
    const table = main.getByRole('table', { name: 'The comparison in figures' });
    expect(await table.getByRole('row').count()).toBe(5);
  });

  it('of a memory chip are its own, and take from the record how long the card ran a day', async () => {
    const wizard = await openWizard();
    const { main, page, stored } = wizard;
    await wizard.openCase('mined-card-with-hot-memory', 'work');
    await page.locator('#work-remedy').selectOption('reball-memory-chip');
    await openBalls(wizard);
    await main.getByText(/Measured once.*for the memory chip/).waitFor();
    // 20,000 hours in 3 years of 365.25 days are 18.25 h a day; at two cycles a day each rests hot for about 550 min
    await main.getByText('By the record it has run 18.3 h a day on average (20,000 hours in 3 years).').waitFor();
    await type(wizard, { 'Cycles a day': '2', 'Ball diameter': '0.45' });
    await main.getByText(/each one rests hot for about 550 min.*It was mined/).waitFor();
    expect((await stored()).balls).toEqual({ memory: { cyclesPerDay: 2, ballMillimetres: 0.45 } });
    await main.getByText('Still needed: package pad and board pad.').waitFor();
  });

  it('are worked by the keyboard alone', async () => {
    const wizard = await openWizard();
    const { main, page, stored } = wizard;
    await wizard.openCase(CASE, 'work');
    await main.locator('.balls-fold > summary').focus();
    await page.keyboard.press('Enter');
    await wizard.field('Ball diameter').waitFor();
    for (const value of Object.values(MEASURED)) {
      await page.keyboard.press('Tab');
      await page.keyboard.type(value);
    }
    await drawing(wizard).waitFor();
    // the alloys, by their first letters
    await page.keyboard.press('Tab');
    await page.keyboard.press('Tab');
    await page.keyboard.type('SAC305');
    await eventually(async () => (await stored()).balls?.core?.padAlloy).toBe('SAC305');
  });

  it('are not asked for where the work places none', async () => {
    const wizard = await openWizard();
    const { main, page } = wizard;
    await wizard.openCase(CASE, 'work');
    await main.locator('.balls-fold').waitFor();
    await page.locator('#work-remedy').selectOption('reflow-core');
    await main.locator('.balls-fold').waitFor({ state: 'detached' });
  });

  it.each(SCHEMES)('fit from a wide desk to a small phone and read well, in the %s', async (colorScheme) => {
    const wizard = await openWizard({ colorScheme });
    const { main, page } = wizard;
    await wizard.openCase(CASE, 'work');
    await openBalls(wizard);
    await type(wizard, { ...MEASURED, Swing: '55', 'Hottest temperature': '85', 'Cycles a day': '3' });
    await type(wizard, { 'Ball in the X-ray image': '0.5', 'Voids in it, one after the other': '0.7' });
    await main.getByText(/wider than its ball/).waitFor();
    for (const fold of await main.locator('.balls details > summary').all()) await fold.click();
    for (const viewport of SIZES) {
      await page.setViewportSize(viewport);
      await drawing(wizard).waitFor();
      const over = () => page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      await eventually(over).toBeLessThanOrEqual(0);
      // no figure of the drawing is cut off
      const cut = await drawing(wizard).evaluate((svg) => {
        const frame = svg.getBoundingClientRect();
        return [...svg.querySelectorAll('text')].filter((text) => {
          const box = text.getBoundingClientRect();
          return box.left < frame.left - 1 || box.right > frame.right + 1 || box.bottom > frame.bottom + 1;
        }).length;
      });
      expect(cut, `${viewport.width}`).toBe(0);
    }
    expect(await violations(page)).toEqual([]);
  });
});
