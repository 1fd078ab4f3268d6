import { describe, expect, it } from 'vitest';
import { eventually, openWizard } from './wizard.ts';

interface Passed {
  readonly asked: number[];
  readonly answered: number[];
  held: boolean;
  release(): void;
}
declare global {
  interface Window {
    passed: Passed;
  }
}

describe('Weighing a card', () => {
  it('happens away from the page: typing goes on and is kept while not one answer has come back', async () => {
    const wizard = await openWizard();
    const { page } = wizard;
    await page.addInitScript(watchWorkers);
    await page.reload();
    await wizard.newCard();
    expect(page.workers().length, 'the knowledge sits in a worker').toBeGreaterThan(0);
    const before = await wizard.panelWords();
    await page.evaluate(() => {
      window.passed.held = true;
    });
    const hold = async (words: RegExp, key: string) => {
      await wizard.question(words).getByRole('radio').first().focus();
      await page.keyboard.press(key);
    };
    await hold(/How large is the core die/, '3');
    await hold(/What kind of memory/, '3');
    await hold(/How many power connectors/, '3');
    await hold(/How much power is the card made for/, '4');
    await wizard.field('How many memory chips are on the board, both sides?').pressSequentially('12');
    await wizard.field('How old is the card, in years?').pressSequentially('3.5');
    await wizard.step(/^Symptoms/);
    await wizard
      .question(/What does the owner say/)
      .getByRole('checkbox', { name: 'drops out when warm' })
      .check();
    await wizard.step(/^Card/);
    expect(await wizard.field('How many memory chips are on the board, both sides?').inputValue()).toBe('12');
    expect(await wizard.field('How old is the card, in years?').inputValue()).toBe('3.5');
    const record = await wizard.stored();
    expect(record.timeline[0]).toMatchObject({
      facts: { 'die-size': 'large', 'memory-chips': 12, 'age-years': 3.5, 'owner-words': ['heat-dropout'] },
    });
    expect(await wizard.panel.getAttribute('data-pending')).toBe('true');

    await page.evaluate(() => window.passed.release());
    await wizard.weighed();
    const { asked, answered } = await page.evaluate(() => ({ ...window.passed, release: undefined }));
    expect(new Set(asked).size, 'each answer is a question to the worker').toBeGreaterThanOrEqual(7);
    expect(answered, 'and the newest one is answered').toContain(Math.max(...asked));
    expect(await wizard.panelWords()).not.toBe(before);
  });

  it('shows the answer to the newest question only, however fast they were asked', async () => {
    const wizard = await openWizard();
    const { page } = wizard;
    await wizard.openCase('one-memory-chip', 'tests');
    // what moved is told from one answer to the next, and here the same answers come another way
    const settled = async () => {
      await wizard.weighed();
      return wizard.panel.evaluate((panel) => {
        const copy = panel.cloneNode(true) as HTMLElement;
        for (const moved of copy.querySelectorAll('.moved, .also-moved, .bar-legend')) moved.remove();
        return (copy.textContent ?? '').replace(/Stands in.*?shaken\.|Testing how firm this is …/, '');
      });
    };
    const sure = await settled();
    const group = wizard.question(/Where does the memory test find errors/);
    await group.getByRole('radio', { name: 'in one chip' }).focus();
    for (const key of ['1', '3', '4', '5', '?', '2', '1', '5', '2']) await page.keyboard.press(key);
    await eventually(settled).toBe(sure);
  });

  it('that breaks down says so, keeps every answer and offers to begin again', async () => {
    const wizard = await openWizard({
      serviceWorkers: 'block',
      expected: /worker-|Failed to load resource|Service Worker registration blocked/,
    });
    const { page } = wizard;
    await page.route(/\/assets\/worker/, (route) => route.abort());
    await page.reload();
    await page.getByRole('button', { name: 'New card' }).click();
    await page.getByRole('heading', { name: 'The assessment broke down' }).first().waitFor();
    await page.unroute(/\/assets\/worker/);
    await page.getByRole('button', { name: 'Reload' }).first().click();
    await wizard.main.getByRole('heading', { name: 'Which card is this, and what is it worth?' }).waitFor();
    await wizard.weighed();
  });
});

/** Counts what passes between the page and its workers, and can hold the answers back. */
function watchWorkers(): void {
  const waiting: (() => void)[] = [];
  const passed: Passed = {
    asked: [],
    answered: [],
    held: false,
    release() {
      passed.held = false;
      for (const hear of waiting.splice(0)) hear();
    },
  };
  window.passed = passed;
  const { postMessage, addEventListener } = Worker.prototype;
  Worker.prototype.postMessage = function (this: Worker, message: { type: string; sequence: number }) {
    if (['point', 'assess'].includes(message.type)) passed.asked.push(message.sequence);
    postMessage.call(this, message);
  } as typeof postMessage;
  Worker.prototype.addEventListener = function (this: Worker, type: string, hear: (event: Event) => void) {
    addEventListener.call(this, type, (event: Event) => {
      const pass = () => {
        const { data } = event as MessageEvent<{ type: string; sequence: number }>;
        if (data?.type === 'assessment') passed.answered.push(data.sequence);
        hear(event);
      };
      if (passed.held) waiting.push(pass);
      else pass();
    });
  } as typeof addEventListener;
}
