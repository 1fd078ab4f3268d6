/** Every id names something that exists. */
import type { Problem } from '../knowledge.ts';
import type { Finding, Id, RuleEvent } from '../schema.ts';
import type { AuditContext, IdKind } from './context.ts';
import { didYouMean, parsed } from './context.ts';

const SINGULAR: Record<IdKind, string> = {
  faults: 'fault',
  findings: 'finding',
  preparations: 'preparation',
  checks: 'check',
  remedies: 'remedy',
  procedures: 'procedure',
  'hold-points': 'hold point',
  packages: 'package',
  stops: 'stop',
  windows: 'window',
  sources: 'source',
  cautions: 'caution',
  equipment: 'piece of equipment',
  parts: 'part',
};

export function auditReferences(context: AuditContext): Problem[] {
  const problems: Problem[] = [];
  const { draft, ids } = context;
  const named = (file: string, path: string, kind: IdKind, id: Id) => {
    const known = ids[kind];
    if (known === undefined || known.has(id)) return;
    const home = kind === 'equipment' || kind === 'parts' ? 'bench.json' : `${kind}/${id}.json`;
    problems.push({
      file,
      path,
      kind: 'unknown-id',
      wrong: `there is no ${SINGULAR[kind]} "${id}"`,
      todo: `${didYouMean(id, known)}Correct it, or add it in ${home}.`,
    });
  };
  const each = (file: string, path: string, kind: IdKind, list: readonly Id[]) => {
    list.forEach((id, i) => {
      named(file, `${path}[${i}]`, kind, id);
    });
  };
  const state = (file: string, path: string, finding: Id, id: Id) => {
    const problem = unknownState(file, path, context.findings.get(finding), id);
    if (problem !== undefined) problems.push(problem);
  };

  for (const { file, value } of parsed(draft.findings)) {
    for (const id of Object.keys(value.leak.p)) state(file, `leak.p.${id}`, value.id, id);
    for (const [fault, row] of Object.entries(value.given)) {
      named(file, `given.${fault}`, 'faults', fault);
      for (const id of Object.keys(row.p)) state(file, `given.${fault}.p.${id}`, value.id, id);
    }
  }
  for (const { file, value } of parsed(draft.preparations)) each(file, 'undoes', 'preparations', value.undoes ?? []);
  for (const { file, value } of parsed(draft.checks)) {
    each(file, 'yields', 'findings', value.yields);
    each(file, 'preparations', 'preparations', value.preparations);
    each(file, 'equipment', 'equipment', value.equipment);
    each(file, 'cautions', 'cautions', value.cautions);
    value.requires.forEach(({ finding, states }, i) => {
      named(file, `requires[${i}].finding`, 'findings', finding);
      states.forEach((id, j) => {
        state(file, `requires[${i}].states[${j}]`, finding, id);
      });
    });
    if (value.risk) named(file, 'risk.fault', 'faults', value.risk.fault);
    if (value.bought) named(file, 'bought.part', 'parts', value.bought.part);
  }
  for (const { file, value } of parsed(draft.remedies)) {
    each(file, 'preparations', 'preparations', value.preparations);
    each(file, 'parts', 'parts', value.parts);
    (value.after ?? []).forEach(({ findings }, i) => {
      each(file, `after[${i}].findings`, 'findings', findings);
    });
    each(file, 'equipment', 'equipment', value.equipment);
    each(file, 'cautions', 'cautions', value.cautions);
    for (const fault of Object.keys(value.effects)) named(file, `effects.${fault}`, 'faults', fault);
    for (const fault of Object.keys(value.induces)) named(file, `induces.${fault}`, 'faults', fault);
  }
  for (const { file, value } of parsed(draft.stops)) {
    (value.after ?? []).forEach(({ findings }, i) => {
      each(file, `after[${i}].findings`, 'findings', findings);
    });
  }
  for (const { file, value } of parsed(draft.procedures)) {
    named(file, 'id', 'remedies', value.id);
    each(file, 'holdPoints', 'hold-points', value.holdPoints);
    if (value.package !== undefined) named(file, 'package', 'packages', value.package);
  }
  for (const { file, value } of parsed(draft['hold-points'])) {
    if (value.check !== undefined) named(file, 'check', 'checks', value.check);
    if (value.ifItFails.to !== undefined) named(file, 'ifItFails.to', 'hold-points', value.ifItFails.to);
    each(file, 'cautions', 'cautions', value.cautions);
    (value.finds ?? []).forEach(({ finding, passes }, i) => {
      named(file, `finds[${i}].finding`, 'findings', finding);
      passes.forEach((id, j) => {
        state(file, `finds[${i}].passes[${j}]`, finding, id);
      });
    });
  }
  for (const { file, value } of parsed(draft.windows)) {
    named(file, 'finding', 'findings', value.finding);
    value.bands.forEach((id, i) => {
      state(file, `bands[${i}]`, value.finding, id);
    });
    if (value.overRange !== undefined) state(file, 'overRange', value.finding, value.overRange);
  }
  for (const { file, value } of context.rules) eventReferences(file, value.event, named, each, state);
  return problems;
}

function eventReferences(
  file: string,
  event: RuleEvent,
  named: (file: string, path: string, kind: IdKind, id: Id) => void,
  each: (file: string, path: string, kind: IdKind, list: readonly Id[]) => void,
  state: (file: string, path: string, finding: Id, id: Id) => void,
): void {
  switch (event.type) {
    case 'history':
      for (const fault of Object.keys(event.params.factors))
        named(file, `event.params.factors.${fault}`, 'faults', fault);
      return;
    case 'window':
      named(file, 'event.params.finding', 'findings', event.params.finding);
      named(file, 'event.params.window', 'windows', event.params.window);
      return;
    case 'evidence':
      named(file, 'event.params.finding', 'findings', event.params.finding);
      for (const id of Object.keys(event.params.weights))
        state(file, `event.params.weights.${id}`, event.params.finding, id);
      return;
    case 'close':
      each(file, 'event.params.checks', 'checks', event.params.checks);
      each(file, 'event.params.remedies', 'remedies', event.params.remedies);
      return;
    case 'damage':
      each(file, 'event.params.remedies', 'remedies', event.params.remedies);
      return;
    case 'caution':
      named(file, 'event.params.caution', 'cautions', event.params.caution);
  }
}

function unknownState(file: string, path: string, finding: Finding | undefined, id: Id): Problem | undefined {
  if (finding === undefined || finding.states.some((state) => state.id === id)) return undefined;
  const states = finding.states.map((state) => state.id);
  return {
    file,
    path,
    kind: 'unknown-state',
    wrong: `"${id}" is not a state of "${finding.id}"`,
    todo: `${didYouMean(id, states)}Its states are ${states.join(', ')}.`,
  };
}
