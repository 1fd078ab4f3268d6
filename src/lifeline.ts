/** A card's life with the belief under it, as a plain value: what `revisit --json` prints and the wizard draws. */
import { z } from 'zod';
import { Assessed, BadRecord, Contradiction } from './assessment.ts';
import { Id, SITES } from './knowledge/schema.ts';

const Chance01 = z.number().min(0).max(1);

/** What a point is about: an event of the timeline, or everything found at one sitting. */
export const POINT_KINDS = [
  'arrived',
  'told',
  'found',
  'quoted',
  'treated',
  'handed-back',
  'still-working',
  'came-back',
  'closed',
  'other',
] as const;
export const PointKind = z.enum(POINT_KINDS);
export type PointKind = z.infer<typeof PointKind>;

/** what moved most at a point: a fault by id, or `sound` */
const Mover = z.strictObject({ what: z.union([Id, z.literal('sound')]), from: Chance01, to: Chance01 });

export const LifelinePoint = z.strictObject({
  kind: PointKind,
  at: z.string(),
  /** the last finding of the sitting; the same as `at` for everything else */
  until: z.string(),
  /** places in the timeline: the first, and the last */
  events: z.tuple([z.number().int(), z.number().int()]),
  /** what happened, in a technician's words */
  words: z.string(),
  /** what was found, most telling first: what is abnormal before what is not */
  findings: z.array(
    z.strictObject({ finding: Id, name: z.string(), state: Id, stateName: z.string(), abnormal: z.boolean() }),
  ),
  remedy: Id.nullable(),
  /** for `treated`: whether the card worked afterwards; null: nobody tried, and for everything else */
  worked: z.boolean().nullable(),
  /** days in service up to this point, for `still-working` and `came-back`; null: can't tell */
  days: z.number().nonnegative().nullable(),
  /** after this point: chance that each of `faults` is active; null where findings contradict */
  chances: z.array(Chance01).nullable(),
  /** chance that each of `faults` is only masked: it works now and comes back */
  masked: z.array(Chance01).nullable(),
  /** chance that no fault of the card is active, and the part of it in which one is masked */
  sound: Chance01.nullable(),
  soundButMasked: Chance01.nullable(),
  mover: Mover.nullable(),
  /** why there is no belief here */
  contradiction: z.string().nullable(),
});
export type LifelinePoint = z.infer<typeof LifelinePoint>;

export const Lifeline = z.strictObject({
  kind: z.literal('lifeline'),
  format: z.literal(1),
  knowledge: z.string(),
  record: Id,
  title: z.string(),
  invented: z.boolean(),
  /** every fault that was ever listed, the one that was likeliest at any time first */
  faults: z.array(z.strictObject({ fault: Id, name: z.string(), site: z.enum(SITES) })),
  points: z.array(LifelinePoint),
});
export type Lifeline = z.infer<typeof Lifeline>;

export const LifelineAnswer = z.discriminatedUnion('kind', [Lifeline, BadRecord]);
export type LifelineAnswer = z.infer<typeof LifelineAnswer>;

/** What `revisit --json` answers: the card as it lies there, and how it came to that. */
export const RevisitAnswer = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('revisit'),
    format: z.literal(1),
    assessment: z.discriminatedUnion('kind', [Assessed, Contradiction]),
    lifeline: Lifeline,
  }),
  BadRecord,
]);
export type RevisitAnswer = z.infer<typeof RevisitAnswer>;
