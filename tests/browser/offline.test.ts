import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { brotliCompressSync } from 'node:zlib';
import type { Page, Response } from 'playwright-core';
import { afterAll, describe, expect, it, onTestFinished } from 'vitest';
import { serve } from '../../src/server/serve.ts';
import { openStore } from '../../src/store/sqlite-store.ts';
import { launchChromium } from './chromium.ts';
import { eventually, factsOf, openWizard, type Wizard, wizardOn } from './wizard.ts';

/** What a browser says of a server that is gone, or of a network that is. */
const GONE = /ERR_CONNECTION_REFUSED|ERR_CONNECTION_RESET|ERR_EMPTY_RESPONSE|ERR_INTERNET_DISCONNECTED|ERR_FAILED/;
const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const MOST_SCRIPT_KB = 120;

/** Until this device could do without the server: the built files and every worked case are kept. */
async function keptOnThisDevice(page: Page): Promise<void> {
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    const stocked = async () => (await caches.match(new URL('stocked-by', location.href).href)) !== undefined;
    while (!(await stocked())) await new Promise((wait) => setTimeout(wait, 50));
  });
}

describe('Without the server', () => {
  it('the wizard opens after one visit, with the worked cases, the cards of this bench and new ones', async () => {
    const wizard = await openWizard({ ownBench: true, expected: GONE });
    const { bench, page } = wizard;
    await wizard.newCard();
    await wizard.field('Name it, so that you find it again').fill('Seen before the power cut');
    await wizard.stored();
    await keptOnThisDevice(page);
    await bench.kill();
    await page.goto('about:blank');
    await page.goto(bench.address);
    await page.getByRole('link', { name: /Seen before the power cut/ }).waitFor();
    await page.getByText(/The server does not answer/).waitFor();
    await wizard.openCase('ball-crack-on-a-dear-card');
    expect(await wizard.panelWords()).toMatch(/ball|joint/i);
    await wizard.openCase('blown-input-fuse', 'next');
    await page.getByRole('heading', { name: 'Which check is worth its minutes?' }).waitFor();
    await page.goto(`${bench.address}/#/`);
    await wizard.newCard();
    await wizard.answer(/How large is the core die/, /^large/);
    expect(await wizard.ranking.count(), 'a new card is weighed, too').toBeGreaterThan(0);
  });

  it('a card begun without a network is weighed as with it, and is on the disk once the network is back', async () => {
    const wizard = await openWizard({ ownBench: true, expected: GONE });
    const { bench, page } = wizard;
    await keptOnThisDevice(page);
    await page.context().setOffline(true);
    await bench.kill();
    await page.reload();
    await wizard.newCard();
    await wizard.field('Name it, so that you find it again').fill('Begun in the cellar');
    await wizard.answer(/How much power is the card made for/, 'above 300 W');
    const away = await causes(wizard);
    await page.reload();
    expect(await causes(wizard), 'a reload loses nothing').toEqual(away);
    await page.getByRole('status').filter({ hasText: 'Kept on this device' }).waitFor();
    await bench.restart();
    await page.context().setOffline(false);
    const record = await wizard.stored();
    expect(record.title).toBe('Begun in the cellar');
    expect(factsOf(record)).toEqual({ 'power-class': 'above-300' });
    await page.reload();
    expect(await causes(wizard), 'the server changes nothing about where it points').toEqual(away);
  });

  it("weighs by the shop's own figures, as the server last gave them", async () => {
    const { folder, address, stop } = await serveCopy();
    const shop = JSON.parse(readFileSync(join(folder, 'data', 'shop.json'), 'utf8'));
    const currency = shop.currency === 'CHF' ? 'EUR' : 'CHF';
    writeFileSync(join(folder, 'data', 'shop.json'), JSON.stringify({ ...shop, currency }));
    const page = await ownPage();
    await page.goto(address);
    await keptOnThisDevice(page);
    await stop();
    await page.goto(`${address}/#/case/ball-crack-on-a-dear-card/verdict`);
    await page.reload();
    await page.getByText(currency).first().waitFor();
  });
});

