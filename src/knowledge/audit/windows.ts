/** A window cuts an axis into bands; each band is a state of its finding. */
import type { Problem } from '../knowledge.ts';
import type { Window } from '../schema.ts';
import type { AuditContext } from './context.ts';
import { parsed } from './context.ts';

export function auditWindows(context: AuditContext): Problem[] {
  return parsed(context.draft.windows).flatMap(({ file, value }) => [
    ...bandCount(file, value),
    ...neighbours(file, value),
    ...edges(file, 'edges', value.edges),
    ...(value.relative ? relative(file, value) : []),
  ]);
}

function bandCount(file: string, { bands, edges: list }: Window): Problem[] {
  if (bands.length === list.length + 1) return [];
  return [
    {
      file,
      path: 'bands',
      kind: 'band-count',
      wrong: `${list.length} edges make ${list.length + 1} bands, and ${bands.length} are named`,
      todo: 'Name one band below the first edge, one between each two, and one above the last.',
    },
  ];
}

function neighbours(file: string, { bands }: Window): Problem[] {
  return bands.slice(1).flatMap((band, i) =>
    band === bands[i]
      ? [
          {
            file,
            path: `bands[${i + 1}]`,
            kind: 'band-repeated',
            wrong: `"${band}" stands on both sides of an edge, so the edge decides nothing`,
            todo: 'Take the edge out, or name the band on its other side.',
          },
        ]
      : [],
  );
}

function edges(file: string, path: string, list: Window['edges']): Problem[] {
  return list.flatMap((edge, i) => {
    const problems: Problem[] = [];
    const before = list[i - 1];
    if (before !== undefined && edge.at <= before.at)
      problems.push({
        file,
        path: `${path}[${i}].at`,
        kind: 'edge-order',
        wrong: `the edge at ${edge.at} does not lie above the one before it, at ${before.at}`,
        todo: 'Write the edges from low to high.',
      });
    if (edge.tolerance > 0 && edge.at <= 0)
      problems.push({
        file,
        path: `${path}[${i}].tolerance`,
        kind: 'edge-tolerance',
        wrong: `a tolerance is the spread of the edge's logarithm, and an edge at ${edge.at} has none`,
        todo: 'Make this edge sharp (tolerance 0), or move it above 0.',
      });
    return problems;
  });
}

function relative(file: string, window: Window): Problem[] {
  const list = window.relative!;
  const problems = edges(file, 'relative', list);
  if (list.length !== window.edges.length)
    problems.push({
      file,
      path: 'relative',
      kind: 'relative-count',
      wrong: `${list.length} relative edges for ${window.edges.length} edges`,
      todo: 'Relative edges part the same bands: give as many, as multiples of a known-good reading.',
    });
  list.forEach((edge, i) => {
    if (edge.at <= 0)
      problems.push({
        file,
        path: `relative[${i}].at`,
        kind: 'relative-edge',
        wrong: `${edge.at} times a known-good reading parts nothing`,
        todo: 'Write a multiple above 0, such as 0.5 for half the known-good reading.',
      });
  });
  return problems;
}
