/** What was measured and chosen of a package's balls as figures: height, gap, fit, mixture, voids. */
import { ALLOYS, type Alloy, findAlloy } from '../joints/alloys.ts';
import {
  ballVolume,
  collapsedJoint,
  type JointSolder,
  jointOutline,
  LANDS_CITED,
  landFit,
  type MixNote,
  mixAlloys,
  PASTE_METAL_SHARE,
  shortRisk,
} from '../joints/ball-geometry.ts';
import { judgeVoids } from '../joints/void-area.ts';
import type { Balls } from '../record/balls.ts';
import type {
  EngelmaierAnswer,
  Joint,
  JointPart,
  JointProblem,
  JointShape,
  LifeAnswer,
  VoidsAnswer,
} from './answer.ts';
import { judgeEngelmaier, judgeLife, missingOfEngelmaier, missingOfLife } from './judge-life.ts';
import { ballMessages } from './messages/messages.ts';
import { sayJoint } from './say-joint.ts';

/** What is known without being asked: the solder of the work, how long the card runs. */
export interface BallsAround {
  readonly ballAlloy?: string | undefined;
}

/** A mixture before it is said. */
export interface MixedFigures {
  readonly ballAlloy: string;
  readonly padAlloy: string | null;
  readonly mass: { [element: string]: number } | null;
  readonly volumeShareOfBall: number | null;
  readonly leaded: boolean;
  readonly noted: readonly MixNote[];
  /** why there are no shares of mass */
  readonly unknown: 'volumes' | 'density' | null;
}

export interface JointFigures {
  readonly given: Balls;
  readonly shape: JointShape | null;
  readonly mixed: MixedFigures | null;
  readonly voids: VoidsAnswer | null;
  readonly life: LifeAnswer | null;
  readonly engelmaier: EngelmaierAnswer | null;
  readonly missing: readonly { readonly part: JointPart; readonly fields: readonly (keyof Balls)[] }[];
}

type Words = ReturnType<typeof ballMessages>;

/** From the middle of the side outwards and inwards the drawing needs no more points than these. */
const OUTLINE_STEPS = 24;
const SHAPE_NEEDS = ['ballMillimetres', 'packagePadMillimetres', 'boardPadMillimetres'] as const;

/**
 * Everything that can be said of the balls from what was given. A part that was not begun is null, one that was begun and
 * lacks something names what it lacks, and values that contradict each other are problems and leave their part null.
 */
export function judgeBalls(given: Balls, language: string, around: BallsAround = {}): Joint {
  const words = ballMessages(language);
  const problems = problemsOf(given, words);
  const wrong = new Set(problems.map(({ part }) => part));
  const shape = wrong.has('shape') ? null : shapeOf(given);
  const mixed = wrong.has('mixture') ? null : mixtureOf(given, shape, around);
  const voids = wrong.has('voids') ? null : voidsOf(given);
  const life = judgeLife(given);
  const engelmaier = judgeEngelmaier(given);
  const figures: JointFigures = { given, shape, mixed, voids, life, engelmaier, missing: missingOf(given) };
  return {
    kind: 'joint',
    format: 1,
    language,
    given,
    shape,
    mixture: mixed && {
      ballAlloy: mixed.ballAlloy,
      padAlloy: mixed.padAlloy,
      mass: mixed.mass,
      volumeShareOfBall: mixed.volumeShareOfBall,
      leaded: mixed.leaded,
      notes: mixed.noted.map((note) => words.mixture.note(note)),
    },
    voids,
    life,
    engelmaier,
    missing: figures.missing.map(({ part, fields }) => ({ part, fields: [...fields] })),
    problems: problems.map(({ part: _part, ...problem }) => problem),
    words: sayJoint(figures, language),
  };
}

function problemsOf(given: Balls, words: Words): (JointProblem & { readonly part: JointPart })[] {
  const found: (JointProblem & { readonly part: JointPart })[] = [];
  const { pitchMillimetres: pitch, imageMillimetres: image } = given;
  const say = words.number;
  for (const field of ['packagePadMillimetres', 'boardPadMillimetres'] as const) {
    const pad = given[field];
    if (pad === undefined || pitch === undefined || pad < pitch) continue;
    found.push({ part: 'shape', field, ...words.refused.padAsWideAsPitch(words.fields[field], say(pad), say(pitch)) });
  }
  for (const field of ['ballAlloy', 'padAlloy'] as const) {
    const name = given[field];
    if (name === undefined || findAlloy(name)) continue;
    const known = ALLOYS.map(({ id }) => id).join(', ');
    found.push({ part: 'mixture', field, ...words.refused.alloy(name, known) });
  }
  const widest = Math.max(0, ...(given.voidsMillimetres ?? []));
  if (image !== undefined && widest > image)
    found.push({ part: 'voids', field: 'voidsMillimetres', ...words.refused.voidTooWide(say(widest), say(image)) });
  return found;
}

