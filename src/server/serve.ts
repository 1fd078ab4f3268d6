/** The HTTP edge: the built wizard and the bench's records, on loopback. */
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { answerApi, type Backend } from './api.ts';
import { guard } from './guard.ts';
import { Refusal, sendRefusal } from './reply.ts';
import { sendFile } from './static-files.ts';

export interface ServeOptions extends Backend {
  /** folder of the built wizard */
  readonly dist: string;
  /** 0: any free one */
  readonly port: number;
  readonly host?: '127.0.0.1' | '::1';
  /** told of what should not happen; the client only hears that it did */
  readonly onFault?: (error: unknown) => void;
}

export interface Serving {
  /** such as http://127.0.0.1:4173 */
  readonly address: string;
  readonly port: number;
  /** lets running answers finish, waits at most two seconds for them; the store stays open */
  close(): Promise<void>;
}

const CLOSE_MILLISECONDS = 2000;
const LOOK_MILLISECONDS = 20;
/** how long the rest of a refused body may still come in before the connection is cut */
const LINGER_MILLISECONDS = 1000;

/** Rejects where the port is taken, with the error of the system (`code` EADDRINUSE). */
export async function serve({
  port,
  host = '127.0.0.1',
  onFault = console.error,
  ...rest
}: ServeOptions): Promise<Serving> {
  const server = createServer((request, response) => void answer(rest, request, response, onFault));
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, host, resolve);
  });
  const listening = server.address() as AddressInfo;
  return {
    address: `http://${host === '::1' ? '[::1]' : host}:${listening.port}`,
    port: listening.port,
    close: () => close(server),
  };
}

async function answer(
  options: Backend & { readonly dist: string },
  request: IncomingMessage,
  response: ServerResponse,
  onFault: (error: unknown) => void,
): Promise<void> {
  try {
    guard(request);
    const path = pathOf(request);
    if (path === '/api' || path.startsWith('/api/')) await answerApi(options, path, request, response);
    else if (request.method === 'GET' || request.method === 'HEAD') await sendFile(response, options.dist, path);
    else throw new Refusal(405, `${request.method} does not work on ${path}.`, 'Use GET.', {}, { allow: 'GET, HEAD' });
  } catch (error) {
    if (!(error instanceof Refusal)) onFault(error);
    if (response.headersSent || response.destroyed) {
      response.destroy();
      return;
    }
    const told =
      error instanceof Refusal
        ? error
        : new Refusal(500, 'This is a fault of the server, not of what you sent.', 'What it printed says more.');
    if (!request.complete) linger(request, response);
    sendRefusal(response, told);
  }
}

/** A client that is still sending hears the answer only if it is not cut off at once. */
function linger(request: IncomingMessage, response: ServerResponse): void {
  request.on('error', () => {});
  request.resume();
  response.on('finish', () => {
    if (!request.complete) setTimeout(() => request.destroy(), LINGER_MILLISECONDS).unref();
  });
}

function pathOf(request: IncomingMessage): string {
  const raw = (request.url ?? '').split(/[?#]/)[0]!;
  try {
    const path = decodeURIComponent(raw);
    if (path.startsWith('/')) return path;
  } catch {
    // falls through to the refusal
  }
  throw new Refusal(400, `${raw} is not an address here.`, 'Open the first page: /');
}

function close(server: Server): Promise<void> {
  return new Promise((resolve) => {
    const cut = setTimeout(() => server.closeAllConnections(), CLOSE_MILLISECONDS);
    // a connection turns idle when its answer is out, and would be kept for the next question
    const look = setInterval(() => server.closeIdleConnections(), LOOK_MILLISECONDS);
    server.close(() => {
      clearTimeout(cut);
      clearInterval(look);
      resolve();
    });
    server.closeIdleConnections();
  });
}
