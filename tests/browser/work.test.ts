import { writeFileSync } from 'node:fs';
import { mkdtemp } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import type { Record as CardRecord } from '../../src/record/schema.ts';
import { openWork } from '../../src/work-order/open-work.ts';
import type { WorkOrder } from '../../src/work-order/schema.ts';
import { fileOf, GOOD_BUT_SHORT, sample } from '../joints/made-profiles.ts';
import { card, orderFor } from '../work-order/cards.ts';
import { SCHEMES, SIZES } from './chromium.ts';
import { readPrinted } from './printed-text.ts';
import { eventually, foundOf, openWizard, type Wizard, wordsIn } from './wizard.ts';

const CASE = 'ball-crack-on-a-dear-card';
const order: WorkOrder = await orderFor(card(CASE));
const { steps } = order;
const point = (id: string) => steps.find((step) => step.id === id)!;
const stepsOnRecord = (record: CardRecord) => openWork(record)?.process.steps ?? [];

interface Bench extends Wizard {
  readonly waiting: ReturnType<Page['locator']>;
  row(id: string): ReturnType<Page['locator']>;
  /** the hold point that waits is this one */
  at(id: string): Promise<void>;
  /** passes what waits, up to this one */
  passUpTo(id: string): Promise<void>;
  outcome(name: RegExp): ReturnType<Page['locator']>;
}

async function openBench(context: Parameters<typeof openWizard>[0] = {}): Promise<Bench> {
  const wizard = await openWizard(context);
  const waiting = wizard.main.locator('.hold-point');
  const outcome = (name: RegExp) => waiting.getByRole('button', { name });
  const at = async (id: string) => {
    await eventually(() => wordsIn(waiting.locator('.hold-name'))).toBe(point(id).name);
  };
  return {
    ...wizard,
    waiting,
    outcome,
    at,
    row: (id) => wizard.main.locator(`.point-row[data-step="${id}"]`),
    async passUpTo(id) {
      for (let now = await numberOf(waiting); now < point(id).number; now++) {
        await outcome(/^Passed/).click();
        await at(steps[now]!.id);
      }
    },
  };
}

const numberOf = async (waiting: Bench['waiting']): Promise<number> =>
  Number.parseInt(await wordsIn(waiting.locator('.hold-number')), 10);

