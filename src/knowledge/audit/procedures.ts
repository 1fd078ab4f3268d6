/** Every remedy is carried out in an order that stops where it must, and never powers what has not been measured. */
import { findAlloy } from '../../joints/alloys.ts';
import type { Problem } from '../knowledge.ts';
import { AS_FOUND, type HoldPoint, type Procedure } from '../schema.ts';
import type { AuditContext, Parsed } from './context.ts';
import { didYouMean, parsed } from './context.ts';

const RESISTANCES = 'rail-resistances';
const SHORT = 'short';
const PLACE_OF_A_FIGURE = /\{([^}]*)\}/g;

export function auditProcedures(context: AuditContext): Problem[] {
  const points = new Map(parsed(context.draft['hold-points']).map((point) => [point.value.id, point]));
  const procedures = parsed(context.draft.procedures);
  return [
    ...procedures.flatMap((procedure) => [
      ...inOrder(procedure, points),
      ...withJoints(context, procedure, points),
      ...powered(procedure, points),
    ]),
    ...[...points.values()].flatMap((point) => [...figured(point), ...foundByItsCheck(context, point)]),
    ...(context.complete('remedies', 'procedures') ? withoutProcedure(context) : []),
    ...(context.complete('procedures', 'hold-points', 'packages') ? neverUsed(context) : []),
  ];
}

function withoutProcedure({ ids, draft }: AuditContext): Problem[] {
  return parsed(draft.remedies)
    .filter(({ value }) => !ids.procedures!.has(value.id))
    .map(({ file, value }) => ({
      file,
      path: '',
      kind: 'no-procedure',
      wrong: `nothing says how "${value.id}" is carried out`,
      todo: `Add procedures/${value.id}.json with its hold points in order.`,
    }));
}

function inOrder({ file, value }: Parsed<Procedure>, points: ReadonlyMap<string, Parsed<HoldPoint>>): Problem[] {
  return value.holdPoints.flatMap((id, i): Problem[] => {
    const path = `holdPoints[${i}]`;
    if (value.holdPoints.indexOf(id) !== i)
      return [
        {
          file,
          path,
          kind: 'repeated-hold-point',
          wrong: `"${id}" stands in this procedure twice`,
          todo: 'Take one out: a hold point that is repeated could not be told from the first.',
        },
      ];
    const back = points.get(id)?.value.ifItFails;
    if (back?.to === undefined || value.holdPoints.slice(0, i).includes(back.to)) return [];
    return [
      {
        file,
        path,
        kind: 'back-to-nowhere',
        wrong: `where "${id}" fails it leads back to "${back.to}", which does not stand before it here`,
        todo: `Put "${back.to}" before it, or use another hold point.`,
      },
    ];
  });
}

/** Heat to melting needs the solder that melts, the package that is heated, and the count of what it takes. */
function withJoints(
  { draft }: AuditContext,
  { file, value }: Parsed<Procedure>,
  points: ReadonlyMap<string, Parsed<HoldPoint>>,
): Problem[] {
  const problems: Problem[] = [];
  const { solder } = value;
  if (solder !== undefined && solder !== AS_FOUND && findAlloy(solder) === undefined)
    problems.push({
      file,
      path: 'solder',
      kind: 'unknown-alloy',
      wrong: `no alloy is called "${solder}"`,
      todo: `Name one of the table in src/joints/alloys.ts, or "${AS_FOUND}".`,
    });
  const heated = parsed(draft.remedies).some((remedy) => remedy.value.id === value.id && remedy.value.heatCycles > 0);
  const melted = value.holdPoints.some((id) => points.get(id)?.value.profile);
  for (const field of ['solder', 'package', 'heat'] as const)
    if ((heated || melted) && value[field] === undefined)
      problems.push({
        file,
        path: field,
        kind: 'heat-unaccounted',
        wrong: `this work heats a package to melting and does not give its ${field}`,
        todo: 'Give solder, package and heat: bake, heat budget and profile targets follow from them.',
      });
  return problems;
}

/** Resistance before voltage before image. */
function powered({ file, value }: Parsed<Procedure>, points: ReadonlyMap<string, Parsed<HoldPoint>>): Problem[] {
  const problems: Problem[] = [];
  let measured = false;
  let limited = false;
  value.holdPoints.forEach((id, i) => {
    const point = points.get(id)?.value;
    if (!point) return;
    if (point.check === RESISTANCES) measured = true;
    const lacks =
      point.power !== undefined && !measured
        ? 'the rails are measured to ground'
        : point.power === 'full' && !limited
          ? 'it was powered from a limited supply'
          : null;
    if (point.power === 'limited') limited = true;
    if (lacks !== null)
      problems.push({
        file,
        path: `holdPoints[${i}]`,
        kind: 'order-of-safety',
        wrong: `"${id}" powers the card before ${lacks}`,
        todo: 'Resistance before voltage before image: put those hold points first.',
      });
  });
  return problems;
}

