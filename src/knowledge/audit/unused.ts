/** What is written down and never comes into play: a caution nobody is shown, a question asked for nothing. */
import { comparisonsOf } from '../conditions.ts';
import { FOLDER_NAMES } from '../draft.ts';
import type { Problem } from '../knowledge.ts';
import type { Fault, Id } from '../schema.ts';
import type { AuditContext, Parsed } from './context.ts';
import { parsed } from './context.ts';

/** The facts that wear-out curves run on. */
const CLOCKS = { years: 'age-years', hours: 'hours-of-use' } as const;

export function auditUnused(context: AuditContext): Problem[] {
  return [
    ...parsed(context.draft.faults).flatMap((fault) => missingClock(context, fault)),
    ...(context.complete(...FOLDER_NAMES) ? neverUsed(context) : []),
  ];
}

function missingClock(context: AuditContext, { file, value }: Parsed<Fault>): Problem[] {
  const clock = value.wear && CLOCKS[value.wear.clock];
  if (clock === undefined || context.facts === undefined || context.facts.get(clock)?.type.kind === 'number') return [];
  return [
    {
      file,
      path: 'wear.clock',
      kind: 'no-clock',
      wrong: `wear by ${value.wear!.clock} runs on the fact "${clock}", and there is no such number`,
      todo: `Add the fact "${clock}" to facts.json, or take the wear out.`,
    },
  ];
}

function neverUsed(context: AuditContext): Problem[] {
  const { draft } = context;
  const work = [...parsed(draft.checks), ...parsed(draft.remedies)].map(({ value }) => value);
  const events = context.rules.map(({ value }) => value.event);
  const cautions = new Set([
    ...work.flatMap((one) => one.cautions),
    ...events.flatMap((event) => (event.type === 'caution' ? [event.params.caution] : [])),
  ]);
  const preparations = new Set(work.flatMap((one) => one.preparations));
  return [
    ...unnamed(
      parsed(draft.cautions),
      cautions,
      'unused-caution',
      'is ever shown the caution',
      'check, a remedy or a gate',
    ),
    ...unnamed(
      parsed(draft.preparations),
      preparations,
      'unused-preparation',
      'needs the preparation',
      'check or a remedy',
    ),
    ...unaskedFacts(context),
  ];
}

function unnamed(
  files: readonly Parsed<{ readonly id: Id }>[],
  named: ReadonlySet<Id>,
  kind: string,
  verb: string,
  where: string,
): Problem[] {
  return files
    .filter(({ value }) => !named.has(value.id))
    .map(({ file, value }) => ({
      file,
      path: '',
      kind,
      wrong: `nobody ${verb} "${value.id}"`,
      todo: `Name it in a ${where}, or delete it.`,
    }));
}

function unaskedFacts(context: AuditContext): Problem[] {
  const conditions = [
    ...context.rules.map(({ value }) => value.conditions),
    ...[...context.findings.values()].flatMap(({ appliesWhen }) => (appliesWhen ? [appliesWhen] : [])),
  ];
  const asked = new Set(conditions.flatMap((one) => comparisonsOf(one, '').map(({ comparison }) => comparison.fact)));
  for (const { wear } of context.faults.values()) if (wear) asked.add(CLOCKS[wear.clock]);
  return (context.draft.facts?.facts ?? []).flatMap(({ id }, i) =>
    asked.has(id)
      ? []
      : [
          {
            file: 'facts.json',
            path: `facts[${i}]`,
            kind: 'unasked-fact',
            wrong: `no rule asks for "${id}", so the question is asked for nothing`,
            todo: 'Use it in a rule, or delete it.',
          },
        ],
  );
}
