/** Answers: JSON with a message that says what is wrong and what to do, and the headers every answer carries. */
import type { OutgoingHttpHeaders, ServerResponse } from 'node:http';

/** An expected refusal. Thrown by whoever notices it, told to the client as JSON. */
export class Refusal extends Error {
  readonly status: number;
  readonly todo: string;
  readonly more: Readonly<Record<string, unknown>>;
  readonly headers: OutgoingHttpHeaders;

  constructor(
    status: number,
    wrong: string,
    todo: string,
    more: Readonly<Record<string, unknown>> = {},
    headers: OutgoingHttpHeaders = {},
  ) {
    super(wrong);
    this.status = status;
    this.todo = todo;
    this.more = more;
    this.headers = headers;
  }
}

/** Everything comes from this server; styles set by script on single elements are not inline styles to a browser. */
const CONTENT_SECURITY_POLICY = [
  "default-src 'self'",
  "img-src 'self' data:",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'self'",
  "frame-ancestors 'none'",
].join('; ');

export const SECURITY_HEADERS: OutgoingHttpHeaders = {
  'content-security-policy': CONTENT_SECURITY_POLICY,
  'x-content-type-options': 'nosniff',
  'x-frame-options': 'DENY',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
};

export function sendJson(
  response: ServerResponse,
  status: number,
  value: unknown,
  headers: OutgoingHttpHeaders = {},
): void {
  const body = Buffer.from(`${JSON.stringify(value)}\n`);
  response.writeHead(status, {
    ...SECURITY_HEADERS,
    'content-type': 'application/json; charset=utf-8',
    'content-length': body.length,
    'cache-control': 'no-store',
    ...headers,
  });
  response.end(response.req.method === 'HEAD' ? undefined : body);
}

export function sendRefusal(response: ServerResponse, { status, message, todo, more, headers }: Refusal): void {
  sendJson(response, status, { wrong: message, todo, ...more }, headers);
}
