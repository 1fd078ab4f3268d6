/** What becomes of a solder ball: height and width after it collapsed onto its pads, and how near its neighbours come. */
import type { Alloy } from './alloys.ts';
import type { Cited } from './cited.ts';

/** Volume of a ball in mm3 from its diameter in mm: pi d^3 / 6. */
export function ballVolume(diameter: number): number {
  return (Math.PI * diameter ** 3) / 6;
}

/**
 * Volume of a slice of a ball between two parallel circles of radii `below` and `above`, `height` apart (all mm):
 * V = (pi h / 2)(r1^2 + r2^2) + pi h^3 / 6. It grows with the height. Constant time. Source: closed form.
 *
 * @example sliceVolume(0, 0, 2) // 4.1887902047863905
 */
export function sliceVolume(below: number, above: number, height: number): number {
  return ((Math.PI * height) / 2) * (below ** 2 + above ** 2) + (Math.PI * height ** 3) / 6;
}

export interface JointSolder {
  /** of the ball before it melts, mm; nought for a joint of paste alone */
  readonly ballDiameter: number;
  /** of the wettable pads, mm */
  readonly packagePad: number;
  readonly boardPad: number;
  /** printed paste, mm3, and the share of it that is metal by volume (about one half; estimate) */
  readonly pasteVolume?: number;
  readonly pasteMetalShare?: number;
}

export interface JointShape {
  /** of the solder, mm3 */
  readonly volume: number;
  /** stand-off between the pads, mm */
  readonly height: number;
  /** widest diameter, mm */
  readonly widest: number;
}

/** Of printed paste, by volume. Estimate. */
export const PASTE_METAL_SHARE = 0.5;

/**
 * The joint a ball settles to: a slice of a ball on both pads with the ball's own volume (and the paste's metal), which is
 * what surface tension makes of it where nothing weighs on it. The height solves `sliceVolume` = volume (one real root;
 * bisection to the last digit); the widest diameter is that of the ball the slice is cut from, or the larger pad where its
 * middle lies outside. The weight of a package, solder mask and vias are not counted, so that a real joint is lower and
 * wider. Lengths above nought in mm, else an error. Cost: about 60 volumes.
 *
 * @example collapsedJoint({ ballDiameter: 0.6, packagePad: 0.45, boardPad: 0.45 }).height.toFixed(4) // '0.4368'
 */
export function collapsedJoint(solder: JointSolder): JointShape {
  const { ballDiameter, packagePad, boardPad, pasteVolume = 0, pasteMetalShare = PASTE_METAL_SHARE } = solder;
  for (const [what, value] of [
    ['package pad', packagePad],
    ['board pad', boardPad],
  ] as const)
    if (!(value > 0)) throw new RangeError(`The ${what} has a diameter above nought, not ${value} mm.`);
  if (!(ballDiameter >= 0 && pasteVolume >= 0)) throw new RangeError('Ball and paste are nought or more.');
  const volume = ballVolume(ballDiameter) + pasteVolume * pasteMetalShare;
  if (volume === 0) throw new RangeError('A joint needs a ball or paste.');
  const below = boardPad / 2;
  const above = packagePad / 2;
  let low = 0;
  let high = Math.cbrt((6 * volume) / Math.PI);
  for (;;) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) break;
    if (sliceVolume(below, above, middle) < volume) low = middle;
    else high = middle;
  }
  return { volume, height: low, widest: widestOf(below, above, low) };
}

/**
 * The side of a joint from the board pad up: `steps` + 1 pairs of height and radius in mm, for drawing it to scale. On the
 * ball the slice is cut from, r(z)^2 = b^2 + z (2 c - z), with b the radius of the board pad and c the height of the ball's
 * middle above it. `steps` is one or more.
 */
export function jointOutline(
  { packagePad, boardPad }: Pick<JointSolder, 'packagePad' | 'boardPad'>,
  height: number,
  steps: number,
): readonly (readonly [height: number, radius: number])[] {
  const below = boardPad / 2;
  const above = packagePad / 2;
  const middle = middleOf(below, above, height);
  return Array.from({ length: steps + 1 }, (_, i) => {
    const z = (height * i) / steps;
    return [z, Math.sqrt(Math.max(0, below ** 2 + z * (2 * middle - z)))] as const;
  });
}

