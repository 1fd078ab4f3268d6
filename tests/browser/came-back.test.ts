import { readFileSync, writeFileSync } from 'node:fs';
import { mkdtemp } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { fileOf, GOOD, GOOD_BUT_SHORT, sample } from '../joints/made-profiles.ts';
import { SCHEMES, SIZES } from './chromium.ts';
import { eventually, foundOf, openWizard, type Wizard, wordsIn } from './wizard.ts';

const CASE = 'back-after-three-weeks';

async function openBack(wizard: Wizard, id = CASE): Promise<void> {
  await wizard.openCase(id, 'came-back');
  await wizard.main.getByRole('heading', { name: 'Its life, and the belief under it' }).waitFor();
  await wizard.main.locator('.life-events').waitFor();
}

/** A logger's file on the disk, as a person would choose it. */
async function logFile(name: string, text: string): Promise<string> {
  const path = join(await mkdtemp(join(tmpdir(), 'worth-the-heat-log-')), name);
  writeFileSync(path, text);
  return path;
}

const FORM = { separator: ',', decimal: '.', unit: 'C', header: true, time: 's' } as const;

async function serious(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page })
    .options({ resultTypes: ['violations'] })
    .setLegacyMode()
    .analyze();
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(' ')).join(' | ')}`);
}

const widest = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const right = (one: Element) => one.getBoundingClientRect().right;
    return (
      [...document.querySelectorAll('main *')].toSorted((a, b) => right(b) - right(a))[0]?.outerHTML.slice(0, 160) ?? ''
    );
  });

describe('A card that was never worked on', () => {
  it('has no such step, and one that was has', async () => {
    const wizard = await openWizard();
    await wizard.openCase('ball-crack-on-a-dear-card');
    const steps = wizard.page.getByRole('navigation', { name: 'Steps' });
    expect(await steps.getByRole('link', { name: /^Verdict/ }).count()).toBe(1);
    expect(await steps.getByRole('link', { name: /^Came back/ }).count()).toBe(0);
    await wizard.openCase(CASE);
    expect(await steps.getByRole('link', { name: /^Came back/ }).count()).toBe(1);
  });
});

describe('A card that came back and went out again with nothing done to it', () => {
  it('keeps both times in service: the first as a line, the second to be filled in, and the ranking where it was', async () => {
    const wizard = await openWizard();
    const { main, stored } = wizard;
    await openBack(wizard);
    const log = main.locator('.service-log');
    const ranking = async () => (await wizard.ranking.allTextContents()).join(' ');
    const ranked = await ranking();
    await log.getByRole('button', { name: 'Out again, nothing done to it' }).click();
    await log.getByText('Out on 12 Mar 2026, back on 2 Apr 2026, nothing done to it.').waitFor();
    await log.getByLabel('Handed back, on which day').fill('2026-04-03');
    await log.getByLabel('Came back, on which day').fill('2026-04-20');
    await log.getByRole('button', { name: 'Take out: came back' }).waitFor();
    await wizard.weighed();
    const types = async () =>
      (await stored()).timeline.flatMap(({ type }) =>
        type === 'handed-back' || type === 'came-back' || type === 'treated' ? [type] : [],
      );
    await eventually(types).toEqual(['treated', 'handed-back', 'came-back', 'handed-back', 'came-back']);
    expect(await ranking()).toBe(ranked);
    await main.getByText('Why it fails again').first().waitFor();
    // and taken back again, one by one
    await log.getByRole('button', { name: 'Take out: came back' }).click();
    await log.getByRole('button', { name: 'Take out: handed back' }).click();
    await log.getByRole('button', { name: 'Out again, nothing done to it' }).waitFor();
    await eventually(types).toEqual(['treated', 'handed-back', 'came-back']);
  });
});

describe('A screen left open overnight', () => {
  it('takes the day it is filled in on, and not the day it was drawn on', async () => {
    const wizard = await openWizard();
    const { page, main, stored } = wizard;
    await page.clock.setSystemTime('2026-04-10T18:00:00Z');
    await openBack(wizard);
    const log = main.locator('.service-log');
    for (const what of ['Take out: came back', 'Take out: handed back'])
      await log.getByRole('button', { name: what }).click();
    await wizard.weighed();
    await page.clock.setSystemTime('2026-04-11T08:00:00Z');
    await log.getByLabel('Handed back, on which day').fill('2026-04-11');
    await log.getByRole('button', { name: 'Take out: handed back' }).waitFor();
    expect((await stored()).timeline.findLast(({ type }) => type === 'handed-back')?.at).toMatch(/^2026-04-11/);
  });
});

describe('A card that came back', () => {
  it('is followed from the work to the second page: handed back, paid, back, looked at again, explained, told to its owner', async () => {
    const wizard = await openWizard();
    const { page, main, stored } = wizard;
    await openBack(wizard);
    const log = main.locator('.service-log');

    // as if nothing had been written down since the work
    for (const what of ['Take out: came back', 'Take out: handed back'])
      await log.getByRole('button', { name: what }).click();
    await wizard.weighed();
    await main.getByText('there is nothing to explain').waitFor();
    expect(await log.getByText('First say when it left').count()).toBe(1);

    await log.getByLabel('Handed back, on which day').fill('2026-03-12');
    await log.getByRole('textbox', { name: 'What the owner paid' }).fill('380');
    // a day that cannot be is refused, said, and kept as typed
    await log.getByLabel('Came back, on which day').fill('2026-03-09');
    await log.getByText(/That is before the card was handed back on 12 Mar 2026/).waitFor();
    await log.getByLabel('Came back, on which day').fill('2026-04-02');
    await log.getByRole('radio', { name: 'so many days:' }).check();
    await log.getByRole('textbox', { name: 'Days it worked' }).fill('40');
    await log.getByRole('textbox', { name: 'Days it worked' }).blur();
    await log.getByText(/It was away for 21 days/).waitFor();
    await log.getByRole('textbox', { name: 'Days it worked' }).fill('20');
    await wizard.weighed();

    const record = await stored();
    expect(record.timeline.find(({ type }) => type === 'handed-back')).toMatchObject({ paid: 380 });
    expect(record.timeline.find(({ type }) => type === 'came-back')).toMatchObject({ workedDays: 20 });

    // the same symptom as before, by the owner's word
    await wizard.answer(/Does it fail as it did before/, /^Yes: /);
    expect(foundOf(await stored(), 'start-up')).toMatchObject({ by: 'bench' });
    expect((await stored()).timeline.filter((event) => event.type === 'seen' && event.by === 'owner')).toHaveLength(1);

    // the same tests as before, asked afresh
    await main.getByRole('button', { name: 'Readings' }).click();
    await main.getByRole('heading', { name: 'What do the rails read?' }).waitFor();
    expect(await wizard.field('Core, resistance to ground').inputValue()).toBe('');
    await wizard.field('Core, resistance to ground').fill('0.95');
    await wizard.step(/^Came back/);
    await main
      .getByText(/1 of \d+ answered since/)
      .first()
      .waitFor();

    // why it fails again: five explanations that add up, the likeliest first
    await wizard.weighed();
    const explained = main.locator('.explanations li');
    expect(await explained.count()).toBe(5);
    expect(await wordsIn(explained.first())).toMatch(/only masked the fault/);
    const verdict = main.locator('.second-attempt');
    expect(await wordsIn(verdict)).toMatch(/not worth it/);
    expect(await wordsIn(verdict)).toMatch(/running: it failed on day 20 of 90/);
    expect(await wordsIn(verdict)).toMatch(/Owner has paid ?€380/);
    expect(await wordsIn(main.locator('.first-diagnosis'))).toMatch(/On arrival/);

    // the second page
    await verdict.getByRole('button', { name: "The owner's page" }).click();
    const frame = page.frameLocator('iframe');
    await frame.getByText('Why your card failed again, and what we advise').waitFor();
    await frame.getByText('You paid €380 for it.').waitFor();
    await frame.getByRole('heading', { name: 'Why it failed again' }).waitFor();
  });

  it('has its life drawn with the belief under it, and told again as words and as a table', async () => {
    const wizard = await openWizard();
    await openBack(wizard, 'reflowed-and-back');
    const { main } = wizard;
    const picture = main.getByRole('img', { name: /^The life of Reflowed, worked for ten days/ });
    expect(await picture.locator('.life-mark').count()).toBe(6);
    expect(await wordsIn(main.locator('.life-events'))).toMatch(/Came back after 10 days/);
    await main.getByText('Its life in figures').click();
    const table = main.getByRole('table', { name: 'Its life in figures' });
    expect(await table.getByRole('row').count()).toBe(7);
    expect(await wordsIn(table)).toMatch(/\(\d+% masked\)/);
    // nothing the picture says is in colour alone: what sleeps is hatched
    expect(
      await picture
        .locator('.life-masked')
        .first()
        .evaluate((path) => getComputedStyle(path).fill),
    ).toMatch(/^url/);
  });

  it('takes the thermocouple log of the work: dropped or chosen, judged, drawn, and recorded once with the work', async () => {
    const wizard = await openWizard();
    await openBack(wizard, 'dead-on-the-bench-after-a-reball');
    const { main, page, stored } = wizard;
    const zone = main.locator('.profile-zone');
    const before = await wordsIn(main.locator('.explanations'));
    await zone
      .locator('input[type=file]')
      .setInputFiles(await logFile('short.csv', fileOf(sample(GOOD_BUT_SHORT, 1, 0.1), FORM)));
    await zone.getByRole('radio', { name: 'lead-free' }).first().check();
    await zone.getByText(/outside its window.*time above liquidus too short/).waitFor();
    expect(await zone.getByRole('img', { name: /Temperature over time/ }).count()).toBe(1);
    await zone.getByRole('button', { name: 'Record it as a finding' }).click();
    await zone.getByText(/^Recorded: outside its window/).waitFor();
    await eventually(() => wordsIn(main.locator('.explanations'))).not.toBe(before);
    const profiles = async () =>
      (await stored()).timeline.filter((event) => event.type === 'seen' && event.finding === 'profile-record');
    expect(await profiles()).toMatchObject([{ state: 'out-of-window' }]);

    // another log, by drop, takes its place
    const text = fileOf(sample(GOOD, 1, 0.1), FORM);
    const dropped = await page.evaluateHandle((csv) => {
      const data = new DataTransfer();
      data.items.add(new File([csv], 'good.csv', { type: 'text/csv' }));
      return data;
    }, text);
    await zone.locator('.profile-drop').dispatchEvent('drop', { dataTransfer: dropped });
    await zone.getByText(/The profile is inside its window/).waitFor();
    await zone.getByRole('button', { name: 'Record it as a finding' }).click();
    await zone.getByText(/^Recorded: inside its window/).waitFor();
    expect(await profiles()).toMatchObject([{ state: 'in-window' }]);
    await zone.getByRole('button', { name: 'Take the finding out' }).click();
    expect(await profiles()).toEqual([]);

    // what is no log is said, line by line
    await zone.locator('input[type=file]').setInputFiles(await logFile('letter.csv', 'Dear bench,\nhere is no log\n'));
    await zone.getByText('letter.csv cannot be read as a thermocouple log').waitFor();
  });

  it("is held to the shop's own window where it has one for the solder, or to the class of the package if asked", async () => {
    const wizard = await openWizard({ ownBench: true });
    const { main, page } = wizard;
    const window = {
      name: 'our leaded cores',
      levels: { soakFrom: 120, soakTo: 160, liquidus: 183 },
      limits: { peak: { atLeast: 205, atMost: 218 } },
    };
    const put = await page.evaluate(
      async (own) => {
        const { shop } = await (await fetch('api/shop')).json();
        const body = JSON.stringify({ shop: { ...shop, reflowWindows: [own] } });
        return (await fetch('api/shop', { method: 'PUT', headers: { 'content-type': 'application/json' }, body }))
          .status;
      },
      { solder: 'leaded', window } as const,
    );
    expect(put).toBe(200);
    await page.reload();
    await openBack(wizard, 'dead-on-the-bench-after-a-reball');
    const zone = main.locator('.profile-zone');
    await zone.getByRole('radio', { name: 'lead-free' }).first().check();
    expect(await zone.getByRole('group', { name: 'Held to' }).count(), 'no window of its own for this solder').toBe(0);
    await zone.locator('input[type=file]').setInputFiles(await logFile('good.csv', fileOf(sample(GOOD, 1, 0.1), FORM)));
    await zone.getByText(/The profile is inside its window \(J-STD-020D/).waitFor();
    await zone
      .getByRole('group', { name: 'Solder of the joints' })
      .getByRole('radio', { name: 'leaded', exact: true })
      .check();
    // a lead-free curve is far too hot for it
    await zone.getByText(/outside its window \(our leaded cores\): peak too high/).waitFor();
    expect(await zone.getByRole('group', { name: 'The package bears' }).count(), 'an own window says it all').toBe(0);
    await zone.getByRole('radio', { name: 'the class of the package (J-STD-020)' }).check();
    await zone.getByText(/window \(J-STD-020D/).waitFor();
    await zone.getByRole('group', { name: 'The package bears' }).waitFor();
    expect(await serious(page)).toEqual([]);
  });

  it('reads a log of a million rows with its progress shown, and lets go of it when asked', async () => {
    const wizard = await openWizard();
    await openBack(wizard);
    const zone = wizard.main.locator('.profile-zone');
    const rows = Array.from({ length: 1_000_000 }, (_, row) => `${row / 10},${(25 + (row % 1000) / 10).toFixed(1)}`);
    const path = await logFile('long.csv', `Time (s),TC1 (°C)\n${rows.join('\n')}\n`);
    await zone.locator('input[type=file]').setInputFiles(path);
    await zone.getByRole('progressbar').waitFor();
    await eventually(() => wordsIn(zone.locator('.profile-progress'))).toMatch(/[1-9]\d?%/);
    await zone.getByRole('button', { name: 'Stop reading' }).click();
    await zone.getByRole('progressbar').waitFor({ state: 'detached' });
    await zone.locator('input[type=file]').setInputFiles(path);
    await zone.getByText(/long\.csv: 1,000,000 rows, 1 channel/).waitFor({ timeout: 60_000 });
  });
});

describe('With the keyboard alone', () => {
  it('a return is written down, the symptom answered by its digit, and the log reached', async () => {
    const wizard = await openWizard();
    const { page, main, stored } = wizard;
    await openBack(wizard);
    await main.getByRole('button', { name: 'Take out: came back' }).focus();
    await page.keyboard.press('Enter');
    await wizard.weighed();
    await main.getByRole('button', { name: /^Today ?: Came back$/ }).focus();
    await page.keyboard.press('Enter');
    await main.getByRole('group', { name: /Does it fail as it did before/ }).waitFor();
    expect((await stored()).timeline.at(-1)).toMatchObject({ type: 'came-back' });
    await main.getByRole('radio', { name: 'Not asked' }).first().focus();
    await page.keyboard.press('1');
    await eventually(async () => (await stored()).timeline.at(-1)).toMatchObject({ type: 'seen', by: 'owner' });
    const reached = new Set<string>();
    for (let i = 0; i < 60; i++) {
      await page.keyboard.press('Tab');
      reached.add(await page.evaluate(() => (document.activeElement as HTMLInputElement | null)?.type ?? ''));
      if (reached.has('file')) break;
    }
    expect([...reached]).toContain('file');
  });
});

describe.each(SCHEMES)('In the %s', (colorScheme) => {
  it('the step fits from a wide desk to a small phone and reads well, with everything folded out', async () => {
    const wizard = await openWizard({ colorScheme });
    await openBack(wizard, 'reflowed-and-back');
    const zone = wizard.main.locator('.profile-zone');
    await zone.locator('input[type=file]').setInputFiles(await logFile('good.csv', fileOf(sample(GOOD, 1, 0.1), FORM)));
    await zone.getByText(/The profile is inside its window/).waitFor();
    await wizard.page.evaluate(() => {
      for (const folded of document.querySelectorAll('details')) folded.open = true;
    });
    const found: string[] = [];
    for (const size of SIZES) {
      await wizard.page.setViewportSize(size);
      await wizard.page.waitForTimeout(100);
      const wide = await wizard.page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      if (wide > 0) found.push(`${size.width}: ${wide} px wider than the window: ${await widest(wizard.page)}`);
      found.push(...(await serious(wizard.page)).map((said) => `${size.width}: ${said}`));
    }
    expect(found).toEqual([]);
  });
});

it('The cases these tests rest on were handed back and came back', () => {
  const { timeline } = JSON.parse(readFileSync(new URL(`../../cases/${CASE}.json`, import.meta.url), 'utf8'));
  expect(timeline.map(({ type }: { type: string }) => type)).toEqual(
    expect.arrayContaining(['handed-back', 'came-back']),
  );
});
