// `npm test`: installs what is missing, then types, lint, knowledge audit, unit, property, oracle and browser tests.
// Every part runs even if an earlier one failed; the last line counts them all.
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { ensureBuilt } from './build.mjs';
import { ensureChromium } from './chromium.mjs';
import { ensureInstalled, PINNED_NODE, ROOT, run } from './install.mjs';

ensureInstalled();

let passed = 0;
let failed = 0;
const broken = [];

function heading(text) {
  process.stdout.write(`\n== ${text}\n`);
}

function count(name, ok) {
  if (ok) passed += 1;
  else {
    failed += 1;
    broken.push(name);
  }
}

function part(name, script, args) {
  heading(name);
  count(name, run(PINNED_NODE, [join(ROOT, script), ...args]) === 0);
}

function vitest(name, project, env = {}) {
  heading(name);
  const report = join(ROOT, '.cache', `${project}.json`);
  rmSync(report, { force: true });
  const code = run(
    PINNED_NODE,
    [
      join(ROOT, 'node_modules', 'vitest', 'vitest.mjs'),
      'run',
      '--project',
      project,
      '--reporter=default',
      '--reporter=json',
      `--outputFile.json=${report}`,
    ],
    { env },
  );
  try {
    const told = JSON.parse(readFileSync(report, 'utf8'));
    passed += told.numPassedTests;
    failed += told.numFailedTests;
    // a file that does not load, or an error outside any test, fails the run without a failed test of its own
    if (code !== 0 && told.numFailedTests === 0) count(name, false);
    else if (code !== 0) broken.push(name);
    if (told.numTotalTests === 0) count(`${name}: no test was found`, false);
  } catch {
    count(name, false);
  }
}

mkdirSync(join(ROOT, '.cache'), { recursive: true });
part('types', 'node_modules/typescript/bin/tsc', ['--noEmit']);
part('lint', 'node_modules/@biomejs/biome/bin/biome', ['check', '.']);
part('knowledge audit', 'src/cli/main.ts', ['audit']);
vitest('unit, property and oracle tests', 'unit');

heading('wizard build');
count('wizard build', ensureBuilt() === 0);
const chromium = await ensureChromium();
count('a Chromium for the browser tests', chromium !== null);
if (chromium) vitest('browser tests', 'browser', { CHROMIUM: chromium });
else process.stdout.write('No Chromium was found and none could be installed: set CHROMIUM to the path of one.\n');

if (broken.length > 0) process.stdout.write(`\nBroken: ${broken.join(', ')}\n`);
process.stdout.write(`\n${passed} passed, ${failed} failed\n`);
process.exit(failed === 0 && broken.length === 0 ? 0 : 1);
