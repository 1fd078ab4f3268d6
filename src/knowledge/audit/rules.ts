/** Rules: known facts, operators that suit them, a meaning for unknown, and conditions that can hold. */
import type { Comparison, Placed } from '../conditions.ts';
import { comparisonsOf, MOST_ASSIGNMENTS, OPERATORS, satisfy } from '../conditions.ts';
import type { FolderName, RULE_FOLDERS } from '../draft.ts';
import type { Problem } from '../knowledge.ts';
import type { FactDefinition, Rule, RuleConditions } from '../schema.ts';
import type { AuditContext } from './context.ts';
import { didYouMean, parsed } from './context.ts';

/** What each folder of rules is for. */
const EVENTS: { readonly [folder in (typeof RULE_FOLDERS)[number]]: readonly Rule['event']['type'][] } = {
  history: ['history'],
  'owner-words': ['evidence'],
  'window-choice': ['window'],
  gates: ['close', 'damage', 'caution'],
};

export function auditRules(context: AuditContext): Problem[] {
  return [
    ...context.rules.flatMap(({ file, value }) => [...eventFits(file, value), ...auditRule(context, file, value)]),
    ...parsed(context.draft.findings).flatMap(({ file, value }) =>
      value.appliesWhen ? auditApplies(context, file, value.appliesWhen) : [],
    ),
  ];
}

/** Whether every comparison names a known fact with an operator and a value that suit it. */
export function comparesSoundly(context: AuditContext, conditions: RuleConditions): boolean {
  return comparisonsOf(conditions, '').every(({ comparison }) => {
    const fact = context.facts?.get(comparison.fact);
    return fact !== undefined && compared('', { comparison, path: '', negative: false }, fact).length === 0;
  });
}

function auditRule(context: AuditContext, file: string, rule: Rule): Problem[] {
  const placed = comparisonsOf(rule.conditions, 'conditions');
  const problems = comparisonProblems(context, file, placed);
  const mentioned = new Set(placed.map(({ comparison }) => comparison.fact));
  for (const fact of Object.keys(rule.unknownMeans ?? {}))
    if (!mentioned.has(fact))
      problems.push({
        file,
        path: `unknownMeans.${fact}`,
        kind: 'unknown-means-unused',
        wrong: `the conditions do not ask for "${fact}"`,
        todo: `${didYouMean(fact, mentioned)}Correct it or take it out.`,
      });
  for (const { comparison, path } of placed.filter(({ negative }) => negative))
    if (rule.unknownMeans?.[comparison.fact] === undefined)
      problems.push({
        file,
        path,
        kind: 'negation-unknown',
        wrong: `this is a negation over "${comparison.fact}", which may be unknown, and the rule does not say what unknown means`,
        todo: `Add "unknownMeans": {"${comparison.fact}": "match" or "no-match"}, or ask positively (in, equal).`,
      });
  if ('fact' in rule.conditions)
    problems.push({
      file,
      path: 'conditions',
      kind: 'bare-condition',
      wrong: 'the rules engine reads a single comparison only inside a list',
      todo: 'Wrap it: {"all": [ ... ]}.',
    });
  if (comparesSoundly(context, rule.conditions)) problems.push(...firing(context, file, rule));
  return problems;
}

function firing(context: AuditContext, file: string, rule: Rule): Problem[] {
  const found = satisfy([rule], [], context.facts!);
  if (found.kind === 'possible') return [];
  if (found.kind === 'impossible')
    return [
      {
        file,
        path: 'conditions',
        kind: 'never-fires',
        wrong: 'no card can meet these conditions: they contradict each other',
        todo: 'Look for one fact that is asked to be two things at once, or for bounds that leave no room.',
      },
    ];
  return [
    {
      file,
      path: 'conditions',
      kind: 'too-many-facts',
      wrong: `after ${MOST_ASSIGNMENTS} combinations of facts it is still open whether this rule can fire`,
      todo: 'Split it into rules that ask for fewer facts.',
    },
  ];
}

/** Where a finding applies is asked of a record in which much is unknown: only what is known can rule it out. */
function auditApplies(context: AuditContext, file: string, conditions: RuleConditions): Problem[] {
  const placed = comparisonsOf(conditions, 'appliesWhen');
  const problems = comparisonProblems(context, file, placed);
  for (const { comparison, path } of placed.filter(({ negative }) => negative))
    problems.push({
      file,
      path,
      kind: 'negation-unknown',
      wrong: `this is a negation over "${comparison.fact}", which may be unknown`,
      todo: 'Ask positively (equal, in): where a finding applies cannot say what unknown means.',
    });
  if (comparesSoundly(context, conditions) && satisfy([{ conditions }], [], context.facts!).kind === 'impossible')
    problems.push({
      file,
      path: 'appliesWhen',
      kind: 'never-fires',
      wrong: 'this finding applies to no card: the conditions contradict each other',
      todo: 'Look for one fact that is asked to be two things at once, or for bounds that leave no room.',
    });
  return problems;
}

