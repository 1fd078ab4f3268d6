/** A thermocouple log judged against its window, as the plain value that the command line prints and the wizard draws. */
import type { AlloyClass } from '../joints/alloys.ts';
import { thinCurve } from '../joints/curve.ts';
import type { Quantity } from '../joints/graded-limit.ts';
import { type JudgedProfile, judgeProfile } from '../joints/judged-profile.ts';
import { MEASURES, type Measured, measureProfile, type Profile, type ProfileOptions } from '../joints/profile.ts';
import { CLASSES_ARE_CEILINGS, type PackageSize, packageWindow, type ReflowWindow } from '../joints/reflow-window.ts';
import { nameMeasure, sayVerdict } from '../joints/say-profile.ts';
import {
  type ReadLogOptions,
  readThermocoupleLog,
  type ThermocoupleLog,
  type UnreadableLog,
} from '../joints/thermocouple-log.ts';
import type { ProfileAnswer, ShopReflowWindow } from '../knowledge/profile-answer.ts';

export { decodeLog } from '../joints/log-encoding.ts';

const CURVE_POINTS = 1200;

/** What a profile is judged by where the shop has no window of its own: the solder, what the package bears, and its size. */
export interface PackageChoice {
  readonly solder: AlloyClass;
  readonly rated: AlloyClass;
  /** of the body, in millimetres */
  readonly thickness?: number;
  /** of the body, in cubic millimetres */
  readonly volume?: number;
}

/** The shop's own window in place of a class. */
export interface OwnWindow {
  readonly own: ShopReflowWindow;
}

export type JudgedBy = PackageChoice | OwnWindow;

export interface LogChoices {
  readonly read?: ReadLogOptions;
  readonly measure?: ProfileOptions;
}

/** Reads, measures and judges a log by the shop's own window or by the class of its package. Cost: linear in the readings. */
export async function judgeLog(
  text: string | Iterable<string> | AsyncIterable<string>,
  by: JudgedBy,
  { read = {}, measure = {} }: LogChoices = {},
): Promise<ProfileAnswer> {
  const window = 'own' in by ? windowOfShop(by.own) : packageWindow(by.solder, sizeOf(by), by.rated);
  const log = await readThermocoupleLog(text, read);
  if (log.kind === 'unreadable') return unreadableAnswer(log);
  const profile = measureProfile(log, window.levels, measure);
  return profileAnswer(log, profile, judgeProfile(profile, window));
}

function sizeOf({ thickness, volume }: PackageChoice): PackageSize {
  return { ...(thickness === undefined ? {} : { thickness }), ...(volume === undefined ? {} : { volume }) };
}

/** A shop's own window as the profile is held to it. */
export function windowOfShop(stated: ShopReflowWindow): ReflowWindow {
  const { name, levels, limits, spreadAtPeakAtMost } = stated;
  return {
    kind: 'shop',
    name,
    levels: {
      soakFrom: levels.soakFrom,
      soakTo: levels.soakTo,
      liquidus: levels.liquidus,
      ...(levels.ceiling === undefined ? {} : { ceiling: levels.ceiling }),
    },
    rows: MEASURES.flatMap((measure) => {
      const limit = limits[measure];
      if (limit === undefined) return [];
      const { atLeast, atMost } = limit;
      const given = { ...(atLeast === undefined ? {} : { atLeast }), ...(atMost === undefined ? {} : { atMost }) };
      return [{ measure, limit: given, cited: null }];
    }),
    ...(spreadAtPeakAtMost === undefined ? {} : { spreadAtPeakAtMost }),
  };
}

export function unreadableAnswer(log: UnreadableLog): ProfileAnswer {
  return { ...log, problems: [...log.problems] };
}

export function sayTime({ layout: { time } }: ThermocoupleLog): string {
  switch (time.kind) {
    case 'rows':
      return `${time.secondsPerRow} s from row to row, as stated`;
    case 'number':
      return `in ${time.unit} (${time.unitFrom})`;
    case 'moment':
      return 'as a clock';
    case 'date-and-clock':
      return 'as a date and a clock';
  }
}

