/** The real server as a process of its own, on a data folder of its own, so that it can die and come back as at a bench. */
import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import type { Record } from '../../src/record/schema.ts';
import { openStore } from '../../src/store/sqlite-store.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

export interface ServedBench {
  /** stays the same after `restart` */
  readonly address: string;
  /** as a power cut would end it: nothing is said, nothing is finished */
  kill(): Promise<void>;
  /** the same folder, the same port */
  restart(): Promise<void>;
  /** what the disk holds, read by a second hand beside the server */
  onDisk(): readonly Record[];
  close(): Promise<void>;
}

export async function serveBench(): Promise<ServedBench> {
  if (!existsSync(join(ROOT, 'dist', 'index.html'))) throw new Error('The wizard is not built: npm run build');
  const folder = mkdtempSync(join(tmpdir(), 'worth-the-heat-browser-'));
  let server = await start(folder, 0);
  const { address } = server;
  return {
    address,
    kill: () => end(server.child, 'SIGKILL'),
    async restart() {
      server = await start(folder, Number(new URL(address).port));
    },
    onDisk() {
      const store = openStore({ folder, shopTemplate: join(ROOT, 'rules', 'shop.json') });
      try {
        return store.list().flatMap(({ id }) => {
          const found = store.get(id);
          return found.kind === 'found' ? [found.stored.record] : [];
        });
      } finally {
        store.close();
      }
    },
    async close() {
      await end(server.child, 'SIGTERM');
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

async function start(
  folder: string,
  port: number,
): Promise<{ readonly child: ChildProcess; readonly address: string }> {
  const child = spawn(
    process.execPath,
    [join(ROOT, 'src', 'cli', 'main.ts'), 'serve', '--port', String(port), '--data', folder, '--json'],
    { stdio: ['ignore', 'pipe', 'pipe'] },
  );
  let commentary = '';
  child.stderr.on('data', (part: Buffer) => {
    commentary += part.toString();
  });
  let printed = '';
  for await (const line of createInterface(child.stdout)) {
    printed += line;
    const said = parsed(printed);
    if (said !== null) return { child, address: said.address };
  }
  throw new Error(`The server ended before it said where it is. ${commentary}`);
}

function parsed(text: string): { readonly address: string } | null {
  try {
    return JSON.parse(text) as { address: string };
  } catch {
    return null;
  }
}

function end(child: ChildProcess, signal: NodeJS.Signals): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return Promise.resolve();
  return new Promise((resolve) => {
    child.once('exit', () => resolve());
    child.kill(signal);
  });
}
