/** The timeline's observations, folded to at most one piece of evidence per finding and segment. */
import type { Finding, Id, Window } from '../knowledge/schema.ts';
import type { Event, Measured, Seen } from '../record/schema.ts';
import { changesTheCard } from '../record/spans.ts';
import type { Shop } from '../shop/schema.ts';
import type { FindingEvidence, GradedReading, RecordIssue, Segment, SetAside } from './evidence.ts';
import { gradeReading } from './grade.ts';
import { parseQuantity, type Quantity } from './quantity.ts';
import { refuse } from './refusals.ts';

/**
 * How far an owner's word for a state is taken: this much on what was said, the rest spread evenly over the other
 * states. Basis: estimate, from memory of how often a bench reproduces what the slip of paper says; closed records of
 * the shop replace it.
 */
export const OWNER_RELIABILITY = 0.8;

/** The window of a finding's readings; a sentence where there is none. */
export type WindowFor = (finding: Id) => Window | string;

/** What a fold needs to know about the findings. */
export interface Bench {
  readonly findings: readonly Finding[];
  readonly windowFor: WindowFor;
  /** what the finding's readings are in, whichever window applies; undefined where it is not read as a number */
  readonly quantityOf: (finding: Id) => Quantity | undefined;
  /** why the finding does not concern this card; undefined where it does or may */
  readonly notHere: (finding: Id) => string | undefined;
  readonly shop: Shop;
}

export interface Folded {
  readonly segments: readonly Segment[];
  readonly setAside: readonly SetAside[];
  readonly issues: readonly RecordIssue[];
}

interface Observation {
  readonly event: Seen | Measured;
  readonly path: string;
}

/** What one observation says by itself: nothing where it cannot be told or used. */
interface Said {
  readonly by: 'bench' | 'owner';
  readonly weights: readonly number[] | undefined;
  readonly reading?: GradedReading;
  /** at a hold point of work: what fails there is put right before it is looked at again */
  readonly inWork: boolean;
}

/**
 * Splits the timeline where the card's condition changes (treatments, the first return from service after each) and settles each part by itself.
 *
 * In a segment the last observation of a finding stands. What the bench saw stands against what the owner said,
 * whichever came later; where the bench could not tell, the owner's word is kept. An earlier answer of the bench that
 * differed is named in `contradicts`, unless both were given at hold points of the work: there hands were at it in between. Observations of different findings do not touch each other, so that their order
 * does not matter.
 */
export function foldObservations(timeline: readonly Event[], bench: Bench): Folded {
  const setAside: SetAside[] = [];
  const issues: RecordIssue[] = [];
  const segments = split(timeline).map(({ observations, endedBy }): Segment => {
    const byFinding = Map.groupBy(observations, ({ event }) => event.finding);
    const findings = bench.findings.flatMap((finding) => {
      const said = (byFinding.get(finding.id) ?? []).map((observation) =>
        say(observation, finding, bench, setAside, issues),
      );
      return settle(finding, said) ?? [];
    });
    return endedBy ? { findings, endedBy } : { findings };
  });
  return { segments, setAside, issues };
}

/** Scales weights so that the largest is 1: what evidence means does not depend on its scale. All zero stays zero. */
export function scaled(weights: readonly number[]): number[] {
  const most = Math.max(...weights);
  return most > 0 ? weights.map((weight) => weight / most) : [...weights];
}

/** The state with most weight; of equals the more normal one. */
export function mostSupported(weights: readonly number[], finding: Finding): Id {
  const index = weights.indexOf(Math.max(...weights));
  return finding.states[index]?.id ?? finding.states[0]!.id;
}

type Ending = NonNullable<Segment['endedBy']>;

