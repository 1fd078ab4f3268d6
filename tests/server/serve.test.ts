import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { connect } from 'node:net';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { BODY_LIMIT } from '../../src/server/body.ts';
import { serve } from '../../src/server/serve.ts';
import { card, openBench, temporaryFolder } from '../store/bench-folder.ts';

/** A server on a free port, with a built page, a worked case and an empty bench. */
async function bench() {
  const folder = temporaryFolder();
  const dist = join(folder, 'dist');
  const cases = join(folder, 'cases');
  mkdirSync(join(dist, 'assets'), { recursive: true });
  mkdirSync(cases);
  writeFileSync(join(folder, 'secret.txt'), 'not for the browser');
  writeFileSync(join(dist, 'index.html'), '<!doctype html><title>Worth the heat</title>');
  writeFileSync(join(dist, 'assets', 'main-1a2b.js'), 'export {};');
  writeFileSync(join(dist, 'assets', 'mark-3c4d.svg'), '<svg xmlns="http://www.w3.org/2000/svg"/>');
  const worked = { why: 'To try it.', expects: { verdict: ['scrap'] } };
  writeFileSync(join(cases, 'worked-one.json'), JSON.stringify({ ...card('worked-one'), worked }));
  writeFileSync(join(cases, 'broken-one.json'), '{"format": 1');
  const store = openBench(join(folder, 'data'));
  const faults: unknown[] = [];
  const serving = await serve({ store, dist, cases, port: 0, onFault: (error) => faults.push(error) });
  onTestFinished(() => serving.close());
  const call = async (path: string, method = 'GET', body?: unknown, headers: Record<string, string> = {}) => {
    const response = await fetch(serving.address + path, {
      method,
      redirect: 'manual',
      headers: { ...(body === undefined ? {} : { 'content-type': 'application/json' }), ...headers },
      ...(body === undefined ? {} : { body: typeof body === 'string' ? body : JSON.stringify(body) }),
    });
    const text = await response.text();
    const json = response.headers.get('content-type')?.startsWith('application/json') ? JSON.parse(text) : null;
    return { status: response.status, headers: response.headers, text, json };
  };
  return { folder, dist, store, faults, call, ...serving };
}

/** A request as no browser would send it: the path and the headers go out exactly as given. */
function raw(
  port: number,
  path: string,
  options: { method?: string; headers?: Record<string, string>; body?: string },
) {
  return new Promise<{ status: number; text: string }>((resolve, reject) => {
    const { method = 'GET', headers = {}, body } = options;
    const sent = request({ host: '127.0.0.1', port, path, method, headers }, (response) => {
      let text = '';
      response.setEncoding('utf8').on('data', (part: string) => {
        text += part;
      });
      response.on('end', () => resolve({ status: response.statusCode!, text }));
    });
    sent.on('error', reject);
    sent.end(body);
  });
}

