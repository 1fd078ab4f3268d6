/** What is said of a ball joint: what `joint --json` prints, what the job sheet and the wizard show. */
import { z } from 'zod';
import { Balls } from '../record/balls.ts';

const Text = z.string().min(1);
const Cited = z.strictObject({ source: Text, place: Text, seen: z.enum(['seen', 'quoted', 'memory']) });
const Length = z.number().nonnegative();
const Field = z.string().min(1);

const Land = z.strictObject({
  side: z.enum(['package', 'board']),
  padMillimetres: Length,
  fit: z.enum(['fits', 'too-small', 'too-large', 'no-row']),
  /** null: the table has no such ball */
  land: z.strictObject({ usual: Length, from: Length, to: Length }).nullable(),
  /** balls the table has rows for */
  balls: z.array(Length),
  cited: Cited,
});

export const JointShape = z.strictObject({
  cubicMillimetres: z.strictObject({ ball: Length, paste: Length, left: Length, whole: Length }),
  standOffMillimetres: Length,
  widestMillimetres: Length,
  /** from the board pad up, for drawing to scale */
  outline: z.array(z.strictObject({ heightMillimetres: Length, radiusMillimetres: Length })),
  /** null: no pitch was given */
  neighbour: z
    .strictObject({
      pitchMillimetres: Length,
      /** nought or less: they touch */
      gapMillimetres: z.number(),
      gapOfPitch: z.number(),
      touchHeightMillimetres: Length,
      roomToSinkMillimetres: Length,
    })
    .nullable(),
  lands: z.array(Land),
});
export type JointShape = z.infer<typeof JointShape>;

export const Mixture = z.strictObject({
  ballAlloy: Text,
  /** null: not told, and taken as the ball's own */
  padAlloy: z.string().nullable(),
  /** shares of mass; null: how much solder stays on the pads, or a density, is not known */
  mass: z.record(z.string(), z.number()).nullable(),
  volumeShareOfBall: z.number().nullable(),
  leaded: z.boolean(),
  notes: z.array(Text),
});

export const VoidsAnswer = z.strictObject({
  percent: z.number(),
  limits: z.array(z.strictObject({ revision: Text, percent: z.number(), within: z.boolean(), cited: Cited })),
});
export type VoidsAnswer = z.infer<typeof VoidsAnswer>;

const Cycling = z.strictObject({ swingKelvin: z.number(), hottestCelsius: z.number(), cyclesPerDay: z.number() });
const Lived = z.strictObject({
  constants: Text,
  /** cycles in use over cycles under the reference, and the same of days */
  timesAsManyCycles: z.number(),
  timesAsManyDays: z.number(),
  /** null: no life was given for the reference */
  days: z.strictObject({ tenthFailed: z.number(), halfFailed: z.number(), characteristic: z.number() }).nullable(),
  cited: Cited,
});
export type Lived = z.infer<typeof Lived>;

export const LifeAnswer = z.strictObject({
  use: Cycling,
  reference: Cycling,
  /** nobody stated the reference */
  referenceAssumed: z.boolean(),
  leaded: Lived,
  /** one for each published set of constants, shortest first: that range is the answer */
  leadFree: z.array(Lived).min(1),
  /** which solder this use costs more of its own life under the reference, by every set of constants */
  costsMore: z.enum(['leaded', 'lead-free', 'cannot-tell']),
  /** a change that heat alone drives, by Arrhenius at the hottest temperatures; null: no activation energy was given */
  heatAlone: z.strictObject({ activationElectronvolts: z.number(), timesAsFast: z.number() }).nullable(),
});
export type LifeAnswer = z.infer<typeof LifeAnswer>;

export const EngelmaierAnswer = z.strictObject({
  meanCelsius: z.number(),
  exponent: z.number(),
  medianCycles: z.number(),
  medianDays: z.number(),
  cited: Cited,
});
export type EngelmaierAnswer = z.infer<typeof EngelmaierAnswer>;

const Problem = z.strictObject({ field: Field, wrong: Text, todo: Text });
export type JointProblem = z.infer<typeof Problem>;

export const JOINT_PARTS = ['shape', 'mixture', 'voids', 'life', 'engelmaier'] as const;
export type JointPart = (typeof JOINT_PARTS)[number];

export const Joint = z.strictObject({
  kind: z.literal('joint'),
  format: z.literal(1),
  /** of its words (BCP 47) */
  language: Text,
  given: Balls,
  /** each part is null where what it needs was not given */
  shape: JointShape.nullable(),
  mixture: Mixture.nullable(),
  voids: VoidsAnswer.nullable(),
  life: LifeAnswer.nullable(),
  engelmaier: EngelmaierAnswer.nullable(),
  /** begun, and what it still needs */
  missing: z.array(z.strictObject({ part: z.enum(JOINT_PARTS), fields: z.array(Field).min(1) })),
  /** given values that contradict each other */
  problems: z.array(Problem),
  /** the same in sentences */
  words: z.array(z.strictObject({ part: z.enum(JOINT_PARTS), heading: Text, lines: z.array(Text).min(1) })),
});
export type Joint = z.infer<typeof Joint>;

export const JointRefused = z.strictObject({
  kind: z.literal('refused'),
  format: z.literal(1),
  problems: z.array(Problem.extend({ typed: z.string().nullable() })).min(1),
});

export const JointAnswer = z.discriminatedUnion('kind', [Joint, JointRefused]);
export type JointAnswer = z.infer<typeof JointAnswer>;
