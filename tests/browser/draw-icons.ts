/** Draws the icons a browser installs the wizard with from its mark: `npx node tests/browser/draw-icons.ts`. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { launchChromium } from './chromium.ts';

const WIZARD = fileURLToPath(new URL('../../src/wizard', import.meta.url));
const mark = readFileSync(join(WIZARD, 'look', 'mark.svg'), 'utf8');
const PAPER = '#e9ece7';

/** `inset`: what is left free around the mark, as a share of the icon; a maskable icon may be cut to a circle of 80 %. */
const ICONS = [
  { name: 'icon-192.png', size: 192, inset: 0, background: 'transparent' },
  { name: 'icon-512.png', size: 512, inset: 0, background: 'transparent' },
  { name: 'icon-maskable-512.png', size: 512, inset: 0.2, background: PAPER },
  { name: 'icon-home-180.png', size: 180, inset: 0.12, background: PAPER },
];

const browser = await launchChromium();
try {
  for (const { name, size, inset, background } of ICONS) {
    const page = await browser.newPage({ viewport: { width: size, height: size } });
    await page.setContent(
      `<style>html,body{margin:0;background:${background}}svg{position:absolute;inset:${inset * size}px;width:${size * (1 - 2 * inset)}px;height:${size * (1 - 2 * inset)}px}</style>${mark}`,
    );
    const path = join(WIZARD, 'offline', 'installed', name);
    await page.screenshot({ path, omitBackground: true });
    await page.close();
    console.log(path);
  }
} finally {
  await browser.close();
}
