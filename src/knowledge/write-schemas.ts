/** The published schemas on disk, beside the files they describe. */
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { RULES_FOLDER } from './load.ts';
import { publishedSchemas } from './published.ts';

export const SCHEMAS_FOLDER = join(RULES_FOLDER, 'schemas');

/** File name -> text, as they are committed. */
export function schemaFiles(): ReadonlyMap<string, string> {
  const files = [...publishedSchemas()].map(([kind, schema]): [string, string] => [
    `${kind}.schema.json`,
    `${JSON.stringify(schema, null, 2)}\n`,
  ]);
  return new Map(files);
}

/** Writes them all and tells their paths. */
export async function writeSchemas(folder: string = SCHEMAS_FOLDER): Promise<string[]> {
  await mkdir(folder, { recursive: true });
  const writing = [...schemaFiles()].map(async ([name, text]) => {
    const path = join(folder, name);
    await writeFile(path, text);
    return path;
  });
  return Promise.all(writing);
}
