/** The belief after every event of a card's life: the assessment's own fold, over each beginning of the timeline. */
import type { EvidenceItem } from '../assessment.ts';
import { membersOf } from '../belief/conditions.ts';
import { gatherEvidence } from '../evidence/gather.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { say } from '../knowledge/sayings.ts';
import type { Id } from '../knowledge/schema.ts';
import type { LifelineAnswer, LifelinePoint, PointKind } from '../lifeline.ts';
import { parseRecord } from '../record/parse.ts';
import type { Record as CardRecord, Event } from '../record/schema.ts';
import type { Shop } from '../shop/schema.ts';
import { type Diagnosis, diagnose, evidenceItems } from './diagnosis.ts';
import { withLearntRelapse } from './learnt-relapse.ts';
import { DEFAULT_MAX_FAULTS } from './most-faults.ts';
import { type Words, wordsFor } from './words.ts';

/** A fault that never reached this chance is not listed, as in an assessment's ranking. */
const LEAST_CHANCE_LISTED = 0.001;
/** Findings further apart than this are two sittings. */
const SITTING_HOURS = 10;
const HOUR = 3_600_000;
const DAY = 24 * HOUR;

/** Events that are one point: consecutive findings of one sitting and one witness, or one event of any other kind. */
export interface Sitting {
  readonly kind: PointKind;
  readonly first: number;
  readonly last: number;
}

/** Points of a timeline. Notes and preparations are none: they change nothing, and stand with the event before them. */
export function sittingsOf(timeline: readonly Event[]): readonly Sitting[] {
  const sittings: { kind: PointKind; first: number; last: number }[] = [];
  timeline.forEach((event, at) => {
    const kind = kindOf(event);
    if (kind === null) return;
    const before = sittings.at(-1);
    const looks = kind === 'found' || kind === 'told';
    if (looks && before?.kind === kind && hoursBetween(timeline[before.last]!, event) <= SITTING_HOURS)
      before.last = at;
    else sittings.push({ kind, first: at, last: at });
  });
  return sittings;
}

function kindOf(event: Event): PointKind | null {
  switch (event.type) {
    case 'measured':
      return 'found';
    case 'seen':
      return event.by === 'owner' ? 'told' : 'found';
    case 'arrived':
    case 'quoted':
    case 'treated':
    case 'handed-back':
    case 'still-working':
    case 'came-back':
    case 'closed':
      return event.type;
    // what is only prepared has not touched the card
    case 'prepared':
    case 'note':
      return null;
    default:
      return 'other';
  }
}

/**
 * A card's life as points, each with the belief after it: chances of all faults that were ever listed and of none being
 * active. The fold over the whole timeline is the last point's, so that it equals the assessment's ranking; every earlier
 * one is what an assessment would have said then. Where what was known contradicted itself the point has no belief and says why.
 *
 * A record that cannot be used comes back with its issues. Cost: one diagnosis (no planning) per point.
 */
export async function lifeline(
  knowledge: Knowledge,
  shop: Shop,
  record: unknown,
  options: { readonly maxFaults?: number } = {},
): Promise<LifelineAnswer> {
  const parsed = parseRecord(record);
  if (!parsed.ok) return badRecord(parsed.issues);
  const whole = await gatherEvidence(knowledge, shop, parsed.record);
  if (whole.kind === 'bad-record') return badRecord(whole.issues);
  const { timeline } = parsed.record;
  const most = options.maxFaults ?? DEFAULT_MAX_FAULTS;
  const beliefs: Believed[] = [];
  const sittings = sittingsOf(timeline);
  for (const { last } of sittings) beliefs.push(await believedAfter(knowledge, shop, parsed.record, last, most));
  const listed = listedFaults(knowledge, beliefs);
  const say = wordsFor(shop.locale, shop.currency);
  const points: LifelinePoint[] = [];
  for (const [at, sitting] of sittings.entries()) {
    const now = beliefs[at]!;
    const before = beliefs.slice(0, at).findLast(({ chances }) => chances !== null);
    points.push(pointOf(knowledge, parsed.record, sitting, now, before, listed, say));
  }
  return {
    kind: 'lifeline',
    format: 1,
    knowledge: knowledge.version,
    record: parsed.record.id,
    title: parsed.record.title,
    invented: parsed.record.invented ?? false,
    faults: listed.map((at) => {
      const { id, name, site } = knowledge.faults[at]!;
      return { fault: id, name, site };
    }),
    points,
  };
}