describe('records', () => {
  it('are stored, listed and read back, each with its revision', async () => {
    const { call } = await bench();
    expect((await call('/api/records')).json).toEqual({ records: [] });
    const put = await call('/api/records/card-1', 'PUT', { record: card('card-1'), revision: null });
    expect([put.status, put.json]).toEqual([200, { revision: 1 }]);
    expect((await call('/api/records')).json.records[0]).toMatchObject({ id: 'card-1', revision: 1, archived: false });
    expect((await call('/api/records/card-1')).json).toMatchObject({ record: card('card-1'), revision: 1 });
  });

  it('are there again after server and store were closed and opened', async () => {
    const first = await bench();
    await first.call('/api/records/card-1', 'PUT', { record: card('card-1'), revision: 0 });
    await first.close();
    first.store.close();
    const store = openBench(join(first.folder, 'data'));
    const again = await serve({ store, dist: first.dist, cases: first.folder, port: 0 });
    onTestFinished(() => again.close());
    const response = await fetch(`${again.address}/api/records/card-1`);
    expect(await response.json()).toMatchObject({ record: card('card-1'), revision: 1 });
  });

  it('are not written over by somebody who has not seen the latest, who is shown it', async () => {
    const { call } = await bench();
    const put = (title: string, revision: number | null) =>
      call('/api/records/card-1', 'PUT', { record: card('card-1', title), revision });
    await put('as it arrived', null);
    await put('changed there', 1);
    const late = await put('changed here', 1);
    expect(late.status).toBe(409);
    expect(late.json).toMatchObject({ revision: 2, record: { title: 'changed there' } });
    expect(late.json.wrong).toContain('changed elsewhere');
    expect((await put('changed here', 2)).json).toEqual({ revision: 3 });
  });

  it('keep their earlier revisions within reach', async () => {
    const { call } = await bench();
    await call('/api/records/card-1', 'PUT', { record: card('card-1', 'first'), revision: null });
    await call('/api/records/card-1', 'PUT', { record: card('card-1', 'second'), revision: 1 });
    expect((await call('/api/records/card-1/revisions')).json.revisions).toHaveLength(2);
    expect((await call('/api/records/card-1?revision=1')).json.record.title).toBe('first');
    expect((await call('/api/records/card-1?revision=9')).status).toBe(404);
    expect((await call('/api/records/card-1?revision=x')).status).toBe(400);
  });

  it('are archived and taken back', async () => {
    const { call } = await bench();
    await call('/api/records/card-1', 'PUT', { record: card('card-1'), revision: null });
    expect((await call('/api/records/card-1/archive', 'POST')).json).toEqual({ archived: true });
    expect((await call('/api/records')).json.records[0].archived).toBe(true);
    await call('/api/records/card-1/archive', 'POST', { archived: false });
    expect((await call('/api/records')).json.records[0].archived).toBe(false);
    expect((await call('/api/records/card-2/archive', 'POST')).status).toBe(404);
  });

  it('that do not read are refused with everything that is wrong', async () => {
    const { call, store } = await bench();
    const record = { ...card('card-1'), title: '', timeline: [{ type: 'note', at: 'yesterday', text: 'x' }] };
    const put = await call('/api/records/card-1', 'PUT', { record, revision: null });
    expect(put.status).toBe(422);
    expect(put.json.issues.map(({ path }: { path: string }) => path)).toEqual(['title', 'timeline.0.at']);
    expect(store.list()).toEqual([]);
  });

  it.each([
    ['the address of another', { record: card('card-2'), revision: null }, 422, 'its address says "card-1"'],
    ['a revision that is no number', { record: card('card-1'), revision: 'latest' }, 400, '"revision" is "latest"'],
    ['something that is no object', [1], 400, 'not an object'],
    ['half a record', '{"record": {"format": 1', 400, 'no JSON'],
  ])('are refused with %s', async (_, body, status, words) => {
    const { call } = await bench();
    const put = await call('/api/records/card-1', 'PUT', body);
    expect(put.status).toBe(status);
    expect(put.json.wrong).toContain(words);
    expect(put.json.todo).not.toBe('');
  });

  it('are told from what was never there', async () => {
    const { call } = await bench();
    const missing = await call('/api/records/card-9');
    expect([missing.status, missing.json.wrong]).toEqual([404, 'There is no record "card-9".']);
    expect((await call('/api/records/Card_9')).status).toBe(404);
    expect((await call('/api/nothing')).status).toBe(404);
    expect((await call('/api/constructor')).status).toBe(404);
    const wrongWay = await call('/api/records', 'DELETE');
    expect([wrongWay.status, wrongWay.headers.get('allow')]).toEqual([405, 'GET']);
  });
});

describe('a body', () => {
  it('that is too large is refused, and the server goes on', async () => {
    const { call } = await bench();
    const put = await call('/api/records/card-1', 'PUT', `"${'x'.repeat(BODY_LIMIT)}"`);
    expect([put.status, put.json.wrong]).toEqual([413, 'The body is larger than 2 MB.']);
    expect((await call('/api/records')).status).toBe(200);
  });

  it('that does not say how large it is is refused once it is too large', async () => {
    const { port } = await bench();
    const part = 'x'.repeat(64 * 1024);
    const status = await new Promise<string>((resolve, reject) => {
      const socket = connect(port, '127.0.0.1');
      let sent = 0;
      const send = () => {
        while (sent < 3 * BODY_LIMIT && socket.writable) {
          sent += part.length;
          if (!socket.write(`${part.length.toString(16)}\r\n${part}\r\n`)) return;
        }
      };
      socket.on('error', reject).on('drain', send);
      socket.once('data', (data) => {
        resolve(data.toString().split('\r\n')[0]!);
        socket.destroy();
      });
      socket.write(
        'PUT /api/records/card-1 HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n',
      );
      send();
    });
    expect(status).toContain('413');
  });

  it('of another type is refused, so that no form elsewhere can send one', async () => {
    const { call } = await bench();
    const put = await call('/api/shop', 'PUT', 'shop=1', { 'content-type': 'text/plain' });
    expect(put.status).toBe(415);
  });

  it('that is not UTF-8 is refused', async () => {
    const { address } = await bench();
    const response = await fetch(`${address}/api/shop`, {
      method: 'PUT',
      headers: { 'content-type': 'application/json' },
      body: new Uint8Array([0x22, 0xff, 0x22]),
    });
    expect(response.status).toBe(400);
  });
});

