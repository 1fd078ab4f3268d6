/** The Chromium that the tests and the pictures are taken with. */
import { type Browser, chromium } from 'playwright-core';

const ARGUMENTS = [
  '--no-sandbox',
  '--disable-gpu',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export async function launchChromium(): Promise<Browser> {
  const bootstrap = new URL('../../src/bootstrap/chromium.mjs', import.meta.url).href;
  const { findChromium } = (await import(bootstrap)) as { findChromium: () => string | null };
  const executablePath = findChromium();
  if (executablePath === null) throw new Error('There is no Chromium: install one, or name it in CHROMIUM.');
  return chromium.launch({ executablePath, args: ARGUMENTS });
}

export const SIZES = [
  { width: 1440, height: 900 },
  { width: 1024, height: 768 },
  { width: 390, height: 844 },
  { width: 360, height: 640 },
] as const;
export const SCHEMES = ['light', 'dark'] as const;
