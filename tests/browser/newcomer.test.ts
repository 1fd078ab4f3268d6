import { describe, expect, it } from 'vitest';
import { openWizard, wordsIn } from './wizard.ts';

/** As a meter shows them and people write them; all of it what a sound card of this class reads. */
const TO_GROUND: readonly (readonly [string, string])[] = [
  ['Core', '940m'],
  ['Memory', '38R'],
  ['PCIe rail', '22'],
  ['1.8 V', '420 ohm'],
  ['3.3 V', '3k1'],
  ['5 V', '4,2k'],
  ['12 V slot', '18 kΩ'],
  ['12 V input', '31k'],
];
const VOLTAGES: readonly (readonly [string, string])[] = [
  ['12 V slot', '12.03'],
  ['12 V input', '12,05 V'],
  ['3.3 V', '3.31'],
  ['5 V', '5.03'],
  ['1.8 V', '1V8'],
  ['PCIe rail', '960m'],
  ['Memory', '1.352'],
  ['Core', '780 mV'],
];

describe('Somebody who has never seen the tool', () => {
  it('gets from an empty bench to a justified verdict on a card with one bad memory chip', async () => {
    const wizard = await openWizard();
    const { page, panel, main } = wizard;
    await main.getByRole('heading', { name: 'On the bench' }).waitFor();
    await main.getByText(/Put a dead card on the bench/).waitFor();
    await wizard.newCard();
    const said: string[] = [await wizard.panelWords()];
    const note = async () => said.push(await wizard.panelWords());

    await main.getByRole('heading', { name: 'Which card is this, and what is it worth?' }).waitFor();
    await wizard.field('Name it, so that you find it again').fill('Blocks on the screen');
    await wizard.answer(/How large is the core die/, /^medium/);
    await note();
    await panel
      .getByText(/So far|decide now|Verdict/)
      .first()
      .waitFor();
    expect(await wizard.ranking.count(), 'causes are ranked after the first answer').toBeGreaterThan(2);
    await wizard.answer(/What kind of memory/, 'GDDR6');
    await wizard.field('How many memory chips are on the board, both sides?').fill('8');
    await wizard.answer(/How many power connectors/, 'one');
    await wizard.answer(/How much power is the card made for/, '150 to 300 W');
    await wizard.answer(/second large rail/, 'no');
    await wizard.answer(/Is the board thick/, 'no');
    await wizard.field('How old is the card, in years?').fill('4');
    await wizard.field('Worth working').fill('230-310');
    await wizard.field('Worth as it lies there').fill('35');
    await wizard.field('Left if the work fails').fill('20 25 30');
    await note();

    await page.getByRole('button', { name: /On to history/ }).click();
    await main.getByRole('heading', { name: 'What has it been through?' }).waitFor();
    await wizard.answer(/months on end/, 'yes');
    await note();
    await wizard.answer(/How did the fault begin/, 'little by little');
    await note();

    await page.getByRole('button', { name: /On to symptoms/ }).click();
    await wizard.answer(/What does the owner say/, 'wrong colours, blocks or lines');
    await note();

    await page.getByRole('button', { name: /On to looks/ }).click();
    await wizard.answer(/what stands out on the board/, 'nothing');
    await wizard.answer(/How do the edge contacts look/, 'clean');
    await note();

    await page.getByRole('button', { name: /On to readings/ }).click();
    for (const [rail, typed] of TO_GROUND) await wizard.field(`${rail}, resistance to ground`).fill(typed);
    await note();
    for (const [rail, typed] of VOLTAGES) await wizard.field(`${rail}, voltage`).fill(typed);
    await note();
    for (const [rail, typed] of TO_GROUND)
      expect(await wizard.field(`${rail}, resistance to ground`).inputValue()).toBe(typed);
    expect(
      await wordsIn(main.getByRole('combobox', { name: 'Memory, resistance in words' }).locator('option:checked')),
    ).toMatch(/^normal/);

    await page.getByRole('button', { name: /On to power-up/ }).click();
    await wizard.unfold(/how far does it get/);
    await wizard.answer(/how far does it get/, 'artifacts from the first image');
    await note();
    await wizard.unfold(/Where does the memory test find errors/);
    await wizard.answer(/Where does the memory test find errors/, 'in one chip');
    await note();
    await wizard.unfold(/where are the errors/);
    await wizard.answer(/where are the errors/, 'moved with the chip');
    await note();
    expect(await wordsIn(wizard.ranking.first())).toMatch(/^Memory chip failed/);

    await page.getByRole('button', { name: /On to what next/ }).click();
    await main.getByRole('heading', { name: 'Which check is worth its minutes?' }).waitFor();
    expect(await wordsIn(main)).toMatch(/No check is worth its minutes|What each result would do/);

    await page.getByRole('button', { name: /On to verdict/ }).click();
    await main.getByRole('heading', { name: 'Is it worth the heat?' }).waitFor();
    const options = main.getByRole('table', { name: 'Options compared' });
    expect(await wordsIn(options.getByRole('row').filter({ hasText: 'advised' }))).toMatch(/^Replace .*memory chip/i);
    expect(await options.getByRole('row').count()).toBeGreaterThan(3);
    await main.getByText(/Any price from €\d+ to €\d+ serves both sides/).waitFor();
    expect(await list('What would change it').count()).toBeGreaterThan(2);
    const evidence = main.getByRole('table', { name: 'Evidence for and against Memory chip failed' });
    expect(await wordsIn(evidence.getByRole('row').filter({ hasText: 'moved with the chip' }))).toMatch(/for.*\+.*dB/s);
    await main.getByText(/the verdict stands in/).waitFor();

    expect(new Set(said).size, 'what the panel says moves with every answer').toBe(said.length);

    await page.getByRole('link', { name: 'Worth the heat' }).click();
    const ticket = main.getByRole('link', { name: /Blocks on the screen/ });
    await ticket.getByText(/Replace .*memory chip/i).waitFor();

    function list(heading: string) {
      return main
        .locator('section')
        .filter({ has: page.getByRole('heading', { name: heading }) })
        .getByRole('listitem');
    }
  });

  it('sees the next check named beside the questions from the start, and what to do with it', async () => {
    const wizard = await openWizard();
    await wizard.newCard();
    await wizard.panel.getByRole('heading', { name: 'Next' }).waitFor();
    await wizard.panel
      .getByText(/\d+ min/)
      .first()
      .waitFor();
    await wizard.panel.getByRole('button', { name: /How and why/ }).click();
    await wizard.main.getByRole('heading', { name: 'Which check is worth its minutes?' }).waitFor();
    await wizard.main.getByText('its answer is worth').waitFor();
    await wizard.main.getByRole('table').getByRole('columnheader', { name: 'If it shows' }).waitFor();
  });
});
