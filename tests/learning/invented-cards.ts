/** Invented cards whose truth is known: bumps that an oven had revived, reflowed, and back after times drawn from a stated law. */
import { readFileSync } from 'node:fs';
import { createRandom } from '../../src/decision/random.ts';
import { parseRecord } from '../../src/record/parse.ts';
import type { Record as CardRecord } from '../../src/record/schema.ts';

const TEMPLATE = new URL('../../cases/bumps-after-the-oven.json', import.meta.url);
const LEFT = Date.UTC(2026, 5, 1, 9);
const at = (days: number) => new Date(LEFT + days * 86_400_000).toISOString();

export interface Truth {
  readonly medianDays: number;
  readonly shape: number;
  /** followed no longer */
  readonly followedDays: number;
}

/** Times from the law (by its inverse), in whole days as owners tell them; null: still working when last heard of. */
export function inventedDays(
  count: number,
  { medianDays, shape, followedDays }: Truth,
  seed: number,
): (number | null)[] {
  const random = createRandom(seed);
  return Array.from({ length: count }, () => {
    const days = medianDays * (-Math.log(1 - random.next()) / Math.LN2) ** (1 / shape);
    return days < followedDays ? Math.floor(days) : null;
  });
}

/** The worked case as a card that was reflowed (or treated otherwise), worked, and came back after `days`, or works still. */
export function reflowedCard(
  id: string,
  days: number | null,
  followedDays: number,
  remedy = 'reflow-core',
): CardRecord {
  const parsed = parseRecord(JSON.parse(readFileSync(TEMPLATE, 'utf8')));
  if (!parsed.ok) throw new Error('the template is no record');
  const { worked: _, $schema: __, ...record } = parsed.record;
  return {
    ...record,
    id,
    title: `Invented card ${id}`,
    invented: true,
    timeline: [
      ...record.timeline,
      { type: 'treated', at: at(-1), remedy, worked: true },
      { type: 'handed-back', at: at(0) },
      days === null
        ? { type: 'still-working', at: at(followedDays) }
        : { type: 'came-back', at: at(days + 5), workedDays: days },
    ],
  };
}