/** How high the middle of the ball lies above the lower circle of a slice. */
function middleOf(below: number, above: number, height: number): number {
  return (height ** 2 + above ** 2 - below ** 2) / (2 * height);
}

/** Of a slice of a ball with end radii `below` and `above`, `height` apart. */
function widestOf(below: number, above: number, height: number): number {
  const centre = middleOf(below, above, height);
  if (centre < 0 || centre > height) return 2 * Math.max(below, above);
  return 2 * Math.hypot(below, centre);
}

export interface ShortRisk {
  /** between neighbouring joints, mm; below nought they touch */
  readonly gap: number;
  readonly gapOfPitch: number;
  /** the height at which neighbours touch, mm: how far a package may be pressed or warped down */
  readonly heightToTouch: number;
  /** how much further down that is, mm; nought or less where they touch already */
  readonly roomToSink: number;
}

/**
 * How near neighbouring joints come at a pitch (mm), and how far the package would have to sink, at the same volume,
 * until they touch (`barrelVolume` = volume; pads taken at their mean). No chance of a short is given: how far a package
 * is pressed or warped down is not in the geometry. Bisection on the height, to 1e-10 mm.
 *
 * @example shortRisk({ ballDiameter: 0.6, packagePad: 0.45, boardPad: 0.45 }, 1).gap.toFixed(4) // '0.3729'
 */
export function shortRisk(solder: JointSolder, pitch: number): ShortRisk {
  if (!(pitch > 0)) throw new RangeError(`A pitch is above nought, not ${pitch} mm.`);
  const joint = collapsedJoint(solder);
  const gap = pitch - joint.widest;
  const pad = (solder.packagePad + solder.boardPad) / 4;
  const bulge = pitch / 2 - pad;
  let heightToTouch = joint.height;
  if (gap > 0 && bulge > 0) {
    let low = 0;
    let high = joint.height;
    while (high - low > 1e-10) {
      const middle = (low + high) / 2;
      if (barrelVolume(pad, bulge, middle) < joint.volume) low = middle;
      else high = middle;
    }
    heightToTouch = low;
  }
  return { gap, gapOfPitch: gap / pitch, heightToTouch, roomToSink: gap <= 0 ? 0 : joint.height - heightToTouch };
}

/**
 * Volume in mm3 of a pressed joint: an arc that bulges by `bulge` beyond pads of radius `pad`, `height` apart, turned about
 * the axis. Solder does not wet the mask beside the pad, so that the arc is at most a half circle: pressed further, the
 * joint spreads as a cake with a half-round rim. With c the arc's middle off the axis, r its radius, a half the height:
 * V = pi (2 a c^2 + 2 c (a sqrt(r^2 - a^2) + r^2 asin(a / r)) + 2 a r^2 - 2 a^3 / 3). Grows with height and bulge.
 *
 * @example barrelVolume(1, 0, 2) // 6.283185307179586
 */
export function barrelVolume(pad: number, bulge: number, height: number): number {
  if (height === 0) return 0;
  if (bulge === 0) return Math.PI * pad ** 2 * height;
  const half = height / 2;
  const radius = bulge <= half ? (half ** 2 + bulge ** 2) / (2 * bulge) : half;
  const centre = pad + bulge - radius;
  const segment =
    half * Math.sqrt(Math.max(0, radius ** 2 - half ** 2)) + radius ** 2 * Math.asin(Math.min(1, half / radius));
  return Math.PI * (height * centre ** 2 + 2 * centre * segment + height * radius ** 2 - (2 / 3) * half ** 3);
}

export interface LandRow {
  readonly ball: number;
  /** how much smaller than the ball the land is */
  readonly reduction: number;
  readonly land: number;
  readonly from: number;
  readonly to: number;
}

