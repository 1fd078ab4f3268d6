import { describe, expect, it } from 'vitest';
import { openWizard, wordsIn } from './wizard.ts';

/** Words that an English sentence of the rules can hardly do without and a German one never has. */
const ENGLISH = /\b(the|and|with|of|is|are|when|from|than|this|that|which|not)\b/g;

describe('The wizard in German', () => {
  it('asks, advises and explains in German on every step, and marks it so', async () => {
    const wizard = await openWizard({ locale: 'de-DE' });
    const { page } = wizard;
    const left: string[] = [];
    for (const step of ['card', 'history', 'symptoms', 'looks', 'readings', 'tests', 'next', 'verdict']) {
      await page.goto(`${wizard.bench.address}/#/case/one-memory-chip/${step}`);
      await page.locator('aside[data-pending="false"]').waitFor();
      await page.locator('main [lang="de"], main h1').first().waitFor();
      await page.evaluate(() => {
        for (const folded of document.querySelectorAll('details')) folded.open = true;
      });
      for (const place of [page.getByRole('main'), page.getByRole('complementary')]) {
        const said = await wordsIn(place);
        const english = said.match(ENGLISH);
        if (english !== null)
          left.push(`${step}: ${said.slice(Math.max(0, said.search(ENGLISH) - 60), said.search(ENGLISH) + 60)}`);
      }
    }
    expect(left).toEqual([]);
    expect(await page.locator('html').getAttribute('lang')).toBe('de');
  });

  it('changes the rules with the language, under the hand and without a reload, and keeps every answer', async () => {
    const wizard = await openWizard();
    const { page } = wizard;
    await wizard.openCase('one-memory-chip', 'tests');
    const english = await wordsIn(wizard.ranking.first());
    await page.getByRole('button', { name: /Auf Deutsch umschalten/ }).click();
    await page.getByRole('complementary').getByText('Speicherbaustein ausgefallen').first().waitFor();
    await page.getByRole('button', { name: /Switch to English/ }).click();
    await wizard.panel.getByText('Memory chip failed').first().waitFor();
    await wizard.weighed();
    expect((await wordsIn(wizard.ranking.first())).slice(0, 24)).toBe(english.slice(0, 24));
  });

  it('writes the page of a German owner in German throughout', async () => {
    const wizard = await openWizard({ locale: 'de-DE' });
    const { page } = wizard;
    await page.goto(`${wizard.bench.address}/#/case/one-memory-chip/owner`);
    const sheet = page.frameLocator('iframe');
    await sheet.getByRole('heading', { level: 1 }).waitFor();
    // what the card is called was typed by somebody
    const said = (await wordsIn(sheet.locator('main'))).replace(
      'Artifacts from the first image, errors follow one chip',
      '',
    );
    expect(said).toContain('Einen Speicherchip ersetzen');
    expect(said.match(ENGLISH)).toBeNull();
    expect(await sheet.locator('[lang="en"]').count()).toBe(0);
  });

  it('writes the page of a German owner in German throughout for a bench that works in English, with the same figures', async () => {
    const wizard = await openWizard();
    const { page } = wizard;
    await page.goto(`${wizard.bench.address}/#/case/one-memory-chip/owner`);
    const sheet = page.frameLocator('iframe');
    await sheet.getByRole('heading', { level: 1 }).waitFor();
    // the ranges over parameter draws come last and belong on the page
    await page.getByText('are still being worked out').waitFor({ state: 'detached' });
    const figures = async () => {
      const told = await sheet.locator('p, li, td, dd').allInnerTexts();
      return told.flatMap((text) => [...text.matchAll(/(\d+) (?:of|von) 100/g)].map(([, figure]) => figure)).sort();
    };
    const english = await figures();
    expect(english, 'there are figures to compare').not.toEqual([]);
    await page.getByRole('radio', { name: 'Deutsch' }).check();
    await sheet.getByText('Einen Speicherchip ersetzen').first().waitFor();
    await page.getByText('is still the one before').waitFor({ state: 'detached' });
    const said = (await wordsIn(sheet.locator('main'))).replace(
      'Artifacts from the first image, errors follow one chip',
      '',
    );
    expect(said.match(ENGLISH)).toBeNull();
    expect(await sheet.locator('[lang="en"]').count()).toBe(0);
    expect(await figures()).toEqual(english);
  });

  it('marks nothing German as English on a card that came back', async () => {
    const wizard = await openWizard({ locale: 'de-DE' });
    const { page } = wizard;
    await page.goto(`${wizard.bench.address}/#/case/back-after-three-weeks/came-back`);
    await page.getByText('Gebrochene Bumps zwischen Chip und Träger').first().waitFor();
    await page.locator('.life-row').first().waitFor();
    const marked = await page.locator('main [lang="en"]').allInnerTexts();
    expect(marked.filter((text) => text.match(ENGLISH) === null)).toEqual([]);
    expect(await page.locator('main .life-row [lang="de"]').count()).toBeGreaterThan(0);
  });

  it('does without the German rules where nobody reads them', async () => {
    const wizard = await openWizard({ serviceWorkers: 'block', expected: /Service Worker registration blocked/ });
    const { page } = wizard;
    const read: string[] = [];
    page.on('response', (response) => void (/rules-/.test(response.url()) && read.push(response.url())));
    await wizard.openCase('one-memory-chip', 'tests');
    await page.reload();
    await wizard.weighed();
    expect(new Set(read).size).toBeLessThanOrEqual(1);
  });
});
