/** What the bench measured or chose of a package's balls, and how the card is used: kept as numbers, every one of them optional. */
import { z } from 'zod';
import { BALL_BOUNDS, type BallBound, type BallNumber } from './ball-bounds.ts';

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
  /** of a change that heat alone drives, such as intermetallic growth */
  activationElectronvolts: bounded('activationElectronvolts'),
});
export type Balls = z.infer<typeof Balls>;