describe('A newer build', () => {
  it('is told of in words and waits until it is asked for, while typing goes on; what was typed is there after it', async () => {
    const { folder, address } = await serveCopy();
    const page = await ownPage();
    await page.goto(address);
    const wizard = wizardOn(page, { address } as never);
    await keptOnThisDevice(page);
    await wizard.newCard();
    makeNewer(join(folder, 'dist'));
    await page.evaluate(async () => void (await navigator.serviceWorker.ready).update());
    await page.getByText('A newer version of this tool is ready.').waitFor();
    await wizard.field('Name it, so that you find it again').fill('Typed under the old build');
    expect(await buildOf(page)).toBe('older');
    await page.reload();
    expect(await buildOf(page), 'a reload alone does not swap it').toBe('older');
    await page.getByRole('button', { name: 'Load it now' }).click();
    await eventually(() => buildOf(page)).toBe('newer');
    await wizard.weighed();
    expect(await wizard.field('Name it, so that you find it again').inputValue()).toBe('Typed under the old build');
    expect(await page.getByText('A newer version of this tool is ready.').count()).toBe(0);
  });

  it('leaves another window on the old build working and tells it; of three builds the oldest is not kept', async () => {
    const { folder, address } = await serveCopy();
    const page = await ownPage();
    await page.goto(address);
    await keptOnThisDevice(page);
    const other = await page.context().newPage();
    await other.goto(address);
    for (const name of ['newer', 'newest']) {
      makeNewer(join(folder, 'dist'), name);
      await page.evaluate(async () => void (await navigator.serviceWorker.ready).update());
      await page.getByRole('button', { name: 'Load it now' }).click();
      await eventually(() => buildOf(page)).toBe(name);
    }
    await other.getByText('Another window has loaded a newer version').waitFor();
    expect(await buildOf(other)).toBe('older');
    const shelves = await page.evaluate(async () => (await caches.keys()).filter((name) => / built /.test(name)));
    expect(shelves).toHaveLength(2);
  });

  it('is refused where a file is not the one that was built, and the one at hand goes on', async () => {
    const { folder, address } = await serveCopy();
    const page = await ownPage();
    await page.goto(address);
    await keptOnThisDevice(page);
    const script = join(folder, 'dist', 'service-worker.js');
    makeNewer(join(folder, 'dist'));
    writeFileSync(script, readFileSync(script, 'utf8').replace(/"digest":"[^"]{6}/, '"digest":"AAAAAA'));
    rmSync(`${script}.br`, { force: true });
    const outcome = await page.evaluate(async () => {
      const registration = await navigator.serviceWorker.ready;
      const found = new Promise<ServiceWorker>((tell) => {
        registration.addEventListener('updatefound', () => tell(registration.installing!));
      });
      await registration.update().catch(() => undefined);
      const worker = await found;
      while (worker.state === 'installing') await new Promise((wait) => setTimeout(wait, 50));
      return worker.state;
    });
    expect(outcome).toBe('redundant');
    await page.reload();
    expect(await buildOf(page)).toBe('older');
  });
});

