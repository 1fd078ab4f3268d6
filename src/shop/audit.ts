/** The shop profile against the knowledge: everything a repair can use has a price, and nothing is misspelt. */
import { didYouMean } from '../knowledge/audit/context.ts';
import type { Problem } from '../knowledge/knowledge.ts';
import type { Bench, Fault, Remedy } from '../knowledge/schema.ts';
import type { Shop } from './schema.ts';

/** `known`: faults and remedies of the knowledge, where what was learnt of them is to be held to it as well. */
export function auditShop(
  file: string,
  shop: Shop,
  bench: Bench,
  known?: { readonly faults: readonly Fault[]; readonly remedies: readonly Remedy[] },
): Problem[] {
  const parts = new Set(bench.parts.map(({ id }) => id));
  const equipment = new Set(bench.equipment.map(({ id }) => id));
  const unknown = (path: string, what: string, id: string, known: ReadonlySet<string>): Problem => ({
    file,
    path,
    kind: 'unknown-id',
    wrong: `the knowledge knows no ${what} "${id}"`,
    todo: `${didYouMean(id, known)}Correct it, take it out, or add it to bench.json.`,
  });
  return [
    ...Object.keys(shop.parts)
      .filter((id) => !parts.has(id))
      .map((id) => unknown(`parts.${id}`, 'part', id, parts)),
    ...shop.equipment.flatMap((id, i) =>
      equipment.has(id) ? [] : [unknown(`equipment[${i}]`, 'piece of equipment', id, equipment)],
    ),
    ...bench.parts
      .filter(({ id }) => shop.parts[id] === undefined)
      .map(({ id, name }) => ({
        file,
        path: `parts.${id}`,
        kind: 'no-price',
        wrong: `there is no price for "${id}" (${name})`,
        todo: 'Give what one costs the shop, as a number or as low, likely and high.',
      })),
    ...(known ? auditLearnt(file, shop, known.faults, known.remedies) : []),
  ];
}

/** What was learnt is of faults that can relapse, after remedies there are, and of each pair once. */
function auditLearnt(file: string, shop: Shop, faults: readonly Fault[], remedies: readonly Remedy[]): Problem[] {
  const told = new Set<string>();
  return (shop.learnt?.relapse ?? []).flatMap(({ fault, remedy }, i) => {
    const problem = (field: string, kind: string, wrong: string): Problem => ({
      file,
      path: `learnt.relapse[${i}]${field}`,
      kind,
      wrong,
      todo: 'Take the entry out; `worth-the-heat remedies --write` writes all of them anew.',
    });
    const pair = `${fault} ${remedy ?? ''}`;
    const twice = told.has(pair);
    told.add(pair);
    if (twice) return [problem('', 'learnt-twice', `what is learnt of "${fault}" stands here twice`)];
    if (!faults.some(({ id }) => id === fault))
      return [problem('.fault', 'unknown-id', `the knowledge knows no fault "${fault}"`)];
    if (!faults.some(({ id, relapse }) => id === fault && relapse))
      return [problem('.fault', 'never-masked', `nothing masks "${fault}", so it has no time to relapse`)];
    if (remedy !== undefined && !remedies.some(({ id }) => id === remedy))
      return [problem('.remedy', 'unknown-id', `the knowledge knows no remedy "${remedy}"`)];
    return [];
  });
}
