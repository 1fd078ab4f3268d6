import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openWizard, type Wizard, wordsIn } from './wizard.ts';

const CHECKS = new URL('../../rules/checks/', import.meta.url);
const POWERED: readonly string[] = readdirSync(CHECKS)
  .filter((file) => file.endsWith('.json'))
  .map((file) => JSON.parse(readFileSync(new URL(file, CHECKS), 'utf8')) as { name: string; powers: boolean })
  .filter(({ powers }) => powers)
  .map(({ name }) => name);

/** Every rail of a card with one power connector and one core rail, as a sound one reads. */
const SOUND: readonly (readonly [string, string])[] = [
  ['Core', '940m'],
  ['Memory', '38R'],
  ['PCIe rail', '22R'],
  ['1.8 V', '420'],
  ['3.3 V', '3k1'],
  ['5 V', '4k2'],
  ['12 V slot', '18k'],
  ['12 V input', '31k'],
];

const nextCheck = async ({ panel, weighed }: Wizard): Promise<string> => {
  await weighed();
  return wordsIn(panel.locator('section').filter({ has: panel.page().getByRole('heading', { name: 'Next' }) }));
};
const advised = async (wizard: Wizard) => {
  const words = await nextCheck(wizard);
  return POWERED.filter((name) => words.startsWith(`Next${name}`));
};

/** Looked at, with one core rail and one power connector: what is left to be known before power are its rails. */
async function oneRailOneConnector(wizard: Wizard): Promise<void> {
  await wizard.newCard();
  await wizard.answer(/How large is the core die/, /^medium/);
  await wizard.answer(/How many power connectors/, 'one');
  await wizard.answer(/second large rail/, 'no');
  await wizard.step(/^Looks/);
  await wizard.answer(/stands out on the board/, 'nothing');
}

describe('Power', () => {
  it('is never the next step before the rails have been taken to ground, whatever the owner says', async () => {
    expect(POWERED.length).toBeGreaterThan(10);
    const wizard = await openWizard();
    await oneRailOneConnector(wizard);
    expect(await advised(wizard)).toEqual([]);
    await wizard.step(/^Symptoms/);
    for (const words of [
      'no picture',
      'the driver crashes',
      'drops out when warm',
      'shuts the computer down',
      'smell or smoke',
    ]) {
      await wizard.answer(/What does the owner say/, words);
      expect(await advised(wizard), words).toEqual([]);
    }
    await wizard.step(/^Readings/);
    const last = SOUND.at(-1)!;
    for (const [rail, typed] of SOUND.slice(0, -1)) {
      await wizard.field(`${rail}, resistance to ground`).fill(typed);
      expect(await advised(wizard), rail).toEqual([]);
      expect(await wizard.field('Core, voltage').isDisabled(), rail).toBe(true);
    }
    await wizard.main
      .getByText(/12 V input to ground/)
      .first()
      .waitFor();
    await wizard.field(`${last[0]}, resistance to ground`).fill(last[1]);
    await wizard.weighed();
    expect(await wizard.field('Core, voltage').isEnabled()).toBe(true);
  });

  it('waits on every test that needs it, with the reason, until the rails are taken', async () => {
    const wizard = await openWizard();
    await oneRailOneConnector(wizard);
    await wizard.step(/^Power-up/);
    for (const test of ['Known-good host', 'Memory test', 'Load test with temperatures and fans']) {
      const group = wizard.page.getByRole('heading', { name: new RegExp(`${test}$`) });
      await group.click();
      const line = wizard.main.locator('details').filter({ has: group });
      await line.getByText(/No power before these are known not to be short: .*Core rail to ground/).waitFor();
      expect(await line.getByRole('radio').count(), `${test} asks nothing yet`).toBe(0);
    }
    await wizard.step(/^What next/);
    const closed = wizard.main
      .locator('section')
      .filter({ has: wizard.page.getByRole('heading', { name: 'Closed for now' }) });
    const words = await wordsIn(closed);
    expect(POWERED.filter((name) => !words.includes(name) && !words.includes('Swap two'))).toEqual([]);
  });

  it('stays off once a short has been typed, and the rail is named as the reason', async () => {
    const wizard = await openWizard();
    await oneRailOneConnector(wizard);
    await wizard.step(/^Readings/);
    for (const [rail, typed] of SOUND) await wizard.field(`${rail}, resistance to ground`).fill(typed);
    await wizard.weighed();
    expect(await wizard.field('Core, voltage').isEnabled()).toBe(true);
    await wizard.field('Memory, resistance to ground').fill('0.1');
    await wizard.weighed();
    expect(await wizard.field('Core, voltage').isDisabled()).toBe(true);
    await wizard.main.getByText(/No power while a rail is short to ground: Memory rail/).waitFor();
    expect(await advised(wizard)).toEqual([]);
    await wizard.step(/^Power-up/);
    const test = wizard.page.getByRole('heading', { name: /Memory test$/ });
    await test.click();
    const line = wizard.main.locator('details').filter({ has: test });
    await line.getByText(/short to ground: Memory rail/).waitFor();
    expect(await line.getByRole('radio').count()).toBe(0);
    await line.getByRole('button', { name: /It was done already/ }).click();
    expect(await line.getByRole('radio').count(), 'what was seen elsewhere can still be written down').toBeGreaterThan(
      4,
    );
  });

  it('leads from a wet board that gets no power to the question that opens it again', async () => {
    const wizard = await openWizard();
    const { page, main } = wizard;
    await oneRailOneConnector(wizard);
    await wizard.step(/^History/);
    await wizard.answer(/Did liquid ever reach it/, 'yes');
    await wizard.step(/^Readings/);
    await main.locator('.gate').getByRole('button', { name: 'Board cleaned' }).first().click();
    await main.getByRole('heading', { name: 'What has it been through?' }).waitFor();
    const asked = wizard.question(/washed and dried through/);
    await asked.locator(':focus').waitFor();
    await page.keyboard.press('1');
    expect(await asked.getByRole('radio', { name: /^yes/i }).isChecked()).toBe(true);
  });
});

describe('A caution', () => {
  it('stands in sight at the hold point it belongs to, and every other caution of the work is one touch away', async () => {
    const wizard = await openWizard({ viewport: { width: 390, height: 844 } });
    await wizard.openCase('ball-crack-on-a-dear-card', 'work');
    const waiting = wizard.main.getByRole('region', { name: 'The card as it is, on record' });
    const seen = waiting.locator('.cautions li').filter({ visible: true });
    await seen.first().waitFor();
    const own = await seen.count();
    expect(own).toBeGreaterThan(0);
    expect(own).toBeLessThan(6);
    expect(await wizard.main.locator('.cautions li').filter({ visible: true }).count()).toBe(own);

    const every = wizard.main.locator('.order-facts .folded-cautions');
    const all = await every.locator('li').count();
    await waiting.getByText(`${all - own} more cautions of this work`).click();
    expect(await seen.count()).toBe(all);
    await every.getByText(`All ${all} cautions of this work`).click();
    expect(await every.locator('li').filter({ visible: true }).count()).toBe(all);
  });
});
