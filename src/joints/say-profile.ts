/** A judged profile in words. Numbers are rounded as far as their bounds let them mean something. */
import type { Quantity } from './graded-limit.ts';
import type { JudgedHeat, JudgedProfile, JudgedRow } from './judged-profile.ts';
import { type Measure, NEAR_KELVIN, type Profile, type ProfileLevels } from './profile.ts';
import { CLASSES_ARE_CEILINGS } from './reflow-window.ts';

/** What each quantity is called, with the temperatures it is taken at. */
export function nameMeasure(measure: Measure, levels: ProfileLevels): string {
  switch (measure) {
    case 'soakSeconds':
      return `Soak, ${levels.soakFrom} to ${levels.soakTo} °C`;
    case 'averageRise':
      return `Average rise, ${levels.liquidus} °C to peak`;
    case 'steepestRise':
      return 'Steepest rise';
    case 'secondsAboveLiquidus':
      return `Time above ${levels.liquidus} °C`;
    case 'peak':
      return 'Peak';
    case 'secondsNearPeak':
      return `Time within ${NEAR_KELVIN} K of the peak`;
    case 'secondsNearCeiling':
      return levels.ceiling === undefined
        ? `Time within ${NEAR_KELVIN} K of the ceiling`
        : `Time above ${levels.ceiling - NEAR_KELVIN} °C`;
    case 'steepestFall':
      return 'Steepest fall';
    case 'secondsToPeak':
      return 'Time to peak from 25 °C';
  }
}

const UNIT: Readonly<Record<Measure, string>> = {
  soakSeconds: 's',
  averageRise: 'K/s',
  steepestRise: 'K/s',
  secondsAboveLiquidus: 's',
  peak: '°C',
  secondsNearPeak: 's',
  secondsNearCeiling: 's',
  steepestFall: 'K/s',
  secondsToPeak: 's',
};

/** The unit a measure is stated in. */
export function unitOf(measure: Measure): string {
  return UNIT[measure];
}

/** What lies behind a row that is outside: the part or the joint. */
const MEANS: Readonly<Record<Measure, { readonly above: string; readonly below: string }>> = {
  soakSeconds: {
    above: 'flux may be spent before the solder melts',
    below: 'the board may not have evened out and the flux not have cleaned',
  },
  averageRise: { above: 'packages and board are stressed by uneven heat', below: 'slow' },
  steepestRise: { above: 'packages and board are stressed by uneven heat', below: 'slow' },
  secondsAboveLiquidus: {
    above: 'pads, laminate and joints are cooked',
    below: 'balls may not have melted through and wetted: doubt the joints, not the package',
  },
  peak: { above: 'hotter than the package is classified for', below: 'some joints may not have melted' },
  secondsNearPeak: { above: 'long at the top', below: 'short at the top' },
  secondsNearCeiling: {
    above: 'longer near its ceiling than the package is classified for',
    below: 'short at the top',
  },
  steepestFall: { above: 'joints and packages are stressed as they set', below: 'slow cooling coarsens the solder' },
  secondsToPeak: { above: 'a long time in heat; flux may be spent', below: 'fast' },
};

/** A quantity as shown: as many decimals as its bounds justify, at most two. */
export function sayQuantity({ value, low, high }: Quantity, unit: string): string {
  const room = Math.max(value - low, Number.isFinite(high) ? high - value : 0);
  const decimals = room >= 2 || (room === 0 && Number.isInteger(value)) ? 0 : room >= 0.2 ? 1 : 2;
  if (high === Number.POSITIVE_INFINITY) return `at least ${value.toFixed(decimals)} ${unit}`;
  if (room === 0) return `${value.toFixed(decimals)} ${unit}`;
  const even = Math.abs(value - low - (high - value)) <= 0.25 * room;
  const bounds = even ? `±${room.toFixed(decimals)}` : `(${low.toFixed(decimals)} to ${high.toFixed(decimals)})`;
  return `${value.toFixed(decimals)} ${bounds} ${unit}`;
}

export function sayLimit({ limit, measure }: Pick<JudgedRow, 'limit' | 'measure'>): string {
  const { atLeast, atMost } = limit;
  const unit = UNIT[measure];
  if (atLeast !== undefined && atMost !== undefined) return `${atLeast} to ${atMost} ${unit}`;
  if (atMost !== undefined) return `at most ${atMost} ${unit}`;
  return atLeast === undefined ? 'no limit' : `at least ${atLeast} ${unit}`;
}

const GRADE_WORD = { inside: 'inside', outside: 'OUTSIDE', 'cannot-tell': 'cannot tell' } as const;