function eventFits(file: string, rule: Rule): Problem[] {
  const folder = file.split('/')[0] as FolderName;
  const allowed = EVENTS[folder as keyof typeof EVENTS];
  if (allowed.includes(rule.event.type)) return [];
  return [
    {
      file,
      path: 'event.type',
      kind: 'event-folder',
      wrong: `a rule in ${folder}/ emits ${allowed.join(', ')}, not "${rule.event.type}"`,
      todo: 'Move the rule to the folder of what it emits, or emit what belongs here.',
    },
  ];
}

function comparisonProblems(context: AuditContext, file: string, placed: readonly Placed[]): Problem[] {
  return placed.flatMap((one) => {
    const { comparison, path } = one;
    const fact = context.facts?.get(comparison.fact);
    if (fact !== undefined) return compared(file, one, fact);
    const operator = OPERATORS[comparison.operator] === undefined ? [unknownOperator(file, path, comparison)] : [];
    if (context.facts === undefined || context.unreadFacts.has(comparison.fact)) return operator;
    return [...operator, unknownFact(context, file, path, comparison.fact)];
  });
}

function unknownFact(context: AuditContext, file: string, path: string, fact: string): Problem {
  return {
    file,
    path: `${path}.fact`,
    kind: 'unknown-fact',
    wrong: `there is no fact "${fact}"`,
    todo: `${didYouMean(fact, context.facts!.keys())}Correct it, or add it to facts.json; what was seen is asked for as seen-<finding>.`,
  };
}

function unknownOperator(file: string, path: string, comparison: Comparison): Problem {
  const known = Object.keys(OPERATORS);
  return {
    file,
    path: `${path}.operator`,
    kind: 'unknown-operator',
    wrong: `there is no operator "${comparison.operator}"`,
    todo: `${didYouMean(comparison.operator, known)}Use one of ${known.join(', ')}.`,
  };
}

function compared(file: string, { comparison, path }: Placed, fact: FactDefinition): Problem[] {
  const operator = OPERATORS[comparison.operator];
  if (operator === undefined) return [unknownOperator(file, path, comparison)];
  const { type } = fact;
  if (!operator.suits.includes(type.kind)) {
    const fitting = Object.keys(OPERATORS).filter((name) => OPERATORS[name]!.suits.includes(type.kind));
    return [
      {
        file,
        path: `${path}.operator`,
        kind: 'operator-type',
        wrong: `"${comparison.operator}" does not suit "${fact.id}", which is ${TYPE_WORDS[type.kind]}`,
        todo: `Use one of ${fitting.join(', ')}.`,
      },
    ];
  }
  if (operator.list !== Array.isArray(comparison.value))
    return [
      {
        file,
        path: `${path}.value`,
        kind: 'value-type',
        wrong: `"${comparison.operator}" compares with ${operator.list ? 'a list' : 'one value, not a list'}`,
        todo: operator.list ? 'Write the values in brackets: ["...", "..."].' : 'Write one value, or use in or notIn.',
      },
    ];
  const values = (Array.isArray(comparison.value) ? comparison.value : [comparison.value]) as unknown[];
  if (values.length === 0)
    return [
      {
        file,
        path: `${path}.value`,
        kind: 'empty-conditions',
        wrong: 'the list of values is empty, so this decides nothing',
        todo: 'Name at least one value, or delete the comparison.',
      },
    ];
  return values.flatMap((value, i) =>
    fits(fact, value) ? [] : [misfit(file, `${path}.value${operator.list ? `[${i}]` : ''}`, fact, value)],
  );
}

const TYPE_WORDS = {
  choice: 'one of several words',
  'yes-no': 'yes or no',
  number: 'a number',
  set: 'a set of words',
};

function fits({ type }: FactDefinition, value: unknown): boolean {
  if (type.kind === 'yes-no') return typeof value === 'boolean';
  if (type.kind === 'number') return typeof value === 'number' && value >= type.min && value <= type.max;
  return type.values.some(({ id }) => id === value);
}

function misfit(file: string, path: string, { id, type }: FactDefinition, value: unknown): Problem {
  const written = JSON.stringify(value);
  if (type.kind === 'yes-no')
    return {
      file,
      path,
      kind: 'fact-value',
      wrong: `"${id}" is yes or no, never ${written}`,
      todo: 'Write true or false, without quotation marks.',
    };
  if (type.kind === 'number')
    return {
      file,
      path,
      kind: 'fact-value',
      wrong: `"${id}" is a number from ${type.min} to ${type.max}${type.unit ? ` ${type.unit}` : ''}, and this compares it with ${written}`,
      todo: 'Write a number in that range, or widen the range in facts.json.',
    };
  const known = type.values.map((one) => one.id);
  return {
    file,
    path,
    kind: 'fact-value',
    wrong: `"${id}" is never ${written}`,
    todo: `${typeof value === 'string' ? didYouMean(value, known) : ''}Its values are ${known.join(', ')}.`,
  };
}
