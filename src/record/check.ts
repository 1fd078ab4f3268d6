/**
 * A well-formed record against the knowledge: what it names must exist, what it answers must fit, its dates must not
 * run backwards.
 */
import type { RecordIssue } from '../evidence/evidence.ts';
import { type Refused, refuse } from '../evidence/refusals.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import type { FactDefinition, Finding, Id } from '../knowledge/schema.ts';
import { nearest } from './nearest.ts';
import type { Record as CardRecord, Event, FactAnswers, Measured, Seen } from './schema.ts';

type Work = Extract<Event, { type: 'prepared' | 'treated' }>;

type Answer = FactAnswers[string];

/**
 * Everything in the record that the knowledge does not know or that does not fit, all at once, in the order of the
 * timeline.
 */
export function checkRecord(record: CardRecord, knowledge: Knowledge): RecordIssue[] {
  const findings = new Map(knowledge.findings.map((finding) => [finding.id, finding]));
  const facts = new Map(knowledge.facts.filter(({ step }) => step !== 'derived').map((fact) => [fact.id, fact]));
  const remedies = knowledge.remedies.map(({ id }) => id);
  const named = (event: Event, path: string): RecordIssue[] => {
    switch (event.type) {
      case 'arrived':
        return checkFacts(event.facts, facts, `${path}.facts`);
      case 'seen':
        return [...checkSeen(event, findings, path), ...checkStep(event, record, path)];
      case 'measured':
        return [...unknownFinding(event.finding, findings, path), ...checkStep(event, record, path)];
      case 'prepared':
      case 'treated':
        return remedies.includes(event.remedy)
          ? checkProcess(event, knowledge, path)
          : [unknown('remedy', event.remedy, remedies, `${path}.remedy`)];
      case 'came-back':
        return workBefore(record, event)
          ? [...workedTooLong(event, record, path), ...workedLongerAlready(event, record, path)]
          : [neverTreated(path)];
      case 'quoted':
      case 'handed-back':
      case 'still-working':
      case 'closed':
      case 'note':
        return [];
    }
  };
  const parts = knowledge.bench.parts.map(({ id }) => id);
  const prices = Object.keys(record.money?.parts ?? {})
    .filter((part) => !parts.includes(part))
    .map((part) => unknown('part', part, parts, `money.parts.${part}`));
  const packages = knowledge.packages.map(({ id }) => id);
  const balls = Object.keys(record.balls ?? {})
    .filter((kind) => !packages.includes(kind))
    .map((kind) => unknown('package', kind, packages, `balls.${kind}`));
  const events = record.timeline.flatMap((event, index) => {
    const path = `timeline.${index}`;
    const backwards = runsBackwards(record.timeline, index, path);
    return [...backwards, ...named(event, path)];
  });
  return [...prices, ...balls, ...events];
}

/** Hold points of the remedy, in times that do not run backwards. Whether they follow the order is the work order's to say. */
function checkProcess(event: Work, { procedures }: Pick<Knowledge, 'procedures'>, path: string): RecordIssue[] {
  const steps = event.process?.steps ?? [];
  const known = procedures.find(({ id }) => id === event.remedy)?.holdPoints ?? [];
  return steps.flatMap(({ step, at }, i) => {
    const here = `${path}.process.steps.${i}`;
    const before = steps[i - 1];
    return [
      ...(known.includes(step) ? [] : [unknown('hold point', step, known, `${here}.step`, event.remedy)]),
      ...(before && Date.parse(at) < Date.parse(before.at)
        ? [
            {
              path: `${here}.at`,
              ...refuse('work-backwards', { at, before: before.at }),
              typed: at,
            },
          ]
        : []),
    ];
  });
}

/** A finding that names a hold point belongs to work before it in which that hold point is recorded. */
function checkStep(event: Seen | Measured, record: CardRecord, path: string): RecordIssue[] {
  if (event.step === undefined) return [];
  const work = record.timeline.slice(0, record.timeline.indexOf(event)).findLast((one) => one.type === 'treated');
  if (work?.type === 'treated' && work.process?.steps.some(({ step }) => step === event.step)) return [];
  return [
    {
      path: `${path}.step`,
      ...refuse('step-unrecorded', { step: event.step }),
      typed: event.step,
    },
  ];
}

function workBefore(record: CardRecord, event: Event): Event | undefined {
  return record.timeline.slice(0, record.timeline.indexOf(event)).findLast(({ type }) => type === 'treated');
}

const MILLISECONDS_PER_DAY = 86_400_000;

/** Days are counted by the calendar as well as by the clock: one more than passed is no contradiction. */
function workedTooLong(event: Extract<Event, { type: 'came-back' }>, record: CardRecord, path: string): RecordIssue[] {
  const work = workBefore(record, event);
  if (!work || event.workedDays === undefined || event.workedDays === null) return [];
  const passed = (Date.parse(event.at) - Date.parse(work.at)) / MILLISECONDS_PER_DAY;
  if (event.workedDays <= Math.ceil(passed) + 1) return [];
  return [
    {
      path: `${path}.workedDays`,
      wrong: `It worked for ${event.workedDays} days, more than passed between the work and its coming back (${Math.floor(passed)}).`,
      todo: 'Correct the days or the dates, or put null where nobody can tell how long it worked.',
      typed: write(event.workedDays),
    },
  ];
}