describe('the shop profile', () => {
  it('is read and stored, and a bad one is refused with what is wrong', async () => {
    const { call } = await bench();
    const { shop } = (await call('/api/shop')).json;
    expect((await call('/api/shop', 'PUT', { shop: { ...shop, name: 'My bench' } })).status).toBe(200);
    expect((await call('/api/shop')).json.shop.name).toBe('My bench');
    const bad = await call('/api/shop', 'PUT', { shop: { ...shop, currency: 'euro' } });
    expect([bad.status, bad.json.issues[0].path]).toEqual([422, 'currency']);
  });

  it('that the user broke by hand is told as such, with file and line', async () => {
    const { call, folder } = await bench();
    writeFileSync(join(folder, 'data', 'shop.json'), '{\n"format" 1\n}');
    const read = await call('/api/shop');
    expect(read.status).toBe(422);
    expect(read.json.issues[0].wrong).toContain('line 2');
    expect(read.json.issues[0].file).toContain('shop.json');
  });
});

describe('worked cases', () => {
  it('are listed with why they are there, and read', async () => {
    const { call } = await bench();
    expect((await call('/api/cases')).json.cases).toEqual([
      { id: 'worked-one', title: 'A card that shows no image', why: 'To try it.' },
    ]);
    expect((await call('/api/cases/worked-one')).json.record.id).toBe('worked-one');
    expect((await call('/api/cases/other')).status).toBe(404);
    expect((await call('/api/cases/broken-one')).json.issues[0].wrong).toContain('no JSON');
    expect((await call('/api/cases/..%2fdata%2fshop')).status).toBe(404);
  });
});

describe('the wizard', () => {
  it('is served with types a browser takes and headers that keep it to itself', async () => {
    const { call } = await bench();
    const page = await call('/');
    expect([page.status, page.headers.get('content-type')]).toEqual([200, 'text/html; charset=utf-8']);
    expect(page.headers.get('content-security-policy')).toContain("default-src 'self'");
    expect(page.headers.get('content-security-policy')).not.toContain('unsafe');
    expect(page.headers.get('x-content-type-options')).toBe('nosniff');
    expect(page.headers.get('cache-control')).toBe('no-cache');
    const script = await call('/assets/main-1a2b.js');
    expect(script.headers.get('content-type')).toBe('text/javascript; charset=utf-8');
    expect(script.headers.get('cache-control')).toContain('immutable');
    expect((await call('/assets/mark-3c4d.svg')).headers.get('content-type')).toBe('image/svg+xml');
  });

  it('answers a path without extension with its first page, and a missing file as missing', async () => {
    const { call } = await bench();
    expect((await call('/card')).text).toContain('<title>Worth the heat</title>');
    expect((await call('/assets/gone-5e6f.js')).status).toBe(404);
    expect((await call('/', 'POST')).status).toBe(405);
    const head = await call('/', 'HEAD');
    expect([head.status, head.text]).toEqual([200, '']);
  });

  it('says so where it is not built', async () => {
    const { folder, store } = await bench();
    const unbuilt = await serve({ store, dist: join(folder, 'nowhere'), cases: folder, port: 0 });
    onTestFinished(() => unbuilt.close());
    const response = await fetch(unbuilt.address);
    expect(response.status).toBe(503);
    expect(await response.json()).toMatchObject({ wrong: 'The wizard is not built.' });
  });

  it.each([
    '/../secret.txt',
    '/%2e%2e/secret.txt',
    '/..%2fsecret.txt',
    '/assets/../../secret.txt',
    '/..%5csecret.txt',
    '/%2e%2e%2f%2e%2e%2fsecret.txt',
    '/secret.txt%00.html',
    '//secret.txt',
  ])('lets nobody out of its folder: %s', async (path) => {
    const { port } = await bench();
    const { status, text } = await raw(port, path, { headers: { host: 'localhost' } });
    expect(text).not.toContain('not for the browser');
    expect(status).toBe(404);
  });

  it('follows no link out of its folder', async () => {
    const { call, dist, folder } = await bench();
    symlinkSync(join(folder, 'secret.txt'), join(dist, 'link.txt'));
    expect((await call('/link.txt')).status).toBe(404);
  });

  it('refuses an address that is no address', async () => {
    const { port } = await bench();
    expect((await raw(port, '/%zz', { headers: { host: 'localhost' } })).status).toBe(400);
  });
});

