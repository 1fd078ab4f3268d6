import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import type { Assessed } from '../../src/assessment.ts';
import { inLanguage } from '../../src/knowledge/load.ts';
import type { WorkOrder } from '../../src/work-order/schema.ts';
import { PAPERS, sheetHtml } from '../../src/work-order/sheet-html.ts';
import { LEAST_POINTS } from '../../src/work-order/sheet-style.ts';
import { workOrder } from '../../src/work-order/work-order.ts';
import { assessed, card, knowledge, shop } from '../work-order/cards.ts';
import { launchChromium } from './chromium.ts';
import { readPrinted } from './printed-text.ts';

/** Points, as Chromium rounds them. */
const SHEETS = { a4: { width: 595, height: 842 }, letter: { width: 612, height: 792 } } as const;
/** A card with few warnings, and two of which nearly everything is closed. */
const CARDS = ['ball-crack-on-a-dear-card', 'chipped-die', 'swollen-board'];

/** How each step is done is printed only where two sides hold it, too; the longest work takes a third without it. */
const MOST_SIDES = { withHow: 2, without: 3 } as const;
const german = await inLanguage(knowledge, 'de');

let browser: Browser;
const orders: WorkOrder[] = [];
/** the same, with the longer words */
const germanOrders: WorkOrder[] = [];
beforeAll(async () => {
  browser = await launchChromium();
  for (const id of CARDS) {
    const record = card(id);
    const assessment = await assessed(record);
    for (const { id: remedy } of knowledge.remedies) {
      const order = workOrder(knowledge, shop, record, assessment, { remedy });
      if (order.kind === 'order') orders.push(order);
    }
    const inGerman = await assess(german, shop, record, { draws: 0 });
    for (const { id: remedy } of inGerman.kind === 'assessed' ? german.remedies : []) {
      const order = workOrder(german, shop, record, inGerman as Assessed, { remedy });
      if (order.kind === 'order') germanOrders.push(order);
    }
  }
}, 240_000);
afterAll(async () => {
  await browser.close();
});

/** In points, of whatever is printed with words in it. */
function smallestType(): number {
  const words = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  let smallest = Number.POSITIVE_INFINITY;
  while (words.nextNode()) {
    const around = words.currentNode.parentElement!;
    if (words.currentNode.textContent!.trim() === '' || around.getClientRects().length === 0) continue;
    smallest = Math.min(smallest, (Number.parseFloat(getComputedStyle(around).fontSize) * 72) / 96);
  }
  return smallest;
}

const squeezed = (text: string) => text.normalize('NFKC').replaceAll(/\s+/g, '');

describe('The job sheet in a browser', () => {
  it.each(PAPERS)(
    'can be read at arm’s length on every side of %s, for every remedy, and loses no hold point, box, blank or caution',
    async (paper) => {
      expect(orders).toHaveLength(CARDS.length * knowledge.remedies.length);
      expect(germanOrders).toHaveLength(orders.length);
      const page = await browser.newPage();
      await page.emulateMedia({ media: 'print' });
      const wrong: string[] = [];
      for (const order of [...orders, ...germanOrders]) {
        const called = `${order.record}, ${order.remedy}, ${order.language}`;
        await page.setContent(sheetHtml(order, paper));
        const boxes = await page.locator('.step .box').count();
        if (boxes !== order.steps.length) wrong.push(`${called}: ${boxes} boxes for ${order.steps.length} hold points`);
        const { sheets, letters } = readPrinted(await page.pdf({ preferCSSPageSize: true, printBackground: true }));
        const size = SHEETS[paper];
        const how = await page.locator('.step .how').first().isVisible();
        const most = how ? MOST_SIDES.withHow : MOST_SIDES.without;
        const misfit = sheets.some(
          ({ width, height }) => Math.abs(height - size.height) > 1.5 || Math.abs(width - size.width) > 1.5,
        );
        if (misfit || sheets.length === 0 || sheets.length > most)
          wrong.push(`${called}: ${sheets.length} sheets ${how ? 'with' : 'without'} how`);
        const smallest = await page.evaluate(smallestType);
        if (smallest < LEAST_POINTS - 0.01) wrong.push(`${called}: type of ${smallest} points`);
        // a loose side is known for what it is
        const footed = squeezed(letters).split(squeezed(`${order.record} · ${order.name}`)).length - 1;
        if (footed < sheets.length) wrong.push(`${called}: ${footed} of ${sheets.length} sides are named`);
        const said = [
          order.title,
          ...order.warnings,
          ...order.steps.flatMap((step) => [step.name, step.passes, ...step.record]),
          ...order.cautions.map(({ text }) => text),
          ...(order.targets?.rows.flatMap(({ name, limit }) => [name, limit]) ?? []),
        ];
        const lost = said.filter((text) => !squeezed(letters).includes(squeezed(text)));
        if (lost.length > 0) wrong.push(`${called} loses ${lost[0]}`);
      }
      await page.close();
      expect(wrong).toEqual([]);
    },
    240_000,
  );

  it('holds everything that can be said of balls in readable type, on no more sides than the longest work takes', async () => {
    const core = {
      ...{ ballMillimetres: 0.6, packagePadMillimetres: 0.45, boardPadMillimetres: 0.52, pitchMillimetres: 1 },
      ...{ pasteCubicMillimetres: 0.02, leftMillimetres: 0.02, ballAlloy: 'SAC305', padAlloy: 'Sn63Pb37' },
      ...{ imageMillimetres: 0.5, voidsMillimetres: [0.2, 0.15] },
      ...{ swingKelvin: 55, hottestCelsius: 85, cyclesPerDay: 3, referenceCycles: 3000, referenceShape: 2 },
      ...{ referenceSwingKelvin: 40, referenceHottestCelsius: 65, referenceCyclesPerDay: 1 },
      ...{ strainRange: 0.01, dwellMinutes: 60, activationElectronvolts: 0.7 },
    };
    const record = { ...card('chipped-die'), balls: { core } };
    const page = await browser.newPage();
    await page.emulateMedia({ media: 'print' });
    for (const spoken of [knowledge, german]) {
      const assessment = await assess(spoken, shop, record, { draws: 0 });
      const order = workOrder(spoken, shop, record, assessment as Assessed, { remedy: 'reball-core-leaded' });
      if (order.kind !== 'order') throw new Error(order.because);
      await page.setContent(sheetHtml(order));
      const { sheets, letters } = readPrinted(await page.pdf({ preferCSSPageSize: true, printBackground: true }));
      expect(sheets.length).toBeLessThanOrEqual(MOST_SIDES.without);
      expect(await page.evaluate(smallestType)).toBeGreaterThanOrEqual(LEAST_POINTS - 0.01);
      const said = order.balls?.joint?.words.flatMap(({ lines }) => lines) ?? [];
      expect(said.length).toBeGreaterThan(25);
      expect(said.filter((text) => !squeezed(letters).includes(squeezed(text)))).toEqual([]);
    }
    await page.close();
  });

  it('is no wider than the screen of a phone, and says there how each step is done', async () => {
    const page = await browser.newPage({ viewport: { width: 390, height: 844 } });
    const order = orders.find(({ remedy }) => remedy === 'reball-core-leaded')!;
    await page.setContent(sheetHtml(order));
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
    expect(await page.locator('.how').first().isVisible()).toBe(true);
    await page.close();
  });
});