/** The owner's word that it still worked stands against fewer days of work; one day of difference is the calendar's. */
function workedLongerAlready(
  event: Extract<Event, { type: 'came-back' }>,
  { timeline }: CardRecord,
  path: string,
): RecordIssue[] {
  const { workedDays } = event;
  if (workedDays === undefined || workedDays === null) return [];
  const before = timeline.slice(0, timeline.indexOf(event));
  const out = before.findLastIndex(({ type }) => type === 'handed-back' || type === 'treated');
  const word = before.slice(out + 1).findLast(({ type }) => type === 'still-working');
  if (word === undefined || out < 0) return [];
  const heard = Math.floor((Date.parse(word.at) - Date.parse(before[out]!.at)) / MILLISECONDS_PER_DAY);
  if (workedDays >= heard - 1) return [];
  return [
    {
      path: `${path}.workedDays`,
      ...refuse('worked-longer-already', { days: write(workedDays), heard: String(heard) }),
      typed: write(workedDays),
    },
  ];
}

function neverTreated(path: string): RecordIssue {
  return { path, ...refuse('never-treated', {}) };
}

function runsBackwards(timeline: readonly Event[], index: number, path: string): RecordIssue[] {
  const [before, now] = [timeline[index - 1], timeline[index]];
  if (!before || !now || Date.parse(now.at) >= Date.parse(before.at)) return [];
  return [
    {
      path: `${path}.at`,
      ...refuse('timeline-backwards', { at: now.at, before: before.at }),
      typed: now.at,
    },
  ];
}

function checkFacts(answers: FactAnswers, facts: ReadonlyMap<Id, FactDefinition>, path: string): RecordIssue[] {
  return Object.entries(answers).flatMap(([id, answer]) => {
    const definition = facts.get(id);
    const here = `${path}.${id}`;
    if (!definition) return [unknown('fact', id, [...facts.keys()], here)];
    const misfit = answer === null ? undefined : misfitOf(answer, definition);
    return misfit ? [{ path: here, ...misfit, typed: write(answer) }] : [];
  });
}

function misfitOf(answer: NonNullable<Answer>, { name, type }: FactDefinition): Refused | undefined {
  const typed = write(answer);
  switch (type.kind) {
    case 'yes-no':
      return typeof answer === 'boolean' ? undefined : refuse('no-yes-or-no', { typed, name });
    case 'number': {
      const fits = typeof answer === 'number' && answer >= type.min && answer <= type.max;
      const kind = type.whole ? 'a whole number' : 'a number';
      if (fits && (!type.whole || Number.isInteger(answer))) return undefined;
      return refuse('no-number', { typed, name, kind, least: type.min, most: type.max, unit: type.unit });
    }
    case 'choice': {
      const ids = type.values.map(({ id }) => id);
      return typeof answer === 'string' && ids.includes(answer)
        ? undefined
        : refuse('no-choice', { typed, name, values: ids.join(', ') });
    }
    case 'set': {
      const ids = type.values.map(({ id }) => id);
      const fits = Array.isArray(answer) && answer.every((member) => ids.includes(member));
      return fits ? undefined : refuse('no-list', { typed, name, values: ids.join(', ') });
    }
  }
}

function checkSeen(event: Seen, findings: ReadonlyMap<Id, Finding>, path: string): RecordIssue[] {
  const finding = findings.get(event.finding);
  if (!finding) return unknownFinding(event.finding, findings, path);
  const states = finding.states.map(({ id }) => id);
  const issues: RecordIssue[] = [];
  if (event.state !== null && !states.includes(event.state)) {
    issues.push(unknown('state', event.state, states, `${path}.state`, `"${finding.name}"`));
  }
  for (const state of Object.keys(event.weights ?? {})) {
    if (!states.includes(state))
      issues.push(unknown('state', state, states, `${path}.weights.${state}`, `"${finding.name}"`));
  }
  const most = Math.max(0, ...Object.values(event.weights ?? {}));
  if (event.weights && most > 0 && event.state !== null && (event.weights[event.state] ?? 0) < most) {
    issues.push({
      path: `${path}.state`,
      wrong: `The state says "${event.state}", and the weights give more to another.`,
      todo: 'Name the state with most weight, or set the state to null and leave it to the weights.',
      typed: event.state,
    });
  }
  if (event.weights && most === 0) {
    issues.push({
      path: `${path}.weights`,
      ...refuse('no-weight', { name: finding.name }),
      typed: write(event.weights),
    });
  }
  return issues;
}

function unknownFinding(id: Id, findings: ReadonlyMap<Id, Finding>, path: string): RecordIssue[] {
  return findings.has(id) ? [] : [unknown('finding', id, [...findings.keys()], `${path}.finding`)];
}

/** Few alternatives are listed whole; of many, the nearest in spelling are named. */
function unknown(kind: string, id: string, ids: readonly string[], path: string, of = ''): RecordIssue {
  const refused =
    ids.length <= 12
      ? refuse('unknown-of-few', { id, kind, of, ids: ids.join(', ') })
      : refuse('unknown-of-many', { id, kind, of, ids: nearest(id, ids, 3).join(', ') });
  return { path, ...refused, typed: id };
}

function write(value: unknown): string {
  return typeof value === 'string' ? value : JSON.stringify(value);
}