interface Believed {
  /** per fault of the knowledge */
  readonly chances: Float64Array | null;
  readonly masked: Float64Array | null;
  readonly sound: number | null;
  readonly soundButMasked: number | null;
  readonly present: readonly EvidenceItem[];
  readonly contradiction: string | null;
}

const NO_BELIEF = { chances: null, masked: null, sound: null, soundButMasked: null } as const;

async function believedAfter(
  knowledge: Knowledge,
  shop: Shop,
  record: CardRecord,
  last: number,
  most: number,
): Promise<Believed> {
  const sofar = { ...record, timeline: record.timeline.slice(0, last + 1) };
  const gathering = await gatherEvidence(knowledge, shop, sofar);
  if (gathering.kind === 'bad-record') return { ...NO_BELIEF, present: [], contradiction: gathering.issues[0]!.wrong };
  const { gathered } = gathering;
  const present = evidenceItems(knowledge, gathered.present);
  const diagnosis = diagnose(withLearntRelapse(knowledge, shop), gathered, sofar, most);
  if (diagnosis.kind === 'diagnosis')
    return {
      chances: diagnosis.chances,
      ...maskedIn(diagnosis),
      sound: Math.min(1, diagnosis.sound),
      present,
      contradiction: null,
    };
  const name = (id: Id) => knowledge.findings.find((finding) => finding.id === id)?.name ?? id;
  const { finding, against, sentence } = diagnosis;
  const said =
    sentence ??
    say(knowledge, 'excludes-itself', {
      findings: [...(finding === null ? [] : [finding]), ...against].map(name).join(', '),
    });
  return { ...NO_BELIEF, present, contradiction: said };
}

/** Chance of each fault to be masked, and of the card to work only because of that. */
function maskedIn({ belief, host }: Diagnosis): { masked: Float64Array; soundButMasked: number } {
  const { conditions, chance } = belief;
  const masked = new Float64Array(conditions.faults);
  let soundButMasked = 0;
  for (let c = 0; c < chance.length; c++) {
    const { active, dormant } = membersOf(conditions, c);
    for (const fault of dormant) masked[fault]! += chance[c]!;
    if (dormant.length > 0 && active.every((fault) => host[fault] === 1)) soundButMasked += chance[c]!;
  }
  return { masked, soundButMasked };
}

function listedFaults(knowledge: Knowledge, beliefs: readonly Believed[]): readonly number[] {
  const most = knowledge.faults.map((_, at) =>
    Math.max(0, ...beliefs.map(({ chances, masked }) => (chances?.[at] ?? 0) + (masked?.[at] ?? 0))),
  );
  return most
    .map((chance, at) => ({ chance, at }))
    .filter(({ chance }) => chance >= LEAST_CHANCE_LISTED)
    .sort((a, b) => b.chance - a.chance || a.at - b.at)
    .map(({ at }) => at);
}

