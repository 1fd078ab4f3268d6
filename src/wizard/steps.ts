/** Which question is asked at which step, in which order, and how far a step has come. */
import type { FactDefinition } from '../knowledge/schema.ts';
import type { Record } from '../record/schema.ts';
import type { Catalogue, CheckView, FindingView } from './catalogue.ts';
import { factAnswer, findingAnswer, type Witness } from './desk.ts';
import { isRail } from './rails.ts';

export const STEPS = ['card', 'history', 'symptoms', 'looks', 'readings', 'tests', 'next', 'verdict', 'owner'] as const;
/** Steps of a card that is to be worked on, or was. */
export const OF_WORK = ['work', 'came-back'] as const;
export type StepId = (typeof STEPS)[number] | (typeof OF_WORK)[number];

export const isStep = (word: string | undefined): word is StepId =>
  [...STEPS, ...OF_WORK].some((step) => step === word);

const IN_ORDER: readonly StepId[] = STEPS;

/** `work`: there is work to do, or some was done */
export function stepsOf(
  { timeline }: Pick<Record, 'timeline'>,
  { work }: { readonly work: boolean },
): readonly StepId[] {
  const treated = timeline.some(({ type }) => type === 'treated');
  return [...STEPS, ...OF_WORK.filter((step) => (step === 'work' ? work : treated))];
}

export function stepAfter(step: StepId): StepId | null {
  const at = IN_ORDER.indexOf(step);
  return at < 0 ? null : (STEPS[at + 1] ?? null);
}

export function stepBefore(step: StepId): StepId | null {
  const at = IN_ORDER.indexOf(step);
  return at < 0 ? null : (STEPS[at - 1] ?? null);
}

export type Question =
  | { readonly kind: 'fact'; readonly key: string; readonly fact: FactDefinition }
  | { readonly kind: 'finding'; readonly key: string; readonly finding: FindingView; readonly witness: Witness };

/** Findings an owner can report without a bench; the rest of what owners say are facts. */
const OWNER_TELLS: readonly string[] = ['start-up', 'onset'];

/** Questions under one procedure, or under none. */
export interface Section {
  readonly check: CheckView | null;
  readonly questions: readonly Question[];
}

export const findingKey = (finding: string, witness: Witness = 'bench'): string =>
  witness === 'owner' ? `owner-${finding}` : `bench-${finding}`;
export const factKey = (fact: string): string => `fact-${fact}`;

const askFact = (fact: FactDefinition): Question => ({ kind: 'fact', key: factKey(fact.id), fact });
const askFinding = (finding: FindingView, witness: Witness): Question => {
  return { kind: 'finding', key: findingKey(finding.id, witness), finding, witness };
};

/** The step at which the bench records this finding. */
export function stepOf(finding: FindingView): StepId {
  if (finding.group === 'looks') return 'looks';
  return finding.group === 'rails' || isRail(finding) ? 'readings' : 'tests';
}

/** Findings that concern the card as its assessment says; null: it has not said yet, and every one is asked. */
export type Applicable = ReadonlySet<string> | null;

/** A finding that does not concern this card is not asked, unless it has been answered. */
function isAsked(finding: FindingView, record: Record, applicable: Applicable): boolean {
  if (applicable === null || applicable.has(finding.id)) return true;
  return findingAnswer(record, finding.id, 'bench') !== undefined;
}

export function sectionsOf(
  step: StepId,
  catalogue: Catalogue,
  record: Record,
  applicable: Applicable = null,
): readonly Section[] {
  const facts = catalogue.facts.filter((fact) => fact.step === step).map(askFact);
  const asked = catalogue.findings.filter((finding) => isAsked(finding, record, applicable));
  const owner = step === 'symptoms' ? asked.filter(({ id }) => OWNER_TELLS.includes(id)) : [];
  const loose: Section = {
    check: null,
    questions: [...facts, ...owner.map((finding) => askFinding(finding, 'owner'))],
  };
  const bench = asked.filter((finding) => stepOf(finding) === step);
  return [loose, ...byCheck(bench, catalogue)].filter(({ questions }) => questions.length > 0);
}

/** The order of the bench: unpowered before powered, resistance before voltage before image, the bought-in and the special last. */
export const BENCH_ORDER: readonly string[] = [
  'visual-inspection',
  'cooler-off',
  'profile-review',
  'ball-grid-inspection',
  'pads-inspection',
  'rail-resistances',
  'resistance-against-before',
  'rails-on-limited-supply',
  'regulator-feed',
  'idle-current',
  'injection',
  'stage-off',
  'host-swap',
  'boot-test',
  'display-outputs',
  'link-check',
  'firmware-compare',
  'memory-test',
  'memory-chip-swap',
  'load-test',
  'warm-cold-test',
  'scope-signals',
  'pressure-test',
  'x-ray',
];

function inBenchOrder(checks: readonly CheckView[]): readonly CheckView[] {
  const rank = ({ id }: CheckView) => (BENCH_ORDER.includes(id) ? BENCH_ORDER.indexOf(id) : BENCH_ORDER.length);
  return checks.toSorted((a, b) => rank(a) - rank(b));
}

/**
 * Each finding under one check: the one that is done for the fewest others besides, so that a boot test is not looked for under
 * the known-good host that shows the same by the way.
 */
function byCheck(findings: readonly FindingView[], catalogue: Catalogue): readonly Section[] {
  const checks = inBenchOrder(catalogue.checks);
  const home = (finding: FindingView): CheckView | null =>
    checks
      .filter(({ yields }) => yields.includes(finding.id))
      .reduce<CheckView | null>(
        (best, check) => (best && best.yields.length <= check.yields.length ? best : check),
        null,
      );
  const byHome = Map.groupBy(findings, home);
  return [...checks, null].map((check) => ({
    check,
    questions: (byHome.get(check) ?? []).map((finding) => askFinding(finding, 'bench')),
  }));
}

export function isAnswered(record: Record, question: Question): boolean {
  return question.kind === 'fact'
    ? factAnswer(record, question.fact.id) !== undefined
    : findingAnswer(record, question.finding.id, question.witness) !== undefined;
}

export interface Progress {
  readonly answered: number;
  readonly asked: number;
}

export function progressOf(sections: readonly Section[], record: Record): Progress {
  const questions = sections.flatMap((section) => section.questions);
  return { answered: questions.filter((question) => isAnswered(record, question)).length, asked: questions.length };
}

/** Where the result of a check is written down: its first unanswered question, else its first. */
export function placeOfCheck(
  check: CheckView,
  catalogue: Catalogue,
  record: Record,
  applicable: Applicable = null,
): { readonly step: StepId; readonly key: string } | null {
  const findings = check.yields
    .map((id) => catalogue.findings.find((finding) => finding.id === id))
    .filter((finding) => finding !== undefined)
    .filter((finding) => isAsked(finding, record, applicable));
  const open = findings.find((finding) => findingAnswer(record, finding.id, 'bench') === undefined);
  const first = open ?? findings[0];
  return first === undefined ? null : { step: stepOf(first), key: findingKey(first.id) };
}
