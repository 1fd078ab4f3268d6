/** Of the knowledge only what the owner reads: wordings, no numbers. Plain data, so that a worker can hand it over. */
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { Id } from '../knowledge/schema.ts';

export interface OwnerWordings {
  /** language the wordings of the rules are written in */
  readonly language: string;
  readonly findings: Readonly<
    Record<Id, { readonly what: string | null; readonly states: Readonly<Record<Id, string>> }>
  >;
  readonly checks: Readonly<Record<Id, string | null>>;
  readonly remedies: Readonly<Record<Id, string>>;
  readonly cautions: Readonly<Record<Id, string | null>>;
  /** a reason that closes a repair, as the technician reads it -> as the owner does; null: it does not concern the owner */
  readonly reasons: Readonly<Record<string, string | null>>;
}

export function ownerWordings(
  knowledge: Pick<Knowledge, 'language' | 'findings' | 'checks' | 'remedies' | 'cautions' | 'rules'>,
): OwnerWordings {
  return {
    language: knowledge.language ?? 'en',
    findings: byId(knowledge.findings, ({ owner, states }) => ({
      what: owner ?? null,
      states: byId(states, (state) => state.owner),
    })),
    checks: byId(knowledge.checks, ({ owner }) => owner ?? null),
    remedies: byId(knowledge.remedies, ({ owner }) => owner),
    cautions: byId(knowledge.cautions, ({ owner }) => owner ?? null),
    reasons: Object.fromEntries([
      // that a part was not located is the bench's business; the owner is told what was found instead
      ...knowledge.remedies.flatMap(({ after = [] }) => after.map(({ because }) => [because, null])),
      ...knowledge.rules.gates.flatMap(({ event }) =>
        event.type === 'close' ? [[event.params.reason, event.params.owner ?? null]] : [],
      ),
    ]),
  };
}

function byId<T extends { readonly id: Id }, U>(items: readonly T[], of: (item: T) => U): Record<Id, U> {
  return Object.fromEntries(items.map((item) => [item.id, of(item)]));
}
