/** Answers: JSON with a message that says what is wrong and what to do, and the headers every answer carries. */
import { createHash } from 'node:crypto';
import type { OutgoingHttpHeaders, ServerResponse } from 'node:http';
import { styleFor } from '../letter/page-style.ts';
import { PAPERS } from '../letter/schema.ts';

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

/** The owner's page carries its style within it, to be kept as one file; its preview in the wizard may wear it. */
const LETTER_STYLES = PAPERS.map(
  (paper) => `'sha256-${createHash('sha256').update(styleFor(paper)).digest('base64')}'`,
).join(' ');

/** Everything comes from this server; styles set by script on single elements are not inline styles to a browser. */
const CONTENT_SECURITY_POLICY = [
  "default-src 'self'",
  `style-src 'self' ${LETTER_STYLES}`,
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
