/** For every reading exactly one window: never two, and none only while a fact is unknown. */
import type { Claim, Satisfied } from '../conditions.ts';
import { satisfy, sayExample } from '../conditions.ts';
import type { Problem } from '../knowledge.ts';
import type { Rule } from '../schema.ts';
import type { AuditContext, Parsed } from './context.ts';
import { parsed } from './context.ts';
import { comparesSoundly } from './rules.ts';

type WindowRule = Parsed<Rule & { event: { type: 'window' } }>;

export function auditWindowChoice(context: AuditContext): Problem[] {
  const rules = parsed(context.draft['window-choice']).filter(
    (one): one is WindowRule => one.value.event.type === 'window',
  );
  const sound = rules.filter(({ value }) => comparesSoundly(context, value.conditions));
  const byFinding = Map.groupBy(sound, ({ value }) => value.event.params.finding);
  return [
    ...rules.flatMap(({ file, value }) => misdirected(context, file, value)),
    ...[...byFinding.values()].flatMap((some) => clashes(context, some)),
    ...(context.complete('window-choice', 'windows') && sound.length === rules.length
      ? [...unchosen(context, rules), ...[...byFinding].flatMap(([finding, some]) => gaps(context, finding, some))]
      : []),
  ];
}

function misdirected(context: AuditContext, file: string, rule: WindowRule['value']): Problem[] {
  const { finding, window } = rule.event.params;
  const chosen = context.windows.get(window);
  if (chosen === undefined || chosen.finding === finding) return [];
  return [
    {
      file,
      path: 'event.params.window',
      kind: 'window-finding',
      wrong: `the window "${window}" grades readings of "${chosen.finding}", not of "${finding}"`,
      todo: 'Name a window of this finding, or correct the finding.',
    },
  ];
}

/** Two rules that name the same window do not clash. */
function clashes(context: AuditContext, rules: readonly WindowRule[]): Problem[] {
  return rules.flatMap((second, i) =>
    rules.slice(0, i).flatMap((first) => {
      const { finding, window } = second.value.event.params;
      if (first.value.event.params.window === window) return [];
      const found = satisfy([first.value, second.value], [], context.facts!);
      if (found.kind === 'impossible') return [];
      return [
        {
          file: second.file,
          path: 'conditions',
          kind: 'two-windows',
          wrong:
            found.kind === 'possible'
              ? `a reading of "${finding}" would get two windows, this one and that of ${first.file}, for example with ${sayExample(found.example)}`
              : `too many facts to tell whether this rule and ${first.file} can choose two windows for one reading`,
          todo: `Make the two sets of conditions exclude each other, unknown facts included.${wholeHint(found)}`,
        },
      ];
    }),
  );
}

function unchosen(context: AuditContext, rules: readonly WindowRule[]): Problem[] {
  const chosen = new Set(rules.map(({ value }) => value.event.params.window));
  return parsed(context.draft.windows)
    .filter(({ value }) => !chosen.has(value.id))
    .map(({ file, value }) => ({
      file,
      path: '',
      kind: 'window-unchosen',
      wrong: `no rule ever chooses this window, so no reading of "${value.finding}" is graded by it`,
      todo: 'Add a rule in window-choice/ that chooses it, or delete it.',
    }));
}

/** A card of which everything is known has a window for every reading that applies to it. */
function gaps(context: AuditContext, finding: string, rules: readonly WindowRule[]): Problem[] {
  const appliesWhen = context.findings.get(finding)?.appliesWhen;
  if (appliesWhen !== undefined && !comparesSoundly(context, appliesWhen)) return [];
  const applies: Claim[] = appliesWhen === undefined ? [] : [{ conditions: appliesWhen }];
  const refuted = rules.map(({ value }) => value);
  const found = satisfy(applies, refuted, context.facts!, { allKnown: true });
  if (found.kind !== 'possible') return [];
  return [
    {
      file: rules[0]!.file,
      path: 'conditions',
      kind: 'no-window',
      wrong: `a reading of "${finding}" would get no window with ${sayExample(found.example)}`,
      todo: 'Add a rule that chooses a window for such a card, or widen this one.',
    },
  ];
}

function wholeHint(found: Satisfied): string {
  const fraction =
    found.kind === 'possible' &&
    [...found.example].find(([, value]) => typeof value === 'number' && !Number.isInteger(value));
  return fraction ? ` If "${fraction[0]}" is always a whole number, say "whole": true in facts.json.` : '';
}
