/** The worked cases: a folder of records that anybody may read and nobody changes. */
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { readJson } from '../knowledge/load.ts';
import { type ParsedRecord, parseRecord } from '../record/parse.ts';
import { Refusal } from './reply.ts';

export async function listCases(folder: string) {
  const names = await readdir(folder).catch(() => []);
  const files = names.filter((name) => name.endsWith('.json')).sort();
  const read = await Promise.all(files.map((name) => readCase(join(folder, name))));
  return read.flatMap((parsed) => {
    if (!parsed?.ok) return [];
    const { id, title, worked } = parsed.record;
    return [{ id, title, why: worked?.why ?? '' }];
  });
}

/** `id` has been checked to be an id: it cannot lead out of the folder. */
export async function getCase(folder: string, id: string) {
  const parsed = await readCase(join(folder, `${id}.json`));
  if (parsed === null) throw new Refusal(404, `There is no worked case "${id}".`, 'List them: GET /api/cases');
  if (!parsed.ok) {
    throw new Refusal(422, `The worked case "${id}" does not read.`, 'Correct its file.', { issues: parsed.issues });
  }
  return parsed.record;
}

async function readCase(path: string): Promise<ParsedRecord | null> {
  const text = await readFile(path, 'utf8').catch(() => null);
  if (text === null) return null;
  const json = readJson(text);
  return json.ok ? parseRecord(json.value) : { ok: false, issues: [{ path: '', wrong: json.wrong, todo: json.todo }] };
}
