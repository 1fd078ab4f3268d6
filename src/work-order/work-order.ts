/** The work order: what is done to this card, with which solder, how dry, how hot, and where the hands stop. */

import type { Assessed } from '../assessment.ts';
import { answeredFacts } from '../evidence/facts.ts';
import type { ReflowWindow } from '../joints/reflow-window.ts';
import type { Knowledge, SpokenHoldPoint } from '../knowledge/knowledge.ts';
import { say } from '../knowledge/sayings.ts';
import type { Id, Procedure, Remedy } from '../knowledge/schema.ts';
import { nearest } from '../record/nearest.ts';
import type { Record as CardRecord, PackageKnown } from '../record/schema.ts';
import type { Shop } from '../shop/schema.ts';
import { shopNameIn } from '../shop/shipped-name.ts';
import { bakeLine } from './bake-line.ts';
import { ballsLine } from './balls-line.ts';
import { heatLine } from './heat-line.ts';
import { type OpenWork, openWork } from './open-work.ts';
import { orderState } from './order-state.ts';
import { based, orderSteps } from './order-steps.ts';
import type { BakeLine, HeatLine, NoOrder, SolderLine, WorkOrder } from './schema.ts';
import { solderLine } from './solder-line.ts';
import { targetsLine } from './targets-line.ts';

export interface OrderChoices {
  /** left out: the work that has begun, else the first remedy of the verdict */
  readonly remedy?: Id | undefined;
  /** solder in place of the procedure's, by its name */
  readonly alloy?: string | undefined;
  /** what is known of the package; what the record of work that has begun knows is kept */
  readonly package?: PackageKnown | undefined;
  /** in place of the shop's window or the package class */
  readonly window?: ReflowWindow | undefined;
}

/** Shown on every order: what defers to local law and to qualified people. */
const ALWAYS: readonly Id[] = ['waste-by-local-rules', 'figures-are-estimates'];

/**
 * The order for the remedy that is chosen, has begun, or is advised, in this order of preference. Where none is, it says
 * why. Heat and solder count what lies before the work; an order that has begun is made with what its record states, so
 * that it stays the same while it is worked off. Pure; cost: the timeline.
 */
export function workOrder(
  knowledge: Knowledge,
  shop: Shop,
  record: CardRecord,
  assessed: Assessed,
  choices: OrderChoices = {},
): WorkOrder | NoOrder {
  const begun = openWork(record);
  const chosen = chooseRemedy(knowledge, assessed, begun, choices.remedy);
  if (chosen.kind === 'no-order') return chosen;
  const { remedy, procedure } = chosen;
  const here = begun?.event.remedy === remedy.id ? begun : null;
  const earlier = here ? record.timeline.slice(0, here.index) : record.timeline;
  const facts = answeredFacts(earlier);
  const known: PackageKnown = { ...here?.process.package, ...choices.package };
  const usual = solderLine(knowledge, procedure, earlier, facts, choices.alloy);
  const used = choices.alloy ?? here?.process.alloy;
  const solder =
    usual.ok && usual.line?.alloy !== used && used !== undefined
      ? solderLine(knowledge, procedure, earlier, facts, used)
      : usual;
  if (!solder.ok) return { kind: 'no-order', format: 1, because: solder.wrong, todo: solder.todo };
  const bake = bakeLine(
    knowledge,
    knowledge.packages.find(({ id }) => id === procedure.package),
    known,
    facts,
  );
  const heat = heatLine(knowledge, remedy, procedure, earlier, facts);
  const recorded = here?.process.steps ?? [];
  const baked = bake.kind === 'bake' || bake.kind === 'look-up';
  const points = pointsOf(knowledge, procedure).filter(
    ({ id, onlyWhereBaked }) => !onlyWhereBaked || baked || recorded.some(({ step }) => step === id),
  );
  const steps = orderSteps(knowledge, points, new Set(assessed.applicable));
  const advised = assessed.verdict.justified && stepsOf(assessed)[0] === remedy.id;
  const equipment = remedy.equipment.map((id) => ({
    id,
    name: knowledge.bench.equipment.find((one) => one.id === id)?.name ?? id,
    here: shop.equipment.includes(id),
  }));
  const nameOf = (id: Id) => knowledge.remedies.find((one) => one.id === id)?.name ?? id;
  const notes = (procedure.notes ?? []).map((note) => based(knowledge, note.text, note));
  return {
    kind: 'order',
    format: 1,
    knowledge: knowledge.version,
    language: knowledge.language ?? 'en',
    record: record.id,
    title: record.title,
    invented: record.invented ?? false,
    shop: shopNameIn(knowledge.language ?? 'en', shop.name),
    remedy: remedy.id,
    name: remedy.name,
    otherWork:
      begun?.touched && here === null ? { remedy: begun.event.remedy, name: nameOf(begun.event.remedy) } : null,
    advised,
    warnings: warningsOf(knowledge, assessed, remedy, here, advised, equipment, heat),
    minutes: { low: remedy.minutes.low, likely: remedy.minutes.likely, high: remedy.minutes.high },
    equipment,
    parts: remedy.parts.map((id) => ({ id, name: knowledge.bench.parts.find((one) => one.id === id)?.name ?? id })),
    solder: solder.line,
    balls: ballsLine(knowledge, procedure, record, solder.line),
    bake,
    heat,
    targets: targetsLine(knowledge, shop, solder.line, known, choices.window),
    notes,
    steps,
    cautions: cautionsOf(knowledge, remedy, points, bake, solder.line),
    recorded: recorded.map((entry) => ({ ...entry })),
    state: orderState({ steps, language: knowledge.language ?? 'en' }, recorded),
  };
}

