// Finds a Chromium for the browser tests and for printing: what the machine has, else Debian's package, else the npm registry's build.
import { spawnSync } from 'node:child_process';
import { accessSync, constants, existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { ROOT, run } from './install.mjs';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome'];
const PLACES = ['/Applications/Chromium.app/Contents/MacOS/Chromium', '/snap/bin/chromium'];
const NPM_BUILD = '@sparticuz/chromium@153.0.0';
const NPM_FOLDER = join(ROOT, '.cache', 'chromium');

function executable(path) {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

/** The path of a Chromium already on this machine, or null. CHROMIUM names one by hand. */
export function findChromium() {
  const named = process.env.CHROMIUM;
  if (named) return executable(named) ? named : null;
  for (const folder of (process.env.PATH ?? '').split(delimiter)) {
    for (const name of NAMES) if (folder && executable(join(folder, name))) return join(folder, name);
  }
  return PLACES.find(executable) ?? null;
}

function works(path) {
  const asked = spawnSync(path, ['--version', '--no-sandbox'], { encoding: 'utf8' });
  return asked.status === 0;
}

function installFromDebian() {
  if (process.platform !== 'linux' || spawnSync('apt-get', ['--version']).status !== 0) return null;
  const root = process.getuid?.() === 0;
  if (!root && spawnSync('sudo', ['-n', 'true']).status !== 0) return null;
  const apt = (...args) =>
    run(root ? 'apt-get' : 'sudo', root ? args : ['-n', 'apt-get', ...args], {
      env: { DEBIAN_FRONTEND: 'noninteractive' },
      stdio: ['ignore', 'ignore', 'inherit'],
    });
  process.stderr.write('Installing Chromium from Debian packages ...\n');
  apt('update');
  if (apt('install', '-y', '--no-install-recommends', 'chromium') !== 0) return null;
  return findChromium();
}

async function installFromNpm() {
  if (process.platform !== 'linux' || process.arch !== 'x64') return null;
  process.stderr.write(`Fetching Chromium from the npm registry (${NPM_BUILD}) ...\n`);
  if (!existsSync(join(NPM_FOLDER, 'node_modules', '@sparticuz', 'chromium'))) {
    if (run('npm', ['install', '--no-save', '--no-audit', '--no-fund', '--prefix', NPM_FOLDER, NPM_BUILD]) !== 0)
      return null;
  }
  const entry = join(NPM_FOLDER, 'node_modules', '@sparticuz', 'chromium', 'build', 'esm', 'index.js');
  if (!existsSync(entry)) return null;
  const { default: chromium } = await import(pathToFileURL(entry).href);
  return await chromium.executablePath();
}

/** A Chromium that runs; installs one where there is none. Null when no way worked. */
export async function ensureChromium() {
  const found = findChromium();
  if (found && works(found)) return found;
  const debian = installFromDebian();
  if (debian && works(debian)) return debian;
  const npm = await installFromNpm();
  return npm && works(npm) ? npm : null;
}
