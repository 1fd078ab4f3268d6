/** The addresses under /api: records with their revisions, the shop profile, worked cases. */
import type { IncomingMessage, ServerResponse } from 'node:http';
import { Id } from '../knowledge/schema.ts';
import type { Found, FoundShop, Store } from '../store/store.ts';
import { readBody } from './body.ts';
import { Refusal, sendJson } from './reply.ts';
import { getCase, listCases } from './worked-cases.ts';

export interface Backend {
  readonly store: Store;
  /** folder of worked cases */
  readonly cases: string;
}

interface Call extends Backend {
  readonly request: IncomingMessage;
  readonly response: ServerResponse;
  readonly id: string;
}

type Answer = (call: Call) => Promise<void> | void;

/** `:id` stands for one id. */
const ROUTES: Readonly<Record<string, Readonly<Record<string, Answer>>>> = {
  'api/records': { GET: ({ store, response }) => sendJson(response, 200, { records: store.list() }) },
  'api/records/:id': { GET: getRecord, PUT: putRecord },
  'api/records/:id/archive': { POST: archiveRecord },
  'api/records/:id/revisions': { GET: getHistory },
  'api/shop': { GET: ({ store, response }) => sendShop(response, store.shop()), PUT: putShop },
  'api/cases': { GET: async ({ cases, response }) => sendJson(response, 200, { cases: await listCases(cases) }) },
  'api/cases/:id': {
    GET: async ({ cases, id, response }) => sendJson(response, 200, { record: await getCase(cases, id) }),
  },
};

/** `path`: decoded, beginning with /api. */
export async function answerApi(
  backend: Backend,
  path: string,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  const parts = path.split('/').filter((part) => part !== '');
  const id = parts[2] ?? '';
  const pattern = parts.map((part, at) => (at === 2 ? ':id' : part)).join('/');
  const methods = Object.hasOwn(ROUTES, pattern) ? ROUTES[pattern]! : null;
  if (methods === null)
    throw new Refusal(404, `There is no ${path} here.`, 'Ask for /api/records, /api/shop or /api/cases.');
  if (parts.length > 2 && !Id.safeParse(id).success) {
    throw new Refusal(404, `"${id}" is not an id.`, 'Ids are lower-case words joined by hyphens.');
  }
  const method = request.method === 'HEAD' ? 'GET' : (request.method ?? '');
  const answer = Object.hasOwn(methods, method) ? methods[method]! : null;
  if (answer === null) {
    const allowed = Object.keys(methods).join(', ');
    throw new Refusal(405, `${method} does not work on ${path}.`, `Use ${allowed}.`, {}, { allow: allowed });
  }
  await answer({ ...backend, request, response, id });
}

/** The current record, or with `?revision=3` an earlier one. */
function getRecord({ store, request, response, id }: Call): void {
  const asked = new URL(request.url!, 'http://localhost').searchParams.get('revision');
  if (asked !== null && !/^[1-9]\d{0,8}$/.test(asked)) {
    throw new Refusal(400, `"${asked}" is not a revision.`, `They are whole numbers: GET /api/records/${id}/revisions`);
  }
  const found = asked === null ? store.get(id) : store.get(id, Number(asked));
  if (found.kind === 'missing') throw missing(id);
  if (found.kind === 'unreadable') throw unreadable(id, found);
  sendJson(response, 200, found.stored);
}

async function putRecord({ store, request, response, id }: Call): Promise<void> {
  const { record, revision } = fields(await readBody(request), 'record and revision');
  // 0 and null both say: the server never had it
  const based = revision ?? 0;
  if (typeof based !== 'number' || !Number.isInteger(based) || based < 0) {
    throw new Refusal(
      400,
      `"revision" is ${JSON.stringify(revision)}.`,
      'Give the number you read with the record, or null for a new one.',
    );
  }
  const named = typeof record === 'object' && record !== null && 'id' in record ? record.id : id;
  if (named !== id) {
    throw new Refusal(
      422,
      `The record's id is ${JSON.stringify(named)}, its address says "${id}".`,
      'Send a record to the address of its own id.',
    );
  }
  const put = store.put(record, based === 0 ? null : based);
  switch (put.kind) {
    case 'stored':
      sendJson(response, 200, { revision: put.revision });
      return;
    case 'bad-record':
      throw new Refusal(422, 'The record does not read.', 'Correct what is listed under issues.', {
        issues: put.issues,
      });
    case 'conflict':
      throw new Refusal(
        409,
        'The record was changed elsewhere meanwhile; yours was not stored.',
        'Compare the two and send yours again with the revision given here, or take the other.',
        put.current.kind === 'found' ? { ...put.current.stored } : { revision: revisionOf(put.current) },
      );
  }
}

async function archiveRecord({ store, request, response, id }: Call): Promise<void> {
  const { archived } = isEmpty(request) ? { archived: true } : fields(await readBody(request), 'archived');
  if (typeof archived !== 'boolean') {
    throw new Refusal(
      400,
      '"archived" is neither true nor false.',
      'Send {"archived": true}, or false to take it back.',
    );
  }
  if (!store.archive(id, archived)) throw missing(id);
  sendJson(response, 200, { archived });
}

function getHistory({ store, response, id }: Call): void {
  const revisions = store.history(id);
  if (revisions.length === 0) throw missing(id);
  sendJson(response, 200, { revisions });
}

async function putShop({ store, request, response }: Call): Promise<void> {
  const { shop } = fields(await readBody(request), 'shop');
  sendShop(response, store.putShop(shop));
}

function sendShop(response: ServerResponse, found: FoundShop): void {
  if (found.ok) {
    sendJson(response, 200, { shop: found.shop });
    return;
  }
  throw new Refusal(422, 'The shop profile does not read.', `Correct ${found.problems[0]?.file ?? 'it'}.`, {
    issues: found.problems,
  });
}

const isEmpty = ({ headers }: IncomingMessage): boolean =>
  (headers['content-length'] ?? '0') === '0' && headers['transfer-encoding'] === undefined;

function fields(body: unknown, wanted: string): { readonly [name: string]: unknown } {
  if (typeof body === 'object' && body !== null && !Array.isArray(body)) return { ...body };
  throw new Refusal(400, 'The body is not an object.', `Send an object with ${wanted}.`);
}

const missing = (id: string) => new Refusal(404, `There is no record "${id}".`, 'List them: GET /api/records');

const unreadable = (id: string, found: Extract<Found, { kind: 'unreadable' }>) =>
  new Refusal(
    500,
    `The stored record "${id}" no longer reads.`,
    `Look at an earlier revision: GET /api/records/${id}/revisions. The text is given here as it is stored.`,
    { revision: found.revision, text: found.text, issues: found.issues },
  );

const revisionOf = (found: Found): number | null =>
  found.kind === 'found' ? found.stored.revision : found.kind === 'unreadable' ? found.revision : null;
