import { execFile } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { letterHtml } from '../../src/letter/html.ts';
import { proseOf } from '../../src/letter/prose.ts';
import { type Letter, PAPERS } from '../../src/letter/schema.ts';
import { type Bench, openBench } from '../letter/letters.ts';
import { launchChromium } from './chromium.ts';
import { readPrinted } from './printed-text.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
/** Points, as Chromium rounds them. */
const SHEETS = { a4: { width: 595, height: 842 }, letter: { width: 612, height: 792 } } as const;

let browser: Browser;
let bench: Bench;
const folder = mkdtempSync(join(tmpdir(), 'worth-the-heat-page-'));
beforeAll(async () => {
  [browser, bench] = await Promise.all([launchChromium(), openBench()]);
}, 240_000);
afterAll(async () => {
  await browser.close();
  rmSync(folder, { recursive: true, force: true });
});

async function withPage<T>(letter: Letter, use: (page: Page) => Promise<T>): Promise<T> {
  const context = await browser.newContext({ viewport: { width: 900, height: 1200 } });
  const page = await context.newPage();
  try {
    await page.setContent(letterHtml(letter));
    return await use(page);
  } finally {
    await context.close();
  }
}

/** Without white space, and ligatures as the letters they stand for. */
const squeezed = (text: string) => text.normalize('NFKC').replaceAll(/\s+/g, '');
/** German is longer; every so many cases are enough to see it fit. */
const GERMAN_EVERY = 4;

describe('The owner’s page in a browser', () => {
  it.each(PAPERS)('takes one sheet of %s for every worked case, in German, too, and loses nothing', async (paper) => {
    const wrong: string[] = [];
    for (const [at, { id, letter, german }] of bench.told.entries()) {
      for (const one of at % GERMAN_EVERY === 0 ? [letter, german] : [letter]) {
        await withPage({ ...one, paper }, async (page) => {
          const pdf = await page.pdf({ preferCSSPageSize: true, printBackground: true });
          const { sheets, letters } = readPrinted(pdf);
          const size = SHEETS[paper];
          const fits =
            sheets.length === 1 &&
            Math.abs(sheets[0]!.width - size.width) < 1.5 &&
            Math.abs(sheets[0]!.height - size.height) < 1.5;
          if (!fits) wrong.push(`${id} ${one.language}: ${JSON.stringify(sheets)}`);
          const printed = squeezed(letters);
          const missing = proseOf(one).filter((part) => !printed.includes(squeezed(part.split(': ').at(-1)!)));
          for (const part of missing) wrong.push(`${id} ${one.language} lacks: ${part}`);
        });
      }
    }
    expect(wrong).toEqual([]);
  });

  it('would take a second sheet, and be caught, if there were too much on it', async () => {
    const { letter } = bench.of('one-memory-chip');
    const long = { ...letter, why: Array.from({ length: 60 }, () => letter.why[0]!) };
    await withPage(long, async (page) => {
      const { sheets } = readPrinted(await page.pdf({ preferCSSPageSize: true }));
      expect(sheets.length).toBeGreaterThan(1);
    });
  });

  it.each([
    'one-memory-chip',
    'ball-crack-on-a-cheap-card',
    'card-is-fine-host-is-not',
    'only-the-owners-words',
    'back-after-three-weeks',
  ])('has nothing to object to by WCAG 2.2 AA, and lets nobody scroll sideways on a telephone: %s', async (id) => {
    for (const letter of [bench.of(id).letter, bench.of(id).german]) {
      await withPage(letter, async (page) => {
        const { violations } = await new AxeBuilder({ page })
          .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'])
          .analyze();
        expect(violations.map(({ id: rule, nodes }) => `${rule}: ${nodes[0]?.html}`)).toEqual([]);
        await page.setViewportSize({ width: 360, height: 700 });
        const wide = await page.evaluate(() => document.documentElement.scrollWidth);
        expect(wide).toBeLessThanOrEqual(360);
      });
    }
  });

  it('tells a screen reader what the small cards and the drawing show', async () => {
    const { letter } = bench.of('one-memory-chip');
    await withPage(letter, async (page) => {
      await page.getByRole('img', { name: letter.outOf100!.sentence }).waitFor();
      await page.getByRole('img', { name: 'Where the fault is likely to be' }).waitFor();
      await page.getByRole('heading', { level: 1, name: 'The repair is worth it' }).waitFor();
      await page.getByRole('columnheader', { name: 'Works again' }).waitFor();
      await page.getByRole('rowheader', { name: /Replacing one memory chip/ }).waitFor();
    });
  });
});

describe('worth-the-heat letter --pdf', () => {
  it('prints the page through a Chromium: one sheet, with the words and the price on it', async () => {
    const file = join(folder, 'letter.pdf');
    const run = promisify(execFile);
    const { stderr } = await run(
      process.execPath,
      [
        join(ROOT, 'src/cli/main.ts'),
        'letter',
        'cases/one-memory-chip.json',
        '--pdf',
        file,
        '--paper',
        'letter',
        '--price',
        '150',
        '--draws',
        '20',
      ],
      { cwd: ROOT, env: { ...process.env, WORTH_THE_HEAT_DATA: folder } },
    );
    expect(stderr).toMatch(/Wrote .*letter\.pdf\.\n$/);
    const { sheets, letters } = readPrinted(readFileSync(file));
    expect(sheets).toEqual([SHEETS.letter]);
    expect(letters).toContain(squeezed('The repair is worth it'));
    expect(letters).toContain(squeezed('Your price is €150.'));
  });
});
