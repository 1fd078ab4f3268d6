/** What is known of the shop's own remedies, for a terminal: the same value that `--json` prints. */
import { styleText } from 'node:util';
import type { RelapseAnswer, RemediesAnswer, RemedyAnswer } from '../learning/answer.ts';

const strong = (words: string) => styleText('bold', words, { stream: process.stdout });
const quiet = (words: string) => styleText('dim', words, { stream: process.stdout });
const warm = (words: string) => styleText('yellow', words, { stream: process.stdout });

export function remediesText(answer: RemediesAnswer, locale: string): string {
  if (answer.remedies.length === 0)
    return `No work is recorded in ${answer.records} record(s): there is nothing to follow yet.`;
  const number = (value: number) => new Intl.NumberFormat(locale, { maximumFractionDigits: 1 }).format(value);
  return [
    `${answer.records} record(s)${answer.silentUntil ? `; silence up to ${answer.silentUntil.slice(0, 10)} counted as working, within the warranty` : ''}`,
    '',
    ...answer.remedies.flatMap((remedy) => [...remedyLines(remedy, number), '']),
    ...relapseLines(answer.relapse, number),
    quiet(
      'Survival: product-limit estimate, 95 % limits by log(-log), for one time each; a comeback counts by how likely it is the',
    ),
    quiet(
      'remedy’s: relapsed, did not take, or damaged. Records of one bench are no trial: who does not write is not followed.',
    ),
  ].join('\n');
}

function remedyLines(remedy: RemedyAnswer, number: (value: number) => string): string[] {
  const done = [
    `done ${remedy.done}`,
    `left working ${remedy.leftWorking}`,
    ...(remedy.didNotWork > 0 ? [`did not work on the bench ${remedy.didNotWork}`] : []),
    ...(remedy.notKnownToWork > 0 ? [`not known to work ${remedy.notKnownToWork}`] : []),
    ...(remedy.notHandedBack > 0 ? [`not handed back by itself ${remedy.notHandedBack}`] : []),
  ];
  const heard = [
    `followed ${remedy.followed}`,
    ...(remedy.neverHeardOf > 0 ? [`never heard of again ${remedy.neverHeardOf} (count for nothing)`] : []),
    `came back ${remedy.back}`,
  ];
  return [
    `${strong(remedy.name)}  ${quiet(`[${remedy.remedy}]`)}`,
    `  ${done.join(' · ')}`,
    `  ${heard.join(' · ')}${remedy.back > 0 ? `, of which ${number(remedy.backByRemedy)} count against it` : ''}`,
    ...(remedy.back > 0 ? [quiet(`    ${becauseLine(remedy, number)}`)] : []),
    ...remedy.survival.map((point) => survivalLine(point, number)),
    ...(remedy.halfBack ? [`  half are back after ${halfBack(remedy.halfBack, number)}`] : []),
    ...(remedy.law
      ? [
          quiet(
            `  Weibull law fitted: 63 of 100 back by day ${number(Math.round(remedy.law.scaleDays))}, shape ${remedy.law.shape.toFixed(2)} +- ${remedy.law.shapeError.toFixed(2)} (below 1: early failures, above: wear)`,
          ),
        ]
      : []),
    ...(remedy.dayUnknown > 0
      ? [
          quiet(
            `  ${remedy.dayUnknown} came back after a time nobody knows: taken half way from the last good word to the return`,
          ),
        ]
      : []),
    ...remedy.unjudged.map(({ record, why }) => warm(`  ${record} could not be judged and counts in full: ${why}`)),
    ...(remedy.tooFew ? [warm(`  ${remedy.tooFew}`)] : []),
  ];
}

function becauseLine({ because, unjudged }: RemedyAnswer, number: (value: number) => string): string {
  const parts = [
    `relapsed ${number(because.relapsed)}`,
    `did not take ${number(because['did-not-take'])}`,
    `damaged ${number(because.damaged)}`,
    `not counted: wrong thing treated ${number(because['wrong-thing'])}`,
    `something new ${number(because['new-fault'])}`,
    ...(unjudged.length > 0 ? [`not judged ${unjudged.length}`] : []),
  ];
  return parts.join(' · ');
}

function survivalLine(point: RemedyAnswer['survival'][number], number: (value: number) => string): string {
  const days = `${point.days} days`.padStart(10);
  if (point.survival === null) return quiet(`  ${days}   not known: none was followed so long`);
  const of = (share: number | null) => (share === null ? '?' : number(Math.round(share * 100)));
  return `  ${days}   still working ${of(point.survival).padStart(3)} of 100  (${of(point.low)} to ${of(point.high)})   ${point.atRisk} at risk`;
}

function halfBack(
  { median, low, high }: NonNullable<RemedyAnswer['halfBack']>,
  number: (value: number) => string,
): string {
  const day = (value: number | null) => (value === null ? 'not known' : `${number(Math.round(value))} days`);
  if (median === null) return `a time not yet reached${low === null ? '' : ` (at least ${day(low)})`}`;
  return `${day(median)} (${day(low)} to ${day(high)})`;
}

function relapseLines(relapse: readonly RelapseAnswer[], number: (value: number) => string): string[] {
  if (relapse.length === 0)
    return ['Time to relapse: the records do not yet weigh as much as one relapse; the book’s figures stand.', ''];
  const law = ({ book, learnt, hits, trials }: RelapseAnswer) =>
    `median ${number(book.medianDays)} days in the book (worth ${number(book.n)} relapses) -> ${number(learnt.medianDays)} days learnt (${number(learnt.low)} to ${number(learnt.high)}), shape ${number(book.shape)} -> ${learnt.shape.toFixed(2)}; ${number(hits)} relapses of ${number(trials)} masked cards`;
  return [
    strong('Time to relapse of a masked fault'),
    ...relapse.flatMap((one) => [
      `  ${one.faultName}${one.remedyName === null ? '' : `, after: ${one.remedyName}`}`,
      `    ${law(one)}${tooFew(one)}`,
    ]),
    '',
  ];
}

/** Fewer relapses of its own than the book's figure is worth: the book still outweighs them. */
function tooFew({ hits, book }: RelapseAnswer): string {
  return hits < book.n ? warm(' - too few to mean much: the book outweighs them') : '';
}
