// Builds the wizard when it is missing or older than what it is made of.
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PINNED_NODE, ROOT, run } from './install.mjs';

const STAMP = join(ROOT, 'dist', '.made-of');

function* filesBelow(folder) {
  for (const entry of readdirSync(folder, { withFileTypes: true }).sort((a, b) => (a.name < b.name ? -1 : 1))) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) yield* filesBelow(path);
    else if (entry.isFile()) yield path;
  }
}

function digest() {
  const hash = createHash('sha256');
  for (const folder of ['src', 'rules']) {
    for (const path of filesBelow(join(ROOT, folder))) hash.update(path.slice(ROOT.length)).update(readFileSync(path));
  }
  for (const name of ['package-lock.json', 'vite.config.ts']) hash.update(readFileSync(join(ROOT, name)));
  return hash.digest('hex');
}

/** Builds `dist/` if its sources changed since the last build; returns an exit code. */
export function ensureBuilt() {
  const now = digest();
  if (existsSync(STAMP) && readFileSync(STAMP, 'utf8') === now) return 0;
  process.stderr.write('Building the wizard ...\n');
  const code = run(PINNED_NODE, [join(ROOT, 'node_modules', 'vite', 'bin', 'vite.js'), 'build', '--logLevel', 'warn']);
  if (code === 0) writeFileSync(STAMP, now);
  return code;
}
