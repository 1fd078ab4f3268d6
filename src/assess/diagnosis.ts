/** Evidence -> belief -> ranked causes with their reasons. */
import type { Assessed, EvidenceItem, RankedFault } from '../assessment.ts';
import { type Belief, chanceNoneOf, groupChances, marginals, topConditions } from '../belief/belief.ts';
import { type Explanation, explain } from '../belief/explain.ts';
import type { Evidence } from '../belief/network.ts';
import { posterior } from '../belief/observe.ts';
import { priorShape } from '../belief/prior.ts';
import type { FindingEvidence, Gathered } from '../evidence/evidence.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { Finding, Id } from '../knowledge/schema.ts';
import { SITES } from '../knowledge/vocabulary.ts';
import type { Record as CardRecord } from '../record/schema.ts';
import { beliefNow, explainLife, type Life, liveThrough } from './life.ts';
import { type StartingBelief, startingBelief } from './starting-belief.ts';

export interface Diagnosis {
  readonly kind: 'diagnosis';
  readonly gathered: Gathered;
  readonly starting: StartingBelief;
  readonly evidence: readonly Evidence[];
  readonly most: number;
  readonly prior: Belief;
  readonly belief: Belief;
  readonly logChance: number;
  readonly chances: Float64Array;
  readonly before: Float64Array;
  /** 1 where the fault is not one of the card */
  readonly host: Uint8Array;
  readonly sound: number;
  /** chance of each fault by what was known on arrival; the same as `chances` for a card that was not worked on */
  readonly onArrival: Float64Array;
  /** what happened since it arrived, where work was done */
  readonly life: Life | null;
}

export interface Contradicted {
  readonly kind: 'contradiction';
  /** null: not one finding but an event excludes what went before; `sentence` says which */
  readonly finding: Id | null;
  readonly against: readonly Id[];
  readonly sentence?: string;
}

const CONDITIONS_SHOWN = 12;
/** causes below this are not listed one by one */
const LEAST_CHANCE_LISTED = 0.001;

export function diagnose(
  knowledge: Knowledge,
  gathered: Gathered,
  record: Pick<CardRecord, 'timeline'>,
  most: number,
): Diagnosis | Contradicted {
  const { network } = knowledge;
  const starting = startingBelief(knowledge, gathered, most);
  const index = new Map(network.findings.map((node, at) => [node.id, at]));
  const evidence = gathered.findings.map((item) => ({
    finding: index.get(item.finding)!,
    weights: Float64Array.from(item.weights),
  }));
  const observed = posterior(network, starting.odds, evidence, most, undefined, starting.empty);
  if (observed.kind === 'contradiction') {
    const name = (at: number) => network.findings[at]!.id;
    return { kind: 'contradiction', finding: name(observed.finding), against: observed.against.map(name) };
  }
  const unconditional = posterior(network, starting.odds, [], most, undefined, starting.empty);
  if (unconditional.kind === 'contradiction') throw new Error('a belief without evidence cannot contradict itself');
  const host = Uint8Array.from(knowledge.faults, (fault) => (fault.site === 'host' ? 1 : 0));
  const card = host.map((flag) => 1 - flag);
  const life = liveThrough(knowledge, gathered, record, observed.belief, observed.logChance);
  if (life?.kind === 'life-contradiction')
    return { kind: 'contradiction', finding: null, against: [], sentence: life.sentence };
  const onArrival = marginals(observed.belief);
  const belief = life ? beliefNow(life.fold, knowledge.faults.length) : observed.belief;
  return {
    kind: 'diagnosis',
    gathered,
    starting,
    evidence: life ? life.evidence : evidence,
    most,
    prior: unconditional.belief,
    belief,
    logChance: life ? life.fold.logChance : observed.logChance,
    chances: life ? marginals(belief) : onArrival,
    before: marginals(unconditional.belief),
    host,
    sound: chanceNoneOf(belief, card),
    onArrival,
    life,
  };
}

/** Everything recorded, in words: what was found, where it came from, how a reading was graded. */
export function evidenceItems(knowledge: Knowledge, findings: readonly FindingEvidence[]): EvidenceItem[] {
  const known = new Map(knowledge.findings.map((finding) => [finding.id, finding]));
  const windows = new Map(knowledge.windows.map((window) => [window.id, window]));
  return findings.map((item) => {
    const finding = known.get(item.finding)!;
    const reading = item.reading;
    return {
      finding: item.finding,
      name: finding.name,
      origin: item.origin,
      state: item.state,
      stateName: stateName(finding, item.state),
      states: finding.states.map((state) => state.id),
      weights: [...item.weights],
      ...(item.contradicts === undefined ? {} : { contradicts: item.contradicts }),
      ...(reading === undefined
        ? {}
        : {
            reading: {
              typed: reading.typed,
              value: Number.isFinite(reading.value) ? reading.value : null,
              uncertainty: Number.isFinite(reading.uncertainty) ? reading.uncertainty : null,
              unit: reading.unit,
              window: reading.window,
              windowName: windows.get(reading.window)?.name ?? reading.window,
              edges: [...reading.edges],
              bands: [...reading.bands],
              recentred: reading.recentred,
            },
          }),
    };
  });
}

