/**
 * What no single file can show: that ids exist, rows add up, rules can fire, faults are seen and remedied. Every theme
 * runs whatever the others found, so that one run lists all there is to mend.
 */
import { auditContext } from './audit/context.ts';
import { auditCoverage } from './audit/coverage.ts';
import { auditNames } from './audit/names.ts';
import { auditNumbers } from './audit/numbers.ts';
import { auditProcedures } from './audit/procedures.ts';
import { auditReferences } from './audit/references.ts';
import { auditRules } from './audit/rules.ts';
import { auditSafety } from './audit/safety.ts';
import { auditSources } from './audit/sources.ts';
import { auditUnused } from './audit/unused.ts';
import { auditWindowChoice } from './audit/window-choice.ts';
import { auditWindows } from './audit/windows.ts';
import type { Draft } from './draft.ts';
import type { Problem } from './knowledge.ts';

const THEMES = [
  auditNames,
  auditReferences,
  auditNumbers,
  auditWindows,
  auditRules,
  auditWindowChoice,
  auditCoverage,
  auditSafety,
  auditProcedures,
  auditSources,
  auditUnused,
];

/** All problems between files, by file and path. */
export function audit(draft: Draft): Problem[] {
  const context = auditContext(draft);
  return THEMES.flatMap((theme) => theme(context));
}

/** By file, then by path; the order a contributor works through. */
export function inOrder(problems: readonly Problem[]): Problem[] {
  const key = (problem: Problem) => `${problem.file}\n${problem.path}`;
  return [...problems].sort((a, b) => (key(a) < key(b) ? -1 : key(a) > key(b) ? 1 : 0));
}
