/** One card's record: identity, money facts and a timeline of dated events. The timeline is the only state. */
import { z } from 'zod';
import { Id } from '../knowledge/id.ts';
import { Balls } from './balls.ts';

export const RECORD_FORMAT = 1;

/** No card and no part costs this much: a figure beyond it is a slip of the finger. */
export const MOST_MONEY = 10_000_000;
const Figure = z.number().nonnegative().max(MOST_MONEY);

/** An amount in the shop's currency: known, or as a 90 % range around the likely figure. */
export const Amount = z.union([
  Figure,
  z
    .strictObject({ low: Figure, likely: Figure, high: Figure })
    .refine((a) => a.low <= a.likely && a.likely <= a.high, 'low, likely and high must not fall'),
]);
export type Amount = z.infer<typeof Amount>;

/** Answers to facts. A fact that is absent has not been asked; null is "can't tell". */
export const FactAnswers = z.record(Id, z.union([z.string(), z.number(), z.boolean(), z.array(z.string()), z.null()]));
export type FactAnswers = z.infer<typeof FactAnswers>;

const At = z.iso.datetime({ offset: true });

/** How a reading was taken. What is left out falls back on the shop's default instrument. */
export const Instrument = z.strictObject({
  name: z.string().optional(),
  /** meter specification: +-(percent of reading + digits counts) */
  percent: z.number().nonnegative(),
  digits: z.number().nonnegative(),
  /** what one count is, in the reading's unit */
  resolution: z.number().positive(),
});
export type Instrument = z.infer<typeof Instrument>;

export const Measured = z.strictObject({
  type: z.literal('measured'),
  at: At,
  finding: Id,
  /** as typed: `0.31`, `310m`, `1k2`, `4R7`, `OL` */
  typed: z.string(),
  instrument: Instrument.optional(),
  /** as typed; subtracted unless four-wire */
  leads: z.string().optional(),
  fourWire: z.boolean().optional(),
  /** a known-good board's reading, as typed */
  knownGood: z.string().optional(),
  /** degC */
  temperature: z.number().min(-40).max(150).optional(),
  /** standard deviation of repeated readings, in the reading's unit */
  repeatability: z.number().nonnegative().optional(),
  /** the hold point of the work at which it was read */
  step: Id.optional(),
});
export type Measured = z.infer<typeof Measured>;

export const Seen = z.strictObject({
  type: z.literal('seen'),
  at: At,
  finding: Id,
  /** a state · null: looked, can't tell */
  state: Id.nullable(),
  by: z.enum(['bench', 'owner']),
  /** several states may be possible: weights over states, instead of one */
  weights: z.record(Id, z.number().min(0).max(1)).optional(),
  /** the hold point of the work at which it was seen */
  step: Id.optional(),
});
export type Seen = z.infer<typeof Seen>;

/** Moisture sensitivity levels of J-STD-020. */
export const MoistureLevel = z.enum(['1', '2', '2a', '3', '4', '5', '5a', '6']);
export type MoistureLevel = z.infer<typeof MoistureLevel>;

/** What is known of the package that is heated. What is left out is not known, and the work order then assumes the worse. */
export const PackageKnown = z.strictObject({
  moistureLevel: MoistureLevel.optional(),
  /** thickness of the body */
  bodyMillimetres: z.number().positive().max(20).optional(),
  /** volume of the body, without balls */
  bodyCubicMillimetres: z.number().positive().max(100_000).optional(),
  /** longest side */
  gridMillimetres: z.number().positive().max(200).optional(),
  /** out of its dry bag */
  exposureHours: z.number().nonnegative().optional(),
  /** the room it lay in: up to 30 degC and 60 %, or worse */
  room: z.enum(['within', 'worse']).optional(),
});
export type PackageKnown = z.infer<typeof PackageKnown>;

export const STEP_OUTCOMES = ['passed', 'failed', 'left-out'] as const;
/** One hold point as it was recorded. What was found there stands in the timeline as an event of its own that names the step. */
export const StepRecord = z.strictObject({
  step: Id,
  at: At,
  outcome: z.enum(STEP_OUTCOMES),
  note: z.string().optional(),
});
export type StepRecord = z.infer<typeof StepRecord>;

/**
 * How the work was done: its hold points in the order they were recorded. It holds no findings: what was seen or measured
 * at a hold point is an event after the work, so that nothing is counted twice.
 */
export const Process = z.strictObject({
  /** solder that was used or found, such as `Sn63Pb37` */
  alloy: z.string().min(1).optional(),
  package: PackageKnown.optional(),
  steps: z.array(StepRecord),
});
export type Process = z.infer<typeof Process>;