/** IPC-7095: land for a ball, mm. */
export const LANDS_CITED: Cited = { source: 'ipc-7095', place: 'ball to land', seen: 'quoted' };
export const LANDS: readonly LandRow[] = [
  { ball: 0.75, reduction: 0.25, land: 0.55, from: 0.5, to: 0.6 },
  { ball: 0.6, reduction: 0.25, land: 0.45, from: 0.4, to: 0.5 },
  { ball: 0.5, reduction: 0.2, land: 0.4, from: 0.35, to: 0.45 },
];

export type LandFit =
  | { readonly kind: 'fits' | 'too-small' | 'too-large'; readonly row: LandRow }
  | { readonly kind: 'no-row'; readonly balls: readonly number[] };

/** Whether a pad fits a ball by IPC-7095; no row where the table has no such ball (to a hundredth of a millimetre). */
export function landFit(ballDiameter: number, pad: number): LandFit {
  const row = LANDS.find(({ ball }) => Math.abs(ball - ballDiameter) < 0.005);
  if (row === undefined) return { kind: 'no-row', balls: LANDS.map(({ ball }) => ball) };
  return { kind: pad < row.from ? 'too-small' : pad > row.to ? 'too-large' : 'fits', row };
}

/** What there is to say of a mixture, as data; `ball-grid/messages` has the words. */
export type MixNote =
  | { readonly id: 'mixes-in-part'; readonly alloy: string; readonly celsius: number }
  | { readonly id: 'lowers-melting' | 'lead' | 'bismuth-with-lead' };

export interface MixedJoint {
  /** shares of mass; they sum to one */
  readonly mass: Readonly<Record<string, number>>;
  /** share of the joint's volume that the first alloy makes up */
  readonly volumeShare: number;
  readonly leaded: boolean;
  readonly noted: readonly MixNote[];
}

/** More lead than this by mass in a homogeneous material is above the RoHS figure. */
const LEAD_SHARE_NOTED = 0.001;

/**
 * What a joint consists of when two alloys melt into one (a lead-free ball left on a pad that is soldered with leaded
 * solder): volumes in any one unit times densities give masses, masses times compositions give shares. Alloys without a
 * density cannot be mixed and are an error. What is noted says what the mixture means, as common practice has it; a liquidus
 * is not computed, because none of the tables holds the mixtures.
 */
export function mixAlloys(first: Alloy, firstVolume: number, second: Alloy, secondVolume: number): MixedJoint {
  if (!(firstVolume >= 0 && secondVolume >= 0 && firstVolume + secondVolume > 0))
    throw new RangeError('Volumes are nought or more, and one of them is more.');
  const parts = [
    { alloy: first, volume: firstVolume },
    { alloy: second, volume: secondVolume },
  ].map(({ alloy, volume }) => {
    if (alloy.gramsPerCubicCentimetre === null) throw new RangeError(`The density of ${alloy.id} is not known.`);
    return { alloy, grams: alloy.gramsPerCubicCentimetre * volume };
  });
  const total = parts.reduce((sum, { grams }) => sum + grams, 0);
  const mass: Record<string, number> = {};
  for (const { alloy, grams } of parts)
    for (const [element, share] of Object.entries(alloy.mass))
      mass[element] = (mass[element] ?? 0) + (share * grams) / total;
  const leaded = (mass.Pb ?? 0) > LEAD_SHARE_NOTED;
  const mixed = firstVolume > 0 && secondVolume > 0 && first.class !== second.class;
  const hotter = first.liquidusCelsius >= second.liquidusCelsius ? first : second;
  const noted: readonly MixNote[] = [
    ...(mixed
      ? [
          { id: 'mixes-in-part', alloy: hotter.id, celsius: hotter.liquidusCelsius } as const,
          { id: 'lowers-melting' } as const,
        ]
      : []),
    ...(leaded ? [{ id: 'lead' } as const] : []),
    ...(mass.Bi && mass.Pb ? [{ id: 'bismuth-with-lead' } as const] : []),
  ];
  return { mass, volumeShare: firstVolume / (firstVolume + secondVolume), leaded, noted };
}
