/** Hold points of the rules as the steps of one order: names looked up, figures put into the words. */
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { Basis, Figure, HoldPoint, Id } from '../knowledge/schema.ts';
import type { OrderStep } from './schema.ts';

/** `applicable`: findings that concern this card; others are not asked for. */
export function orderSteps(
  knowledge: Pick<Knowledge, 'checks' | 'findings' | 'windows' | 'sources'>,
  points: readonly HoldPoint[],
  applicable: ReadonlySet<Id>,
): OrderStep[] {
  return points.map((point, i) => stepOf(knowledge, point, i + 1, applicable));
}

/** Where a number or a fact comes from, in words. */
export function sayBasis(basis: Basis, sources: Knowledge['sources']): string {
  switch (basis.basis) {
    case 'standard':
    case 'published':
      return `${sources.find(({ id }) => id === basis.source)?.title ?? basis.source}, ${basis.place}`;
    case 'practice':
      return 'common practice, no source';
    case 'estimate':
      return basis.because === undefined ? 'estimate' : `estimate: ${basis.because}`;
    case 'shop':
      return `the shop's own records, ${basis.hits} of ${basis.trials} since ${basis.since}`;
  }
}

function stepOf(
  { checks, findings, windows, sources }: Pick<Knowledge, 'checks' | 'findings' | 'windows' | 'sources'>,
  point: HoldPoint,
  number: number,
  applicable: ReadonlySet<Id>,
): OrderStep {
  const figures = Object.entries(point.figures ?? {});
  const fill = (words: string) =>
    figures.reduce((text, [id, figure]) => text.replaceAll(`{${id}}`, sayFigure(figure)), words);
  const check = checks.find(({ id }) => id === point.check);
  return {
    id: point.id,
    number,
    stage: point.stage,
    name: fill(point.name),
    howTo: point.howTo.map(fill),
    passes: fill(point.passes),
    record: point.record.map(fill),
    ifItFails: { say: fill(point.ifItFails.say), leads: point.ifItFails.leads, to: point.ifItFails.to ?? null },
    why: point.why ? { text: fill(point.why.text), from: sayBasis(point.why, sources) } : null,
    figures: figures.map(([, figure]) => ({ text: sayFigure(figure), from: sayBasis(figure, sources) })),
    check: check ? { id: check.id, name: check.name } : null,
    finds: (point.finds ?? []).flatMap(({ finding, passes }) => {
      const found = findings.find(({ id }) => id === finding);
      if (!found || !applicable.has(finding)) return [];
      const states = found.states.map(({ id, name }) => ({ id, name }));
      return [
        {
          finding,
          name: found.name,
          question: found.question,
          measured: windows.some((window) => window.finding === finding),
          passes: states.filter(({ id }) => passes.includes(id)),
          fails: states.filter(({ id }) => !passes.includes(id)),
        },
      ];
    }),
    power: point.power ?? null,
    profile: point.profile ?? false,
    mayBeLeftOut: point.mayBeLeftOut === undefined ? null : fill(point.mayBeLeftOut),
    cautions: [...point.cautions],
  };
}

function sayFigure({ from, to, unit }: Figure): string {
  return `${from}${to === undefined ? '' : ` to ${to}`}${unit === '%' ? ' %' : ` ${unit}`}`;
}
