/** A card's life after it arrived, folded into the belief: work done on it, findings since, time in service, its return. */

import { type Attributions, attribute } from '../belief/attribute.ts';
import type { Belief } from '../belief/belief.ts';
import type { Conditions } from '../belief/conditions.ts';
import type { Explanation } from '../belief/explain.ts';
import { leaveOneOut, lookAt, observeFold, type Sight } from '../belief/fold-observe.ts';
import type { Evidence } from '../belief/network.ts';
import { failedBy, failedOnDay, type Service, stillWorking } from '../belief/serve.ts';
import {
  activeBeforeRemedy,
  beginFold,
  type Fold,
  faultOf,
  isDormant,
  plainly,
  showsItself,
} from '../belief/trajectory.ts';
import { type Remedy as Treatment, treat } from '../belief/treat.ts';
import type { FindingEvidence, Gathered } from '../evidence/evidence.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { say, sayThing } from '../knowledge/sayings.ts';
import type { Id } from '../knowledge/schema.ts';
import type { Record as CardRecord, Event } from '../record/schema.ts';
import { relapseAfter, relapseOf } from './learnt-relapse.ts';

export interface Life {
  readonly kind: 'life';
  readonly fold: Fold;
  /** the fold before the findings of the card as it lies there, with what they say */
  readonly sight: Sight;
  readonly evidence: readonly Evidence[];
  readonly lastRemedy: Id;
  readonly cameBack: boolean;
  /** how often it came back since the last work; more than once: it went out again with nothing done to it */
  readonly returns: number;
  /** days it worked before it first came back; null: can't tell, or it did not come back */
  readonly workedDays: number | null;
  readonly attributions: Attributions | null;
  /** chance that each fault was active just before the last remedy, in the light of everything since */
  readonly beforeRemedy: Float64Array;
}

export interface LifeContradicted {
  readonly kind: 'life-contradiction';
  readonly sentence: string;
}

const MILLISECONDS_PER_DAY = 86_400_000;
const DAYS_PER_YEAR = 365.25;

export function liveThrough(
  knowledge: Knowledge,
  gathered: Gathered,
  record: Pick<CardRecord, 'timeline'>,
  arrived: Belief,
  logChance: number,
): Life | LifeContradicted | null {
  if (!record.timeline.some((event) => event.type === 'treated')) return null;
  const host = Uint8Array.from(knowledge.faults, (fault) => (fault.site === 'host' ? 1 : 0));
  let service = serviceOf(knowledge, host);
  const segments = [...gathered.segments.slice(1)];
  let fold = beginFold(arrived, logChance);
  let sight: Sight | null = null;
  let evidence: Evidence[] = [];
  let lastRemedy: Id = '';
  let treatment: Treatment | null = null;
  const damage = [...gathered.damageThen];
  let outSince: string | null = null;
  /** days after which it was last heard of as working */
  let heard = 0;
  let cameBack = false;
  let returns = 0;
  let workedDays: number | null = null;

  const look = (): boolean => {
    evidence = evidenceOf(knowledge, segments.shift()?.findings ?? []);
    sight = lookAt(fold, knowledge.network, evidence);
    const seen = observeFold(sight);
    if (seen) fold = seen;
    return seen !== null;
  };
  for (const event of record.timeline) {
    if (event.type === 'treated') {
      treatment = treatmentOf(knowledge, event.remedy, damage.shift() ?? 1);
      lastRemedy = event.remedy;
      service = maskedAnew(service, knowledge, treatment, event.remedy);
      cameBack = false;
      returns = 0;
      workedDays = null;
      outSince = event.at;
      heard = 0;
      const after = treat(fold, treatment, event.worked, host);
      if (!after)
        return no(
          say(knowledge, event.worked ? 'life-worked' : 'life-did-not-work', {
            remedy: sayThing(knowledge, knowledge.remedies, event.remedy),
          }),
        );
      fold = after;
      if (!look())
        return no(
          say(knowledge, 'life-found-after', { remedy: sayThing(knowledge, knowledge.remedies, event.remedy) }),
        );
    } else if (cameBack) {
      // out again with nothing done to it: it has the fault it had, and coming back once more, or working for a while, tells no
      // more than the card on the bench did, whose findings are in the span of the first return
      if (event.type === 'came-back') returns += 1;
    } else if (event.type === 'handed-back') {
      outSince = event.at;
      heard = 0;
    } else if (event.type === 'still-working' && outSince !== null) {
      heard = daysBetween(outSince, event.at);
      if (!lastWordOf(record, event)) continue;
      const on = stillWorking(fold, heard, service);
      if (!on) return no(say(knowledge, 'life-still-working'));
      fold = on;
    } else if (event.type === 'came-back') {
      cameBack = true;
      returns = 1;
      workedDays =
        event.workedDays === undefined
          ? outSince === null
            ? null
            : daysBetween(outSince, event.at)
          : event.workedDays;
      const days = workedDays ?? (outSince === null ? null : daysBetween(outSince, event.at));
      if (days !== null) {
        const back =
          workedDays === null ? failedBy(fold, days, service, heard) : failedOnDay(fold, Math.floor(days), service);
        if (!back) return no(say(knowledge, 'life-failed-within', { days: Math.round(days) }));
        fold = back;
      }
      if (!look()) return no(say(knowledge, 'life-found-back'));
    }
  }
  if (sight === null) return null;
  const worked = lastWorked(record);
  const fails = cameBack || worked === false || (worked === null && chanceFailing(fold) > FAILS);
  return {
    kind: 'life',
    fold,
    sight,
    evidence,
    lastRemedy,
    cameBack,
    returns,
    workedDays,
    attributions: treatment && fails ? attribute(fold, treatment) : null,
    beforeRemedy: activeBeforeRemedy(fold, knowledge.faults.length),
  };
}

