// Runs on whatever Node the machine has (20 or newer): installs what is missing, then hands over to the pinned Node.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const WINDOWS = process.platform === 'win32';
export const PINNED_NODE = join(ROOT, 'node_modules', '.bin', WINDOWS ? 'node.cmd' : 'node');
const STAMP = join(ROOT, 'node_modules', '.worth-the-heat-install');

const say = (text) => process.stderr.write(`${text}\n`);

/** Runs a command to its end with our own input and output; returns its exit code. */
export function run(command, args, options = {}) {
  const done = spawnSync(command, args, {
    cwd: ROOT,
    stdio: 'inherit',
    shell: WINDOWS,
    ...options,
    env: { ...process.env, ...pinnedFirst(), ...options.env },
  });
  if (done.error) {
    say(`Could not run "${command}": ${done.error.message}`);
    return 2;
  }
  return done.status ?? 2;
}

function pinnedFirst() {
  const separator = WINDOWS ? ';' : ':';
  return { PATH: [join(ROOT, 'node_modules', '.bin'), process.env.PATH ?? ''].join(separator) };
}

function lockDigest() {
  const hash = createHash('sha256');
  for (const name of ['package.json', 'package-lock.json']) hash.update(readFileSync(join(ROOT, name)));
  return hash.digest('hex');
}

function pinnedNodeMajor() {
  if (!existsSync(PINNED_NODE)) return 0;
  const asked = spawnSync(PINNED_NODE, ['--version'], { encoding: 'utf8', shell: WINDOWS });
  return Number(/^v(\d+)/.exec(asked.stdout ?? '')?.[1] ?? 0);
}

/** Installs the packages when they are missing or older than the lock file. Exits with 2 and says what to do when that fails. */
export function ensureInstalled() {
  const digest = lockDigest();
  const current = existsSync(STAMP) && readFileSync(STAMP, 'utf8') === digest;
  if (!current || pinnedNodeMajor() < 24) {
    say('Installing packages (npm ci) ...');
    const npm = process.env.npm_execpath;
    const code = npm?.endsWith('.js')
      ? run(process.execPath, [npm, 'ci', '--no-audit', '--no-fund', '--loglevel=error'])
      : run('npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error']);
    if (code !== 0) {
      say(
        'The packages could not be installed. Is the npm registry in reach? Try `npm ci` by hand and read its last lines.',
      );
      process.exit(2);
    }
    if (pinnedNodeMajor() < 24) {
      say(
        'The pinned Node (npm package "node", 24.x) did not install. Its install script may be blocked: try `npm rebuild node`.',
      );
      process.exit(2);
    }
    mkdirSync(dirname(STAMP), { recursive: true });
    writeFileSync(STAMP, digest);
  }
}