async function violations(page: Page): Promise<string[]> {
  const found = await new AxeBuilder({ page })
    .options({ resultTypes: ['violations'] })
    .setLegacyMode()
    .analyze();
  return found.violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(' ')).join(' | ')}`);
}

describe('A reball', () => {
  it('is done from the verdict to the card handed back: looked over, recorded point by point, failed, put right, proven', async () => {
    const bench = await openBench();
    const { main, page, waiting, stored } = bench;
    await bench.openCase(CASE);
    await main.getByRole('button', { name: /^On to the work: Reball the core/ }).click();
    await main.getByRole('heading', { name: 'What will be done' }).waitFor();

    // the order: why, with what, how dry, how hot, and every caution in full
    const facts = await wordsIn(main);
    expect(facts).toMatch(/The verdict advises this work\. Cracked or fatigued balls/);
    expect(facts).toMatch(/Sn63Pb37 ?, melts at 183 °C/);
    expect(facts).toMatch(/96 h at 125 °C/);
    expect(facts).toMatch(/2 of 3 spent, this work takes 4, ?3 beyond/);
    for (const { text } of order.cautions) expect(facts).toContain(text.replace(/\s+/g, ' '));
    for (const { name, limit } of order.targets!.rows) expect(facts).toContain(`${name}${limit}`);
    await main.getByRole('button', { name: /^To hold point 1/ }).click();
    await bench.at('before-recorded');

    // what is written down goes into the record with the hold point
    await waiting.getByRole('textbox', { name: point('before-recorded').record[0]! }).fill('folder 12');
    await bench.outcome(/^Passed/).click();
    await bench.at('heat-agreed');
    expect(stepsOnRecord(await stored())).toMatchObject([
      { step: 'before-recorded', outcome: 'passed', note: `${point('before-recorded').record[0]}: folder 12` },
    ]);
    expect((await stored()).timeline.at(-1)).toMatchObject({ type: 'prepared' });
    await bench.passUpTo('grid-after-cleaning');
    await bench.weighed();
    const before = await wordsIn(bench.ranking.first());

    // a ball comes off in cleaning: it cannot be passed, and it leads back
    await bench.answer(/How do the balls look/, 'balls missing or not wetted');
    expect(await bench.outcome(/^Passed/).isDisabled()).toBe(true);
    await bench.outcome(/^Failed/).click();
    await bench.at('balls-wetted');
    const stopped = main.getByRole('alert');
    expect(await wordsIn(stopped)).toContain(point('grid-after-cleaning').ifItFails.say);
    expect(await wordsIn(stopped)).toMatch(/It goes on at 9/);
    expect(foundOf(await stored(), 'ball-grid')).toMatchObject({
      state: 'missing-balls',
      step: 'grid-after-cleaning',
    });
    await bench.weighed();
    await eventually(() => wordsIn(bench.ranking.first())).not.toBe(before);
    expect(await bench.ranking.filter({ hasText: /earlier work/ }).count()).toBeGreaterThan(0);
    // no verdict is shown while the card lies open
    expect(await bench.panel.getByText('If you had to decide now').count()).toBe(0);

    // once more, and then on to the proofs
    await bench.outcome(/^Passed/).click();
    await bench.at('grid-after-cleaning');
    await bench.answer(/How do the balls look/, 'even and complete');
    await bench.outcome(/^Passed/).click();
    await bench.at('seated');
    expect(await wordsIn(bench.row('grid-after-cleaning'))).toMatch(/passed, 2 times/);
    await bench.passUpTo('resistances');
    const core = waiting.getByRole('textbox', { name: 'Core rail to ground' });
    await core.fill('0.0');
    await waiting.getByText(/reads as “short”/).waitFor();
    expect(await bench.outcome(/^Passed/).isDisabled()).toBe(true);
    await core.fill('0.9');
    await waiting.getByText(/reads as “short”/).waitFor({ state: 'detached' });
    await bench.outcome(/^Passed/).click();
    await bench.at('against-before');
    expect(foundOf(await stored(), 'resistance-core')).toMatchObject({ typed: '0.9', step: 'resistances' });
    await bench.passUpTo('marked-leaded');
    await bench.outcome(/^Passed/).click();

    await main.getByRole('heading', { name: 'Does the card work?' }).waitFor();
    await waiting.getByRole('button', { name: /^It works/ }).click();
    await main.getByRole('heading', { name: 'Done: the card works.' }).waitFor();
    await waiting.getByRole('button', { name: 'On to handing it back' }).click();
    await main.getByRole('button', { name: /^Today ?: Handed back$/ }).click();
    const { timeline } = await stored();
    expect(timeline.find(({ type }) => type === 'treated')).toMatchObject({ worked: true });
    expect(timeline.at(-1)?.type).toBe('handed-back');
    await page.getByRole('link', { name: /^Work/ }).click();
    expect(await main.getByRole('button', { name: 'Take that word back' }).count(), 'it has left').toBe(0);
  });

  it('ends where a hold point ends it, and the word on the card is asked for', async () => {
    const bench = await openBench();
    const { main, waiting, stored } = bench;
    await bench.openCase(CASE, 'work');
    await bench.at('before-recorded');
    await bench.outcome(/^Passed/).click();
    await bench.at('heat-agreed');
    // nothing was touched yet: there is nothing to say of the card
    await bench.outcome(/^Failed/).click();
    await main.getByRole('heading', { name: /The card was not touched/ }).waitFor();
    await main.getByRole('button', { name: /^Take back the last one/ }).click();
    await bench.passUpTo('package-lifted');
    await waiting.getByRole('textbox', { name: point('package-lifted').record[1]! }).fill('A3 and A4');
    await bench.outcome(/^Failed/).click();
    await main.getByRole('heading', { name: 'Does the card work?' }).waitFor();
    expect(await wordsIn(bench.row('first-image'))).toMatch(/Locked: the work has ended/);
    await waiting.getByRole('button', { name: /^It does not work/ }).click();
    await main.getByRole('heading', { name: 'Done: the card does not work.' }).waitFor();
    expect((await stored()).timeline.find(({ type }) => type === 'treated')).toMatchObject({ worked: false });
    // the word was wrong, and so was the hold point: both come back, with what was typed
    await main.getByRole('button', { name: 'Take that word back' }).click();
    await main.getByRole('button', { name: /^Take back the last one/ }).click();
    await bench.at('package-lifted');
    expect(await waiting.getByRole('textbox', { name: point('package-lifted').record[1]! }).inputValue()).toBe(
      'A3 and A4',
    );
    expect((await stored()).timeline.at(-1)).toMatchObject({ type: 'prepared' });
  });
});

describe('A hold point out of its turn', () => {
  it('cannot be recorded: only one is open, the others say what opens them, and power waits for resistance as the image does for voltage', async () => {
    const bench = await openBench();
    const { main, page, stored } = bench;
    await bench.openCase(CASE, 'work');
    await bench.at('before-recorded');
    expect(await main.locator('.point-row[data-standing="open"]').count()).toBe(1);
    expect(await main.locator('.point-row[data-standing="closed"]').count()).toBe(steps.length - 1);
    expect(await main.locator('.point-row :is(button, input, select, textarea)').count()).toBe(0);
    expect(await wordsIn(bench.row('heat-agreed'))).toMatch(/Locked: opens when 1, The card as it is/);
    expect(await wordsIn(bench.row('rails-limited'))).toMatch(/Locked: no power before resistance/);
    expect(await wordsIn(bench.row('first-image'))).toMatch(/Locked: no image before voltage/);
    const chain = main.getByRole('list', { name: 'Resistance, then voltage, then image' });
    expect(await wordsIn(chain)).toBe('ResistancelockedVoltagelockedImagelocked');
    // it may be read ahead; no key records it from there
    await bench.row('first-image').locator('summary').click();
    await bench.row('first-image').getByText(point('first-image').passes).waitFor();
    await bench.row('first-image').locator('summary').focus();
    await page.keyboard.press('1');
    await bench.at('before-recorded');
    // nor does a digit that is typed into a field
    await bench.waiting.getByRole('textbox').first().focus();
    await page.keyboard.type('123');
    await bench.at('before-recorded');
    await bench.outcome(/^Passed/).click();
    await bench.at('heat-agreed');
    expect(stepsOnRecord(await stored())).toHaveLength(1);
  });
});

describe('With the keyboard alone', () => {
  it('a reball goes from the verdict to the card handed back', async () => {
    const bench = await openBench();
    const { page, main, waiting, stored } = bench;
    const { keyboard } = page;
    const tabTo = async (name: RegExp) => {
      for (let i = 0; i < 90; i++) {
        const said = await page.evaluate(() => document.activeElement?.textContent ?? '');
        if (name.test(said)) return;
        await keyboard.press('Tab');
      }
      throw new Error(`The keyboard never came to ${name}.`);
    };
    await bench.openCase(CASE);
    await tabTo(/^On to the work/);
    await keyboard.press('Enter');
    await main.getByRole('heading', { name: 'What will be done' }).waitFor();
    await tabTo(/^To hold point 1/);
    await keyboard.press('Enter');
    for (const { id, number } of steps) {
      await bench.at(id);
      // the keyboard stands on the name of what waits
      await eventually(() => page.evaluate(() => document.activeElement?.textContent)).toBe(point(id).name);
      if (id === 'baked') {
        await keyboard.press('3');
        await waiting.getByText('write the reason down first').waitFor();
        await keyboard.press('Enter');
        await keyboard.press('Enter');
        await keyboard.press('Enter');
        await keyboard.type('known dry: opened from its bag an hour ago');
        await keyboard.press('Enter');
        await tabTo(/^Left out/);
        await keyboard.press('Enter');
      } else if (id === 'balls-wetted') {
        await keyboard.press('Enter');
        await keyboard.press('1');
        for (let i = 0; i < 3 + point(id).record.length - 1; i++) await keyboard.press('Enter');
        await tabTo(/^Passed/);
        await keyboard.press('Enter');
      } else if (number % 2 === 0) {
        await keyboard.press('1');
      } else {
        await tabTo(/^Passed/);
        await keyboard.press('Enter');
      }
    }
    await main.getByRole('heading', { name: 'Does the card work?' }).waitFor();
    await eventually(() => page.evaluate(() => document.activeElement?.textContent)).toBe('Does the card work?');
    await keyboard.press('1');
    await main.getByRole('heading', { name: 'Done: the card works.' }).waitFor();
    await eventually(() => page.evaluate(() => document.activeElement?.textContent)).toBe('Done: the card works.');
    await keyboard.press('Enter');
    await keyboard.press('Enter');
    await main.getByRole('heading', { name: 'How has it done since the work?' }).waitFor();
    await tabTo(/^Today/);
    await keyboard.press('Enter');
    const { timeline } = await stored();
    expect(timeline.at(-1)?.type).toBe('handed-back');
    const treated = timeline.find(({ type }) => type === 'treated');
    expect(treated?.type === 'treated' && treated.process?.steps).toHaveLength(steps.length);
    expect(treated?.type === 'treated' && treated.process?.steps.find(({ step }) => step === 'baked')).toMatchObject({
      outcome: 'left-out',
      note: expect.stringContaining('known dry'),
    });
    expect(foundOf({ timeline } as CardRecord, 'ball-grid')).toMatchObject({ state: 'intact', step: 'balls-wetted' });
  });
});

describe('A bench that is interrupted', () => {
  it('loses nothing by a reload in the middle: what was recorded, what was typed and what was chosen are there', async () => {
    const bench = await openBench();
    const { page, main, waiting, stored } = bench;
    await bench.openCase(CASE, 'work');
    await bench.at('before-recorded');
    await bench.passUpTo('grid-after-cleaning');
    await bench.answer(/How do the balls look/, 'uneven or dull');
    await waiting.getByRole('textbox', { name: point('grid-after-cleaning').record[0]! }).fill('none so far');
    await stored();
    await page.reload();
    await bench.at('grid-after-cleaning');
    expect(await waiting.getByRole('radio', { name: 'uneven or dull' }).isChecked()).toBe(true);
    const note = waiting.getByRole('textbox', { name: point('grid-after-cleaning').record[0]! });
    expect(await note.inputValue()).toBe('none so far');
    expect(await bench.outcome(/^Passed/).isDisabled()).toBe(true);
    expect(stepsOnRecord(await stored())).toHaveLength(9);

    // a reading that cannot be read stays as typed, and nothing is recorded over it
    await bench.answer(/How do the balls look/, 'even and complete');
    await bench.outcome(/^Passed/).click();
    await bench.at('seated');
    await bench.passUpTo('resistances');
    await waiting.getByRole('textbox', { name: 'Core rail to ground' }).fill('0.9.1');
    await bench.outcome(/^Passed/).click();
    await waiting.getByText('Core rail to ground cannot be read as typed').waitFor();
    await page.reload();
    await bench.at('resistances');
    expect(await waiting.getByRole('textbox', { name: 'Core rail to ground' }).inputValue()).toBe('0.9.1');

    // undo of the whole card takes the last hold point back, too
    await main.getByRole('button', { name: /^Take back the last one/ }).click();
    await bench.at('x-rayed');
    await bench.outcome(/^Passed/).click();
    await bench.at('resistances');
    await page.getByRole('button', { name: 'Undo' }).click();
    await bench.at('x-rayed');
  });

  it('stands on the list of cards at the hold point that waits, and the ticket leads back to it', async () => {
    const bench = await openBench({ ownBench: true });
    const { page, main, stored } = bench;
    await bench.openCase(CASE, 'work');
    await bench.at('before-recorded');
    await bench.passUpTo('shielded');
    await stored();
    await page.goto(`${bench.bench.address}/#/`);
    const ticket = main.getByRole('link', { name: /on the bench: step 4 of 23/ });
    await ticket.waitFor();
    expect(await wordsIn(ticket)).toContain(point('shielded').name);
    await ticket.click();
    await bench.at('shielded');
  });
});

