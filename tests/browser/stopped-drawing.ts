/**
 * Headless Chromium now and then stops drawing a page for good (`vitest.config.ts` says what is known of it). A click then fails by itself; a key
 * is never acknowledged and would wait for the end of the test. Here it is told what it waits for.
 */
import type { Page } from 'playwright-core';

const PATIENCE_MS = 20_000;
const FRAME_MS = 5_000;
/** `vitest.config.ts` looks for these words. */
export const STOPPED = 'the page has stopped drawing';

/** Every key of this page is taken within some seconds, or the test fails with the reason. */
export function guardKeys(page: Page): void {
  const { keyboard } = page;
  const press = keyboard.press.bind(keyboard);
  keyboard.press = (key, options) => within(page, `the key ${key}`, press(key, options));
  const type = keyboard.type.bind(keyboard);
  keyboard.type = (text, options) => within(page, `typing "${text}"`, type(text, options));
}

async function within(page: Page, what: string, doing: Promise<void>): Promise<void> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<'late'>((resolve) => {
    timer = setTimeout(() => resolve('late'), PATIENCE_MS);
  });
  try {
    if ((await Promise.race([doing, late])) !== 'late') return;
  } finally {
    clearTimeout(timer);
  }
  doing.catch(() => undefined);
  const draws = await page.evaluate(
    (patience) =>
      new Promise<boolean>((resolve) => {
        requestAnimationFrame(() => resolve(true));
        setTimeout(() => resolve(false), patience);
      }),
    FRAME_MS,
  );
  throw new Error(`${what} was not taken within ${PATIENCE_MS / 1000} s: ${draws ? 'the page draws on' : STOPPED}`);
}