/** The fold as a belief over conditions as they are now, dormant members kept. */
export function beliefNow(fold: Fold, faults: number): Belief {
  const { situations, chance } = plainly(fold);
  const count = situations.length;
  const most = situations.reduce((longest, { length }) => Math.max(longest, length), 1);
  const size = new Uint8Array(count);
  const members = new Uint16Array(count * most);
  const dormant = new Uint16Array(count);
  situations.forEach((situation, i) => {
    size[i] = situation.length;
    situation.forEach((code, slot) => {
      members[i * most + slot] = faultOf(code);
      if (isDormant(code)) dormant[i]! |= 1 << slot;
    });
  });
  const conditions: Conditions = { faults, most, count, size, members, dormant };
  return { conditions, chance: Float64Array.from(chance) };
}

/** Weights of the present findings, by leaving out one at a time; what led here stays as it is. */
export function explainLife(life: Life): Explanation {
  const { all, without, logAlone } = leaveOneOut(life.sight);
  const oddsOf = (chances: Float64Array) => chances.map((chance) => chance / Math.max(1e-15, 1 - chance));
  const whole = oddsOf(all.active!);
  const together = logAlone.reduce((sum, log) => sum + log, 0);
  return {
    decibels: without.map(({ active }) => {
      const odds = active ? oddsOf(active) : whole;
      return whole.map((odd, fault) => (odd === odds[fault] ? 0 : 10 * Math.log10(odd / odds[fault]!)));
    }),
    conflict: (together - all.logChance) / Math.LN2,
    conflictOf: Float64Array.from(
      without,
      ({ logChance }, j) => (logAlone[j]! + (Number.isFinite(logChance) ? logChance : 0) - all.logChance) / Math.LN2,
    ),
  };
}

function no(sentence: string): LifeContradicted {
  return { kind: 'life-contradiction', sentence };
}

/** Where nobody said whether the card worked, but what was found since says that it rather does not, its failing is explained. */
const FAILS = 0.5;

function chanceFailing({ chance, situations, now }: Fold): number {
  return chance.reduce((sum, share, i) => (showsItself(situations[now[i]!]!) ? sum + share : sum), 0);
}

/** What was said of the last work; undefined: there was none. */
function lastWorked(record: Pick<CardRecord, 'timeline'>): boolean | null | undefined {
  return record.timeline.findLast((event): event is Extract<Event, { type: 'treated' }> => event.type === 'treated')
    ?.worked;
}

/** Whether nothing later in the same time of service says more: a later word, or its coming back, counts these days in. */
function lastWordOf(record: Pick<CardRecord, 'timeline'>, event: Event): boolean {
  for (const later of record.timeline.slice(record.timeline.indexOf(event) + 1)) {
    if (later.type === 'treated') return true;
    if (later.type === 'still-working' || later.type === 'came-back') return false;
  }
  return true;
}

function daysBetween(from: string, to: string): number {
  return Math.max(0, (Date.parse(to) - Date.parse(from)) / MILLISECONDS_PER_DAY);
}

function evidenceOf(knowledge: Knowledge, findings: readonly FindingEvidence[]): Evidence[] {
  const index = new Map(knowledge.network.findings.map((node, at) => [node.id, at]));
  return findings.map((item) => ({ finding: index.get(item.finding)!, weights: Float64Array.from(item.weights) }));
}

function treatmentOf(knowledge: Knowledge, id: Id, damage: number): Treatment {
  const remedy = knowledge.remedies.find((known) => known.id === id)!;
  const of = (chance: (fault: Id) => number) => Float64Array.from(knowledge.faults, (fault) => chance(fault.id));
  return {
    cures: of((fault) => remedy.effects[fault]?.cures.p ?? 0),
    masks: of((fault) => remedy.effects[fault]?.masks?.p ?? 0),
    induces: of((fault) => Math.min(0.95, (remedy.induces[fault]?.p ?? 0) * damage)),
    latent: Float64Array.from(knowledge.faults, ({ latent }) => latent?.p ?? 0),
  };
}

/** New faults strike at the population's rate, shared out as the faults of arriving cards are; none that only work causes. */
function serviceOf(knowledge: Knowledge, host: Uint8Array): Service {
  const share = knowledge.faults.map((fault, at) =>
    host[at] === 1 || fault.site === 'earlier-rework' ? 0 : fault.share.p,
  );
  const total = share.reduce((sum, p) => sum + p, 0);
  const perDay = knowledge.population.newFaultsPerYear.rate / DAYS_PER_YEAR;
  return {
    relapse: knowledge.faults.map(relapseOf),
    newPerDay: Float64Array.from(share, (p) => (total > 0 ? (perDay * p) / total : 0)),
    host,
  };
}

/** How soon a fault is back depends on the work that last put it to sleep. */
function maskedAnew(
  service: Service,
  knowledge: Knowledge,
  { masks, induces, latent }: Treatment,
  remedy: Id,
): Service {
  const relapse = service.relapse.map((law, at) =>
    masks[at]! > 0 || (induces[at]! > 0 && latent![at]! > 0)
      ? relapseAfter(knowledge, knowledge.faults[at]!, remedy)
      : law,
  );
  return { ...service, relapse };
}