function shapeOf(given: Balls): JointShape | null {
  const { ballMillimetres: ball, packagePadMillimetres: packagePad, boardPadMillimetres: boardPad } = given;
  if (ball === undefined || packagePad === undefined || boardPad === undefined) return null;
  const volume = {
    ball: ballVolume(ball),
    paste: (given.pasteCubicMillimetres ?? 0) * PASTE_METAL_SHARE,
    left: (Math.PI / 4) * (packagePad ** 2 + boardPad ** 2) * (given.leftMillimetres ?? 0),
  };
  const solder: JointSolder = {
    ballDiameter: ball,
    packagePad,
    boardPad,
    pasteVolume: volume.paste + volume.left,
    pasteMetalShare: 1,
  };
  const joint = collapsedJoint(solder);
  const pitch = given.pitchMillimetres;
  const risk = pitch === undefined ? null : shortRisk(solder, pitch);
  return {
    cubicMillimetres: { ...volume, whole: joint.volume },
    standOffMillimetres: joint.height,
    widestMillimetres: joint.widest,
    outline: jointOutline(solder, joint.height, OUTLINE_STEPS).map(([heightMillimetres, radiusMillimetres]) => ({
      heightMillimetres,
      radiusMillimetres,
    })),
    neighbour:
      risk === null || pitch === undefined
        ? null
        : {
            pitchMillimetres: pitch,
            gapMillimetres: risk.gap,
            gapOfPitch: risk.gapOfPitch,
            touchHeightMillimetres: risk.heightToTouch,
            roomToSinkMillimetres: risk.roomToSink,
          },
    lands: [landOf('package', ball, packagePad), landOf('board', ball, boardPad)],
  };
}

function landOf(side: 'package' | 'board', ball: number, pad: number): JointShape['lands'][number] {
  const fit = landFit(ball, pad);
  return {
    side,
    padMillimetres: pad,
    fit: fit.kind,
    land: fit.kind === 'no-row' ? null : { usual: fit.row.land, from: fit.row.from, to: fit.row.to },
    balls: fit.kind === 'no-row' ? [...fit.balls] : [fit.row.ball],
    cited: { ...LANDS_CITED },
  };
}

function mixtureOf(given: Balls, shape: JointShape | null, around: BallsAround): MixedFigures | null {
  if (given.ballAlloy === undefined && given.padAlloy === undefined) return null;
  const ball = findAlloy(given.ballAlloy ?? around.ballAlloy ?? '');
  const pad = given.padAlloy === undefined ? undefined : findAlloy(given.padAlloy);
  if (ball === undefined) return null;
  const both = { ballAlloy: ball.id, padAlloy: pad?.id ?? null };
  const other = pad ?? ball;
  const share = shape === null ? null : shape.cubicMillimetres.ball / shape.cubicMillimetres.whole;
  if (ball.gramsPerCubicCentimetre === null || other.gramsPerCubicCentimetre === null)
    return {
      ...both,
      mass: null,
      volumeShareOfBall: share,
      leaded: [ball, other].some(holdsLead),
      noted: notesWithoutDensity(ball, other),
      unknown: 'density',
    };
  const nothingElse = share === null || share === 1;
  if (ball.id !== other.id && nothingElse) {
    const { leaded, noted } = mixAlloys(ball, 1, other, 1);
    return { ...both, mass: null, volumeShareOfBall: null, leaded, noted, unknown: 'volumes' };
  }
  const mixed = mixAlloys(ball, share ?? 1, other, 1 - (share ?? 1));
  return {
    ...both,
    mass: { ...mixed.mass },
    volumeShareOfBall: share,
    leaded: mixed.leaded,
    noted: mixed.noted,
    unknown: null,
  };
}

const holdsLead = ({ mass }: Alloy): boolean => (mass.Pb ?? 0) > 0;

/** The caution of bismuth with lead does not wait for a density. */
function notesWithoutDensity(first: Alloy, second: Alloy): readonly MixNote[] {
  const bismuth = [first, second].some(({ mass }) => (mass.Bi ?? 0) > 0);
  const lead = [first, second].some(holdsLead);
  return bismuth && lead ? [{ id: 'lead' }, { id: 'bismuth-with-lead' }] : [];
}

function voidsOf({ imageMillimetres: image, voidsMillimetres: voids }: Balls): VoidsAnswer | null {
  if (image === undefined || voids === undefined) return null;
  const { percent, limits } = judgeVoids(image, voids);
  return { percent, limits: limits.map((limit) => ({ ...limit, cited: { ...limit.cited } })) };
}

function missingOf(given: Balls): JointFigures['missing'] {
  const lacks = <Name extends keyof Balls>(needs: readonly Name[]) => needs.filter((name) => given[name] === undefined);
  const has = (...names: readonly (keyof Balls)[]) => names.some((name) => given[name] !== undefined);
  const shape = has(...SHAPE_NEEDS, 'pitchMillimetres', 'pasteCubicMillimetres', 'leftMillimetres');
  const voids = ['imageMillimetres', 'voidsMillimetres'] as const;
  const engelmaier = missingOfEngelmaier(given);
  return [
    { part: 'shape' as const, fields: shape ? lacks(SHAPE_NEEDS) : [] },
    { part: 'voids' as const, fields: has(...voids) ? lacks(voids) : [] },
    { part: 'life' as const, fields: missingOfLife(given) },
    { part: 'engelmaier' as const, fields: engelmaier },
  ].filter(({ fields }) => fields.length > 0);
}