describe('A first visit', () => {
  it(`loads at most ${MOST_SCRIPT_KB} kB of compressed script, and asks nobody but its own server`, async () => {
    const { address } = await serveCopy();
    const page = await ownPage();
    const answers: Response[] = [];
    page.context().on('response', (response) => answers.push(response));
    await page.goto(address);
    await page.getByRole('heading', { name: 'On the bench' }).waitFor();
    await keptOnThisDevice(page);
    expect(answers.filter((answer) => !answer.url().startsWith(address)).map((answer) => answer.url())).toEqual([]);
    const started = answers.filter((answer) => answer.request().serviceWorker() === null && /\.js$/.test(answer.url()));
    const scripts = new Map(started.map((answer) => [answer.url(), answer]));
    expect([...scripts.keys()].join(' '), 'the page and the worker that holds the rules').toMatch(/index-.*worker-/);
    let bytes = 0;
    for (const [, answer] of scripts) {
      expect(await answer.headerValue('content-encoding')).toBe('br');
      bytes += brotliCompressSync(await answer.body()).length;
    }
    expect(bytes / 1000).toBeLessThanOrEqual(MOST_SCRIPT_KB);
  });

  it('finds a manifest and icons it can be installed with', async () => {
    const { address } = await serveCopy();
    const page = await ownPage();
    await page.goto(address);
    await keptOnThisDevice(page);
    const session = await page.context().newCDPSession(page);
    const { installabilityErrors } = await session.send('Page.getInstallabilityErrors');
    // a private window installs nothing; everything else must be in order
    expect(installabilityErrors.map(({ errorId }) => errorId).filter((id) => id !== 'in-incognito')).toEqual([]);
    const { errors, data } = await session.send('Page.getAppManifest');
    expect(errors).toEqual([]);
    const { icons } = JSON.parse(data!) as { icons: { src: string; sizes: string }[] };
    for (const { src, sizes } of icons) {
      const image = await page.evaluate(async (path) => {
        const bitmap = await createImageBitmap(await (await fetch(path)).blob());
        return `${bitmap.width}x${bitmap.height}`;
      }, src);
      expect(image).toBe(sizes);
    }
  });
});

/** Causes and chances, without what moved since the last answer: that is forgotten with the window. */
async function causes({ weighed, ranking }: Wizard): Promise<string[]> {
  await weighed();
  return (await ranking.allTextContents()).map((text) => text.replace(/\d*(up|down) \d+ points?/, ''));
}

let browser: ReturnType<typeof launchChromium> | null = null;
afterAll(async () => (await browser)?.close());

async function ownPage(): Promise<Page> {
  browser ??= launchChromium();
  const context = await (await browser).newContext({ locale: 'en-GB', viewport: { width: 1440, height: 900 } });
  context.setDefaultTimeout(20_000);
  onTestFinished(() => context.close());
  return context.newPage();
}

/** A copy of the built wizard on a server of its own, so that a newer build can take its place. */
async function serveCopy() {
  const folder = mkdtempSync(join(tmpdir(), 'worth-the-heat-offline-'));
  const dist = join(folder, 'dist');
  cpSync(join(ROOT, 'dist'), dist, { recursive: true });
  const store = openStore({ folder: join(folder, 'data'), shopTemplate: join(ROOT, 'rules', 'shop.json') });
  store.shop();
  const serving = await serve({ store, dist, cases: join(ROOT, 'cases'), port: 0 });
  let open = true;
  const stop = async () => {
    if (!open) return;
    open = false;
    await serving.close();
    store.close();
  };
  onTestFinished(async () => {
    await stop();
    rmSync(folder, { recursive: true, force: true });
  });
  return { folder, address: serving.address, stop };
}

/** Another first page in place of the built one, told to the service worker as the build tells it. */
function makeNewer(dist: string, name = 'newer'): void {
  const page = join(dist, 'index.html');
  const plain = readFileSync(page, 'utf8').replace(/<meta name="build"[^>]*>/, '');
  writeFileSync(page, plain.replace('<head>', `<head><meta name="build" content="${name}">`));
  const script = join(dist, 'service-worker.js');
  const digest = createHash('sha256').update(readFileSync(page)).digest('base64');
  const told = readFileSync(script, 'utf8')
    .replace(/("path":"index\.html","digest":")[^"]*/, `$1${digest}`)
    .replace(/self\.BUILD="[^"]*"/, `self.BUILD="${name}"`);
  writeFileSync(script, told);
  for (const packed of [page, script]) rmSync(`${packed}.br`, { force: true });
}

const buildOf = (page: Page): Promise<string> =>
  page
    .evaluate(() => document.querySelector<HTMLMetaElement>('meta[name="build"]')?.content ?? 'older')
    .catch(() => 'reloading');
