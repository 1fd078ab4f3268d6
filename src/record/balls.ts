/** What the bench measured or chose of a package's balls, and how the card is used: kept as numbers, every one of them optional. */
import { z } from 'zod';

/** From (`least`, itself allowed) or above (`above`) up to and with `most`. */
export type BallBound = { readonly most: number } & ({ readonly above: number } | { readonly least: number });

/** Beyond these something was mistyped: no ball of a card is as wide as five millimetres. */
export const BALL_BOUNDS = {
  ballMillimetres: { above: 0, most: 5 },
  packagePadMillimetres: { above: 0, most: 5 },
  boardPadMillimetres: { above: 0, most: 5 },
  pitchMillimetres: { above: 0, most: 10 },
  pasteCubicMillimetres: { least: 0, most: 10 },
  leftMillimetres: { least: 0, most: 1 },
  imageMillimetres: { above: 0, most: 10 },
  swingKelvin: { above: 0, most: 250 },
  hottestCelsius: { least: -40, most: 200 },
  cyclesPerDay: { above: 0, most: 1000 },
  referenceSwingKelvin: { above: 0, most: 250 },
  referenceHottestCelsius: { least: -40, most: 200 },
  referenceCyclesPerDay: { above: 0, most: 1000 },
  referenceCycles: { above: 0, most: 1_000_000_000 },
  referenceShape: { above: 0, most: 50 },
  strainRange: { above: 0, most: 0.5 },
  dwellMinutes: { above: 0, most: 10_080 },
} as const satisfies { readonly [name: string]: BallBound };

export type BallNumber = keyof typeof BALL_BOUNDS;

function bounded(name: BallNumber) {
  const bound: BallBound = BALL_BOUNDS[name];
  const up = z.number().max(bound.most);
  return ('above' in bound ? up.gt(bound.above) : up.gte(bound.least)).optional();
}

export const Balls = z.strictObject({
  /** of the ball before it melts */
  ballMillimetres: bounded('ballMillimetres'),
  /** of the pads that solder wets */
  packagePadMillimetres: bounded('packagePadMillimetres'),
  boardPadMillimetres: bounded('boardPadMillimetres'),
  /** from the middle of a ball to that of its neighbour */
  pitchMillimetres: bounded('pitchMillimetres'),
  /** printed for one ball, flux and all */
  pasteCubicMillimetres: bounded('pasteCubicMillimetres'),
  /** how high solder was left standing on the pads */
  leftMillimetres: bounded('leftMillimetres'),
  /** such as `SAC305` */
  ballAlloy: z.string().min(1).optional(),
  /** of the paste and of what was left on the pads */
  padAlloy: z.string().min(1).optional(),
  /** across a ball in the X-ray image, and across each void in it */
  imageMillimetres: bounded('imageMillimetres'),
  voidsMillimetres: z.array(z.number().min(0).max(10)).max(100).optional(),
  /** of the card's use: from cold to hot, how hot, how often */
  swingKelvin: bounded('swingKelvin'),
  hottestCelsius: bounded('hottestCelsius'),
  cyclesPerDay: bounded('cyclesPerDay'),
  /** what that use is compared with */
  referenceSwingKelvin: bounded('referenceSwingKelvin'),
  referenceHottestCelsius: bounded('referenceHottestCelsius'),
  referenceCyclesPerDay: bounded('referenceCyclesPerDay'),
  /** cycles by which 63.2 % have failed under the reference, and the Weibull shape of those lives */
  referenceCycles: bounded('referenceCycles'),
  referenceShape: bounded('referenceShape'),
  /** cyclic shear strain range of the joint, and how long half a cycle rests */
  strainRange: bounded('strainRange'),
  dwellMinutes: bounded('dwellMinutes'),
});
export type Balls = z.infer<typeof Balls>;
