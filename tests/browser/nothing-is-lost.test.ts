import { describe, expect, it } from 'vitest';
import { eventually, factsOf, foundOf, openWizard, wizardOn, wordsIn } from './wizard.ts';

/** What a browser says of a server that is gone. */
const SERVER_GONE = /ERR_CONNECTION_REFUSED|ERR_CONNECTION_RESET|ERR_EMPTY_RESPONSE/;
const CORE = 'Core, resistance to ground';
const MEMORY = 'Memory, resistance to ground';

describe('What was typed at the bench', () => {
  it('is there again after a reload in the middle of a word, half-typed readings and figures included', async () => {
    const wizard = await openWizard();
    await wizard.newCard();
    await wizard.field('Name it, so that you find it again').fill('Reloaded');
    await wizard.answer(/What kind of memory/, "Can't tell");
    await wizard.field('How old is the card, in years?').fill('about 4');
    await wizard.field('Worth working').fill('300 or');
    await wizard.step(/^Readings/);
    await wizard.field(MEMORY).fill('38R');
    await wizard.field(CORE).fill('0.3.');
    await wizard.page.reload();
    await wizard.weighed();
    expect(await wizard.field(CORE).inputValue()).toBe('0.3.');
    expect(await wizard.field(MEMORY).inputValue()).toBe('38R');
    await wizard.step(/^Card/);
    expect(await wizard.field('Name it, so that you find it again').inputValue()).toBe('Reloaded');
    expect(await wizard.field('How old is the card, in years?').inputValue()).toBe('about 4');
    expect(await wizard.field('Worth working').inputValue()).toBe('300 or');
    expect(
      await wizard
        .question(/What kind of memory/)
        .getByRole('radio', { name: "Can't tell" })
        .isChecked(),
    ).toBe(true);
    expect(foundOf(await wizard.stored(), 'resistance-memory')).toMatchObject({ typed: '38R' });
  });

  it('is weighed and kept while the server is dead, and reaches the disk by itself when it is back', async () => {
    const wizard = await openWizard({ ownBench: true, expected: SERVER_GONE });
    const { bench, page } = wizard;
    await wizard.newCard();
    await wizard.field('Name it, so that you find it again').fill('Typed into the void');
    await wizard.stored();
    const before = await wizard.panelWords();
    await bench.kill();
    await wizard.answer(/How large is the core die/, /^large/);
    await wizard.field('How old is the card, in years?').fill('2.5');
    await page.getByRole('status').filter({ hasText: 'Kept on this device: the server does not answer' }).waitFor();
    expect(await wizard.panelWords(), 'the advice goes on without the server').not.toBe(before);
    await wizard.step(/^Readings/);
    await wizard.field(CORE).fill('310m');
    expect(factsOf(bench.onDisk()[0]!)).toEqual({});
    await bench.restart();
    await wizard.field(MEMORY).fill('38R');
    const record = await wizard.stored();
    expect(record.title).toBe('Typed into the void');
    expect(factsOf(record)).toEqual({ 'die-size': 'large', 'age-years': 2.5 });
    expect(foundOf(record, 'resistance-core')).toMatchObject({ typed: '310m' });
    expect(foundOf(record, 'resistance-memory')).toMatchObject({ typed: '38R' });
  });

  it('says that the server is gone without pressing the name of the card out of sight', async () => {
    const wizard = await openWizard({ ownBench: true, expected: SERVER_GONE, viewport: { width: 1024, height: 768 } });
    const { page } = wizard;
    await wizard.newCard();
    await wizard.field('Name it, so that you find it again').fill('Blocks on the screen, mined two winters');
    await wizard.stored();
    await wizard.bench.kill();
    await wizard.answer(/What kind of memory/, 'GDDR6');
    await page.getByRole('button', { name: 'Try again' }).waitFor();
    const name = page.getByRole('banner').getByText('Blocks on the screen, mined two winters');
    expect(await name.evaluate((words) => words.closest('p')!.scrollWidth - words.closest('p')!.clientWidth)).toBe(0);
  });

  it('is taken back whole after a paste: rows by the names of their rails, what could not be read, and what was said of it', async () => {
    const { page, newCard, step, field, weighed, main } = await openWizard();
    await newCard();
    await step(/^Readings/);
    const sheet = 'Rail\tOhm\nMemory\t38R\nVcore\t0.9\n5 V\tn/a\n';
    await field(CORE).evaluate((cell, text) => {
      const clipboardData = new DataTransfer();
      clipboardData.setData('text/plain', text);
      cell.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }));
    }, sheet);
    await weighed();
    const FIVE = '5 V, resistance to ground';
    const shown = () => Promise.all([CORE, MEMORY, FIVE].map((rail) => field(rail).inputValue()));
    await expect.poll(shown).toEqual(['0.9', '38R', 'n/a']);
    const said = main.getByText(
      /2 values pasted, 1 cannot be read yet.*read as a heading: “Rail Ohm”.*the rail it names/,
    );
    await said.waitFor();
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(shown).toEqual(['', '', '']);
    await said.waitFor({ state: 'hidden' });
  });

  it('reaches the disk even if the window was closed while the server was dead', async () => {
    const wizard = await openWizard({ ownBench: true, expected: SERVER_GONE });
    await wizard.newCard();
    await wizard.stored();
    await wizard.bench.kill();
    await wizard.answer(/How much power is the card made for/, 'above 300 W');
    const again = wizardOn(await wizard.page.context().newPage(), wizard.bench);
    await wizard.page.close();
    await wizard.bench.restart();
    await again.page.goto(wizard.bench.address);
    await again.page
      .getByRole('status')
      .filter({ hasText: /^Saved$/ })
      .waitFor();
    const [record] = wizard.bench.onDisk();
    expect(factsOf(record!)).toEqual({ 'power-class': 'above-300' });
  });

  it("stays where it is when an answer makes a worked case a card of one's own", async () => {
    const wizard = await openWizard();
    await wizard.openCase('only-the-owners-words', 'readings');
    await wizard.field(CORE).fill('0.3.');
    await wizard.field(MEMORY).fill('38R');
    await eventually(() => wizard.page.url()).toContain('#/card/only-the-owners-words');
    await wizard.weighed();
    expect(await wizard.field(CORE).inputValue()).toBe('0.3.');
    const record = await wizard.stored();
    expect(record.invented).toBe(true);
    expect(record.worked).toBeUndefined();
    expect(foundOf(record, 'resistance-memory')).toMatchObject({ typed: '38R' });
  });

  it('keeps its later answers when an early one is changed', async () => {
    const wizard = await openWizard();
    await wizard.newCard();
    await wizard.answer(/How large is the core die/, /^small/);
    await wizard.field('How many memory chips are on the board, both sides?').fill('8');
    await wizard.step(/^History/);
    await wizard.answer(/months on end/, 'yes');
    await wizard.step(/^Readings/);
    await wizard.field(CORE).fill('0.3');
    const small = await wizard.panelWords();
    await wizard.step(/^Card/);
    await wizard.answer(/How large is the core die/, /^large/);
    await wizard.field('How many memory chips are on the board, both sides?').fill('12');
    expect(await wizard.panelWords(), 'what 0.3 ohm says depends on the die').not.toBe(small);
    const record = await wizard.stored();
    expect(factsOf(record)).toEqual({ 'die-size': 'large', 'memory-chips': 12, mined: true });
    expect(foundOf(record, 'resistance-core')).toMatchObject({ typed: '0.3' });
    await wizard.step(/^Readings/);
    expect(await wizard.field(CORE).inputValue()).toBe('0.3');
  });

  it('tells "looked, can\'t tell" from "not looked at", also in what is stored', async () => {
    const wizard = await openWizard();
    await wizard.newCard();
    await wizard.answer(/What kind of memory/, "Can't tell");
    await wizard.step(/^Looks/);
    await wizard.answer(/stands out on the board/, "Can't tell");
    await wizard.answer(/How do the edge contacts look/, 'clean');
    expect(
      await wizard
        .question(/power connector look/)
        .getByRole('radio', { name: 'Not looked at' })
        .isChecked(),
    ).toBe(true);
    const looked = await wizard.stored();
    expect(factsOf(looked)).toEqual({ 'memory-type': null });
    expect(foundOf(looked, 'look-board')).toMatchObject({ state: null, by: 'bench' });
    expect(foundOf(looked, 'look-power-connector')).toBeUndefined();
    await wizard.answer(/stands out on the board/, 'Not looked at');
    await wizard.answer(/How do the edge contacts look/, 'Not looked at');
    const taken = await wizard.stored();
    expect(taken.timeline.filter(({ type }) => type === 'seen')).toEqual([]);
    expect(await wordsIn(wizard.page.getByRole('link', { name: /^Looks/ }))).toMatch(/0 answered of/);
  });
});
