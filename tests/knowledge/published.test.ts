import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { RULES_FOLDER, readRules } from '../../src/knowledge/load.ts';
import { publishedSchemas } from '../../src/knowledge/published.ts';
import { SCHEMAS_FOLDER, schemaFiles } from '../../src/knowledge/write-schemas.ts';
import { brokenIn } from './small-knowledge.ts';

const KIND_OF_FOLDER: { readonly [folder: string]: string } = {
  faults: 'fault',
  findings: 'finding',
  preparations: 'preparation',
  checks: 'check',
  remedies: 'remedy',
  procedures: 'procedure',
  'hold-points': 'hold-point',
  packages: 'package',
  stops: 'stop',
  windows: 'window',
  sources: 'source',
  cautions: 'caution',
  history: 'rule',
  'owner-words': 'rule',
  'window-choice': 'rule',
  gates: 'rule',
};

function kindOf(file: string): string {
  return KIND_OF_FOLDER[file.split('/')[0]!] ?? file.replace('.json', '');
}

/** A published schema as an independent reader of JSON Schema understands it. */
const reader = new Map(
  [...publishedSchemas()].map(([kind, schema]) => [
    kind,
    z.fromJSONSchema(schema as Parameters<typeof z.fromJSONSchema>[0]),
  ]),
);

describe('The published JSON Schemas', () => {
  it('are committed as the code writes them; renew with `npx worth-the-heat schemas --write`', async () => {
    const written = schemaFiles();
    expect((await readdir(SCHEMAS_FOLDER)).sort()).toEqual([...written.keys()].sort());
    for (const [name, text] of written)
      expect(await readFile(join(SCHEMAS_FOLDER, name), 'utf8'), `${name} is stale`).toBe(text);
  });

  it('accept every file of the real rules', async () => {
    for (const [file, content] of await readRules(RULES_FOLDER)) {
      if (file.startsWith('schemas/') || file.startsWith('languages/')) continue;
      expect(reader.get(kindOf(file))!.safeParse(content).error, file).toBeUndefined();
    }
  });

  it.each([
    [
      'a number without a basis',
      'faults/core-stage-short.json',
      (fault: { share: { basis?: string } }) => delete fault.share.basis,
    ],
    [
      'a misspelt key',
      'faults/core-stage-short.json',
      (fault: { share: object }) => Object.assign(fault.share, { becuase: 'x' }),
    ],
    [
      'a probability above 1',
      'faults/core-stage-short.json',
      (fault: { share: { p: number } }) => Object.assign(fault.share, { p: 2 }),
    ],
    ['a check without a step', 'checks/x-ray.json', (check: { howTo: string[] }) => check.howTo.pop()],
    [
      'an empty list of conditions',
      'history/mined.json',
      (rule: { conditions: { all: unknown[] } }) => rule.conditions.all.pop(),
    ],
  ] as const)('refuse %s', (_, file, breakIt) => {
    const content = brokenIn(file, breakIt as (content: unknown) => void).get(file);
    expect(reader.get(kindOf(file))!.safeParse(content).success).toBe(false);
  });
});
