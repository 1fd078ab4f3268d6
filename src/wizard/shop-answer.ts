/** The shop's own profile as the server holds it, or what is wrong with it and where. */
import type { Sentences, Told } from '../knowledge/schema-sayings.ts';
import type { Shop } from '../shop/schema.ts';
import type { Said } from './issues.ts';
import { language, shopProblems } from './language.ts';

export interface ShopProblem {
  readonly issues: readonly ShopIssue[];
}

export interface ShopIssue {
  readonly place: string;
  readonly wrong: string;
  readonly todo: string;
  /** by which saying, and of what, as far as the server says it */
  readonly told?: Told;
}

export interface ShopAnswer {
  /** null: the server is gone or its profile does not read; the worker then takes the one shipped with the rules */
  readonly shop: Shop | null;
  readonly problem: ShopProblem | null;
}

export async function readShop(fetch: (path: string) => Promise<Response>): Promise<ShopAnswer> {
  try {
    const response = await fetch('api/shop');
    const body = (await response.json()) as { readonly [key: string]: unknown };
    if (response.ok) return { shop: (body.shop as Shop | undefined) ?? null, problem: null };
    return { shop: null, problem: { issues: issuesIn(body) } };
  } catch {
    return { shop: null, problem: null };
  }
}

function issuesIn({ wrong, todo, issues }: { readonly [key: string]: unknown }): ShopProblem['issues'] {
  const listed = Array.isArray(issues) ? (issues as { readonly [key: string]: unknown }[]) : [];
  if (listed.length === 0) return [{ place: '', wrong: textOf(wrong), todo: textOf(todo) }];
  return listed.map((issue) => ({
    place: placeOf(issue),
    wrong: textOf(issue.wrong),
    todo: textOf(issue.todo),
    ...(isTold(issue.told) ? { told: issue.told } : {}),
  }));
}

/** As editors and terminals open it: file:line, then the path inside. */
function placeOf({ file, line, path }: { readonly [key: string]: unknown }): string {
  const where = typeof line === 'number' ? `${textOf(file)}:${line}` : textOf(file);
  return path ? `${where} ${textOf(path)}` : where;
}

const isTold = (told: unknown): told is Told =>
  typeof told === 'object' && told !== null && 'id' in told && 'about' in told && typeof told.about === 'object';

/** In the language of the interface, as far as it is known which problem it is; else as it stands, in English. */
export function sayShopIssue({ wrong, todo, told }: ShopIssue): Said {
  const said = shopProblems.value;
  if (said === null || told === undefined || !Object.hasOwn(said, told.id))
    return { wrong, todo, lang: language.value === 'en' ? undefined : 'en' };
  return { ...(said[told.id] as (about: Told['about']) => Sentences)(told.about), lang: undefined };
}

const textOf = (value: unknown): string => (typeof value === 'string' ? value : '');