function pointOf(
  knowledge: Knowledge,
  { timeline }: CardRecord,
  { kind, first, last }: Sitting,
  now: Believed,
  before: Believed | undefined,
  listed: readonly number[],
  say: Words,
): LifelinePoint {
  const event = timeline[first]!;
  const looked = new Set(timeline.slice(first, last + 1).flatMap((one) => ('finding' in one ? [one.finding] : [])));
  const findings = now.present
    .filter(({ finding }) => looked.has(finding))
    .map(({ finding, name, state, stateName, states }) => ({
      finding,
      name,
      state,
      stateName,
      abnormal: state !== states[0],
    }))
    .sort((a, b) => Number(b.abnormal) - Number(a.abnormal));
  const days = daysOf(timeline, first);
  const remedy = event.type === 'treated' ? event.remedy : null;
  const remedyName = knowledge.remedies.find(({ id }) => id === remedy)?.name ?? remedy;
  return {
    kind,
    at: event.at,
    until: timeline[last]!.at,
    events: [first, last],
    words: sayPoint(event, kind, looked.size, remedyName, days, say),
    findings,
    remedy,
    worked: event.type === 'treated' ? event.worked : null,
    days,
    chances: now.chances === null ? null : listed.map((at) => Math.min(1, now.chances![at]!)),
    masked: now.masked === null ? null : listed.map((at) => Math.min(1, now.masked![at]!)),
    sound: now.sound,
    soundButMasked: now.soundButMasked === null ? null : Math.min(1, now.soundButMasked),
    mover: moverOf(knowledge, before, now),
    contradiction: now.contradiction,
  };
}

function moverOf(knowledge: Knowledge, before: Believed | undefined, now: Believed): LifelinePoint['mover'] {
  if (!before?.chances || before.sound === null || !now.chances || now.sound === null) return null;
  const moves = [
    { what: 'sound', from: before.sound, to: now.sound },
    ...knowledge.faults.map(({ id }, at) => ({
      what: id,
      from: Math.min(1, before.chances![at]!),
      to: Math.min(1, now.chances![at]!),
    })),
  ];
  const most = moves.reduce((a, b) => (Math.abs(b.to - b.from) > Math.abs(a.to - a.from) ? b : a));
  return most.to === most.from ? null : most;
}

/** Days in service that an event speaks of: since the card last left, unless it says itself how long it worked. */
function daysOf(timeline: readonly Event[], at: number): number | null {
  const event = timeline[at]!;
  if (event.type !== 'still-working' && event.type !== 'came-back') return null;
  if (event.type === 'came-back' && event.workedDays !== undefined) return event.workedDays;
  const left = timeline.slice(0, at).findLast(({ type }) => type === 'handed-back' || type === 'treated');
  return left === undefined ? null : Math.max(0, (Date.parse(event.at) - Date.parse(left.at)) / DAY);
}

function sayPoint(
  event: Event,
  kind: PointKind,
  findings: number,
  remedyName: string | null,
  days: number | null,
  say: Words,
): string {
  const count = `${findings} ${findings === 1 ? 'finding' : 'findings'}`;
  const whole = days === null ? null : `${Math.round(days)} ${Math.round(days) === 1 ? 'day' : 'days'}`;
  switch (kind) {
    case 'arrived':
      return 'Arrived, with what was known of it';
    case 'quoted':
      return event.type === 'quoted' ? `Quoted: ${say.money(event.price)}` : 'Quoted';
    case 'told':
      return `The owner told: ${count}`;
    case 'found':
      return `Looked at on the bench: ${count}`;
    case 'treated': {
      const worked = event.type === 'treated' ? event.worked : null;
      const then = worked === null ? 'nobody tried it then' : worked ? 'it worked' : 'it did not work';
      return `${remedyName}; ${then}`;
    }
    case 'handed-back':
      return 'Handed back';
    case 'still-working':
      return whole === null ? 'Still working' : `Still working after ${whole}`;
    case 'came-back':
      return whole === null ? 'Came back; how long it worked nobody can tell' : `Came back after ${whole} of work`;
    case 'closed':
      return 'Closed';
    case 'other':
      return event.type.replaceAll('-', ' ');
  }
}

function hoursBetween(a: Event, b: Event): number {
  return (Date.parse(b.at) - Date.parse(a.at)) / HOUR;
}

function badRecord(issues: readonly { path: string; wrong: string; todo: string; typed?: string }[]): LifelineAnswer {
  return { kind: 'bad-record', format: 1, issues: issues.map((issue) => ({ ...issue })) };
}