/** One row: name, what was measured, its limit, its grade, and why. */
export function sayRow(row: JudgedRow, levels: ProfileLevels): string {
  const { measured } = row;
  const amount = measured.kind === 'measured' ? sayQuantity(measured, UNIT[row.measure]) : 'not recorded';
  const note = row.because ?? (measured.kind === 'measured' ? measured.note : undefined);
  const means = row.grade === 'outside' && row.side ? MEANS[row.measure][row.side] : undefined;
  const memory = row.cited?.seen === 'memory' ? 'this limit is from memory, not seen in the standard' : undefined;
  const behind = [means, note, memory].filter((text) => text !== undefined).join('; ');
  const name = nameMeasure(row.measure, levels).padEnd(34);
  return `${name} ${amount.padEnd(24)} ${sayLimit(row).padEnd(18)} ${GRADE_WORD[row.grade]}${behind ? `: ${behind}` : ''}`;
}

/** The verdict in one or two sentences. */
export function sayVerdict(judged: JudgedProfile): string {
  const { against } = judged;
  const name = against.kind === 'shop' ? `the shop's window "${against.name}"` : against.name;
  const rows = judged.heats.flatMap((heat) => heat.rows.map((row) => ({ heat, row })));
  const several = judged.heats.length > 1;
  const list = (grade: 'outside' | 'cannot-tell') => [
    ...rows
      .filter(({ row }) => row.grade === grade)
      .map(({ heat, row }) => {
        const called = nameMeasure(row.measure, against.levels).toLowerCase().replaceAll('°c', '°C');
        const side = grade === 'outside' ? (row.side === 'below' ? ' too low' : ' too high') : '';
        return `${called}${side}${several ? ` (${where(heat)})` : ''}`;
      }),
    ...(judged.spread?.grade === grade ? ['spread between channels at peak'] : []),
  ];
  switch (judged.grade) {
    case 'inside':
      return `The profile is inside ${name}.`;
    case 'outside':
      return `The profile is OUTSIDE ${name}: ${list('outside').join('; ')}.`;
    case 'cannot-tell': {
      const open = list('cannot-tell');
      const why = open.length > 0 ? `: ${open.join('; ')}` : ': there was nothing to judge';
      return `Whether the profile is inside ${name} cannot be told${why}.`;
    }
  }
}

/** All of it: verdict, rows by heat, rates shown but not judged, spread, and what the figures stand for. */
export function sayProfile(profile: Profile, judged: JudgedProfile): string {
  const { levels } = judged.against;
  const lines = [sayVerdict(judged), ''];
  for (const heat of judged.heats) {
    lines.push(where(heat), ...heat.rows.map((row) => `  ${sayRow(row, levels)}`));
    const channel = profile.channels.find(({ name }) => name === heat.channel);
    const measures = channel?.heats[heat.heat - 1]?.measures;
    for (const measure of ['steepestRise', 'secondsNearPeak'] as const) {
      const measured = measures?.[measure];
      if (measured?.kind !== 'measured' || heat.rows.some((row) => row.measure === measure)) continue;
      lines.push(
        `  ${nameMeasure(measure, levels).padEnd(34)} ${sayQuantity(measured, UNIT[measure]).padEnd(24)} not judged`,
      );
    }
    lines.push('');
  }
  const spread = profile.spreadAtPeak;
  if (spread !== undefined) {
    const limit = judged.spread ? `, at most ${judged.spread.atMost} K: ${GRADE_WORD[judged.spread.grade]}` : '';
    lines.push(`Spread between channels at their peaks: ${sayQuantity(spread, 'K')}${limit}.`);
  }
  for (const { name, gaps, spikes, halfWidth } of profile.channels) {
    lines.push(`${name}: readings good to ±${halfWidth.toFixed(2)} K by step and noise.`);
    if (gaps.length > 0)
      lines.push(
        `${name}: ${gaps.length} gap(s), the first from ${gaps[0]!.from.toFixed(1)} to ${gaps[0]!.to.toFixed(1)} s.`,
      );
    if (spikes > 0) lines.push(`${name}: ${spikes} lone reading(s) left out that no board could follow.`);
  }
  for (const { name, because } of profile.unusable) lines.push(`${name}: not used, ${because}.`);
  lines.push(
    `Rates are least-squares slopes over ${profile.rateSpanSeconds} s; the average rise is taken from end to end.`,
  );
  if (judged.against.kind === 'package-class') lines.push(CLASSES_ARE_CEILINGS);
  const { weights } = judged.finding;
  lines.push(
    `As a finding: profile-record in-window ${weights['in-window'].toFixed(2)}, out-of-window ${weights['out-of-window'].toFixed(2)}.`,
  );
  return lines.join('\n');
}

function where({ channel, heat }: Pick<JudgedHeat, 'channel' | 'heat'>): string {
  return heat === 1 ? channel : `${channel}, heat ${heat}`;
}
