import { describe, expect, it } from 'vitest';
import { openWizard, wordsIn } from './wizard.ts';

describe('What does not add up is a result', () => {
  it('a shorted core in a card that runs in the known-good host: the findings sit badly together, the verdict still stands', async () => {
    const wizard = await openWizard();
    await wizard.newCard();
    await wizard.answer(/How large is the core die/, /^medium/);
    await wizard.step(/^Readings/);
    await wizard.main.getByRole('combobox', { name: 'Core, resistance in words' }).selectOption({ label: 'short' });
    await wizard.step(/^Power-up/);
    await wizard.page.getByRole('heading', { name: /Known-good host$/ }).click();
    await wizard.main
      .getByRole('button', { name: /It was done already/ })
      .first()
      .click();
    await wizard.answer(/What happens in a known-good host/, /^works there/);
    await wizard.step(/^Verdict/);
    const notice = wizard.main
      .locator('section')
      .filter({ has: wizard.page.getByRole('heading', { name: /The findings sit badly together/ }) });
    await notice.getByRole('button', { name: /Look again: In a known-good host/ }).waitFor();
    await wizard.main.getByRole('table', { name: 'Options compared' }).waitFor();
    await notice.getByRole('button', { name: /Look again: Core rail to ground/ }).click();
    await wizard.main.getByRole('heading', { name: 'What do the rails read?' }).waitFor();
    await wizard.page.locator(':focus').waitFor();
  });

  it('a contradiction: the findings are named, lead back to their questions, and the last answer can be taken back', async () => {
    const wizard = await openWizard();
    await wizard.page.addInitScript(contradictOnMelted);
    await wizard.page.reload();
    await wizard.newCard();
    await wizard.step(/^Looks/);
    await wizard.answer(/How does the power connector look/, 'melted or burnt');
    await wizard.panel.getByRole('heading', { name: 'The findings contradict each other' }).waitFor();
    await wizard.panel.getByRole('button', { name: 'Look again: Power connector' }).waitFor();
    await wizard.step(/^Verdict/);
    await wizard.main.getByText(/There is no verdict while this stands/).waitFor();
    await wizard.panel.getByRole('button', { name: 'Take back the last answer' }).click();
    await wizard.panel.getByRole('heading', { name: 'Next' }).waitFor();
    await wizard.step(/^Looks/);
    await wizard.answer(/How does the power connector look/, 'discoloured');
    expect(await wizard.ranking.count()).toBeGreaterThan(2);
  });
});

describe('What comes and goes', () => {
  it('is said beside the ranking and beside its weight, with both of what was seen and the way back to the question', async () => {
    const wizard = await openWizard();
    await wizard.openCase('comes-and-goes');
    const said = /It comes and goes\. How the card starts: .+, then .+, with no work in between/;
    for (const place of [wizard.panel, wizard.main]) await place.getByText(said).waitFor();
    await wizard.main
      .getByRole('rowheader', { name: /How the card starts: .* comes and goes/ })
      .first()
      .waitFor();
    await wizard.panel.getByRole('button', { name: 'Look again: How the card starts' }).click();
    await wizard
      .question(/how far does it get/)
      .first()
      .waitFor();
  });

  it('is not said of a card that shows the same every time', async () => {
    const wizard = await openWizard();
    await wizard.openCase('one-memory-chip');
    expect(await wizard.page.getByText('It comes and goes').count()).toBe(0);
  });
});

describe('A worked case', () => {
  it('opens with its verdict and says on every screen that it is invented', async () => {
    const wizard = await openWizard();
    const { main, page } = wizard;
    await main.getByText(/Invented cards/).waitFor();
    await main.getByRole('button', { name: /Show all \d+ cases/ }).click();
    await main.getByRole('link', { name: 'Artifacts from the first image, errors follow one chip' }).click();
    await main.getByRole('heading', { name: 'Is it worth the heat?' }).waitFor();
    await wizard.weighed();
    expect(await wordsIn(wizard.ranking.first())).toMatch(/^Memory chip failed/);
    for (const step of [/^Card/, /^Readings/, /^What next/, /^Verdict/]) {
      await wizard.step(step);
      await page.getByRole('banner').getByText('invented', { exact: true }).waitFor();
    }
  });

  it("becomes a card of one's own with the first answer, and the case itself stays as it is", async () => {
    const wizard = await openWizard();
    await wizard.openCase('one-memory-chip', 'history');
    await wizard.answer(/Did liquid ever reach it/, 'yes');
    const record = await wizard.stored();
    expect(record).toMatchObject({ invented: true });
    expect(record.id).not.toBe('one-memory-chip');
    await wizard.openCase('one-memory-chip', 'history');
    expect(
      await wizard
        .question(/Did liquid ever reach it/)
        .getByRole('radio', { name: 'Not asked' })
        .isChecked(),
    ).toBe(true);
  });
});

/**
 * No findings contradict each other under the shipped knowledge: every leak row leaves each state some chance. So that the
 * screen for it is walked all the same, the worker's answer is exchanged for one on its way to the page.
 */
function contradictOnMelted(): void {
  const listen = Worker.prototype.addEventListener;
  Worker.prototype.addEventListener = function (this: Worker, type: string, hear: EventListenerOrEventListenerObject) {
    listen.call(this, type, (event: Event) => {
      const heard = event as MessageEvent;
      const { evidence = [], title = '', record = '' } = heard.data?.assessment ?? {};
      const melted = evidence.find(({ state }: { state: string }) => state === 'melted');
      const answer =
        melted === undefined
          ? heard
          : new MessageEvent('message', {
              data: {
                ...heard.data,
                assessment: {
                  kind: 'contradiction',
                  format: 1,
                  record,
                  title,
                  finding: 'look-power-connector',
                  against: ['look-board'],
                  sentence: 'No condition shows a melted power connector together with a clean board.',
                  evidence,
                },
              },
            });
      if (typeof hear === 'function') hear(answer);
      else hear.handleEvent(answer);
    });
  };
}