describe('The thermocouple log', () => {
  it('is judged at its hold point and recorded with it', async () => {
    const bench = await openBench();
    const { waiting, stored } = bench;
    await bench.openCase(CASE, 'work');
    await bench.at('before-recorded');
    await bench.passUpTo('curve-kept');
    const log = join(await mkdtemp(join(tmpdir(), 'worth-the-heat-log-')), 'short.csv');
    const form = { separator: ',', decimal: '.', unit: 'C', header: true, time: 's' } as const;
    writeFileSync(log, fileOf(sample(GOOD_BUT_SHORT, 1, 0.1), form));
    await waiting.getByRole('radio', { name: 'lead-free' }).first().check();
    await waiting.locator('input[type=file]').setInputFiles(log);
    await waiting.getByText(/outside its window.*time above liquidus too short/).waitFor();
    await waiting.getByRole('button', { name: 'Record it as a finding' }).click();
    await waiting.getByText(/^Judged: outside its window/).waitFor();
    expect(foundOf(await stored(), 'profile-record')).toBeUndefined();
    await bench.outcome(/^Passed/).click();
    await bench.at('cooled-clean');
    expect(foundOf(await stored(), 'profile-record')).toMatchObject({ state: 'out-of-window', step: 'curve-kept' });
  });
});