/** Numbers stand under `figures`, where they have a basis; the words refer to them. */
function figured({ file, value }: Parsed<HoldPoint>): Problem[] {
  const problems: Problem[] = [];
  const figures = new Set(Object.keys(value.figures ?? {}));
  const used = new Set<string>();
  for (const [path, words] of wordsOf(value)) {
    for (const [, id] of words.matchAll(PLACE_OF_A_FIGURE)) {
      used.add(id!);
      if (figures.has(id!)) continue;
      problems.push({
        file,
        path,
        kind: 'unknown-figure',
        wrong: `the words ask for the figure "${id}", and there is none`,
        todo: `${didYouMean(id!, figures)}Add it under figures with its basis.`,
      });
    }
    const bare = /\d+/.exec(words.replace(PLACE_OF_A_FIGURE, ''));
    if (bare)
      problems.push({
        file,
        path,
        kind: 'bare-number',
        wrong: `"${bare[0]}" stands in the words without a basis`,
        todo: 'Put it under figures with its basis and write {its-id} here.',
      });
  }
  for (const id of figures)
    if (!used.has(id))
      problems.push({
        file,
        path: `figures.${id}`,
        kind: 'unused-figure',
        wrong: `no word uses the figure "${id}"`,
        todo: `Write {${id}} where it belongs, or delete it.`,
      });
  for (const [id, { from, to }] of Object.entries(value.figures ?? {}))
    if (to !== undefined && to <= from)
      problems.push({
        file,
        path: `figures.${id}.to`,
        kind: 'falling-range',
        wrong: `the range runs from ${from} to ${to}`,
        todo: 'Give the higher one last, or one figure.',
      });
  return problems;
}

function wordsOf(point: HoldPoint): (readonly [path: string, words: string])[] {
  const listed = (path: string, list: readonly string[]) => list.map((words, i) => [`${path}[${i}]`, words] as const);
  return [
    ['name', point.name],
    ...listed('howTo', point.howTo),
    ['passes', point.passes],
    ...listed('record', point.record),
    ['ifItFails.say', point.ifItFails.say],
    ...(point.why ? [['why.text', point.why.text] as const] : []),
    ...(point.mayBeLeftOut === undefined ? [] : [['mayBeLeftOut', point.mayBeLeftOut] as const]),
  ];
}

function foundByItsCheck(context: AuditContext, { file, value }: Parsed<HoldPoint>): Problem[] {
  const problems: Problem[] = [];
  const check = parsed(context.draft.checks).find((one) => one.value.id === value.check)?.value;
  (value.finds ?? []).forEach(({ finding, passes }, i) => {
    if (check && !check.yields.includes(finding))
      problems.push({
        file,
        path: `finds[${i}].finding`,
        kind: 'not-yielded',
        wrong: `the check "${check.id}" does not yield "${finding}"`,
        todo: `It yields ${check.yields.join(', ')}.`,
      });
    if (passes.includes(SHORT))
      problems.push({
        file,
        path: `finds[${i}].passes`,
        kind: 'short-passes',
        wrong: `a short of "${finding}" lets the work go on`,
        todo: 'Take short out of the states with which it may go on.',
      });
  });
  if (check?.powers && value.power === undefined)
    problems.push({
      file,
      path: 'power',
      kind: 'power-unsaid',
      wrong: `the check "${check.id}" powers the card, and the hold point does not say so`,
      todo: 'Say "limited" or "full": the order of safety hangs on it.',
    });
  if ((value.ifItFails.leads === 'back') !== (value.ifItFails.to !== undefined))
    problems.push({
      file,
      path: 'ifItFails.to',
      kind: 'back-to-nowhere',
      wrong: 'leading back and the hold point it leads back to belong together, and one is missing',
      todo: 'Give "leads": "back" with "to", or neither.',
    });
  return problems;
}

function neverUsed({ draft }: AuditContext): Problem[] {
  const procedures = parsed(draft.procedures).map(({ value }) => value);
  const unused = (kind: string, files: readonly Parsed<{ readonly id: string }>[], used: ReadonlySet<string>) =>
    files
      .filter(({ value }) => !used.has(value.id))
      .map(({ file, value }) => ({
        file,
        path: '',
        kind: `unused-${kind.replace(' ', '-')}`,
        wrong: `no procedure uses the ${kind} "${value.id}"`,
        todo: 'Use it, or delete it.',
      }));
  return [
    ...unused('hold point', parsed(draft['hold-points']), new Set(procedures.flatMap((one) => one.holdPoints))),
    ...unused('package', parsed(draft.packages), new Set(procedures.flatMap((one) => one.package ?? []))),
  ];
}
