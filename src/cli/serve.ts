import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { RULES_FOLDER } from '../knowledge/load.ts';
import { sayProblem } from '../knowledge/say-problem.ts';
import { type Serving, serve } from '../server/serve.ts';
import { dataFolder } from '../store/data-folder.ts';
import { openStore } from '../store/sqlite-store.ts';
import type { Store } from '../store/store.ts';
import { BadInput, type Command, printJson, stringFlag, wholeFlag } from './command.ts';

const PROJECT = fileURLToPath(new URL('../..', import.meta.url));
/** asked for by default; the next free one is taken where it is in use */
const FIRST_PORT = 4714;
const PORTS_TRIED = 20;

export const serveCommand: Command = {
  name: 'serve',
  usage: 'serve',
  about: 'serves the wizard on this machine and keeps the records in the data folder',
  more: [
    'Listens on loopback only. Prints the address and the data folder; the shop profile (money, policy, meters, equipment) is',
    'the file shop.json in it: edit it and reload. The folder is $WORTH_THE_HEAT_DATA, or the usual place for application data.',
  ],
  flags: {
    port: { type: 'string', takes: 'N', about: `port (default ${FIRST_PORT}, or the next free one; 0: any)` },
    data: { type: 'string', takes: 'folder', about: 'data folder to use' },
    open: { type: 'boolean', about: 'open a browser when there is a terminal' },
  },
  run: async (input) => {
    const dist = join(PROJECT, 'dist');
    if (!existsSync(join(dist, 'index.html')))
      throw new BadInput(
        'The wizard is not built yet: `npm start` builds and serves it, `npm run build` builds it alone.',
      );
    const folder = stringFlag(input, 'data') ?? dataFolder();
    const store = openFolder(folder);
    const shop = store.shop();
    if (!shop.ok)
      process.stderr.write(
        `The shop profile cannot be used, so the default figures are shown until it is mended:\n${shop.problems.map(sayProblem).join('\n')}\n`,
      );
    const wanted = stringFlag(input, 'port') === undefined ? null : wholeFlag(input, 'port', FIRST_PORT, 0, 65_535);
    const serving = await listen({ store, cases: join(PROJECT, 'cases'), dist }, wanted);
    if (input.values.json === true) printJson({ address: serving.address, dataFolder: folder });
    else process.stdout.write(`The wizard:       ${serving.address}\nRecords and shop: ${folder}\n`);
    process.stderr.write('Stop with Ctrl-C.\n');
    if (input.values.open === true && process.stdout.isTTY) openBrowser(serving.address);
    await untilStopped();
    await serving.close();
    store.close();
    return 0;
  },
};

function openFolder(folder: string): Store {
  try {
    return openStore({ folder, shopTemplate: join(RULES_FOLDER, 'shop.json') });
  } catch (error) {
    throw new BadInput(
      `${folder}: this data folder cannot be used (${(error as Error).message}). Name another with --data.`,
    );
  }
}

async function listen(backend: { store: Store; cases: string; dist: string }, wanted: number | null): Promise<Serving> {
  if (wanted !== null) return tryPort(backend, wanted, true);
  for (let port = FIRST_PORT; port < FIRST_PORT + PORTS_TRIED; port++) {
    const serving = await tryPort(backend, port, false);
    if (serving) return serving;
  }
  return tryPort(backend, 0, true);
}

function tryPort(backend: { store: Store; cases: string; dist: string }, port: number, must: true): Promise<Serving>;
function tryPort(
  backend: { store: Store; cases: string; dist: string },
  port: number,
  must: false,
): Promise<Serving | null>;
async function tryPort(
  backend: { store: Store; cases: string; dist: string },
  port: number,
  must: boolean,
): Promise<Serving | null> {
  try {
    return await serve({ ...backend, port });
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code !== 'EADDRINUSE' && code !== 'EACCES') throw error;
    if (must)
      throw new BadInput(`Port ${port} cannot be used (${code}): is another wizard running? Name another with --port.`);
    return null;
  }
}

function openBrowser(address: string): void {
  const [command, ...args] =
    process.platform === 'darwin'
      ? ['open', address]
      : process.platform === 'win32'
        ? ['cmd', '/c', 'start', '', address]
        : ['xdg-open', address];
  const child = spawn(command!, args, { stdio: 'ignore', detached: true });
  // no browser to open is no fault: the address is on the screen
  child.on('error', () => {});
  child.unref();
}

function untilStopped(): Promise<void> {
  return new Promise((resolve) => {
    process.once('SIGINT', () => resolve());
    process.once('SIGTERM', () => resolve());
  });
}
