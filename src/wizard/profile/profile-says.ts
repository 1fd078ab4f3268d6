/** A judged profile in words, in the language of the interface. */
import { cameBackWords } from '../came-back/words.ts';
import { sayList, sayNumber } from '../words.ts';
import type { JudgedLog } from './profile-plot.tsx';

type Row = JudgedLog['heats'][number]['rows'][number];
export type Measure = Row['measure'];

const UNITS: { readonly [measure in Measure]: string } = {
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

export function sayProfileVerdict({ grade, heats, window, spreadAtPeak }: JudgedLog): string {
  const { profile: words } = cameBackWords.value;
  if (grade === 'inside') return words.verdict.inside(sayWindow(window));
  const several = heats.length > 1;
  const what = heats.flatMap(({ channel, heat, rows }) =>
    rows
      .filter((row) => row.grade === grade)
      .map(({ measure, side }) => {
        const name = words.measures[measure];
        const [low, high] = UNITS[measure] === 's' ? [words.tooShort, words.tooLong] : [words.tooLow, words.tooHigh];
        const said = grade !== 'outside' ? name : (side === 'below' ? low : high)(name);
        return several ? `${said} (${words.heatOf(channel, heat)})` : said;
      }),
  );
  if (spreadAtPeak?.grade === grade) what.push(words.spread);
  return words.verdict[grade](sayWindow(window), what.length === 0 ? '' : sayList(what));
}

/** A class of the standard is named in English; a shop's own window as the shop names it. */
function sayWindow({ name, kind }: JudgedLog['window']): string {
  const { profile: words } = cameBackWords.value;
  if (kind !== 'package-class') return name;
  return name
    .replace(/, package rated (.+)$/, (_, rated: string) => words.ratedFor(rated))
    .replaceAll('lead-free', words.alloys['lead-free']);
}

export function sayMeasured({ measured, measure }: Row): string {
  if (measured.kind === 'not-recorded') return cameBackWords.value.profile.notRecorded;
  const { value, low, high } = measured;
  const spread = Math.max(low === null ? 0 : value - low, high === null ? 0 : high - value);
  const digits = spread >= 2 ? 0 : spread >= 0.2 ? 1 : 2;
  const said = sayNumber(value, { maximumFractionDigits: digits });
  return `${high === null ? cameBackWords.value.profile.atLeast(said) : said} ${UNITS[measure]}`;
}

export function sayLimit({ limit: { atLeast, atMost }, measure }: Row): string {
  const { profile: words } = cameBackWords.value;
  const say = (value: number) => sayNumber(value);
  const unit = UNITS[measure];
  if (atLeast !== undefined && atMost !== undefined) return `${words.between(say(atLeast), say(atMost))} ${unit}`;
  if (atMost !== undefined) return `${words.atMost(say(atMost))} ${unit}`;
  return atLeast === undefined ? '' : `${words.atLeast(say(atLeast))} ${unit}`;
}