describe('The job sheet', () => {
  it('is printed from the screen on either paper, in whole lines and without anything of the wizard', async () => {
    const bench = await openBench({ expected: /Blocked script execution in 'about:srcdoc'/ });
    const { page, main } = bench;
    await bench.openCase(CASE, 'work');
    await bench.at('before-recorded');
    await main.getByText('Job sheet for the wall').click();
    const frame = page.frameLocator('iframe');
    await frame.getByText('Job sheet · Example bench').waitFor();
    for (const [paper, width, height] of [
      ['US Letter', 612, 792],
      ['A4', 595, 842],
    ] as const) {
      await main.getByRole('radio', { name: paper }).check();
      await main.locator(`[data-paper="${paper === 'A4' ? 'a4' : 'letter'}"]`).waitFor();
      const { sheets, letters } = readPrinted(await page.pdf({ preferCSSPageSize: true, printBackground: true }));
      expect(sheets.length).toBeGreaterThan(0);
      expect(sheets.length).toBeLessThanOrEqual(3);
      for (const sheet of sheets) {
        expect(Math.abs(sheet.width - width)).toBeLessThan(1.5);
        expect(Math.abs(sheet.height - height)).toBeLessThan(1.5);
      }
      const printed = letters.normalize('NFKC');
      for (const { name } of steps) expect(printed).toContain(name.normalize('NFKC').replaceAll(/\s+/g, ''));
      expect(printed).not.toContain('Whatisdonetoit');
    }
    const said = await page.evaluate(async () => {
      const printed: string[] = [];
      Object.assign(window, { print: () => printed.push('the whole wizard') });
      const { contentWindow } = document.querySelector('iframe')!;
      contentWindow!.print = () => printed.push(contentWindow!.document.title);
      [...document.querySelectorAll('button')].find((one) => one.textContent === 'Print the job sheet')!.click();
      return printed;
    });
    expect(said).toEqual([expect.stringMatching(/^Job sheet: Reball the core/)]);
  });
});

