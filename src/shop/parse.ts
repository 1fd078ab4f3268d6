/** The shop profile as a trusted value, or everything that is wrong with it. */
import type { Problem } from '../knowledge/knowledge.ts';
import { explainSchemaIssues } from '../knowledge/schema-problems.ts';
import { Shop } from './schema.ts';

export type ParsedShop =
  | { readonly ok: true; readonly shop: Shop }
  | { readonly ok: false; readonly problems: readonly Problem[] };

export function parseShop(file: string, raw: unknown): ParsedShop {
  const parsed = Shop.safeParse(raw);
  if (parsed.success) return { ok: true, shop: parsed.data };
  return { ok: false, problems: explainSchemaIssues(file, raw, parsed.error.issues) };
}
