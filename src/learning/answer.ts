/** The shape of what is told of the shop's own remedies. */
import { z } from 'zod';
import { Id, Probability } from '../knowledge/schema.ts';
import { Learnt } from '../shop/schema.ts';

const Count = z.number().int().nonnegative();
const Days = z.number().nonnegative();
const Part = z.number().nonnegative();
const Law = { medianDays: z.number().positive(), shape: z.number().positive(), n: z.number().positive() };

export const RemedyAnswer = z.strictObject({
  remedy: Id,
  name: z.string(),
  /** times it was done; the next four sum to it */
  done: Count,
  didNotWork: Count,
  notKnownToWork: Count,
  notHandedBack: Count,
  leftWorking: Count,
  /** of those that left working: heard of again, and not */
  followed: Count,
  neverHeardOf: Count,
  /** came back, whatever for */
  back: Count,
  /** the part of them that counts against the remedy: relapsed, did not take, damaged */
  backByRemedy: Part,
  because: z.strictObject({
    'wrong-thing': Part,
    'did-not-take': Part,
    relapsed: Part,
    damaged: Part,
    'new-fault': Part,
  }),
  /** came back after a time nobody knows: taken at half of the time away */
  dayUnknown: Count,
  /** times that could not be judged by the belief: a comeback among them counts in full */
  unjudged: z.array(z.strictObject({ record: Id, why: z.string() })),
  /** chance to work longer than so many days, with 95 % limits; null: not known from these records */
  survival: z.array(
    z.strictObject({
      days: Days,
      atRisk: Count,
      survival: Probability.nullable(),
      low: Probability.nullable(),
      high: Probability.nullable(),
    }),
  ),
  /** the whole curve: `survival` and its 95 % limits hold from this day until the next step's; the first is day 0 */
  steps: z.array(
    z.strictObject({
      days: Days,
      /** followed up to just before this day */
      atRisk: Count,
      /** in parts of cards: failed by the remedy, and last heard of working (or back for another reason) */
      failed: Part,
      lost: Part,
      survival: Probability,
      low: Probability.nullable(),
      high: Probability.nullable(),
    }),
  ),
  /** exp(-(days / scaleDays)^shape), fitted to these times with its standard errors; null: too few failed, or they set no law */
  law: z
    .strictObject({
      shape: z.number().positive(),
      scaleDays: z.number().positive(),
      shapeError: Part,
      scaleError: Part,
    })
    .nullable(),
  /** days until half were back because of the remedy */
  halfBack: z.strictObject({ median: Days.nullable(), low: Days.nullable(), high: Days.nullable() }).nullable(),
  /** where the numbers are too few to mean anything, why: no card was heard of, few were, or every interval is wide open */
  doubt: z.enum(['none-heard-of', 'few', 'wide-open']).nullable(),
  /** the same as a sentence */
  tooFew: z.string().nullable(),
});
export type RemedyAnswer = z.infer<typeof RemedyAnswer>;

export const RelapseAnswer = z.strictObject({
  fault: Id,
  faultName: z.string(),
  /** null: over all remedies that mask it */
  remedy: Id.nullable(),
  remedyName: z.string().nullable(),
  book: z.strictObject(Law),
  /** low and high: 95 % credible interval of the median */
  learnt: z.strictObject({ ...Law, low: Days, high: Days }),
  /** relapses and masked cards counted, in parts of cards */
  hits: Part,
  trials: Part,
  since: z.iso.date(),
});
export type RelapseAnswer = z.infer<typeof RelapseAnswer>;

export const RemediesAnswer = z.strictObject({
  kind: z.literal('remedies'),
  format: z.literal(1),
  knowledge: z.string(),
  /** records that were read */
  records: Count,
  /** owners' silence up to this day was taken as a card that works, within the warranty; null: it was not */
  silentUntil: z.string().nullable(),
  remedies: z.array(RemedyAnswer),
  relapse: z.array(RelapseAnswer),
  /** as it stands in the shop profile */
  learnt: Learnt,
});
export type RemediesAnswer = z.infer<typeof RemediesAnswer>;
