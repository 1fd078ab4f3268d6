/** Which checks must come before each remedy and each way to stop, so that no part is changed that nobody has located. */
import type { CardCheck } from '../decision/card-problem.ts';
import type { Gathered } from '../evidence/evidence.ts';
import { isTaken } from '../evidence/safety.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { After, Id } from '../knowledge/schema.ts';
import type { Record as CardRecord } from '../record/schema.ts';
import type { ChecksAtThisCard } from './checks.ts';

export interface MustFollow {
  /** checks in the order they would be done, what they wait for first */
  readonly checks: readonly Id[];
  readonly because: readonly string[];
  /** what must be looked at first and cannot be at present: the remedy is closed until it can */
  readonly blocked: readonly string[];
}

/** The bench has seen it work after the last work, and it has not come back since: who looks again sees the same card. */
export function leftWorking(timeline: CardRecord['timeline']): boolean {
  const last = timeline.findLast(({ type }) => type === 'treated' || type === 'came-back');
  return last?.type === 'treated' && last.worked === true;
}

/**
 * For each remedy or stop the checks still owed: of every entry of its `after`, unless the bench has looked at one of its findings, the
 * quickest open check that looks at one, with everything that check waits for. An entry that this bench can never meet on this card is
 * waived: what cannot be looked at must not keep a card from being mended. One that only cannot be met yet blocks the remedy.
 */
export function mustFollow(
  knowledge: Knowledge,
  gathered: Gathered,
  ends: readonly { readonly after?: After | undefined }[],
  { open, never }: Pick<ChecksAtThisCard, 'open' | 'never'>,
): MustFollow[] {
  const findings = new Map(knowledge.findings.map((finding) => [finding.id, finding]));
  const seen = new Set(
    gathered.present.filter((item) => isTaken(findings.get(item.finding)!, item)).map((item) => item.finding),
  );
  const byId = new Map(open.map((check) => [check.id, check]));
  const yields = new Map(knowledge.checks.map((check) => [check.id, check.yields]));
  const yielding = (finding: Id) => open.filter((check) => check.findings.some((item) => item.id === finding));
  const quickest = (checks: readonly CardCheck[]) =>
    checks.reduce<CardCheck | null>((best, check) => (!best || check.minutes < best.minutes ? check : best), null);

  /** the check after everything it waits for; null where something of that cannot come about */
  const chain = (check: CardCheck, above: readonly Id[] = []): Id[] | null => {
    if (above.includes(check.id)) return null;
    const before: Id[] = [];
    const add = (next: CardCheck | null) => {
      const links = next ? chain(next, [...above, check.id]) : null;
      if (links) before.push(...links);
      return links !== null;
    };
    for (const { finding } of check.requires) {
      if (seen.has(finding) || before.some((id) => yields.get(id)?.includes(finding))) continue;
      if (!add(quickest(yielding(finding)))) return null;
    }
    const limited = check.afterOneOf.flatMap((id) => byId.get(id) ?? []);
    if (check.afterOneOf.length > 0 && !check.afterOneOf.some((id) => before.includes(id)) && !add(quickest(limited)))
      return null;
    return [...before, check.id];
  };

  return ends.map(({ after = [] }) => {
    const checks: Id[] = [];
    const because: string[] = [];
    const blocked: string[] = [];
    for (const entry of after) {
      if (entry.findings.some((finding) => seen.has(finding))) continue;
      const chains = entry.findings.flatMap(yielding).flatMap((check) => {
        const links = chain(check);
        return links ? [links] : [];
      });
      const shortest = chains.reduce<Id[] | null>(
        (best, links) => (!best || links.length < best.length ? links : best),
        null,
      );
      if (!shortest) {
        const looks = knowledge.checks.filter((check) =>
          check.yields.some((finding) => entry.findings.includes(finding)),
        );
        if (!entry.unlessClosed && looks.some((check) => !never.has(check.id))) blocked.push(entry.because);
        continue;
      }
      because.push(entry.because);
      checks.push(...shortest);
    }
    return { checks: [...new Set(checks)], because, blocked };
  });
}
