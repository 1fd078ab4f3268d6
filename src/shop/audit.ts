/** The shop profile against the knowledge: everything a repair can use has a price, and nothing is misspelt. */
import { didYouMean } from '../knowledge/audit/context.ts';
import type { Problem } from '../knowledge/knowledge.ts';
import type { Bench } from '../knowledge/schema.ts';
import type { Shop } from './schema.ts';

export function auditShop(file: string, shop: Shop, bench: Bench): Problem[] {
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
  ];
}
