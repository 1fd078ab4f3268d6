/** What the record says once its facts have passed the rules and its readings have been graded. */
import type { Id, Rule, Window } from '../knowledge/schema.ts';
import type { Event } from '../record/schema.ts';
import type { Told } from './refusals.ts';

/** A number read from what was typed, corrected, with its uncertainty, graded into the states of a finding. */
export interface GradedReading {
  readonly typed: string;
  /** corrected value in the window's unit; Infinity for over-range */
  readonly value: number;
  /** standard uncertainty, same unit */
  readonly uncertainty: number;
  readonly unit: string;
  readonly window: Id;
  /** edges used, along the axis, after re-centring on a known-good reading where there is one */
  readonly edges: readonly number[];
  /** band names along the axis */
  readonly bands: readonly Id[];
  readonly recentred: boolean;
  /** uncertainty budget: component -> standard uncertainty in the unit */
  readonly budget: readonly { readonly component: string; readonly u: number }[];
}

export interface FindingEvidence {
  readonly finding: Id;
  /** one per state of the finding, in [0, 1], largest 1 unless the reading was graded (then they sum to 1) */
  readonly weights: readonly number[];
  readonly origin: 'measured' | 'seen' | 'owner';
  /** most supported state */
  readonly state: Id;
  readonly reading?: GradedReading;
  /** ids of the owner-words rules behind it */
  readonly rules: readonly Id[];
  /** what this finding said before, where it was observed again and changed its answer */
  readonly contradicts?: Id;
}

export type FactValue = string | number | boolean | readonly string[];

export interface GatheredEvidence {
  /** known facts only; unknown ones are absent */
  readonly facts: ReadonlyMap<Id, FactValue>;
  /** at most one per finding, in the order of the knowledge */
  readonly findings: readonly FindingEvidence[];
  /** odds factors emitted by history rules, one entry per rule and fault */
  readonly history: readonly {
    readonly rule: Id;
    readonly fault: Id;
    readonly factor: number;
    readonly spread: number;
  }[];
  readonly windows: ReadonlyMap<Id, Window>;
  /** findings whose `appliesWhen` holds or is unknown */
  readonly applicable: ReadonlySet<Id>;
  /** closed checks and remedies, each with every reason; safety gates first */
  readonly closedChecks: ReadonlyMap<Id, readonly string[]>;
  readonly closedRemedies: ReadonlyMap<Id, readonly string[]>;
  readonly damage: readonly {
    readonly rule: Id;
    readonly remedy: Id;
    readonly factor: number;
    readonly spread: number;
  }[];
  readonly cautions: readonly Id[];
  /** preparations already made and checks already done are not known from the record: none are assumed */
  readonly fired: readonly Rule[];
}

export type Treated = Extract<Event, { type: 'treated' }>;
export type CameBack = Extract<Event, { type: 'came-back' }>;

/** What was observed between two changes of the card's condition: treatments, and time in service. */
export interface Segment {
  readonly findings: readonly FindingEvidence[];
  /** the treatment or the return from service that ended it; the last segment has none */
  readonly endedBy?: Treated | CameBack;
}

/** An observation that says nothing as things stand. It stays in the record. */
export interface SetAside {
  readonly finding: Id;
  /** where it stands, such as `timeline.3` */
  readonly path: string;
  readonly because: string;
}

/** The evidence, and what the timeline holds besides. */
export interface Gathered extends GatheredEvidence {
  /** at least one: `findings` are the first one's and the owner's words, the last is the card as it lies there */
  readonly segments: readonly Segment[];
  /** the card as it lies there: the only segment's findings with the owner's words, or the last segment's */
  readonly present: readonly FindingEvidence[];
  readonly setAside: readonly SetAside[];
  /** per treatment in the timeline: by how much what was known then raised the chance that the work does damage */
  readonly damageThen: readonly number[];
}

/** Something wrong with a record. Nothing typed is lost: `typed` keeps it. */
export interface RecordIssue {
  readonly path: string;
  readonly wrong: string;
  readonly todo: string;
  /** by which refusal, to say it in another language */
  readonly told?: Told;
  readonly typed?: string;
}