function split(timeline: readonly Event[]): { observations: Observation[]; endedBy?: Ending }[] {
  const segments: { observations: Observation[]; endedBy?: Ending }[] = [{ observations: [] }];
  for (const [index, event] of timeline.entries()) {
    const segment = segments.at(-1)!;
    if (changesTheCard(timeline, index)) {
      segment.endedBy = event as Ending;
      segments.push({ observations: [] });
    } else if (event.type === 'seen' || event.type === 'measured') {
      segment.observations.push({ event, path: `timeline.${index}` });
    }
  }
  return segments;
}

function say(
  { event, path }: Observation,
  finding: Finding,
  bench: Bench,
  setAside: SetAside[],
  issues: RecordIssue[],
): Said {
  const by = event.type === 'measured' ? 'bench' : event.by;
  const inWork = event.step !== undefined;
  const notHere = bench.notHere(finding.id);
  if (notHere !== undefined) {
    setAside.push({ finding: finding.id, path, because: notHere });
    return { by, inWork, weights: undefined };
  }
  if (event.type === 'seen') return { by, inWork, weights: seenWeights(event, finding) };

  const window = bench.windowFor(finding.id);
  if (typeof window === 'string') {
    const unread = readableAtLeast(event, path, bench.quantityOf(finding.id), finding);
    if (unread) issues.push(unread);
    else setAside.push({ finding: finding.id, path, because: window });
    return { by, inWork, weights: undefined };
  }
  const graded = gradeReading(event, window, finding, bench.shop);
  if (graded.kind === 'graded') return { by, inWork, weights: graded.weights, reading: graded.reading };
  const { field, wrong, todo, told, typed } = graded;
  issues.push({ path: `${path}.${field}`, wrong, todo, told, typed });
  return { by, inWork, weights: undefined };
}

/** A reading that no window can judge yet must still be a reading. */
function readableAtLeast(
  { typed }: Measured,
  path: string,
  quantity: Quantity | undefined,
  finding: Finding,
): RecordIssue | undefined {
  if (!quantity) {
    return {
      path: `${path}.finding`,
      ...refuse('not-read', { name: finding.name, states: finding.states.map(({ id }) => id).join(', ') }),
      typed,
    };
  }
  const parsed = parseQuantity(typed, quantity);
  if (parsed.kind !== 'error') return undefined;
  return { path: `${path}.typed`, wrong: parsed.wrong, todo: parsed.todo, told: parsed.told, typed };
}

function seenWeights({ state, weights, by }: Seen, finding: Finding): number[] | undefined {
  if (!weights && state === null) return undefined;
  const stated = finding.states.map(({ id }) => (weights ? (weights[id] ?? 0) : id === state ? 1 : 0));
  return scaled(by === 'owner' ? soften(stated) : stated);
}

function soften(stated: readonly number[]): number[] {
  const total = stated.reduce((sum, weight) => sum + weight, 0);
  const elsewhere = (1 - OWNER_RELIABILITY) / (stated.length - 1);
  return stated.map((weight) => {
    const share = weight / total;
    return OWNER_RELIABILITY * share + elsewhere * (1 - share);
  });
}

function settle(finding: Finding, said: readonly Said[]): FindingEvidence | undefined {
  const bench = said.filter(({ by }) => by === 'bench');
  const last = bench.at(-1);
  if (last?.weights) {
    const state = mostSupported(last.weights, finding);
    const before = bench.findLast(
      ({ weights, inWork }) => weights && !(inWork && last.inWork) && mostSupported(weights, finding) !== state,
    );
    return {
      finding: finding.id,
      weights: last.weights,
      origin: last.reading ? 'measured' : 'seen',
      state,
      ...(last.reading ? { reading: last.reading } : {}),
      rules: [],
      ...(before?.weights ? { contradicts: mostSupported(before.weights, finding) } : {}),
    };
  }
  const owner = said.findLast(({ by }) => by === 'owner');
  if (!owner?.weights) return undefined;
  return {
    finding: finding.id,
    weights: owner.weights,
    origin: 'owner',
    state: mostSupported(owner.weights, finding),
    rules: [],
  };
}
