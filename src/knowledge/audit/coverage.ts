/** Nothing stands alone: faults are seen and remedied, findings can be had, checks can be reached. */
import { accumulate } from '../compile.ts';
import type { Problem } from '../knowledge.ts';
import type { Finding, Id } from '../schema.ts';
import type { AuditContext } from './context.ts';
import { parsed } from './context.ts';
import { ROW_SUM_TOLERANCE } from './numbers.ts';

export function auditCoverage(context: AuditContext): Problem[] {
  return [
    ...unseenFaults(context),
    ...unremediedFaults(context),
    ...unobtainableFindings(context),
    ...unreachableChecks(context),
  ];
}

function unseenFaults(context: AuditContext): Problem[] {
  if (!context.complete('findings')) return [];
  const findings = [...context.findings.values()];
  return parsed(context.draft.faults)
    .filter(({ value }) => !findings.some((finding) => sees(finding, value.id)))
    .map(({ file, value }) => ({
      file,
      path: '',
      kind: 'orphaned-fault',
      wrong: `no finding looks any different when "${value.id}" is there`,
      todo: 'Give at least one finding a row for it that differs from the leak, or delete the fault.',
    }));
}

/** A row equal to the leak says the fault changes nothing; a row that is surely normal has no effect in a noisy-MAX. */
function sees(finding: Finding, fault: Id): boolean {
  const row = finding.given[fault];
  if (row === undefined) return false;
  const states = finding.states.map(({ id }) => id);
  const differs = states.some((id) => Math.abs((row.p[id] ?? 0) - (finding.leak.p[id] ?? 0)) > ROW_SUM_TOLERANCE);
  const cumulative = accumulate(row, states);
  return differs && cumulative.some((below) => below < 1 - ROW_SUM_TOLERANCE);
}

function unremediedFaults(context: AuditContext): Problem[] {
  const remedied = new Set(parsed(context.draft.remedies).flatMap(({ value }) => Object.keys(value.effects)));
  return parsed(context.draft.faults).flatMap(({ file, value }) => {
    if (!remedied.has(value.id) && value.noRemedy === undefined && context.complete('remedies'))
      return [
        {
          file,
          path: '',
          kind: 'no-remedy',
          wrong: `no remedy does anything about "${value.id}", and the file does not say why`,
          todo: 'List it under "effects" of a remedy, or add "noRemedy" with the reason.',
        },
      ];
    if (remedied.has(value.id) && value.noRemedy !== undefined)
      return [
        {
          file,
          path: 'noRemedy',
          kind: 'no-remedy',
          wrong: `it says that nothing remedies "${value.id}", and a remedy lists it under "effects"`,
          todo: 'Take out the one that is not true.',
        },
      ];
    return [];
  });
}

/** What the owner tells as a symptom needs no check. */
function unobtainableFindings(context: AuditContext): Problem[] {
  if (!context.complete('checks')) return [];
  const yielded = new Set(parsed(context.draft.checks).flatMap(({ value }) => value.yields));
  return parsed(context.draft.findings)
    .filter(({ value }) => value.group !== 'symptoms' && !yielded.has(value.id))
    .map(({ file, value }) => ({
      file,
      path: '',
      kind: 'no-check',
      wrong: `no check yields "${value.id}"`,
      todo: 'List it under "yields" of a check, or delete it.',
    }));
}

/**
 * Checks are offered once what they require can be had from checks offered before them. What the owner tells counts only where no
 * check yields it: a requirement is met by what the bench has seen.
 */
function unreachableChecks(context: AuditContext): Problem[] {
  if (!context.complete('checks', 'findings')) return [];
  const checks = parsed(context.draft.checks);
  const yielded = new Set(checks.flatMap(({ value }) => value.yields));
  const obtainable = new Set(
    [...context.findings.values()]
      .filter(({ id, group }) => group === 'symptoms' && !yielded.has(id))
      .map(({ id }) => id),
  );
  const offered = new Set<Id>();
  for (let before = -1; before < offered.size; ) {
    before = offered.size;
    for (const { value } of checks) {
      if (offered.has(value.id) || !value.requires.every(({ finding }) => obtainable.has(finding))) continue;
      offered.add(value.id);
      for (const finding of value.yields) obtainable.add(finding);
    }
  }
  return checks.flatMap(({ file, value }) =>
    value.requires.flatMap(({ finding, states }, i) => {
      if (!context.findings.has(finding)) return [];
      const others = value.requires.slice(0, i).filter((one) => one.finding === finding);
      const contradicted = others.some((one) => !one.states.some((state) => states.includes(state)));
      if (!contradicted && obtainable.has(finding)) return [];
      return [
        {
          file,
          path: `requires[${i}]`,
          kind: 'never-offered',
          wrong: contradicted
            ? `"${finding}" would have to be in two states at once`
            : `no check that is offered before this one yields "${finding}"`,
          todo: 'Require what an earlier check yields, or the check is never offered.',
        },
      ];
    }),
  );
}
