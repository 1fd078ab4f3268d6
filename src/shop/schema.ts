/** The shop profile: the one file in which a bench keeps its money, policy, equipment and meters. */
import { z } from 'zod';
import { Id } from '../knowledge/id.ts';
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
  $schema: z.string().optional(),
});
export type Shop = z.infer<typeof Shop>;
