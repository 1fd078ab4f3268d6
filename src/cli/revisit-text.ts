/** A card's life and what a second attempt starts from, as text for a terminal. */
import { styleText } from 'node:util';
import type { Words } from '../assess/words.ts';
import type { Assessed, SecondAttempt } from '../assessment.ts';
import type { Lifeline, LifelinePoint } from '../lifeline.ts';

const strong = (words: string) => styleText('bold', words, { stream: process.stdout });
const quiet = (words: string) => styleText('dim', words, { stream: process.stdout });
const warm = (words: string) => styleText('yellow', words, { stream: process.stdout });

const CAUSES_SHOWN = 3;
/** What moved by less than this is not worth a word. */
const LEAST_MOVE = 0.02;

/** One line for what happened, one for where it left the belief. */
export function lifelineLines(life: Lifeline, say: Words, locale: string): string[] {
  const day = new Intl.DateTimeFormat(locale, { dateStyle: 'medium' });
  return [strong('Its life'), ...life.points.flatMap((point) => pointLines(life, point, say, day))];
}

function pointLines(life: Lifeline, point: LifelinePoint, say: Words, day: Intl.DateTimeFormat): string[] {
  const date = day.format(new Date(point.at));
  const head = `  ${date.padEnd(13)} ${point.words}`;
  if (point.chances === null) return [head, `  ${''.padEnd(13)} ${warm(point.contradiction ?? '')}`];
  const name = (fault: string) => life.faults.find((known) => known.fault === fault)?.name ?? fault;
  const top = life.faults
    .map(({ name: called }, at) => ({ called, chance: point.chances![at]! }))
    .sort((a, b) => b.chance - a.chance)
    .slice(0, CAUSES_SHOWN)
    .filter(({ chance }) => chance >= LEAST_MOVE)
    .map(({ called, chance }) => `${say.percent(chance)} ${called}`);
  const masked = point.soundButMasked! >= LEAST_MOVE ? ` (masked in ${say.percent(point.soundButMasked!)})` : '';
  const lines = [
    head,
    `  ${''.padEnd(13)} ${quiet([...top, `${say.percent(point.sound!)} nothing active${masked}`].join('; '))}`,
  ];
  const { mover } = point;
  if (mover && Math.abs(mover.to - mover.from) >= LEAST_MOVE)
    lines.push(
      `  ${''.padEnd(13)} ${quiet(`moved most: ${mover.what === 'sound' ? 'nothing active' : name(mover.what)}, ${say.percent(mover.from)} to ${say.percent(mover.to)}`)}`,
    );
  return lines;
}

const SETTLEMENTS: { readonly [kind in NonNullable<SecondAttempt['settlement']>]: string } = {
  'try-again': 'Trying again for nothing suits both sides better than the money back.',
  refund: 'The money goes back: no repair is worth a second attempt.',
  'refund-and-offer': 'The money goes back; the repair is worth a new offer at a price inside its band.',
  'not-the-card': 'The card itself is most likely sound: the work did not fail.',
};

export function secondAttemptLines({ comeback, next }: Assessed, say: Words, locale: string): string[] {
  if (!comeback) return [];
  const { heatCycles, damage, again, againClosed, advised, warranty, paid, comebackCost, settlement } = comeback.second;
  const day = new Intl.DateTimeFormat(locale, { dateStyle: 'medium' });
  const spent = `${heatCycles.here} here${heatCycles.before === null ? '' : `, ${heatCycles.before === 0 ? 'none' : heatCycles.before} before`}`;
  const lines = [strong('A second attempt')];
  if (heatCycles.here + (heatCycles.before ?? 0) > 0) lines.push(`  Heat cycles spent: ${spent}.`);
  if (damage.onceMore > 0)
    lines.push(
      `  The same work once more does damage in ${say.ofHundred(damage.onceMore)}; the last time it was ${say.ofHundred(damage.lastTime)}.`,
    );
  if (again)
    lines.push(
      `  ${again.option.name}, once more: works ${say.ofHundred(again.option.works)}, holds ${say.ofHundred(again.option.holds)}${again.option.justified ? '' : ', not justified'}.`,
    );
  for (const reason of againClosed) lines.push(`  ${comeback.lastRemedyName}, once more: closed. ${reason}`);
  if (warranty)
    lines.push(
      warranty.running
        ? `  Warranty: it failed on day ${Math.floor(warranty.failedAfter)} of ${warranty.days} (to ${day.format(new Date(warranty.until))}).`
        : `  Warranty: it failed on day ${Math.floor(warranty.failedAfter)}, after the ${warranty.days} days.`,
    );
  if (paid.inAll !== null)
    lines.push(`  The owner has paid ${say.money(paid.inAll)}. That is spent either way and not in the sums.`);
  if (warranty?.running && advised?.least != null && advised.most !== null)
    lines.push(
      `  Under warranty no new bill is written: trying again suits both where the last work was paid with ${say.money(advised.least)} to ${say.money(advised.most)}.`,
    );
  if (settlement)
    lines.push(`  ${SETTLEMENTS[settlement]}${next.kind === 'check' ? ' (As it looks before the next check.)' : ''}`);
  else if (warranty?.running)
    lines.push('  What was paid is not written down ("paid" of "handed-back"): whether to try again hangs on it.');
  if (comeback.attributions) lines.push(`  One more comeback costs ${say.money(comebackCost)} besides bench time.`);
  return lines;
}
