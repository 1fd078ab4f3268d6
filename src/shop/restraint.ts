import type { Restraint } from './schema.ts';

/** For a profile that states none. Apart from the schema, so that whoever only computes loads no parser of profiles. */
export const USUAL_RESTRAINT: Restraint = { leastMended: 0.05, leastGain: 0.01, openShare: 0.2 };
