/** What `profile --json` answers. */
import { z } from 'zod';
import { Levels, Limit, MeasureName } from './shop-reflow-window.ts';

export { ShopReflowWindow } from './shop-reflow-window.ts';

const Text = z.string().min(1);
const Grade = z.enum(['inside', 'outside', 'cannot-tell']);
const Weight = z.number().min(0).max(1);
/** null: open on that side, because the record ends first */
const Bound = z.number().nullable();
const Quantity = z.strictObject({ value: z.number(), low: Bound, high: Bound });
const Measured = z.discriminatedUnion('kind', [
  Quantity.extend({ kind: z.literal('measured'), note: z.string().optional() }),
  z.strictObject({ kind: z.literal('not-recorded'), because: z.string() }),
]);
const Seconds = z.strictObject({ from: z.number(), to: z.number() });
const Place = z.strictObject({
  line: z.number().int().nonnegative(),
  column: z.number().int().positive().nullable(),
  wrong: z.string(),
  todo: z.string(),
  /** by which sentence, and of what, so that it can be said in another language */
  told: z.strictObject({ id: z.string(), about: z.record(z.string(), z.union([z.string(), z.number()])) }).optional(),
});
const Cited = z.strictObject({ source: z.string(), place: z.string(), seen: z.enum(['seen', 'quoted', 'memory']) });

export const ProfileAnswer = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('judged'),
    verdict: Text,
    grade: Grade,
    finding: z.strictObject({
      id: z.literal('profile-record'),
      weights: z.strictObject({ 'in-window': Weight, 'out-of-window': Weight }),
    }),
    window: z.strictObject({
      kind: z.enum(['package-class', 'shop']),
      name: Text,
      levels: Levels,
      ceilingAtMost: z.number().optional(),
      rows: z.array(z.strictObject({ measure: MeasureName, limit: Limit, cited: Cited.nullable() })),
      spreadAtPeakAtMost: z.number().optional(),
      says: z.string().nullable(),
    }),
    heats: z.array(
      z.strictObject({
        channel: z.string(),
        heat: z.number().int().positive(),
        seconds: Seconds,
        peakAt: z.number(),
        grade: Grade,
        chanceInside: Weight,
        rows: z.array(
          z.strictObject({
            measure: MeasureName,
            name: Text,
            limit: Limit,
            measured: Measured,
            cited: Cited.nullable(),
            grade: Grade,
            chanceInside: Weight,
            side: z.enum(['below', 'above']).nullable(),
            because: z.string().optional(),
          }),
        ),
        measures: z.record(MeasureName, Measured),
      }),
    ),
    spreadAtPeak: Quantity.extend({ grade: Grade.nullable(), atMost: z.number().nullable() }).nullable(),
    rateSpanSeconds: z.number().positive(),
    channels: z.array(
      z.strictObject({
        name: z.string(),
        resolution: z.number().positive(),
        halfWidth: z.number().nonnegative(),
        noise: z.number().nonnegative(),
        stepSeconds: z.number().nonnegative(),
        spikes: z.number().int().nonnegative(),
        pauses: z.array(Seconds),
        gaps: z.strictObject({
          empty: z.number().int(),
          marked: z.number().int(),
          impossible: z.number().int(),
          unreadable: z.number().int(),
        }),
        unit: z.enum(['C', 'F']),
        unitFrom: z.string(),
      }),
    ),
    unusable: z.array(z.strictObject({ name: z.string(), because: z.string() })),
    log: z.strictObject({
      lines: z.number().int(),
      rows: z.number().int(),
      separator: z.string(),
      decimalMark: z.enum(['.', ',']),
      headerLine: z.number().int().nullable(),
      time: z.string(),
      leftOut: z.array(z.strictObject({ column: z.number().int(), name: z.string(), because: z.string() })),
      skipped: z.array(z.strictObject({ reason: z.string(), count: z.number().int(), firstLine: z.number().int() })),
      problems: z.array(Place),
      problemsBeyond: z.number().int().nonnegative(),
    }),
    /** thinned for drawing */
    curve: z.strictObject({
      seconds: z.array(z.number()),
      channels: z.array(z.strictObject({ name: z.string(), celsius: z.array(z.number().nullable()) })),
    }),
  }),
  z.strictObject({
    kind: z.literal('unreadable'),
    lines: z.number().int(),
    problems: z.array(Place),
    problemsBeyond: z.number().int().nonnegative(),
  }),
]);
export type ProfileAnswer = z.infer<typeof ProfileAnswer>;
