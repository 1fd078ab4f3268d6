/** HTML to PDF through the print of a Chromium on this machine. */
import { execFile } from 'node:child_process';
import { mkdtemp, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import { BadInput } from './command.ts';

const PATIENCE_MILLISECONDS = 60_000;

export async function printPdf(html: string, file: string): Promise<void> {
  const bootstrap = new URL('../bootstrap/chromium.mjs', import.meta.url).href;
  const { findChromium } = (await import(bootstrap)) as { findChromium: () => string | null };
  const chromium = findChromium();
  if (chromium === null)
    throw new BadInput(
      'There is no Chromium here to print with. Install one (on Debian: apt install chromium) or name one in the variable CHROMIUM;\nor write the page with --html and print it from any browser.',
    );
  const target = resolve(file);
  await stat(dirname(target)).catch(() => {
    throw new BadInput(`${file}: there is no folder ${dirname(target)} to write to.`);
  });
  const folder = await mkdtemp(join(tmpdir(), 'worth-the-heat-print-'));
  try {
    const page = join(folder, 'page.html');
    await writeFile(page, html);
    await rm(target, { force: true });
    await promisify(execFile)(
      chromium,
      [
        '--headless',
        '--no-sandbox',
        '--disable-gpu',
        '--no-first-run',
        '--disable-background-networking',
        `--user-data-dir=${join(folder, 'profile')}`,
        '--no-pdf-header-footer',
        `--print-to-pdf=${target}`,
        pathToFileURL(page).href,
      ],
      { timeout: PATIENCE_MILLISECONDS },
    ).catch((error: Error) => {
      throw new BadInput(
        `${chromium} could not print the page (${error.message.split('\n')[0]}). Write it with --html and print it from any browser.`,
      );
    });
    await stat(target).catch(() => {
      throw new BadInput(
        `${chromium} ran but wrote no PDF to ${file}. Write the page with --html and print it from any browser.`,
      );
    });
  } finally {
    await rm(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
  }
}
