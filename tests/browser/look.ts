/**
 * Pictures of every screen, to be looked at by a person: `npx node tests/browser/look.ts [folder]`.
 * `--readme` takes the one picture the README shows instead.
 */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { STEPS } from '../../src/wizard/steps.ts';
import { launchChromium, SCHEMES, SIZES } from './chromium.ts';
import { serveBench } from './served-bench.ts';

const HERE = fileURLToPath(new URL('.', import.meta.url));
const WORKED = 'ball-crack-on-a-dear-card';
const [argument] = process.argv.slice(2);

const bench = await serveBench();
const browser = await launchChromium();
try {
  if (argument === '--readme') await takeForReadme(join(HERE, 'readme.png'));
  else await takeAll(argument ?? join(HERE, 'shots'));
} finally {
  await browser.close();
  await bench.close();
}

async function takeForReadme(path: string): Promise<void> {
  const page = await browser.newPage({ viewport: SIZES[0], colorScheme: 'light' });
  await page.goto(`${bench.address}/#/case/${WORKED}/verdict`);
  await drawn(page);
  await page.screenshot({ path });
  console.log(path);
}

async function takeAll(folder: string): Promise<void> {
  mkdirSync(folder, { recursive: true });
  for (const colorScheme of SCHEMES) {
    for (const viewport of SIZES) {
      const context = await browser.newContext({ viewport, colorScheme, locale: 'en-GB' });
      const page = await context.newPage();
      const take = async (name: string) => {
        const path = join(folder, `${name}-${viewport.width}-${colorScheme}.png`);
        await page.evaluate(() => scrollTo({ top: 0 }));
        await page.screenshot({ path, fullPage: true });
        console.log(path);
      };
      await page.goto(bench.address);
      await page.getByRole('heading', { name: 'Open a worked case' }).waitFor();
      await take('bench');
      await page.goto(`${bench.address}/#/repairs`);
      await page.getByRole('heading', { name: 'No repair can be followed yet' }).waitFor();
      await take('repairs');
      await page.goto(bench.address);
      await page.getByRole('button', { name: 'New card' }).click();
      await drawn(page);
      await take('new-card');
      for (const step of STEPS) {
        await page.goto(`${bench.address}/#/case/${WORKED}/${step}`);
        await drawn(page);
        await take(step);
      }
      await page.goto(`${bench.address}/#/case/only-the-owners-words/readings`);
      await drawn(page);
      await page.getByRole('textbox', { name: 'Core, resistance to ground', exact: true }).fill('0.3.1');
      await page.getByRole('textbox', { name: 'Memory, resistance to ground', exact: true }).fill('0.1');
      await drawn(page);
      await take('readings-wrong-and-short');
      await page.goto(`${bench.address}/#/card/no-such-card/verdict`);
      await page.getByRole('heading', { name: 'That card is not here' }).waitFor();
      await take('missing');
      await context.close();
    }
  }
}

/** The answer to everything typed is on the screen, the parameter draws included. */
async function drawn(page: Page): Promise<void> {
  await page.locator('aside[data-pending="false"]').or(page.locator('iframe')).waitFor();
  await page
    .getByText(/Testing how firm|Shaking the figures/)
    .first()
    .waitFor({ state: 'hidden' });
}
