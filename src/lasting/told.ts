/** What is known of the shop's own remedies, as sentences and rows in one language: for the page and for the wizard. */
import type { RelapseAnswer, RemediesAnswer, RemedyAnswer } from '../learning/answer.ts';
import type { Messages } from './messages/messages.ts';
import { drawKey, drawSurvival } from './survival-drawing.ts';

export interface Tongue {
  readonly messages: Messages;
  /** what numbers and days are written by, such as de-AT */
  readonly locale: string;
}

export interface RemedyTold {
  readonly remedy: string;
  readonly name: string;
  readonly counts: readonly string[];
  /** why the numbers mean little; null: they do */
  readonly doubt: string | null;
  /** survival at the days told, and the median */
  readonly points: readonly string[];
  readonly law: { readonly drawn: string | null; readonly says: string };
  readonly notes: readonly string[];
  /** day, followed, failed, lost sight of, still working, limits */
  readonly rows: readonly (readonly string[])[];
  /** null: nothing to draw */
  readonly drawing: ((width: number) => string) | null;
}

export interface RelapseTold {
  readonly key: string;
  readonly fault: string;
  readonly after: string | null;
  readonly book: string;
  readonly learnt: string;
  readonly seen: string;
  readonly few: boolean;
}

const NORMAL_975 = 1.96;

export function tellRemedies(answer: RemediesAnswer, tongue: Tongue): readonly RemedyTold[] {
  return answer.remedies.map((remedy) => tellRemedy(remedy, tongue));
}

export function tellRemedy(remedy: RemedyAnswer, tongue: Tongue): RemedyTold {
  const { messages } = tongue;
  const { figure } = messages;
  const { number, hundred, parts } = writing(tongue);
  const points = pointsOf(remedy, tongue);
  return {
    remedy: remedy.remedy,
    name: remedy.name,
    counts: countsOf(remedy, tongue),
    doubt: remedy.doubt === null ? null : messages.doubt[remedy.doubt],
    points,
    law: {
      drawn: remedy.law === null ? null : figure.law(number(remedy.law.scaleDays), parts(remedy.law.shape, 2)),
      says: remedy.law === null ? figure.noLaw : tendency(remedy.law, messages),
    },
    notes: [
      ...(remedy.dayUnknown > 0 ? [messages.dayUnknown(number(remedy.dayUnknown))] : []),
      ...(remedy.unjudged.length > 0 ? [messages.unjudged(number(remedy.unjudged.length))] : []),
    ],
    rows: remedy.steps.map((step) => [
      number(step.days),
      number(step.atRisk),
      parts(step.failed),
      parts(step.lost),
      hundred(step.survival),
      messages.table.range(limit(step.low, hundred, messages), limit(step.high, hundred, messages)),
    ]),
    drawing:
      remedy.steps.length === 0
        ? null
        : (width) =>
            drawSurvival({
              remedy,
              title: figure.title(remedy.name),
              description: points.join(' '),
              words: figure,
              number,
              prefix: `lasting-${remedy.remedy}`,
              width,
            }),
  };
}

export function tellRelapses(answer: RemediesAnswer, tongue: Tongue): readonly RelapseTold[] {
  const { messages } = tongue;
  const { number, parts } = writing(tongue);
  return answer.relapse.map(({ fault, faultName, remedy, remedyName, book, learnt, hits, trials }: RelapseAnswer) => ({
    key: `${fault} ${remedy ?? ''}`,
    fault: faultName,
    after: remedyName === null ? null : messages.relapse.after(remedyName),
    book: messages.relapse.days(number(book.medianDays)),
    learnt: messages.relapse.daysRange(number(learnt.medianDays), number(learnt.low), number(learnt.high)),
    seen: messages.relapse.seenOf(parts(hits), parts(trials)),
    few: hits < book.n,
  }));
}

/** What each kind of line in the drawing means. */
export function legendOf(
  told: RemedyTold,
  { figure }: Messages,
): readonly { readonly key: string; readonly says: string }[] {
  return [
    { key: drawKey('steps'), says: figure.steps },
    { key: drawKey('lost'), says: figure.lost },
    { key: drawKey('band'), says: figure.band },
    ...(told.law.drawn === null ? [] : [{ key: drawKey('law'), says: told.law.drawn }]),
  ];
}

function countsOf(remedy: RemedyAnswer, tongue: Tongue): string[] {
  const { counts } = tongue.messages;
  const { number, parts } = writing(tongue);
  const told = (count: number, say: (count: string) => string) => (count > 0 ? [say(number(count))] : []);
  return [
    counts.done(number(remedy.done)),
    counts.leftWorking(number(remedy.leftWorking)),
    ...told(remedy.didNotWork, counts.didNotWork),
    ...told(remedy.notKnownToWork, counts.notKnownToWork),
    ...told(remedy.notHandedBack, counts.notHandedBack),
    counts.followed(number(remedy.followed)),
    ...told(remedy.neverHeardOf, counts.neverHeardOf),
    ...(remedy.back > 0 ? [counts.back(number(remedy.back), parts(remedy.backByRemedy))] : []),
  ];
}

function pointsOf({ survival, halfBack }: RemedyAnswer, tongue: Tongue): string[] {
  const { messages } = tongue;
  const { number, hundred } = writing(tongue);
  const said = survival.map(({ days, survival: share, low, high }) =>
    share === null
      ? messages.pointUnknown(number(days))
      : messages.point(number(days), hundred(share), limit(low, hundred, messages), limit(high, hundred, messages)),
  );
  if (halfBack === null) return said;
  const { median, low, high } = halfBack;
  return [
    ...said,
    median === null
      ? messages.halfNotYet
      : messages.half(number(median), limit(low, number, messages), limit(high, number, messages)),
  ];
}

/** A shape is told from 1, no memory, where its interval leaves 1 out; the interval is taken in the logarithm. */
function tendency({ shape, shapeError }: NonNullable<RemedyAnswer['law']>, { figure }: Messages): string {
  const reach = Math.exp((NORMAL_975 * shapeError) / shape);
  if (shape * reach < 1) return figure.early;
  return shape / reach > 1 ? figure.late : figure.either;
}

const limit = (value: number | null, say: (value: number) => string, { unknown }: Messages): string =>
  value === null ? unknown : say(value);

function writing({ locale }: Tongue) {
  const format = (digits: number) => {
    const { format: write } = new Intl.NumberFormat(locale, { maximumFractionDigits: digits });
    return (value: number) => write(value);
  };
  const [whole, tenths] = [format(0), format(1)];
  return {
    number: whole,
    hundred: (share: number) => whole(100 * share),
    parts: (value: number, digits = 1) => (digits === 1 ? tenths : format(digits))(value),
  };
}
