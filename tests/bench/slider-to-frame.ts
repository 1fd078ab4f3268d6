/**
 * Does the verdict change under the hand? The built wizard in a headless Chromium, every slider of several worked cases put to
 * stops drawn with a stated seed, the clock inside the page: from the input event until the new verdict is laid out, and
 * whether the first frame after the event shows it.
 */
import { availableParallelism, loadavg } from 'node:os';
import type { Page } from 'playwright-core';
import { createRandom } from '../../src/decision/random.ts';
import { launchChromium } from '../browser/chromium.ts';
import { serveBench } from '../browser/served-bench.ts';
import { quantile } from './quantile.ts';

const SEED = 20261125;
/** At 60 frames a second. */
const FRAME_MS = 1000 / 60;
const MOVES_PER_SLIDER = 25;
/** Cards with a repair, with none that pays, and one that came back. */
const CASES = [
  'ball-crack-on-a-dear-card',
  'ball-crack-on-a-cheap-card',
  'one-memory-chip',
  'shorted-memory-capacitor',
  'blown-input-fuse',
  'reflowed-and-back',
] as const;

interface Move {
  /** milliseconds from the input event until the page with the new figures is laid out */
  readonly laidOut: number;
  /** the first frame after the event holds them */
  readonly nextFrame: boolean;
}

export async function benchSliderToFrame(): Promise<string> {
  const bench = await serveBench();
  const browser = await launchChromium();
  try {
    const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, locale: 'en-GB' });
    const page = await context.newPage();
    const random = createRandom(SEED);
    const moves: (Move & { readonly of: string })[] = [];
    for (const id of CASES) {
      await page.goto(`${bench.address}/#/case/${id}/verdict`);
      await page.locator('aside[data-pending="false"]').waitFor();
      // at this width the sliders are unfolded
      await page.locator('.sliders input').first().waitFor();
      const sliders = await page.locator('.sliders input[type="range"]').count();
      for (let at = 0; at < sliders; at++) {
        for (let move = 0; move < MOVES_PER_SLIDER; move++)
          moves.push({ of: id, ...(await put(page, at, random.next())) });
      }
    }
    return report(moves);
  } finally {
    await browser.close();
    await bench.close();
  }
}

/** Puts one slider to a share of its way that it does not stand at. */
function put(page: Page, at: number, share: number): Promise<Move> {
  return page.evaluate(
    async ([which, along]) => {
      const input = document.querySelectorAll<HTMLInputElement>('.sliders input[type="range"]')[which!]!;
      const [from, to, step] = [Number(input.min), Number(input.max), Number(input.step)];
      let value = from + step * Math.round((along! * (to - from)) / step);
      // a slider that stands where it is put says nothing
      const stands = input.valueAsNumber;
      if (Math.abs(value - stands) < step / 2) value = stands + (stands + step <= to ? step : -step);
      input.scrollIntoView({ block: 'center' });
      await new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)));
      const said = input.getAttribute('aria-valuetext');
      return new Promise<{ laidOut: number; nextFrame: boolean }>((resolve, reject) => {
        let nextFrame: boolean | null = null;
        let laidOut: number | null = null;
        const timer = setTimeout(
          () => reject(new Error(`the slider ${input.id} was put to ${value} and nothing came`)),
          5000,
        );
        const done = () => {
          if (nextFrame === null || laidOut === null) return;
          clearTimeout(timer);
          resolve({ laidOut, nextFrame });
        };
        const changed = () => input.getAttribute('aria-valuetext') !== said;
        const watch = new MutationObserver(() => {
          if (laidOut !== null || !changed()) return;
          watch.disconnect();
          // layout is forced, so that it is inside what is timed
          document.body.getBoundingClientRect();
          laidOut = performance.now() - began;
          done();
        });
        watch.observe(input, { attributes: true });
        requestAnimationFrame(() => {
          nextFrame = changed();
          done();
        });
        const began = performance.now();
        input.value = String(value);
        input.dispatchEvent(new Event('input', { bubbles: true }));
      });
    },
    [at, share] as const,
  );
}

function report(moves: readonly (Move & { readonly of: string })[]): string {
  const times = moves.map(({ laidOut }) => laidOut);
  const late = moves.filter(({ laidOut }) => laidOut > FRAME_MS).length;
  const missed = moves.filter(({ nextFrame }) => !nextFrame).length;
  const ms = (value: number) => value.toFixed(1);
  const [minute = 0] = loadavg();
  return [
    `${moves.length} movements of the sliders of ${CASES.length} worked cases, seed ${SEED}.`,
    `${availableParallelism()} cores, load average of the last minute ${minute.toFixed(1)}, this bench included.`,
    `Input to new verdict laid out: median ${ms(quantile(times, 0.5))} ms, 95th percentile ${ms(quantile(times, 0.95))} ms, longest ${ms(Math.max(...times))} ms; ${late} took longer than a frame of ${ms(FRAME_MS)} ms.`,
    `First frame after the input shows it: ${moves.length - missed} of ${moves.length}.`,
    ...CASES.map(
      (id) =>
        `${id}: ${moves
          .filter(({ of }) => of === id)
          .map(({ laidOut }) => ms(laidOut))
          .join(' ')}`,
    ),
  ].join('\n');
}
