/** The one way from files to Knowledge: parse each, audit all against each other, compile. Works in Node and the browser. */
import { audit, inOrder } from './audit.ts';
import { compileNetwork } from './compile.ts';
import type { Draft } from './draft.ts';
import { draftKnowledge, knowledgeFiles } from './draft.ts';
import { fingerprint } from './fingerprint.ts';
import type { Knowledge, Problem } from './knowledge.ts';
import { FINDING_GROUPS, SITES } from './vocabulary.ts';

export type ParsedKnowledge =
  | { readonly ok: true; readonly knowledge: Knowledge }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** `files`: paths under rules/, such as `faults/core-joint-crack.json`, to their content. Lists every problem at once. */
export async function parseKnowledge(files: ReadonlyMap<string, unknown>): Promise<ParsedKnowledge> {
  const { draft, problems } = draftKnowledge(files);
  const all = [...problems, ...audit(draft)];
  if (all.length > 0) return { ok: false, problems: inOrder(all) };
  return { ok: true, knowledge: assemble(draft, await fingerprint(knowledgeFiles(files))) };
}

function assemble(draft: Draft, version: string): Knowledge {
  const values = <T>(filed: readonly { readonly value?: T }[]) => filed.map(({ value }) => value!);
  const faults = sortBy(values(draft.faults), ({ site }) => SITES.indexOf(site));
  const findings = sortBy(values(draft.findings), ({ group }) => FINDING_GROUPS.indexOf(group));
  return {
    version,
    faults,
    findings,
    preparations: values(draft.preparations),
    checks: values(draft.checks),
    remedies: values(draft.remedies),
    procedures: values(draft.procedures),
    holdPoints: values(draft['hold-points']),
    packages: values(draft.packages),
    stops: values(draft.stops),
    windows: values(draft.windows),
    sources: values(draft.sources),
    cautions: values(draft.cautions),
    facts: draft.facts!.facts,
    population: draft.population!,
    bench: draft.bench!,
    rules: {
      history: values(draft.history),
      ownerWords: values(draft['owner-words']),
      windowChoice: values(draft['window-choice']),
      gates: values(draft.gates),
    },
    network: compileNetwork(faults, findings),
  };
}

/** Stable: within equal keys the order by id that the files came in. */
function sortBy<T>(list: readonly T[], key: (item: T) => number): T[] {
  return [...list].sort((a, b) => key(a) - key(b));
}
