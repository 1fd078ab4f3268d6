import { describe, expect, it } from 'vitest';
import { eventually, foundOf, openWizard, wordsIn } from './wizard.ts';

/** Rail, what is typed, what is said. */
const WRONG: readonly (readonly [string, string, RegExp])[] = [
  ['Core', '0.3.1', /more than one separator.*Leave out/],
  ['PCIe rail', '-5', /negative.*measure again/],
  ['1.8 V', '1,000', /can be read as 1.000 or as 1000.*Type/],
  ['3.3 V', 'short', /is not a number.*Type/],
  ['5 V', '5 V', /volt/i],
];
const groundOf = (rail: string) => `${rail}, resistance to ground`;

describe('Something typed that is no reading', () => {
  it('stays as typed and is told what is wrong; the rest is weighed without it', async () => {
    const wizard = await openWizard();
    await wizard.newCard();
    await wizard.step(/^Readings/);
    for (const [rail, typed] of WRONG) await wizard.field(groundOf(rail)).fill(typed);
    await wizard.field(groundOf('Memory')).fill('0.1');
    await wizard.weighed();
    for (const [rail, typed, wrong] of WRONG) {
      const field = wizard.field(groundOf(rail));
      expect(await field.inputValue()).toBe(typed);
      expect(await field.getAttribute('aria-invalid')).toBe('true');
      const told = (await field.getAttribute('aria-describedby'))?.split(' ') ?? [];
      expect(await wordsIn(wizard.page.locator(`[id="${told[0]}"]`))).toMatch(wrong);
    }
    expect(await wordsIn(wizard.ranking.first())).toMatch(/memory/i);
    const record = await wizard.stored();
    expect(record.timeline.map((event) => ('finding' in event ? event.finding : event.type))).toEqual([
      'arrived',
      'resistance-memory',
    ]);
    const core = wizard.field(groundOf('Core'));
    await core.fill('310m');
    expect(await core.getAttribute('aria-invalid')).toBe('false');
    expect(foundOf(await wizard.stored(), 'resistance-core')).toMatchObject({ typed: '310m' });
  });

  it('as a figure, a count or an age says so in its place', async () => {
    const wizard = await openWizard();
    await wizard.newCard();
    for (const [label, typed, wrong] of [
      ['Worth working', '180-120', /must not fall/],
      ['How many memory chips are on the board, both sides?', '99', /outside what can be/],
      ['How old is the card, in years?', 'three', /"three" is not a number/],
    ] as const) {
      await wizard.field(label).fill(typed);
      await wizard.field(label).blur();
      await wizard.main.getByText(wrong).waitFor();
      expect(await wizard.field(label).inputValue()).toBe(typed);
    }
    await wizard.answer(/How large is the core die/, /^large/);
    expect(await wizard.ranking.count()).toBeGreaterThan(2);
  });

  it('in a record of another origin is shown as a problem with its place, never as a blank screen', async () => {
    const wizard = await openWizard();
    const at = '2026-01-01T10:00:00Z';
    const record = {
      format: 1,
      id: 'from-elsewhere',
      title: 'From elsewhere',
      invented: true,
      timeline: [
        { type: 'arrived', at, facts: {} },
        { type: 'measured', at, finding: 'resistance-core', typed: '0.3.1' },
      ],
    };
    const put = await fetch(`${wizard.bench.address}/api/records/from-elsewhere`, {
      method: 'PUT',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ record, revision: null }),
    });
    expect(put.status).toBe(200);
    await wizard.page.goto(`${wizard.bench.address}/#/card/from-elsewhere/readings`);
    await wizard.panel.getByText('You typed').waitFor();
    await wizard.panel.getByText('0.3.1').first().waitFor();
    expect(await wizard.field(groundOf('Core')).inputValue()).toBe('0.3.1');
    await wizard.field(groundOf('Core')).fill('0.31');
    await eventually(() => wizard.ranking.count()).toBeGreaterThan(2);
  });

  it('as an address leads to a page that says so and back to the bench', async () => {
    const wizard = await openWizard({ expected: /404.*never-was/ });
    await wizard.page.goto(`${wizard.bench.address}/#/card/never-was/verdict`);
    await wizard.main.getByRole('heading', { name: 'That card is not here' }).waitFor();
    await wizard.main.getByRole('link', { name: 'Back to the bench' }).click();
    await wizard.main.getByRole('heading', { name: 'On the bench' }).waitFor();
  });
});
