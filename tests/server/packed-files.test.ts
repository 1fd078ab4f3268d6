import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { brotliCompressSync, brotliDecompressSync } from 'node:zlib';
import { describe, expect, it, onTestFinished } from 'vitest';
import { serve } from '../../src/server/serve.ts';
import { openStore } from '../../src/store/sqlite-store.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const PAGE = '<!doctype html><title>Worth the heat</title>'.repeat(50);

async function serveBuilt() {
  const folder = mkdtempSync(join(tmpdir(), 'worth-the-heat-packed-'));
  writeFileSync(join(folder, 'index.html'), PAGE);
  writeFileSync(join(folder, 'index.html.br'), brotliCompressSync(PAGE));
  writeFileSync(join(folder, 'plain.css'), 'p { margin: 0 }');
  const store = openStore({ folder: join(folder, 'data'), shopTemplate: join(ROOT, 'rules', 'shop.json') });
  const { address, close } = await serve({ store, dist: folder, cases: join(ROOT, 'cases'), port: 0 });
  onTestFinished(async () => {
    await close();
    store.close();
    rmSync(folder, { recursive: true, force: true });
  });
  return address;
}

interface Answer {
  readonly encoding: string | undefined;
  readonly type: string | undefined;
  readonly length: number;
  readonly body: Buffer;
}

const ask = (address: string, accepts: string): Promise<Answer> =>
  new Promise((resolve, reject) => {
    request(address, { headers: { 'accept-encoding': accepts } }, (response) => {
      const parts: Buffer[] = [];
      response.on('data', (part: Buffer) => parts.push(part));
      response.on('end', () => {
        const { headers } = response;
        resolve({
          encoding: headers['content-encoding'],
          type: headers['content-type'],
          length: Number(headers['content-length']),
          body: Buffer.concat(parts),
        });
      });
    })
      .on('error', reject)
      .end();
  });

describe('A file that the build has packed', () => {
  it('goes out packed to whoever can unpack it, under its own type', async () => {
    const answer = await ask(`${await serveBuilt()}/`, 'gzip, deflate, br');
    expect(answer).toMatchObject({ encoding: 'br', type: 'text/html; charset=utf-8', length: answer.body.length });
    expect(answer.body.length).toBeLessThan(PAGE.length);
    expect(brotliDecompressSync(answer.body).toString()).toBe(PAGE);
  });

  it('goes out as it is to whoever cannot, or says so', async () => {
    const address = await serveBuilt();
    for (const accepts of ['', 'gzip', 'br;q=0', 'brotli']) {
      const { encoding, body } = await ask(`${address}/`, accepts);
      expect(encoding, accepts).toBeUndefined();
      expect(body.toString(), accepts).toBe(PAGE);
    }
  });

  it('is not asked for where the build has packed nothing', async () => {
    const { encoding, body } = await ask(`${await serveBuilt()}/plain.css`, 'br');
    expect(encoding).toBeUndefined();
    expect(body.toString()).toBe('p { margin: 0 }');
  });
});
