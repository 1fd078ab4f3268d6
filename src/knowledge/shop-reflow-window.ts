/** A shop's own window for temperature profiles, and the words both it and an answer are written in. */
import { z } from 'zod';

const Text = z.string().min(1);
export const Limit = z.strictObject({ atLeast: z.number().optional(), atMost: z.number().optional() });
export const MeasureName = z.enum([
  'soakSeconds',
  'averageRise',
  'steepestRise',
  'secondsAboveLiquidus',
  'peak',
  'secondsNearPeak',
  'secondsNearCeiling',
  'steepestFall',
  'secondsToPeak',
]);
export const Levels = z.strictObject({
  soakFrom: z.number(),
  soakTo: z.number(),
  liquidus: z.number(),
  ceiling: z.number().optional(),
});

/** A shop's own window: temperatures in degC, times in seconds, rates in kelvin per second. */
export const ShopReflowWindow = z
  .strictObject({
    name: Text,
    levels: Levels,
    limits: z.partialRecord(MeasureName, Limit),
    spreadAtPeakAtMost: z.number().positive().optional(),
    $schema: z.string().optional(),
  })
  .refine(({ levels }) => levels.soakFrom < levels.soakTo && levels.soakTo <= levels.liquidus, {
    message: 'soakFrom lies below soakTo, and soakTo at or below the liquidus',
    path: ['levels'],
  })
  .refine(({ limits }) => Object.keys(limits).length > 0, { message: 'limit one measure or more', path: ['limits'] });
export type ShopReflowWindow = z.infer<typeof ShopReflowWindow>;
