/** The wizard in a browser, in the words of somebody who works with it. Everything is found by its role and name. */
import { readFileSync } from 'node:fs';
import type { Browser, BrowserContextOptions, Locator, Page } from 'playwright-core';
import { afterAll, expect, onTestFinished } from 'vitest';
import type { Record as CardRecord, Event } from '../../src/record/schema.ts';
import { launchChromium } from './chromium.ts';
import { type ServedBench, serveBench } from './served-bench.ts';
import { guardKeys } from './stopped-drawing.ts';

export interface Wizard {
  readonly bench: ServedBench;
  readonly page: Page;
  /** verdict so far, next check and ranking, beside every question */
  readonly panel: Locator;
  readonly ranking: Locator;
  readonly main: Locator;
  newCard(): Promise<void>;
  openCase(id: string, step?: string): Promise<void>;
  question(words: string | RegExp): Locator;
  /** opens the test that asks this */
  unfold(words: string | RegExp): Promise<void>;
  answer(words: string | RegExp, choice: string | RegExp): Promise<void>;
  /** a field by its whole label */
  field(label: string): Locator;
  step(name: string | RegExp): Promise<void>;
  /** every answer so far has been weighed */
  weighed(): Promise<void>;
  panelWords(): Promise<string>;
  /** the open card as the disk holds it, once what is on the screen has got there */
  stored(): Promise<CardRecord>;
}

let browser: Promise<Browser> | null = null;
let bench: Promise<ServedBench> | null = null;

afterAll(async () => {
  await (await browser)?.close();
  await (await bench)?.close();
});

/** for a busy machine; nothing waits longer than it must */
const PATIENCE_MS = 20_000;

const CASES = new URL('../../cases/', import.meta.url);

interface Wanted extends BrowserContextOptions {
  /** a server and a folder of its own, where a test ends the server */
  readonly ownBench?: boolean;
  /** errors in the console that the test brings about on purpose */
  readonly expected?: RegExp;
}

/** A wizard nobody has used before. The test fails if the page throws or complains in the console. */
export async function openWizard({ ownBench = false, expected, ...context }: Wanted = {}): Promise<Wizard> {
  browser ??= launchChromium();
  if (!ownBench) bench ??= serveBench();
  const served = ownBench ? await serveBench() : await bench!;
  if (ownBench) onTestFinished(() => served.close());
  const opened = await (await browser).newContext({
    viewport: { width: 1440, height: 900 },
    locale: 'en-GB',
    ...context,
  });
  opened.setDefaultTimeout(PATIENCE_MS);
  const page = await opened.newPage();
  guardKeys(page);
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(`thrown: ${error.message}`));
  page.on('console', (message) => {
    const said = `${message.type()}: ${message.text()} ${message.location().url}`;
    if (['error', 'warning'].includes(message.type()) && !expected?.test(said)) complaints.push(said);
  });
  onTestFinished(async () => {
    await opened.close();
    expect(complaints).toEqual([]);
  });
  await page.goto(served.address);
  return wizardOn(page, served);
}

export function wizardOn(page: Page, served: ServedBench): Wizard {
  const panel = page.getByRole('complementary', { name: 'Where it points' });
  const main = page.getByRole('main');
  const weighed = () => page.locator('aside[data-pending="false"]').waitFor();
  const question = (words: string | RegExp) => main.getByRole('group', { name: words });
  return {
    bench: served,
    page,
    panel,
    main,
    ranking: panel.getByRole('list').getByRole('listitem'),
    weighed,
    question,
    async newCard() {
      await page.getByRole('button', { name: 'New card' }).click();
      await weighed();
    },
    async openCase(id, step = 'verdict') {
      await page.goto(`${served.address}/#/case/${id}/${step}`);
      const { title } = JSON.parse(readFileSync(new URL(`${id}.json`, CASES), 'utf8')) as CardRecord;
      await page.getByRole('banner').getByText(title).waitFor();
      // the owner's page has the whole width: no panel beside it
      await (step === 'owner' ? page.locator('iframe').waitFor() : weighed());
    },
    async unfold(words) {
      const asks = page.getByRole('group', { name: words, includeHidden: true });
      const test = main.locator('details').filter({ has: asks });
      if ((await test.getAttribute('open')) === null) await test.locator('summary').first().click();
    },
    async answer(words, choice) {
      const name = typeof choice === 'string' ? new RegExp(`^${literal(choice)}$`, 'i') : choice;
      const group = question(words);
      await group.getByRole('radio', { name }).or(group.getByRole('checkbox', { name })).check();
      await weighed();
    },
    field: (label) => main.getByRole('textbox', { name: label, exact: true }),
    async step(name) {
      await page.getByRole('navigation', { name: 'Steps' }).getByRole('link', { name }).click();
    },
    async panelWords() {
      await weighed();
      return wordsIn(panel);
    },
    async stored() {
      await page
        .getByRole('status')
        .filter({ hasText: /^Saved$/ })
        .waitFor();
      const [, id] = /#\/card\/([^/]+)/.exec(page.url()) ?? [];
      const record = served.onDisk().find((one) => one.id === id);
      if (record === undefined) throw new Error(`The disk holds no card for ${page.url()}.`);
      return record;
    },
  };
}

export const factsOf = (record: CardRecord) => record.timeline.find((event) => event.type === 'arrived')?.facts ?? {};

/** What the bench itself found of one thing; undefined: not looked at. */
export const foundOf = (record: CardRecord, finding: string): Event | undefined =>
  record.timeline.findLast((event) => 'finding' in event && event.finding === finding);

/** Waits for what comes about by itself: `eventually(...).toBe(...)`. */
export const eventually = <Found>(look: () => Found) => expect.poll(look, { timeout: PATIENCE_MS });

/** What is written there, as one line. */
export const wordsIn = async (place: Locator): Promise<string> =>
  ((await place.textContent()) ?? '').replace(/\s+/g, ' ').trim();

const literal = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
