/**
 * Who may talk to this server: pages it served itself. A web page elsewhere can make a browser send requests to loopback,
 * and by rebinding a name it can even read the answers; the Host and Origin headers give both away.
 */
import type { IncomingMessage } from 'node:http';
import { Refusal } from './reply.ts';

const LOOPBACK = new Set(['localhost', '127.0.0.1', '[::1]']);
const READS = new Set(['GET', 'HEAD']);

export function guard(request: IncomingMessage): void {
  const host = request.headers.host;
  if (host === undefined || !isLoopback(`http://${host}`)) {
    throw new Refusal(
      421,
      `This server answers to this machine only, not to ${host ?? 'a request without a name'}.`,
      'Open it as http://127.0.0.1 with the port it printed.',
    );
  }
  if (READS.has(request.method ?? '')) return;
  const { origin } = request.headers;
  if (origin !== undefined && origin !== `http://${host}`) {
    throw new Refusal(
      403,
      `A page from ${origin} may not change anything here.`,
      'Use the page that this server serves itself.',
    );
  }
  const site = request.headers['sec-fetch-site'];
  if (site !== undefined && site !== 'same-origin' && site !== 'none') {
    throw new Refusal(
      403,
      'Another page may not change anything here.',
      'Use the page that this server serves itself.',
    );
  }
}

function isLoopback(address: string): boolean {
  if (!URL.canParse(address)) return false;
  const { hostname, username, password, pathname, search } = new URL(address);
  return LOOPBACK.has(hostname) && username === '' && password === '' && pathname === '/' && search === '';
}
