/** The figures of a ball joint in sentences, in the order somebody at the bench asks for them. */
import type { Cited } from '../joints/cited.ts';
import type { BallNumber } from '../record/ball-bounds.ts';
import type { Balls } from '../record/balls.ts';
import type { Joint, JointPart, JointShape, LifeAnswer, Lived } from './answer.ts';
import { BALL_FIELDS } from './fields.ts';
import type { JointFigures } from './judge-balls.ts';
import { type BallMessages, ballMessages } from './messages/messages.ts';

interface Speech {
  readonly words: BallMessages;
  /** lengths to a thousandth of a millimetre: no caliper shows more */
  readonly mm: (value: number) => string;
  /** three significant digits: what the figures are known to at the best */
  readonly figure: (value: number) => string;
  readonly percent: (share: number) => string;
  readonly list: (items: readonly string[]) => string;
}

export function sayJoint(figures: JointFigures, language: string): Joint['words'] {
  const speech = speechOf(language);
  const { words } = speech;
  const parts: { part: JointPart; lines: string[] }[] = [
    { part: 'shape', lines: sayShape(figures, speech) },
    { part: 'mixture', lines: sayMixture(figures, speech) },
    { part: 'voids', lines: sayVoids(figures, speech) },
    { part: 'life', lines: sayLife(figures, speech) },
    { part: 'engelmaier', lines: sayEngelmaier(figures, speech) },
  ];
  return parts.flatMap(({ part, lines }) => {
    const lacks = figures.missing.find((one) => one.part === part);
    const all =
      lacks === undefined
        ? lines
        : [...lines, words.missing(speech.list(lacks.fields.map((name) => words.fields[name])))];
    return all.length === 0 ? [] : [{ part, heading: words.headings[part], lines: all }];
  });
}

/** What was measured and chosen, with its units, in the order it is asked in. */
export function sayGiven(given: Balls, language: string): string {
  const words = ballMessages(language);
  const said = (Object.keys(words.fields) as (keyof Balls)[]).flatMap((name) => {
    const value = given[name];
    if (value === undefined) return [];
    if (typeof value === 'string') return [`${words.fields[name]}: ${value}`];
    const unit = name === 'voidsMillimetres' ? 'mm' : BALL_FIELDS[name as BallNumber].unit;
    const numbers = typeof value === 'number' ? [value] : value;
    return [`${words.fields[name]}: ${numbers.map(words.number).join(' / ')}${unit === '' ? '' : ` ${unit}`}`];
  });
  return words.given(said.join('; '));
}

function speechOf(language: string): Speech {
  const words = ballMessages(language);
  const mm = new Intl.NumberFormat(language, { useGrouping: false, maximumFractionDigits: 3 });
  const figure = new Intl.NumberFormat(language, { maximumSignificantDigits: 3 });
  const percent = new Intl.NumberFormat(language, { useGrouping: false, maximumFractionDigits: 2 });
  const list = new Intl.ListFormat(language, { type: 'conjunction' });
  return {
    words,
    mm: (value) => mm.format(value),
    figure: (value) => figure.format(value),
    percent: (share) => `${percent.format(100 * share)} %`,
    list: (items) => list.format(items),
  };
}

function sourceOf({ words }: Speech, { source, seen }: Cited): string {
  return `${words.sources[source] ?? source}, ${words.seen[seen]}`;
}

function sayShape({ shape, given }: JointFigures, speech: Speech): string[] {
  if (shape === null) return [];
  const { words, mm, percent, list } = speech;
  const { cubicMillimetres: volume, neighbour } = shape;
  const cubic = (value: number) => speech.figure(value);
  const more = [
    ...(volume.paste > 0 ? [words.shape.paste(cubic(volume.paste))] : []),
    ...(volume.left > 0 ? [words.shape.left(cubic(volume.left))] : []),
  ];
  return [
    words.shape.standOff(
      mm(shape.standOffMillimetres),
      mm(shape.widestMillimetres),
      neighbour === null ? '' : words.shape.atPitch(mm(neighbour.pitchMillimetres)),
    ),
    more.length === 0
      ? words.shape.volume(cubic(volume.whole))
      : words.shape.volumeOf(cubic(volume.whole), cubic(volume.ball), list(more)),
    ...(neighbour === null
      ? [words.shape.noPitch]
      : neighbour.gapMillimetres > 0
        ? [
            words.shape.gap(mm(neighbour.gapMillimetres), percent(Math.round(100 * neighbour.gapOfPitch) / 100)),
            words.shape.sink(mm(neighbour.touchHeightMillimetres), mm(neighbour.roomToSinkMillimetres)),
          ]
        : [words.shape.touch(mm(-neighbour.gapMillimetres))]),
    ...sayLands(shape, given.ballMillimetres!, speech),
    words.shape.geometryAlone,
  ];
}

function sayLands({ lands }: JointShape, ball: number, speech: Speech): string[] {
  const { words, mm, list } = speech;
  const [first] = lands;
  if (first?.fit === 'no-row')
    return [words.shape.noRow(mm(ball), list(first.balls.map(mm)), sourceOf(speech, first.cited))];
  return lands.flatMap(({ side, padMillimetres, fit, land, cited }) =>
    land === null || fit === 'no-row'
      ? []
      : [
          words.shape.land(side, mm(padMillimetres), fit, mm(ball)) +
            words.shape.landRow(mm(land.usual), mm(land.from), mm(land.to), sourceOf(speech, cited)),
        ],
  );
}