describe('who may ask', () => {
  it.each([
    'bench.example',
    'bench.example:4173',
    '192.168.0.7',
    'localhost.bench.example',
    'localhost@bench.example',
    '127.0.0.1.bench.example',
  ])('not a name that was bent to point here: %s', async (host) => {
    const { port } = await bench();
    expect((await raw(port, '/api/records', { headers: { host } })).status).toBe(421);
  });

  it.each(['localhost', 'localhost:4173', '127.0.0.1:4173', '[::1]:4173'])(
    'this machine by its own name: %s',
    async (host) => {
      const { port } = await bench();
      expect((await raw(port, '/api/records', { headers: { host } })).status).toBe(200);
    },
  );

  const write = async (headers: Record<string, string>) => {
    const { port, store } = await bench();
    const body = JSON.stringify({ record: card('card-1'), revision: null });
    const { status } = await raw(port, '/api/records/card-1', {
      method: 'PUT',
      headers: { host: `127.0.0.1:${port}`, 'content-type': 'application/json', ...headers },
      body,
    });
    return { status, stored: store.list().length };
  };

  it.each(['http://bench.example', 'null', 'http://127.0.0.1:1', 'https://127.0.0.1'])(
    'no page from elsewhere may write: %s',
    async (origin) => {
      expect(await write({ origin })).toEqual({ status: 403, stored: 0 });
    },
  );

  it('no request that a browser marks as coming from another site may write', async () => {
    expect(await write({ 'sec-fetch-site': 'cross-site' })).toEqual({ status: 403, stored: 0 });
  });

  it('the command line may, which has no origin', async () => {
    expect(await write({})).toEqual({ status: 200, stored: 1 });
  });

  it('the page it serves may', async () => {
    const { call, address } = await bench();
    const put = await call(
      '/api/records/card-1',
      'PUT',
      { record: card('card-1'), revision: null },
      { origin: address },
    );
    expect(put.status).toBe(200);
  });
});

describe('the server itself', () => {
  it('tells the client of a fault without its insides, and whoever runs it with them', async () => {
    const { call, store, faults } = await bench();
    store.close();
    const list = await call('/api/records');
    expect([list.status, list.json.wrong]).toEqual([500, 'This is a fault of the server, not of what you sent.']);
    expect(faults).toHaveLength(1);
  });

  it('says which port is taken', async () => {
    const { port, store, dist, folder } = await bench();
    await expect(serve({ store, dist, cases: folder, port })).rejects.toMatchObject({ code: 'EADDRINUSE' });
  });

  it('finishes the answer it is giving when it is told to stop', async () => {
    const { port, close, address, store } = await bench();
    const body = JSON.stringify({ record: card('card-1'), revision: null });
    const socket = connect(port, '127.0.0.1');
    let answer = '';
    socket.setEncoding('utf8').on('data', (text: string) => {
      answer += text;
    });
    const ended = new Promise((resolve) => socket.on('close', resolve));
    socket.write(
      `PUT /api/records/card-1 HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: ${body.length}\r\n\r\n`,
    );
    socket.write(body.slice(0, 20));
    // an answer on another connection: by now the server has the first half of this one
    await fetch(`${address}/api/records`);
    const closed = close();
    await expect(fetch(address)).rejects.toThrow();
    socket.write(body.slice(20));
    await Promise.all([closed, ended]);
    expect(answer).toContain('HTTP/1.1 200');
    expect(store.list()).toHaveLength(1);
  });
});