function stepsOf(assessed: Assessed): readonly Id[] {
  return assessed.options.find(({ id }) => id === assessed.verdict.option)?.steps ?? [];
}

type Chosen = { readonly kind: 'chosen'; readonly remedy: Remedy; readonly procedure: Procedure } | NoOrder;

function chooseRemedy(knowledge: Knowledge, assessed: Assessed, begun: OpenWork | null, asked: Id | undefined): Chosen {
  const none = (because: string, todo: string): NoOrder => ({ kind: 'no-order', format: 1, because, todo });
  const id = asked ?? begun?.event.remedy ?? stepsOf(assessed)[0];
  const remedy = knowledge.remedies.find((one) => one.id === id);
  if (!remedy && asked !== undefined) {
    const near = nearest(
      asked,
      knowledge.remedies.map((one) => one.id),
      3,
    );
    return none(
      say(knowledge, 'order-unknown-remedy', { remedy: asked }),
      say(knowledge, 'order-nearest', { remedies: near.join(', ') }),
    );
  }
  if (!remedy)
    return none(
      say(knowledge, 'order-none-advised', { verdict: assessed.verdict.name }),
      say(knowledge, 'order-choose'),
    );
  const procedure = knowledge.procedures.find((one) => one.id === remedy.id);
  if (!procedure)
    return none(
      say(knowledge, 'order-no-procedure', { remedy: remedy.name }),
      say(knowledge, 'order-add-procedure', { remedy: remedy.id }),
    );
  return { kind: 'chosen', remedy, procedure };
}

function pointsOf(knowledge: Knowledge, procedure: Procedure): SpokenHoldPoint[] {
  const byId = new Map(knowledge.holdPoints.map((point) => [point.id, point]));
  return procedure.holdPoints.flatMap((id) => byId.get(id) ?? []);
}

function warningsOf(
  knowledge: Knowledge,
  assessed: Assessed,
  remedy: Remedy,
  here: OpenWork | null,
  advised: boolean,
  equipment: WorkOrder['equipment'],
  heat: HeatLine | null,
): string[] {
  const warnings: string[] = [];
  if (here === null) {
    if (!advised)
      warnings.push(
        stepsOf(assessed)[0] === remedy.id
          ? say(knowledge, 'order-best-unjustified')
          : say(knowledge, 'order-other-work', { verdict: assessed.verdict.name }),
      );
    if (assessed.next.kind === 'check') {
      const { check } = assessed.next;
      const name = knowledge.checks.find(({ id }) => id === check)?.name ?? check;
      warnings.push(say(knowledge, 'order-check-first', { check: name }));
    }
    const waits = assessed.options.find(({ id }) => id === assessed.verdict.option)?.waitsFor ?? [];
    if (advised && waits.length > 0) warnings.push(say(knowledge, 'order-owed', { looks: waits.join(', ') }));
    for (const reason of assessed.closedRemedies.find(({ id }) => id === remedy.id)?.reasons ?? [])
      warnings.push(say(knowledge, 'order-closed', { reason }));
  }
  const missing = equipment.filter((one) => !one.here);
  if (missing.length > 0)
    warnings.push(say(knowledge, 'order-not-here', { items: missing.map(({ name }) => name).join(', ') }));
  if (heat?.beyond) warnings.push(heat.words.at(-1)!);
  return warnings;
}

function cautionsOf(
  knowledge: Knowledge,
  remedy: Remedy,
  points: readonly SpokenHoldPoint[],
  bake: BakeLine,
  solder: SolderLine | null,
): WorkOrder['cautions'] {
  const leaded = solder !== null && (solder.class === 'snpb' || solder.from === 'assumed');
  const wanted = new Set([
    ...remedy.cautions,
    ...points.flatMap(({ cautions }) => cautions),
    ...(bake.kind === 'bake' || bake.kind === 'look-up' ? ['bake-before-heat'] : []),
    ...(leaded ? ['lead-health', 'leaded-or-unknown-alloy'] : []),
    ...ALWAYS,
  ]);
  return knowledge.cautions.filter(({ id }) => wanted.has(id)).map(({ id, text }) => ({ id, text }));
}