function sayMixture({ mixed }: JointFigures, { words, percent, list }: Speech): string[] {
  if (mixed === null) return [];
  const { ballAlloy: ball, padAlloy: pad } = mixed;
  const notes = mixed.noted.map((note) => words.mixture.note(note));
  if (pad === null) return [words.mixture.same(ball), ...notes];
  if (mixed.unknown === 'density') return [words.mixture.unknownDensity(ball, pad), ...notes];
  if (ball === pad) return [words.mixture.sameSaid(ball), ...notes];
  if (mixed.mass === null) return [words.mixture.unknownVolumes(ball, pad), ...notes];
  const mass = Object.entries(mixed.mass)
    .sort(([, a], [, b]) => b - a)
    .map(([element, share]) => `${element} ${percent(share)}`);
  return [words.mixture.mixed(ball, percent(mixed.volumeShareOfBall ?? 1), pad, list(mass)), ...notes];
}

function sayVoids({ voids, given }: JointFigures, speech: Speech): string[] {
  if (voids === null) return [];
  const { words, percent } = speech;
  const count = given.voidsMillimetres?.filter((width) => width > 0).length ?? 0;
  return [
    count === 0 ? words.voids.none : words.voids.percent(percent(voids.percent / 100), count),
    ...voids.limits.map(({ revision, percent: most, within, cited }) =>
      words.voids.limit(
        words.sources[cited.source] ?? cited.source,
        revision,
        percent(most / 100),
        within,
        words.seen[cited.seen],
      ),
    ),
  ];
}

function sayLife({ life, given }: JointFigures, speech: Speech): string[] {
  if (life === null) return [];
  const { words, figure } = speech;
  const { life: say } = words;
  const { leaded, leadFree } = life;
  const cycling = (one: LifeAnswer['use']) =>
    [
      words.number(one.swingKelvin),
      words.number(one.hottestCelsius),
      words.perDay(words.number(one.cyclesPerDay)),
    ] as const;
  const ratios = (of: (one: Lived) => number) => leadFree.map(of).sort((a, b) => a - b);
  const cycles = ratios(({ timesAsManyCycles }) => timesAsManyCycles);
  const days = ratios(({ timesAsManyDays }) => timesAsManyDays);
  const sets = leadFree.map(
    ({ constants, timesAsManyCycles, cited }) =>
      `${words.constants[constants] ?? constants} ${figure(timesAsManyCycles)} (${words.seen[cited.seen]})`,
  );
  return [
    say.use(...cycling(life.use)),
    (life.referenceAssumed ? say.assumed : say.stated)(...cycling(life.reference)),
    say.leaded(figure(leaded.timesAsManyCycles), figure(leaded.timesAsManyDays), sourceOf(speech, leaded.cited)),
    say.leadFree(figure(cycles[0]!), figure(cycles.at(-1)!), figure(days[0]!), figure(days.at(-1)!)),
    say.spread(sets.join('; '), figure(cycles.at(-1)! / cycles[0]!)),
    say.costsMore[life.costsMore],
    say.eachWithItself,
    ...sayHeatAlone(life, speech),
    ...sayDays(life, given.referenceCycles, given.referenceShape, speech),
    say.comparison,
  ];
}

function sayHeatAlone({ heatAlone, use, reference }: LifeAnswer, { words, figure }: Speech): string[] {
  if (heatAlone === null) return [];
  const { number } = words;
  return [
    words.life.heatAlone(
      number(heatAlone.activationElectronvolts),
      figure(heatAlone.timesAsFast),
      number(use.hottestCelsius),
      number(reference.hottestCelsius),
    ),
  ];
}

function sayDays(
  { leaded, leadFree }: LifeAnswer,
  cycles: number | undefined,
  shape: number | undefined,
  { words, figure }: Speech,
): string[] {
  if (leaded.days === null || cycles === undefined || shape === undefined) return [];
  const { life: say } = words;
  const one = (solder: string, { days }: Lived) =>
    days === null
      ? []
      : [say.days(solder, figure(days.tenthFailed), figure(days.halfFailed), figure(days.characteristic))];
  return [
    say.daysFrom(words.number(cycles), words.number(shape)),
    ...one(say.leadedName, leaded),
    ...leadFree.flatMap((lived) => one(say.leadFreeName(words.constants[lived.constants] ?? lived.constants), lived)),
  ];
}

function sayEngelmaier({ engelmaier, given }: JointFigures, speech: Speech): string[] {
  if (engelmaier === null) return [];
  const { words, figure } = speech;
  const { strainRange = 0, dwellMinutes = 0, cyclesPerDay = 0 } = given;
  return [
    words.engelmaier.median(
      figure(engelmaier.medianCycles),
      figure(engelmaier.medianDays),
      words.perDay(words.number(cyclesPerDay)),
    ),
    words.engelmaier.from(
      words.number(strainRange),
      words.number(engelmaier.meanCelsius),
      words.number(dwellMinutes),
      figure(engelmaier.exponent),
      sourceOf(speech, engelmaier.cited),
    ),
    words.engelmaier.comparison,
  ];
}
