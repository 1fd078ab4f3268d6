/** The JSON body of a request, or why there is none. */
import type { IncomingMessage } from 'node:http';
import { readJson } from '../knowledge/load.ts';
import { Refusal } from './reply.ts';

export const BODY_LIMIT = 2 * 1024 * 1024;

export async function readBody(request: IncomingMessage): Promise<unknown> {
  const type = request.headers['content-type'] ?? '';
  if (!/^application\/json\s*(;|$)/i.test(type)) {
    throw new Refusal(
      415,
      `The body is ${type === '' ? 'of no stated type' : type}.`,
      'Send JSON with the header content-type: application/json.',
    );
  }
  if (Number(request.headers['content-length']) > BODY_LIMIT) throw tooLarge();
  const text = await readText(request);
  const json = readJson(text);
  if (!json.ok) throw new Refusal(400, sentence(json.wrong), json.todo);
  return json.value;
}

async function readText(request: IncomingMessage): Promise<string> {
  const parts: Buffer[] = [];
  let length = 0;
  try {
    for await (const part of request.iterator({ destroyOnReturn: false })) {
      length += (part as Buffer).length;
      if (length > BODY_LIMIT) throw tooLarge();
      parts.push(part as Buffer);
    }
    return new TextDecoder('utf-8', { fatal: true }).decode(Buffer.concat(parts));
  } catch (error) {
    if (error instanceof TypeError) throw new Refusal(400, 'The body is not UTF-8 text.', 'Send JSON as UTF-8.');
    throw error;
  }
}

// what is left of the body is not read: the connection ends with the answer
const tooLarge = () =>
  new Refusal(
    413,
    `The body is larger than ${BODY_LIMIT / 1024 / 1024} MB.`,
    'A record is far smaller: send one record at a time, and keep pictures out of it.',
    {},
    { connection: 'close' },
  );

const sentence = (words: string) => `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
