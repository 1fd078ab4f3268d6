/** A window that is closed while the server still answers it. */
import { readdirSync, readFileSync, readlinkSync, writeFileSync } from 'node:fs';
import { createServer, get } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { sendFile } from '../../src/server/static-files.ts';
import { temporaryFolder } from '../store/bench-folder.ts';

const LARGE = 8 * 1024 * 1024;

/** Serves one large file; `gone` decides when the other side leaves. Resolves with what sending came to. */
async function sendTo(gone: 'before the answer' | 'in the middle of it') {
  const folder = temporaryFolder();
  writeFileSync(join(folder, 'index.html'), '<!doctype html>');
  writeFileSync(join(folder, 'large.js'), Buffer.alloc(LARGE, ' '));
  const sent = Promise.withResolvers<unknown>();
  const server = createServer((_, response) => {
    if (gone === 'before the answer') response.destroy();
    sendFile(response, folder, '/large.js').then(() => sent.resolve('quiet'), sent.resolve);
  });
  onTestFinished(() => void server.close());
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  const asked = get({ host: '127.0.0.1', port, path: '/large.js' }, (answer) => {
    answer.on('error', () => {});
    if (gone === 'in the middle of it') answer.once('data', () => answer.destroy());
  });
  asked.on('error', () => {});
  return { came: await sent.promise, folder };
}

/** Files of that folder which this process holds open, where the system tells. */
function openUnder(folder: string): string[] {
  try {
    readFileSync('/proc/self/status');
  } catch {
    return [];
  }
  return readdirSync('/proc/self/fd').flatMap((descriptor) => {
    try {
      const path = readlinkSync(`/proc/self/fd/${descriptor}`);
      return path.startsWith(folder) ? [path] : [];
    } catch {
      return [];
    }
  });
}

describe.each(['before the answer', 'in the middle of it'] as const)('A window closed %s', (gone) => {
  it('is no fault, and leaves no file open', async () => {
    const { came, folder } = await sendTo(gone);
    expect(came).toBe('quiet');
    // a file is let go of a moment after its stream
    await expect.poll(() => openUnder(folder)).toEqual([]);
  });
});
