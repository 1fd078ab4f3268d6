/** The file bears its id, and an id means one thing. */
import type { FolderName } from '../draft.ts';
import { FOLDER_NAMES, RULE_FOLDERS } from '../draft.ts';
import { SEEN } from '../fact-definitions.ts';
import type { Problem } from '../knowledge.ts';
import type { AuditContext, Parsed } from './context.ts';
import { parsed } from './context.ts';

export function auditNames(context: AuditContext): Problem[] {
  const { draft } = context;
  const files = (folder: FolderName) => parsed<{ readonly id: string }>(draft[folder]);
  return [
    ...FOLDER_NAMES.flatMap((folder) => files(folder).flatMap(misnamed)),
    ...FOLDER_NAMES.filter((folder) => !(RULE_FOLDERS as readonly string[]).includes(folder)).flatMap((folder) =>
      duplicates(files(folder)),
    ),
    ...duplicates(RULE_FOLDERS.flatMap(files)),
    ...parsed(draft.findings).flatMap(({ file, value }) => repeated(file, 'states', value.states)),
    ...repeated('facts.json', 'facts', draft.facts?.facts ?? []),
    ...(draft.facts?.facts ?? []).flatMap((fact, i) => [
      ...('values' in fact.type ? repeated('facts.json', `facts[${i}].type.values`, fact.type.values) : []),
      ...reserved(fact.id, i),
    ]),
    ...repeated('bench.json', 'equipment', draft.bench?.equipment ?? []),
    ...repeated('bench.json', 'parts', draft.bench?.parts ?? []),
  ];
}

function misnamed({ file, id, value }: Parsed<{ readonly id: string }>): Problem[] {
  if (value.id === id) return [];
  return [
    {
      file,
      path: 'id',
      kind: 'file-name',
      wrong: `the file is called "${id}" and its id is "${value.id}"`,
      todo: `Call the file ${value.id}.json, or give it the id "${id}".`,
    },
  ];
}

function duplicates(filed: readonly Parsed<{ readonly id: string }>[]): Problem[] {
  const first = new Map<string, string>();
  return filed.flatMap(({ file, value }) => {
    const earlier = first.get(value.id);
    if (earlier === undefined) {
      first.set(value.id, file);
      return [];
    }
    return [
      {
        file,
        path: 'id',
        kind: 'duplicate-id',
        wrong: `the id "${value.id}" is taken by ${earlier}`,
        todo: 'Give one of the two another id, and call its file so.',
      },
    ];
  });
}

function repeated(file: string, path: string, list: readonly { readonly id: string }[]): Problem[] {
  const seen = new Set<string>();
  return list.flatMap(({ id }, i) => {
    if (!seen.has(id)) {
      seen.add(id);
      return [];
    }
    return [
      {
        file,
        path: `${path}[${i}].id`,
        kind: 'duplicate-id',
        wrong: `"${id}" stands in this list twice`,
        todo: 'Give one of the two another id, or delete it.',
      },
    ];
  });
}

function reserved(id: string, i: number): Problem[] {
  if (!id.startsWith(SEEN)) return [];
  return [
    {
      file: 'facts.json',
      path: `facts[${i}].id`,
      kind: 'reserved-id',
      wrong: `"${id}" begins with "${SEEN}", which is kept for what was seen of a finding`,
      todo: 'Use another name; rules may already ask for seen-<finding> of every finding.',
    },
  ];
}
