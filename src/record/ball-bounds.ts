/** Between which figures what is measured of balls and their use can lie. Apart from the schema, so that a screen needs no parser for it. */

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
  activationElectronvolts: { above: 0, most: 3 },
} as const satisfies { readonly [name: string]: BallBound };

export type BallNumber = keyof typeof BALL_BOUNDS;
