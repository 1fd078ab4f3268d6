/** The built wizard, from its folder and from nowhere else. */
import { createReadStream } from 'node:fs';
import { realpath, stat } from 'node:fs/promises';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { extname, join, relative, sep } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { Refusal, SECURITY_HEADERS } from './reply.ts';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.map': 'application/json; charset=utf-8',
  '.webmanifest': 'application/manifest+json; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.webp': 'image/webp',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.wasm': 'application/wasm',
};

/** `path`: the decoded path of the address. A path without extension that is no file gets the wizard's first page. */
export async function sendFile(response: ServerResponse, folder: string, path: string): Promise<void> {
  const root = await realpath(folder).catch(() => null);
  if (root === null || (await fileIn(root, 'index.html')) === null) {
    throw new Refusal(503, 'The wizard is not built.', 'Run `npm run build`, or start with `npm start`.');
  }
  const wanted = path.endsWith('/') ? `${path}index.html` : path;
  const page = extname(path) === '' ? await fileIn(root, 'index.html') : null;
  const file = (await fileIn(root, wanted)) ?? page;
  if (file === null) throw new Refusal(404, `There is no ${path} here.`, 'Open the first page: /');
  const packed = takesBrotli(response.req) ? await fileIn(root, `${relative(root, file.path)}.br`) : null;
  const { path: sent, size } = packed ?? file;
  response.writeHead(200, {
    ...SECURITY_HEADERS,
    'content-type': TYPES[extname(file.path)] ?? 'application/octet-stream',
    'content-length': size,
    ...(packed === null ? {} : { 'content-encoding': 'br' }),
    vary: 'accept-encoding',
    // built files carry a fingerprint in their name; the page that names them does not
    'cache-control': path.startsWith('/assets/') ? 'public, max-age=31536000, immutable' : 'no-cache',
  });
  if (response.req.method === 'HEAD') response.end();
  else await sendBody(response, sent);
}

/** A window that is closed meanwhile is no fault, and no file is left open for it. */
async function sendBody(response: ServerResponse, path: string): Promise<void> {
  if (response.destroyed) return;
  try {
    await pipeline(createReadStream(path), response);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ERR_STREAM_PREMATURE_CLOSE') throw error;
  }
}

/** The build packs every text once (`src/bootstrap/compressed-files.ts`); what is not packed is sent as it is. */
const takesBrotli = ({ headers }: IncomingMessage): boolean =>
  /(^|,)\s*br\s*(;\s*q=(?!0(\.0*)?\s*(,|$))[^,]*)?(,|$)/i.test(String(headers['accept-encoding'] ?? ''));

/** A regular file that really lies under `root`, links followed. */
async function fileIn(root: string, path: string): Promise<{ path: string; size: number } | null> {
  if (/[\0\\]/.test(path) || path.split('/').includes('..')) return null;
  try {
    const real = await realpath(join(root, path));
    if (!real.startsWith(root + sep)) return null;
    const { size, ...stats } = await stat(real).then((found) => ({ size: found.size, file: found.isFile() }));
    return stats.file ? { path: real, size } : null;
  } catch {
    return null;
  }
}
