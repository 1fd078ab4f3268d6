/** A standard or published figure can be looked up; a source that nobody uses is no source. */

import { FOLDER_NAMES } from '../draft.ts';
import type { Problem } from '../knowledge.ts';
import type { AuditContext } from './context.ts';
import { didYouMean, parsed } from './context.ts';

export function auditSources(context: AuditContext): Problem[] {
  const problems: Problem[] = [];
  const used = new Set<string>();
  const cite = (file: string, path: string, source: string) => {
    used.add(source);
    if (context.ids.sources!.has(source)) return;
    problems.push({
      file,
      path,
      kind: 'unknown-id',
      wrong: `there is no source "${source}"`,
      todo: `${didYouMean(source, context.ids.sources!)}Correct it, or add sources/${source}.json.`,
    });
  };
  for (const folder of FOLDER_NAMES)
    for (const { file, value } of parsed<unknown>(context.draft[folder]))
      citations(value, '', (path, id) => cite(file, path, id));
  citations(context.draft.population, '', (path, id) => cite('population.json', path, id));
  for (const { file, value } of parsed(context.draft.cautions)) {
    const cited = value.basis === 'standard' || value.basis === 'published';
    if (cited && value.source === undefined)
      problems.push({
        file,
        path: 'source',
        kind: 'no-source',
        wrong: `a caution with the basis ${value.basis} and no source`,
        todo: 'Name the id of a file in sources/, or call it practice or estimate if that is what it is.',
      });
    if ((cited || value.source !== undefined) && value.place === undefined)
      problems.push({
        file,
        path: 'place',
        kind: 'no-place',
        wrong: 'a source without the place inside it',
        todo: 'Say which table, clause, equation or page, so that somebody can look it up.',
      });
  }
  const allRead = context.complete(...FOLDER_NAMES) && context.draft.population !== undefined;
  if (allRead)
    for (const { file, value } of parsed(context.draft.sources))
      if (!used.has(value.id))
        problems.push({
          file,
          path: '',
          kind: 'unused-source',
          wrong: `nothing cites "${value.id}"`,
          todo: 'Cite it where a number or caution comes from it, or delete it.',
        });
  return problems;
}

/** Every `source` of a basis or caution, wherever it stands. */
function citations(value: unknown, path: string, found: (path: string, source: string) => void): void {
  if (typeof value !== 'object' || value === null) return;
  for (const [key, inner] of Object.entries(value)) {
    const here = Array.isArray(value) ? `${path}[${key}]` : path === '' ? key : `${path}.${key}`;
    if (key === 'source' && typeof inner === 'string' && 'basis' in value) found(here, inner);
    else citations(inner, here, found);
  }
}
