/** Sums and orders of numbers: rows add up to one, chances leave room for each other, ranges do not fall. */
import type { Problem } from '../knowledge.ts';
import type { Finding, Population, Row, Rule, Spread } from '../schema.ts';
import type { AuditContext } from './context.ts';
import { parsed } from './context.ts';

/** Rows are typed by hand as decimals; their sum is off by rounding in the last bits at most. */
export const ROW_SUM_TOLERANCE = 1e-9;

export function auditNumbers(context: AuditContext): Problem[] {
  const { draft } = context;
  return [
    ...parsed(draft.findings).flatMap(({ file, value }) => rows(file, value)),
    ...parsed(draft.preparations).flatMap(({ file, value }) => spread(file, 'minutes', value.minutes)),
    ...parsed(draft.checks).flatMap(({ file, value }) => spread(file, 'minutes', value.minutes)),
    ...parsed(draft.stops).flatMap(({ file, value }) => spread(file, 'minutes', value.minutes)),
    ...parsed(draft.remedies).flatMap(({ file, value }) => [
      ...spread(file, 'minutes', value.minutes),
      ...spread(file, 'verifyMinutes', value.verifyMinutes),
      ...effects(context, file, value.effects),
    ]),
    ...parsed(draft.faults).flatMap(({ file, value }) => openShare(file, value.share.p)),
    ...context.rules.flatMap(({ file, value }) => wordsOfNoWeight(file, value)),
    ...(draft.population ? population(draft.population) : []),
    ...(draft.facts?.facts ?? []).flatMap((fact, i) =>
      fact.type.kind === 'number' && fact.type.min >= fact.type.max
        ? [
            {
              file: 'facts.json',
              path: `facts[${i}].type`,
              kind: 'empty-range',
              wrong: `min ${fact.type.min} is not below max ${fact.type.max}`,
              todo: 'Give the least and the greatest value the fact can have.',
            },
          ]
        : [],
    ),
  ];
}

/** What people say is never proof: a state that their words rule out could not be found any more. */
function wordsOfNoWeight(file: string, { event }: Rule): Problem[] {
  if (event.type !== 'evidence') return [];
  return Object.entries(event.params.weights).flatMap(([state, weight]) =>
    weight > 0
      ? []
      : [
          {
            file,
            path: `event.params.weights.${state}`,
            kind: 'word-rules-out',
            wrong: `these words would rule "${state}" out for good`,
            todo: 'Give it a weight above 0: an owner can be wrong about anything.',
          },
        ],
  );
}

function rows(file: string, finding: Finding): Problem[] {
  const given = Object.entries(finding.given);
  return [
    ...sum(file, 'leak.p', `the states of "${finding.id}" with no fault at all`, finding.leak),
    ...finding.states.flatMap(({ id }) =>
      (finding.leak.p[id] ?? 0) > 0
        ? []
        : [
            {
              file,
              path: `leak.p.${id}`,
              kind: 'leak-zero',
              wrong: `a card with no fault could never show "${id}", not even by a slip of the hand`,
              todo: 'Give it a small chance: one misreading must not make a fault certain.',
            },
          ],
    ),
    ...given.flatMap(([fault, row]) =>
      sum(file, `given.${fault}.p`, `the states of "${finding.id}" given "${fault}"`, row),
    ),
  ];
}

function sum(file: string, path: string, what: string, row: Row): Problem[] {
  const total = Object.values(row.p).reduce((a, b) => a + b, 0);
  if (Math.abs(total - 1) <= ROW_SUM_TOLERANCE) return [];
  return [
    {
      file,
      path,
      kind: 'row-sum',
      wrong: `${what} add up to ${Number(total.toPrecision(10))}, not 1`,
      todo: 'States are exclusive and complete: give the remainder to the most normal one.',
    },
  ];
}

function spread(file: string, path: string, { low, likely, high }: Spread): Problem[] {
  if (low <= likely && likely <= high) return [];
  return [
    {
      file,
      path,
      kind: 'spread-order',
      wrong: `low ${low}, likely ${likely} and high ${high} are not in order`,
      todo: 'Low and high are the ends of a 90 % range around the likely figure.',
    },
  ];
}

function effects(
  context: AuditContext,
  file: string,
  list: { readonly [fault: string]: { readonly cures: { p: number }; readonly masks?: { p: number } | undefined } },
): Problem[] {
  return Object.entries(list).flatMap(([fault, { cures, masks }]) => {
    const problems: Problem[] = [];
    const total = cures.p + (masks?.p ?? 0);
    if (total > 1 + ROW_SUM_TOLERANCE)
      problems.push({
        file,
        path: `effects.${fault}`,
        kind: 'effect-sum',
        wrong: `curing (${cures.p}) and masking (${masks?.p}) add up to ${Number(total.toPrecision(10))}, more than 1`,
        todo: 'One attempt cures the fault, masks it or leaves it: the three chances sum to one.',
      });
    if ((masks?.p ?? 0) > 0 && context.faults.get(fault) !== undefined && !context.faults.get(fault)!.relapse)
      problems.push({
        file,
        path: `effects.${fault}.masks`,
        kind: 'mask-without-relapse',
        wrong: `"${fault}" can be masked here, and its file does not say how soon a masked one is back`,
        todo: `Add "relapse" to faults/${fault}.json, or take the mask out.`,
      });
    return problems;
  });
}

/** The shares of cards with no fault, with one and with several all have to be above 0. */
function population({ moreThanOneFault, noFault }: Population): Problem[] {
  const file = 'population.json';
  const problems = openShare(file, moreThanOneFault.p, 'moreThanOneFault.p');
  if (noFault === undefined) return problems;
  problems.push(...openShare(file, noFault.p, 'noFault.p'));
  const total = noFault.p + moreThanOneFault.p;
  if (problems.length === 0 && total >= 1)
    problems.push({
      file,
      path: 'noFault.p',
      kind: 'population-shares',
      wrong: `cards with no fault (${noFault.p}) and with several (${moreThanOneFault.p}) leave none with exactly one`,
      todo: 'The two shares must add up to less than 1.',
    });
  return problems;
}

function openShare(file: string, p: number, path = 'share.p'): Problem[] {
  if (p > 0 && p < 1) return [];
  return [
    {
      file,
      path,
      kind: 'certain-share',
      wrong: `a share of ${p} cannot be moved by any evidence`,
      todo: 'Give a share above 0 and below 1, however small.',
    },
  ];
}
