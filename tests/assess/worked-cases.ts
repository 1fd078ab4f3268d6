/** The worked cases, the knowledge and the default shop, loaded once for all tests of the assessment. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Assessed } from '../../src/assessment.ts';
import type { Knowledge } from '../../src/knowledge/knowledge.ts';
import { loadKnowledge, loadShop } from '../../src/knowledge/load.ts';
import { sayProblem } from '../../src/knowledge/say-problem.ts';
import type { Record as CardRecord, Expectation } from '../../src/record/schema.ts';
import type { Shop } from '../../src/shop/schema.ts';

const FOLDER = fileURLToPath(new URL('../../cases/', import.meta.url));

export interface WorkedCase {
  readonly file: string;
  readonly record: CardRecord & { readonly worked: { readonly why: string; readonly expects: Expectation } };
}

export const workedCases: readonly WorkedCase[] = readdirSync(FOLDER)
  .filter((file) => file.endsWith('.json'))
  .sort()
  .map((file) => ({ file, record: JSON.parse(readFileSync(`${FOLDER}${file}`, 'utf8')) }));

export function workedCase(id: string): WorkedCase {
  const found = workedCases.find(({ file }) => file === `${id}.json`);
  if (!found) throw new Error(`there is no case "${id}"`);
  return found;
}

export async function knowledgeAndShop(): Promise<{ knowledge: Knowledge; shop: Shop }> {
  const [knowledge, shop] = await Promise.all([loadKnowledge(), loadShop()]);
  if (!knowledge.ok) throw new Error(knowledge.problems.map(sayProblem).join('\n'));
  if (!shop.ok) throw new Error(shop.problems.map(sayProblem).join('\n'));
  return { knowledge: knowledge.knowledge, shop: shop.shop };
}

/** Everything in which an assessment misses what its case must lead to, in words; empty when it meets all of it. */
export function misses(assessed: Assessed, expects: Expectation): string[] {
  const list: string[] = [];
  const within = (
    what: string,
    value: number,
    bounds: { atLeast?: number | undefined; atMost?: number | undefined } | undefined,
  ) => {
    if (bounds?.atLeast !== undefined && value < bounds.atLeast)
      list.push(`${what} is ${value.toFixed(3)}, below ${bounds.atLeast}`);
    if (bounds?.atMost !== undefined && value > bounds.atMost)
      list.push(`${what} is ${value.toFixed(3)}, above ${bounds.atMost}`);
  };
  const chosen = assessed.options.find((option) => option.id === assessed.verdict.option)!;
  const next = assessed.next.kind === 'check' ? assessed.next.check : 'act';
  if (!expects.verdict.includes(assessed.verdict.kind))
    list.push(`verdict is ${assessed.verdict.kind}, not ${expects.verdict.join(' or ')}`);
  if (expects.justified !== undefined && assessed.verdict.justified !== expects.justified)
    list.push(`justified is ${assessed.verdict.justified}`);
  if (expects.top && !expects.top.includes(assessed.ranking[0]?.fault ?? ''))
    list.push(`first ranked is ${assessed.ranking[0]?.fault}`);
  for (const [fault, bounds] of Object.entries(expects.chance ?? {}))
    within(`chance of ${fault}`, assessed.ranking.find((ranked) => ranked.fault === fault)?.chance ?? 0, bounds);
  within('chance that the card is sound', assessed.sound, expects.sound);
  if (expects.next && !expects.next.includes(next)) list.push(`next is ${next}`);
  for (const id of expects.closed ?? [])
    if (!assessed.closedRemedies.some((closed) => closed.id === id)) list.push(`${id} is open`);
  within('chance that it works', chosen.works, expects.works);
  within('chance that it holds', chosen.holds, expects.holds);
  if (expects.attribution) {
    const ranked = Object.entries(assessed.comeback?.attributions ?? {}).sort(([, a], [, b]) => b - a);
    if (!ranked[0] || !(expects.attribution as readonly string[]).includes(ranked[0][0]))
      list.push(`the likeliest explanation is ${ranked[0]?.join(' ') ?? 'none'}`);
  }
  for (const id of expects.cautions ?? [])
    if (!assessed.cautions.some((caution) => caution.id === id)) list.push(`caution ${id} is not shown`);
  return list;
}
