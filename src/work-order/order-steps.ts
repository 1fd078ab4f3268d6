/** Hold points of the rules as the steps of one order: names looked up, figures put into the words. */
import type { Knowledge, SpokenHoldPoint } from '../knowledge/knowledge.ts';
import { say } from '../knowledge/sayings.ts';
import type { Basis, Figure, Id } from '../knowledge/schema.ts';
import type { OrderStep } from './schema.ts';

type Spoken = Pick<Knowledge, 'sources' | 'sayings' | 'language'>;
type Needed = Spoken & Pick<Knowledge, 'checks' | 'findings' | 'windows'>;

/** `applicable`: findings that concern this card; others are not asked for. */
export function orderSteps(
  knowledge: Needed,
  points: readonly SpokenHoldPoint[],
  applicable: ReadonlySet<Id>,
): OrderStep[] {
  return points.map((point, i) => stepOf(knowledge, point, i + 1, applicable));
}

/** Where a number or a fact comes from, in words. */
export function sayBasis(knowledge: Spoken, basis: Basis): string {
  switch (basis.basis) {
    case 'standard':
    case 'published':
      return `${knowledge.sources.find(({ id }) => id === basis.source)?.title ?? basis.source}, ${basis.place}`;
    case 'practice':
      return say(knowledge, 'basis-practice');
    case 'estimate':
      return basis.because === undefined
        ? say(knowledge, 'basis-estimate')
        : say(knowledge, 'basis-estimate-because', { because: basis.because });
    case 'shop':
      return say(knowledge, 'basis-shop', { hits: basis.hits, trials: basis.trials, since: basis.since });
  }
}

/** Words with where they come from. */
export function based(knowledge: Spoken, text: string, basis: Basis): OrderStep['figures'][number] {
  return { text: text, from: sayBasis(knowledge, basis), basis: basis.basis };
}

function stepOf(knowledge: Needed, point: SpokenHoldPoint, number: number, applicable: ReadonlySet<Id>): OrderStep {
  const { checks, findings, windows } = knowledge;
  const figures = Object.entries(point.figures ?? {});
  const fill = (words: string) =>
    figures.reduce((text, [id, figure]) => text.replaceAll(`{${id}}`, sayFigure(knowledge, figure)), words);
  const check = checks.find(({ id }) => id === point.check);
  return {
    id: point.id,
    number,
    stage: point.stage,
    name: fill(point.name),
    howTo: point.howTo.map(fill),
    passes: fill(point.passes),
    record: point.record.map(fill),
    recordAs: [...(point.recordAs ?? point.record)],
    ifItFails: { say: fill(point.ifItFails.say), leads: point.ifItFails.leads, to: point.ifItFails.to ?? null },
    why: point.why ? based(knowledge, fill(point.why.text), point.why) : null,
    figures: figures.map(([, figure]) => based(knowledge, sayFigure(knowledge, figure), figure)),
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

function sayFigure(knowledge: Spoken, { from, to, unit }: Figure): string {
  const number = numberIn(knowledge);
  return to === undefined
    ? `${number(from)} ${unit}`
    : say(knowledge, 'figure-range', { from: number(from), to: number(to), unit });
}

/** Numbers as that language writes them, none of their digits lost. */
export function numberIn({ language }: Pick<Knowledge, 'language'>): (value: number) => string {
  const format = new Intl.NumberFormat(language ?? 'en', { useGrouping: false, maximumFractionDigits: 10 });
  return (value) => format.format(value);
}
