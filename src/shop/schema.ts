/** The shop profile: the one file in which a bench keeps its money, policy, equipment and meters. */
import { z } from 'zod';
import { Id } from '../knowledge/id.ts';
import { ShopReflowWindow } from '../knowledge/shop-reflow-window.ts';
import { Amount, Instrument } from '../record/schema.ts';

export const FeePolicy = z.discriminatedUnion('kind', [
  /** the owner pays only for a card that works at hand-back */
  z.strictObject({ kind: z.literal('no-fix-no-fee') }),
  /** the owner pays this much when the work failed */
  z.strictObject({ kind: z.literal('diagnostic-fee'), fee: z.number().nonnegative() }),
]);
export type FeePolicy = z.infer<typeof FeePolicy>;

/** A meter besides the usual ones, as its data sheet states it. */
export const Meter = z.strictObject({
  id: Id,
  name: z.string().min(1),
  resistance: Instrument,
  voltage: Instrument,
  current: Instrument,
});
export type Meter = z.infer<typeof Meter>;

/** What the shop's own records teach of one time to relapse, in place of the book's. `worth-the-heat remedies --write` states it. */
export const LearntRelapse = z.strictObject({
  fault: Id,
  /** after this remedy alone; left out: after any */
  remedy: Id.optional(),
  medianDays: z.number().positive(),
  shape: z.number().positive(),
  /** equivalent sample size: relapses, the book's own among them */
  n: z.number().positive(),
  basis: z.literal('shop'),
  /** relapses and masked cards counted, in parts of cards */
  hits: z.number().nonnegative(),
  trials: z.number().positive(),
  since: z.iso.date(),
});
export type LearntRelapse = z.infer<typeof LearntRelapse>;

export const Learnt = z.strictObject({ relapse: z.array(LearntRelapse) });
export type Learnt = z.infer<typeof Learnt>;

const Share = z.number().min(0).max(1);

/** How much the bench asks of an answer before it acts on it. Judgement, no source: each bench may hold its own. */
export const Restraint = z.strictObject({
  /** a repair that mends a smaller share of such cards, those that were sound anyway left out, is no verdict */
  leastMended: Share,
  /** a plan of checks that gains less than this share of the working value is within the noise of the estimates */
  leastGain: Share,
  /** no card is given up unmeasured while what is not known could be worth this share of its working value */
  openShare: Share,
});
export type Restraint = z.infer<typeof Restraint>;

export const Shop = z.strictObject({
  format: z.literal(1),
  name: z.string(),
  /** ISO 4217 */
  currency: z.string().regex(/^[A-Z]{3}$/),
  /** BCP 47 */
  locale: z.string(),
  labourPerHour: Amount,
  consumablesPerHeatCycle: Amount,
  /** what a comeback costs the shop besides bench time: post, talk, standing */
  comebackCost: Amount,
  /** what it costs to call a card sound that is not: the owner replaces other parts for nothing, and comes back angry */
  wronglySoundCost: Amount,
  policy: FeePolicy,
  warrantyDays: z.number().int().nonnegative(),
  horizonDays: z.number().int().positive(),
  /** days a written offer stands; 14 where it is left out */
  quoteDays: z.number().int().positive().optional(),
  /** least surplus worth starting for: fixed, plus a share of the expected cost */
  margin: z.strictObject({ fixed: z.number().nonnegative(), shareOfCost: z.number().nonnegative() }),
  /** left out: `USUAL_RESTRAINT` in `restraint.ts` */
  restraint: Restraint.optional(),
  /** money of a card whose record states none */
  defaultMoney: z.strictObject({ working: Amount, asIs: Amount, partsAfterWork: Amount }),
  parts: z.record(Id, Amount),
  /** equipment the bench has; checks and remedies that need what is missing are closed with that reason */
  equipment: z.array(Id),
  instruments: z.strictObject({
    resistance: Instrument,
    voltage: Instrument,
    current: Instrument,
    temperature: Instrument,
    percent: Instrument,
    ratio: Instrument,
  }),
  /** further meters of the bench; readings taken with one of them carry its figures instead of the ones above */
  meters: z.array(Meter).optional(),
  leadResistance: z.number().nonnegative(),
  /** the bench's own profile windows, one for a kind of solder; left out: the classes of J-STD-020 */
  reflowWindows: z
    .array(z.strictObject({ solder: z.enum(['leaded', 'lead-free']), window: ShopReflowWindow }))
    .optional(),
  /** learnt from the shop's own records; left out: the book's figures */
  learnt: Learnt.optional(),
  $schema: z.string().optional(),
});
export type Shop = z.infer<typeof Shop>;
