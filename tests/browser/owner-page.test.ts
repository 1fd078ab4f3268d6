import { readFileSync } from 'node:fs';
import { AxeBuilder } from '@axe-core/playwright';
import type { FrameLocator, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { readPrinted } from './printed-text.ts';
import { eventually, openWizard, type Wizard, wordsIn } from './wizard.ts';

const WORTH_IT = 'ball-crack-on-a-dear-card';
const NOT_WORTH_IT = 'ball-crack-on-a-cheap-card';
const SOUND = 'card-is-fine-host-is-not';
const OWN_STOCK = 'own-stock-ball-crack';
const HARDLY_KNOWN = 'only-the-owners-words';
const GONE = /ERR_CONNECTION_REFUSED|ERR_CONNECTION_RESET|ERR_EMPTY_RESPONSE|ERR_FAILED/;

/** Points (1/72 inch) as Chromium rounds them. */
const SHEETS = { A4: { width: 595, height: 842 }, 'US Letter': { width: 612, height: 792 } } as const;
type Paper = keyof typeof SHEETS;

interface OwnerPage extends Wizard {
  /** the page as it is printed */
  readonly sheet: FrameLocator;
  sheetWords(): Promise<string>;
  price(): ReturnType<Wizard['field']>;
}

async function openOwnerPage(id: string, opened?: Wizard): Promise<OwnerPage> {
  const wizard = opened ?? (await openWizard());
  await wizard.page.goto(`${wizard.bench.address}/#/case/${id}/owner`);
  return onOwnerPage(wizard);
}

async function onOwnerPage(wizard: Wizard): Promise<OwnerPage> {
  const sheet = wizard.page.frameLocator('iframe');
  await sheet.getByRole('heading', { level: 1 }).waitFor();
  // the ranges over parameter draws come last and belong on the page
  await eventually(() => wizard.page.getByText('are still being worked out').count()).toBe(0);
  return {
    ...wizard,
    sheet,
    sheetWords: () => wordsIn(sheet.locator('main')),
    price: () => wizard.field('Price you ask, if it works'),
  };
}

async function choosePaper({ page }: Wizard, paper: Paper): Promise<void> {
  await page.getByRole('radio', { name: paper, exact: true }).check();
  await page.locator(`[data-paper="${paper === 'A4' ? 'a4' : 'letter'}"]`).waitFor();
}

const print = async (page: Page) => readPrinted(await page.pdf({ preferCSSPageSize: true, printBackground: true }));
const lettersOf = (words: string): string => words.replace(/\s+/g, '');
/** Drawn order is not reading order in columns and bullets, so passages are looked for one by one. */
async function passages(sheet: FrameLocator): Promise<string[]> {
  const all = await sheet.locator('h1, h2, p, li, th, td, dt, dd').allInnerTexts();
  return all
    .flatMap((text) => text.split('\n'))
    .map(lettersOf)
    .filter((text) => text.length > 1);
}

/** A style may print capitals, and a font joins letters into one sign. */
const folded = (text: string): string => text.normalize('NFKC').toLowerCase();

describe("The owner's page on paper", () => {
  for (const [words, id] of [
    ['worth it', WORTH_IT],
    ['not worth it', NOT_WORTH_IT],
    ['nothing wrong with the card', SOUND],
    ['not enough known', HARDLY_KNOWN],
    ["the shop's own stock", OWN_STOCK],
  ] as const)
    for (const paper of ['A4', 'US Letter'] as const)
      it(`is one side of ${paper} for "${words}", alone, and every passage of it reads back`, async () => {
        const owner = await openOwnerPage(id);
        await choosePaper(owner, paper);
        const { sheets, letters } = await print(owner.page);
        expect(sheets.map(({ width, height }) => ({ width: Math.round(width), height: Math.round(height) }))).toEqual([
          SHEETS[paper],
        ]);
        const printed = folded(letters);
        for (const passage of await passages(owner.sheet)) expect(printed).toContain(folded(passage));
        expect(printed, 'nothing of the wizard is printed').not.toContain(lettersOf('print the page'));
        expect(printed).not.toContain(lettersOf('what does the owner get to read'));
      });

  it('is what the button prints: the page alone, in the language and with the price on the screen', async () => {
    const owner = await openOwnerPage(WORTH_IT);
    await owner.page.getByRole('radio', { name: 'Deutsch' }).check();
    await owner.price().fill('444');
    await eventually(owner.sheetWords).toContain('444');
    await owner.page.evaluate(() => {
      const said: string[] = [];
      Object.assign(window, { said, print: () => said.push('the whole wizard') });
      const { contentWindow } = document.querySelector('iframe')!;
      contentWindow!.print = () => said.push(contentWindow!.document.body.textContent!);
    });
    await owner.page.getByRole('button', { name: 'Print the page' }).click();
    const said = await owner.page.evaluate(() => (window as unknown as { said: string[] }).said);
    expect(said).toHaveLength(1);
    expect(said[0]).toContain('444');
    expect(await owner.sheet.locator('html').getAttribute('lang')).toBe('de');
    expect(said[0]).not.toContain('The repair is worth it');
  });

  it('can be kept as one file that needs nothing else and prints as one side, too', async () => {
    const owner = await openOwnerPage(WORTH_IT);
    const [download] = await Promise.all([
      owner.page.waitForEvent('download'),
      owner.page.getByRole('button', { name: 'Save as HTML' }).click(),
    ]);
    expect(download.suggestedFilename()).toBe(`${WORTH_IT}-en.html`);
    const html = readFileSync(await download.path(), 'utf8');
    expect(html).not.toMatch(/(src|href)="(?!#)|url\((?!#)|@import|<script/);
    const page = await owner.page.context().newPage();
    await page.setContent(html);
    expect(await wordsIn(page.locator('main'))).toBe(await owner.sheetWords());
    expect((await print(page)).sheets).toHaveLength(1);
  });
});

describe('The price on it', () => {
  it("is the technician's: beyond the band the shop or the owner loses, and it says which and how much", async () => {
    const owner = await openOwnerPage(WORTH_IT);
    const band = await wordsIn(owner.main.locator('#owner-price-band'));
    const [floor, ceiling] = [...band.matchAll(/\d+/g)].map(Number) as [number, number];
    expect(ceiling).toBeGreaterThan(floor);
    expect(await owner.main.getByText(/loses\./).count(), 'the middle suits both').toBe(0);
    await owner.price().fill(String(floor - 60));
    await owner.main.getByText('The shop loses.').waitFor();
    const said = [...(await wordsIn(owner.main.locator('.owner-warning'))).matchAll(/[\d.]*\d/g)].map(Number);
    const [asked, edge, loss] = said as [number, number, number];
    expect(asked).toBe(floor - 60);
    expect(Math.abs(edge - floor), 'the edge is the band, to the cent').toBeLessThan(1);
    expect(loss).toBeGreaterThan(0);
    expect(loss, 'the price is paid only where the card works, so less than the difference').toBeLessThan(edge - asked);
    await owner.price().fill(String(ceiling + 60));
    await owner.main.getByText('The owner loses.').waitFor();
    expect(await owner.main.getByText('The shop loses.').count()).toBe(0);
    await eventually(owner.sheetWords).toContain(String(ceiling + 60));
    await owner.price().fill(String(Math.round((floor + ceiling) / 2)));
    await eventually(() => owner.main.getByText(/loses\./).count()).toBe(0);
    expect(await owner.sheetWords(), 'the warning is for the shop, not on the page').not.toMatch(/loses/);
  });

  it('once quoted stands on the card: on its record, on the page, on the bench list, until it is taken off', async () => {
    const owner = await openOwnerPage(WORTH_IT);
    const band = await wordsIn(owner.main.locator('#owner-price-band'));
    const [floor, ceiling] = [...band.matchAll(/\d+/g)].map(Number) as [number, number];
    const price = Math.round(floor + (ceiling - floor) / 4);
    await owner.price().fill(String(price));
    await owner.page.getByRole('button', { name: /^Quoted to the owner: keep/ }).click();
    await owner.main.getByText(new RegExp(`^Quoted on .*: €${price}, valid until`)).waitFor();
    expect(await owner.price().inputValue(), 'it stands on the card, not in the field').toBe('');
    expect((await owner.stored()).timeline.at(-1)).toMatchObject({ type: 'quoted', price });
    await eventually(owner.sheetWords).toContain(`€${price}`);
    await owner.page.getByRole('link', { name: /Worth the heat/i }).click();
    const ticket = owner.page.getByRole('listitem').filter({ hasText: 'quoted, waiting for the owner' });
    await ticket.getByRole('link').click();
    await onOwnerPage(owner);
    await owner.page.getByRole('button', { name: 'Take the quote off the card' }).click();
    await owner.main.getByText('Nothing has been quoted yet').waitFor();
    expect((await owner.stored()).timeline.some(({ type }) => type === 'quoted')).toBe(false);
  });

  it('moves with the slider by keyboard, and figure, slider and page agree', async () => {
    const owner = await openOwnerPage(WORTH_IT);
    const slider = owner.page.getByRole('slider', { name: 'Price you ask, by slider' });
    const before = Number(await slider.inputValue());
    await slider.focus();
    for (let presses = 0; presses < 3; presses++) await owner.page.keyboard.press('ArrowRight');
    const after = await slider.inputValue();
    expect(Number(after)).toBeGreaterThan(before);
    await eventually(() => owner.price().inputValue()).toBe(after);
    await eventually(owner.sheetWords).toContain(after);
    await owner.page.getByRole('button', { name: /Back to the middle/ }).click();
    await eventually(() => owner.price().inputValue()).toBe('');
    await eventually(async () => Number(await slider.inputValue())).toBe(before);
  });

  it('is not guessed from what cannot be read: nothing is printed until it is put right, and a reload keeps the typing', async () => {
    const owner = await openOwnerPage(WORTH_IT);
    await owner.price().fill('4oo');
    const button = owner.page.getByRole('button', { name: 'Print the page' });
    expect(await button.isDisabled()).toBe(true);
    await owner.page.reload();
    await owner.sheet.getByRole('heading', { level: 1 }).waitFor();
    expect(await owner.price().inputValue()).toBe('4oo');
    expect(await button.isDisabled()).toBe(true);
    await owner.main.getByText('Type one figure').first().waitFor();
    await owner.price().fill('400');
    expect(await button.isDisabled()).toBe(false);
  });

  it('is not spoken of where nothing is sold: own stock, and a card that is sound', async () => {
    const owner = await openOwnerPage(OWN_STOCK);
    await owner.main.getByText('The card is your own stock').waitFor();
    expect(await owner.price().count()).toBe(0);
    await openOwnerPage(SOUND, owner);
    await owner.main.getByText('Nothing is sold here').waitFor();
    expect(await owner.price().count()).toBe(0);
  });

  it('is left empty where none serves both, and the page says what each side would need', async () => {
    const owner = await openOwnerPage(NOT_WORTH_IT);
    expect(await owner.price().inputValue()).toBe('');
    const [needed, worth] = [...(await wordsIn(owner.main.locator('#owner-price-band'))).matchAll(/\d+/g)].map(String);
    expect(await owner.sheetWords()).toMatch(new RegExp(`${needed}.*${worth}`));
  });
});

describe("The owner's page as a step", () => {
  it('follows the verdict, and says so where there is nothing to tell or something cannot be read', async () => {
    const wizard = await openWizard();
    await wizard.newCard();
    await wizard.step(/^Verdict/);
    await wizard.page.getByRole('button', { name: /On to owner's page/i }).click();
    await wizard.main.getByText('Nothing is known about this card yet').waitFor();
    expect(await wizard.page.locator('iframe').count()).toBe(0);
    const record = await wizard.stored();
    const at = new Date().toISOString();
    const unreadable = { type: 'measured', at, finding: 'resistance-core', typed: '0.3.1' };
    const { address } = wizard.bench;
    const put = await fetch(`${address}/api/records/from-elsewhere`, {
      method: 'PUT',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({
        record: { ...record, id: 'from-elsewhere', timeline: [...record.timeline, unreadable] },
        revision: null,
      }),
    });
    expect(put.status).toBe(200);
    await wizard.page.goto(`${address}/#/card/from-elsewhere/owner`);
    await wizard.main.getByText('There is no page while something on the card cannot be read').waitFor();
    await wizard.main
      .getByRole('button', { name: /Go to: / })
      .first()
      .click();
    await wizard.field('Core, resistance to ground').fill('0.31');
    await wizard.weighed();
    await wizard.step(/Owner's page/);
    await onOwnerPage(wizard);
  });

  it('opens and prints without the server, though it was never opened before', async () => {
    const wizard = await openWizard({ ownBench: true, expected: GONE });
    await wizard.page.evaluate(async () => {
      await navigator.serviceWorker.ready;
      const stocked = async () => (await caches.match(new URL('stocked-by', location.href).href)) !== undefined;
      while (!(await stocked())) await new Promise((wait) => setTimeout(wait, 50));
    });
    await wizard.bench.kill();
    const owner = await openOwnerPage(WORTH_IT, wizard);
    const { sheets, letters } = await print(owner.page);
    expect(sheets).toHaveLength(1);
    expect(letters).toContain(lettersOf('The repair is only just worth it'));
  });

  it('has nothing that keeps anybody out, at a desk or on a telephone, light or dark', async () => {
    for (const colorScheme of ['light', 'dark'] as const) {
      const wizard = await openWizard({ colorScheme });
      const owner = await openOwnerPage(WORTH_IT, wizard);
      await owner.price().fill('1');
      await owner.main.getByText('The shop loses.').waitFor();
      for (const viewport of [
        { width: 1440, height: 900 },
        { width: 360, height: 640 },
      ]) {
        await owner.page.setViewportSize(viewport);
        const { violations } = await new AxeBuilder({ page: owner.page }).analyze();
        expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`)).toEqual([]);
        const spill = await owner.page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        expect(spill, 'nothing runs out of the window').toBeLessThanOrEqual(0);
      }
    }
  });
});