/** Everything that was read, measured and judged, with the curve thinned for drawing. */
export function profileAnswer(log: ThermocoupleLog, profile: Profile, judged: JudgedProfile): ProfileAnswer {
  const { against: window } = judged;
  const thin = thinCurve(log.seconds, log.channels, CURVE_POINTS);
  return {
    kind: 'judged',
    verdict: sayVerdict(judged),
    grade: judged.grade,
    finding: judged.finding,
    window: {
      kind: window.kind,
      name: window.name,
      levels: window.levels,
      ...(window.ceilingAtMost === undefined ? {} : { ceilingAtMost: window.ceilingAtMost }),
      rows: window.rows.map((row) => ({ ...row })),
      ...(window.spreadAtPeakAtMost === undefined ? {} : { spreadAtPeakAtMost: window.spreadAtPeakAtMost }),
      says: window.kind === 'package-class' ? CLASSES_ARE_CEILINGS : null,
    },
    heats: judged.heats.map((heat) => {
      const measured = profile.channels.find(({ name }) => name === heat.channel)!.heats[heat.heat - 1]!;
      return {
        channel: heat.channel,
        heat: heat.heat,
        seconds: { from: measured.from, to: measured.to },
        peakAt: measured.peakAt,
        grade: heat.grade,
        chanceInside: heat.chanceInside,
        rows: heat.rows.map((row) => ({
          ...row,
          name: nameMeasure(row.measure, window.levels),
          measured: plainMeasured(row.measured),
        })),
        measures: Object.fromEntries(
          MEASURES.map((measure) => [measure, plainMeasured(measured.measures[measure])]),
        ) as Record<(typeof MEASURES)[number], PlainMeasured>,
      };
    }),
    spreadAtPeak:
      profile.spreadAtPeak === undefined
        ? null
        : {
            ...plainQuantity(profile.spreadAtPeak),
            grade: judged.spread?.grade ?? null,
            atMost: judged.spread?.atMost ?? null,
          },
    rateSpanSeconds: profile.rateSpanSeconds,
    channels: profile.channels.map((channel) => {
      const read = log.channels.find(({ name }) => name === channel.name)!;
      const column = log.layout.channels.find(({ name }) => name === channel.name)!;
      return {
        name: channel.name,
        resolution: read.resolution,
        halfWidth: channel.halfWidth,
        noise: channel.noise,
        stepSeconds: channel.stepSeconds,
        spikes: channel.spikes,
        pauses: [...channel.gaps],
        gaps: read.gaps,
        unit: column.unit,
        unitFrom: column.unitFrom,
      };
    }),
    unusable: [...profile.unusable],
    log: {
      lines: log.lines,
      rows: log.seconds.length,
      separator: log.layout.separator,
      decimalMark: log.layout.decimalMark,
      headerLine: log.layout.headerLine,
      time: sayTime(log),
      leftOut: [...log.layout.leftOut],
      skipped: [...log.skipped],
      problems: [...log.problems],
      problemsBeyond: log.problemsBeyond,
    },
    curve: {
      seconds: [...thin.seconds],
      channels: log.channels.map(({ name }, i) => ({ name, celsius: [...thin.celsius[i]!] })),
    },
  };
}

type PlainQuantity = { value: number; low: number | null; high: number | null };
type PlainMeasured = (PlainQuantity & { kind: 'measured'; note?: string }) | { kind: 'not-recorded'; because: string };

/** JSON has no infinity: open is null. */
function plainQuantity({ value, low, high }: Quantity): PlainQuantity {
  const bound = (x: number) => (Number.isFinite(x) ? x : null);
  return { value, low: bound(low), high: bound(high) };
}

function plainMeasured(measured: Measured): PlainMeasured {
  if (measured.kind === 'not-recorded') return measured;
  return {
    kind: 'measured',
    ...plainQuantity(measured),
    ...(measured.note === undefined ? {} : { note: measured.note }),
  };
}
