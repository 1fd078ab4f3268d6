/** What every theme of the audit looks things up in. */
import type { Draft, Filed, FolderName } from '../draft.ts';
import { FOLDER_NAMES, RULE_FOLDERS } from '../draft.ts';
import { factDefinitions, SEEN } from '../fact-definitions.ts';
import type { Problem } from '../knowledge.ts';
import type { FactDefinition, Fault, Finding, Id, Rule, Window } from '../schema.ts';

export type IdKind = Exclude<FolderName, (typeof RULE_FOLDERS)[number]> | 'equipment' | 'parts';

export interface AuditContext {
  readonly draft: Draft;
  /** ids that exist, those of files that did not parse included; undefined: their list did not parse */
  readonly ids: { readonly [kind in IdKind]: ReadonlySet<Id> | undefined };
  readonly faults: ReadonlyMap<Id, Fault>;
  readonly findings: ReadonlyMap<Id, Finding>;
  readonly windows: ReadonlyMap<Id, Window>;
  readonly rules: readonly Parsed<Rule>[];
  /** undefined: facts.json did not parse */
  readonly facts: ReadonlyMap<string, FactDefinition> | undefined;
  /** facts of findings whose file did not parse: they exist, their values are not known */
  readonly unreadFacts: ReadonlySet<string>;
  /** every file of these folders parsed, so that what is missing is missing */
  complete(...folders: readonly FolderName[]): boolean;
}

export type Parsed<T> = { readonly file: string; readonly id: Id; readonly value: T };

export function parsed<T>(filed: readonly Filed<T>[]): Parsed<T>[] {
  return filed.filter((one): one is Parsed<T> => one.value !== undefined);
}

export function auditContext(draft: Draft): AuditContext {
  const ids = {} as { [kind in IdKind]: ReadonlySet<Id> | undefined };
  for (const folder of FOLDER_NAMES)
    ids[folder as IdKind] = new Set(
      (draft[folder] as readonly Filed<{ id: Id }>[]).map((one) => one.value?.id ?? one.id),
    );
  ids.equipment = draft.bench && new Set(draft.bench.equipment.map(({ id }) => id));
  ids.parts = draft.bench && new Set(draft.bench.parts.map(({ id }) => id));
  const byId = <T extends { readonly id: Id }>(filed: readonly Filed<T>[]) =>
    new Map(parsed(filed).map(({ value }) => [value.id, value]));
  const findings = byId(draft.findings);
  return {
    draft,
    ids,
    faults: byId(draft.faults),
    findings,
    windows: byId(draft.windows),
    rules: RULE_FOLDERS.flatMap((folder) => parsed(draft[folder])),
    facts: draft.facts && factDefinitions(draft.facts.facts, [...findings.values()]),
    unreadFacts: new Set(draft.findings.filter((one) => one.value === undefined).map((one) => SEEN + one.id)),
    complete: (...folders) =>
      folders.every((folder) => (draft[folder] as readonly Filed<unknown>[]).every((one) => one.value !== undefined)),
  };
}

export type Theme = (context: AuditContext) => Problem[];

/** The id most like the one written, where one is close enough to be meant. */
export function nearest(written: string, known: Iterable<string>): string | undefined {
  let best: string | undefined;
  let least = Math.max(2, Math.floor(written.length / 4)) + 1;
  for (const id of known) {
    const distance = editDistance(written, id);
    if (distance < least) {
      least = distance;
      best = id;
    }
  }
  return best;
}

export function didYouMean(written: string, known: Iterable<string>): string {
  const meant = nearest(written, known);
  return meant === undefined ? '' : `Did you mean "${meant}"? `;
}

/** Levenshtein distance: fewest insertions, deletions and substitutions. */
function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++)
      next.push(Math.min(row[j]! + 1, next[j - 1]! + 1, row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1)));
    row = next;
  }
  return row[b.length]!;
}