/** The owner was asked a price for a repair, and it stands until that day. */
export const Quoted = z.strictObject({
  type: z.literal('quoted'),
  at: At,
  /** id of the option it is for, as the assessment of that day named it */
  option: z.string().min(1),
  /** what the owner pays if the card works, in the shop's currency */
  price: Figure,
  validUntil: z.iso.date(),
  note: z.string().optional(),
});
export type Quoted = z.infer<typeof Quoted>;

export const Event = z.discriminatedUnion('type', [
  z.strictObject({ type: z.literal('arrived'), at: At, facts: FactAnswers, note: z.string().optional() }),
  Seen,
  Measured,
  Quoted,
  /** work that is prepared and has not touched the card: it changes nothing of what is believed */
  z.strictObject({ type: z.literal('prepared'), at: At, remedy: Id, note: z.string().optional(), process: Process }),
  /** work, from when the card was touched; whether the card worked afterwards is `worked` (null: can't tell, or not finished) */
  z.strictObject({
    type: z.literal('treated'),
    at: At,
    remedy: Id,
    worked: z.boolean().nullable(),
    note: z.string().optional(),
    process: Process.optional(),
  }),
  /** the card left the bench; `paid`: what the owner paid for the work, in the shop's currency */
  z.strictObject({ type: z.literal('handed-back'), at: At, paid: Figure.optional(), note: z.string().optional() }),
  /** the owner says it still works */
  z.strictObject({ type: z.literal('still-working'), at: At, note: z.string().optional() }),
  /** it failed again; `workedDays`: how long it had worked; left out: until it came back · null: can't tell */
  z.strictObject({
    type: z.literal('came-back'),
    at: At,
    workedDays: z.number().nonnegative().max(36_525).nullable().optional(),
    note: z.string().optional(),
  }),
  z.strictObject({ type: z.literal('closed'), at: At, note: z.string().optional() }),
  z.strictObject({ type: z.literal('note'), at: At, text: z.string() }),
]);
export type Event = z.infer<typeof Event>;

export const Money = z.strictObject({
  /** V: what the card is worth working */
  working: Amount,
  /** A: what it is worth as it lies there */
  asIs: Amount,
  /** S: what is left after failed work */
  partsAfterWork: Amount,
  /** prices of parts that differ from the shop profile, by part id */
  parts: z.record(Id, Amount).optional(),
  /** the shop owns the card: one purse, no price */
  ownStock: z.boolean().optional(),
});
export type Money = z.infer<typeof Money>;

const Bounds = z.strictObject({ atLeast: z.number().optional(), atMost: z.number().optional() });

/** What a worked case must lead to: bounds where it is judgement. `npm test` holds every case to it. */
export const Expectation = z.strictObject({
  /** one of these verdicts (ids of `VERDICTS` in assessment.ts) */
  verdict: z.array(z.string()).min(1),
  justified: z.boolean().optional(),
  /** the fault ranked first is one of these */
  top: z.array(Id).optional(),
  /** bounds on the chance of single faults */
  chance: z.record(Id, Bounds).optional(),
  /** bounds on the chance that no fault of the card is active */
  sound: Bounds.optional(),
  /** the next step is one of these checks, or the word `act` */
  next: z.array(Id).optional(),
  /** remedies that must be closed */
  closed: z.array(Id).optional(),
  /** bounds on the chance that the advised option works, and holds to the horizon */
  works: Bounds.optional(),
  holds: Bounds.optional(),
  /** the likeliest explanation of a comeback is one of these */
  attribution: z.array(z.enum(['wrong-thing', 'did-not-take', 'relapsed', 'damaged', 'new-fault'])).optional(),
  /** cautions that must be shown */
  cautions: z.array(Id).optional(),
});
export type Expectation = z.infer<typeof Expectation>;

export const Record = z.strictObject({
  format: z.literal(RECORD_FORMAT),
  id: Id,
  title: z.string().min(1),
  /** said on screen and paper where the card is made up */
  invented: z.boolean().optional(),
  /** only in `cases/`: why the case is there and what it must lead to */
  worked: z.strictObject({ why: z.string().min(1), expects: Expectation }).optional(),
  money: Money.optional(),
  /** by kind of package: what was measured and chosen of its balls. It moves no belief and belongs to no single work */
  balls: z.record(Id, Balls).optional(),
  timeline: z.array(Event),
  $schema: z.string().optional(),
});
export type Record = z.infer<typeof Record>;