export function stateName(finding: Finding, state: Id): string {
  return finding.states.find((known) => known.id === state)?.name ?? state;
}

export type RankedChance = Omit<RankedFault, 'evidence'>;

/** Causes worth a line, likeliest first. */
export function rankedChances(knowledge: Knowledge, { chances, before }: Diagnosis): RankedChance[] {
  return knowledge.faults
    .map((fault, at) => ({ fault, at }))
    .filter(({ at }) => chances[at]! >= LEAST_CHANCE_LISTED)
    .sort((a, b) => chances[b.at]! - chances[a.at]! || a.at - b.at)
    .map(({ fault, at }) => ({
      fault: fault.id,
      site: fault.site,
      name: fault.name,
      owner: fault.owner,
      chance: Math.min(1, chances[at]!),
      before: Math.min(1, before[at]!),
    }));
}

export function rank(knowledge: Knowledge, diagnosis: Diagnosis, explained: Explanation): RankedFault[] {
  const findings = new Map(knowledge.findings.map((finding) => [finding.id, finding]));
  const faultAt = new Map(knowledge.faults.map((fault, at) => [fault.id, at]));
  const recorded = diagnosis.gathered.present;
  return rankedChances(knowledge, diagnosis).map((cause) => ({
    ...cause,
    evidence: recorded
      .map((item, j) => {
        const finding = findings.get(item.finding)!;
        return {
          finding: item.finding,
          name: finding.name,
          state: item.state,
          stateName: stateName(finding, item.state),
          decibels: finite(explained.decibels[j]![faultAt.get(cause.fault)!]!),
        };
      })
      .sort((a, b) => Math.abs(b.decibels) - Math.abs(a.decibels)),
  }));
}

export function siteChances(knowledge: Knowledge, { belief }: Diagnosis): Assessed['sites'] {
  const siteOf = knowledge.faults.map((fault) => SITES.indexOf(fault.site));
  const bySite = groupChances(belief, siteOf, SITES.length);
  return SITES.map((site, at) => ({ site, chance: Math.min(1, bySite[at]!) }));
}

/** JSON has no infinity; evidence that settles a matter is shown at the edge of what a double can hold. */
const SETTLED_DECIBELS = 3000;
function finite(decibels: number): number {
  return Math.max(-SETTLED_DECIBELS, Math.min(SETTLED_DECIBELS, decibels));
}

/** The parts of an assessment that the belief alone decides. */
export function diagnosisView(
  knowledge: Knowledge,
  diagnosis: Diagnosis,
): Pick<Assessed, 'evidence' | 'strain' | 'prior' | 'chanceOfEvidence' | 'ranking' | 'sites' | 'sound' | 'conditions'> {
  const { network } = knowledge;
  const { starting, life } = diagnosis;
  const explained = life
    ? explainLife(life)
    : explain(network, starting.odds, diagnosis.evidence, diagnosis.most, starting.empty);
  const recorded = diagnosis.gathered.present;
  const names = new Map(knowledge.findings.map((finding) => [finding.id, finding.name]));
  const shape = priorShape(diagnosis.starting.odds, diagnosis.most, diagnosis.starting.empty);
  return {
    evidence: evidenceItems(knowledge, recorded),
    strain: {
      bits: finite(explained.conflict),
      against: recorded
        .map((item, j) => ({
          finding: item.finding,
          name: names.get(item.finding) ?? item.finding,
          bits: finite(explained.conflictOf[j]!),
        }))
        .filter((item) => item.bits > 0)
        .sort((a, b) => b.bits - a.bits),
    },
    prior: {
      kappa: diagnosis.starting.kappa,
      empty: diagnosis.starting.empty,
      maxFaults: diagnosis.most,
      conditions: diagnosis.belief.conditions.count,
      excluded: shape.excluded,
      none: shape.none,
      several: shape.several,
    },
    chanceOfEvidence: Math.exp(diagnosis.logChance),
    ranking: rank(knowledge, diagnosis, explained),
    sites: siteChances(knowledge, diagnosis),
    sound: Math.min(1, diagnosis.sound),
    conditions: topConditions(diagnosis.belief, CONDITIONS_SHOWN).map(({ active, chance }) => ({
      faults: active.map((fault) => network.faults[fault]!),
      chance: Math.min(1, chance),
    })),
  };
}