describe('Other work', () => {
  it('is chosen where the verdict advises none, keeps the choice over a reload, and says what speaks against it', async () => {
    const bench = await openBench();
    const { page, main } = bench;
    await bench.openCase('card-is-fine-host-is-not');
    await main.getByRole('button', { name: 'Other work on this card' }).click();
    await main.getByText('No work is advised. Choose one').waitFor();
    await main.getByRole('combobox', { name: 'Work to be done' }).selectOption('reflow-core');
    await main.locator('.hold-point').waitFor();
    expect(await wordsIn(main.locator('.order-warnings'))).toMatch(/this order is for other work/);
    await page.reload();
    await main.locator('.hold-point').waitFor();
    expect(await main.getByRole('combobox', { name: 'Work to be done' }).inputValue()).toBe('reflow-core');
  });
});

describe.each(SCHEMES)('In the %s', (colorScheme) => {
  it('every screen of the work fits from a wide desk to a small phone and has nothing to find fault with', async () => {
    const bench = await openBench({ colorScheme });
    const { page, main, waiting } = bench;
    const found: string[] = [];
    const inspect = async (screen: string) => {
      for (const size of SIZES) {
        await page.setViewportSize(size);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        if (wide > 0) found.push(`${screen} at ${size.width}: ${wide} px wider than the window`);
        if (size.width === 1440 || size.width === 390)
          found.push(...(await violations(page)).map((said) => `${screen} at ${size.width}: ${said}`));
      }
      await page.setViewportSize(SIZES[0]);
    };
    await bench.openCase(CASE, 'work');
    await bench.at('before-recorded');
    await page.evaluate(() => {
      for (const folded of document.querySelectorAll<HTMLDetailsElement>('.point-row details, .order-assumed'))
        folded.open = true;
    });
    await inspect('the order');
    await bench.passUpTo('grid-after-cleaning');
    await bench.answer(/How do the balls look/, 'bridged');
    await inspect('a hold point that has failed');
    await bench.outcome(/^Failed/).click();
    await bench.at('balls-wetted');
    await bench.weighed();
    await inspect('stopped');
    await bench.passUpTo('resistances');
    await waiting.getByRole('textbox', { name: 'Core rail to ground' }).fill('0.0');
    await waiting.getByText(/reads as “short”/).waitFor();
    await inspect('readings');
    await waiting.getByRole('textbox', { name: 'Core rail to ground' }).fill('0.9');
    await waiting.getByText(/reads as “short”/).waitFor({ state: 'detached' });
    await bench.passUpTo('marked-leaded');
    await bench.outcome(/^Passed/).click();
    await main.getByRole('heading', { name: 'Does the card work?' }).waitFor();
    await inspect('the end');
    await waiting.getByRole('button', { name: /^It works/ }).click();
    await main.getByRole('heading', { name: 'Done: the card works.' }).waitFor();
    await bench.weighed();
    await inspect('done');
    expect(found).toEqual([]);
  });

  it('what waits is large: its name, how it is done and its buttons, for an arm’s length and gloves', async () => {
    const bench = await openBench({ colorScheme });
    const { page, waiting } = bench;
    await bench.openCase(CASE, 'work');
    await bench.at('before-recorded');
    for (const size of SIZES) {
      await page.setViewportSize(size);
      const pixels = (selector: string) =>
        waiting
          .locator(selector)
          .first()
          .evaluate((one) => Number.parseFloat(getComputedStyle(one).fontSize));
      expect(await pixels('.hold-name'), `${size.width}`).toBeGreaterThanOrEqual(28);
      expect(await pixels('.hold-how li'), `${size.width}`).toBeGreaterThanOrEqual(20);
      expect(await pixels('.hold-passes span'), `${size.width}`).toBeGreaterThanOrEqual(20);
      const box = (await bench.outcome(/^Passed/).boundingBox())!;
      expect(Math.min(box.width / 2, box.height), `${size.width}`).toBeGreaterThanOrEqual(72);
    }
  });
});
