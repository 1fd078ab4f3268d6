/** The chosen option as a verdict with its reasons, in a technician's words. */
import type { Option, RankedFault } from '../assessment.ts';
import type { Words } from './words.ts';

export interface Situation {
  readonly chosen: Option;
  /** where the verdict is scrap: the repair that might have rescued the card */
  readonly rescue: Option | null;
  /** what would be better if its parts had been located; null where nothing would */
  readonly waiting: Option | null;
  /** best first */
  readonly options: readonly Option[];
  readonly ranking: readonly RankedFault[];
  readonly sound: number;
  readonly horizonDays: number;
  readonly ownStock: boolean;
  /** what is paid for work that failed; 0: no fix, no fee */
  readonly fee: number;
  /** who a finding comes from */
  readonly origins: ReadonlyMap<string, 'measured' | 'seen' | 'owner'>;
  readonly words: Words;
}

/** Evidence below this many decibels is no reason worth a sentence. */
const LEAST_DECIBELS = 3;
const EVIDENCE_NAMED = 3;
/** A cause this likely can stand alone in a sentence; below, it leads among others. */
const CLEAR = 0.5;

export function because(situation: Situation): string {
  const { chosen, ranking, sound, horizonDays, words } = situation;
  const top = ranking[0];
  if (chosen.verdict === 'return') {
    const host = ranking.find((fault) => fault.site === 'host');
    const where =
      host && host.chance > 0.25 ? ` ${host.name} is the likeliest reason (${words.percent(host.chance)}).` : '';
    return `The card itself is sound with a chance of ${words.percent(sound)}: it goes back as it is.${where}`;
  }
  if (chosen.verdict === 'scrap') {
    const { rescue: work, waiting } = situation;
    if (waiting?.waitsFor && isWork(waiting))
      return `Nothing that has been looked at carries a repair yet: ${lower(waiting.name)} would have to follow ${waiting.waitsFor.map(lower).join(', ')}.`;
    if (!work)
      return situation.options.some((option) => option.waitsFor)
        ? 'Nothing that has been looked at carries a repair yet.'
        : 'No repair is open for what this card most likely has.';
    return `No repair is worth its cost: the best of them, ${lower(work.name)}, works in ${words.ofHundred(work.works)}, costs ${words.money(work.cost.total)} and comes to ${words.money(work.surplus)} over leaving the card, where ${words.money(work.margin)} is needed.`;
  }
  return `${causePhrase(top, words)}; it works in ${words.ofHundred(chosen.works)} such cards and still after ${words.days(horizonDays)} in ${words.ofHundred(chosen.holds)}.`;
}

function causePhrase(top: RankedFault | undefined, words: Words): string {
  if (!top) return 'No single cause stands out';
  const lead = top.chance >= CLEAR ? 'is the likely cause' : 'leads, among several';
  return `${top.name} ${lead} (${words.percent(top.chance)})`;
}

export function reasons(situation: Situation): string[] {
  const { chosen, ranking, ownStock, fee, origins, words } = situation;
  const said = (item: RankedFault['evidence'][number]) =>
    `${origins.get(item.finding) === 'owner' ? 'by the owner, ' : ''}${lower(item.name)} ${lower(item.stateName)}`;
  const list: string[] = [];
  const top = ranking[0];
  if (top) {
    const pro = top.evidence.filter((item) => item.decibels >= LEAST_DECIBELS).slice(0, EVIDENCE_NAMED);
    const con = top.evidence.filter((item) => item.decibels <= -LEAST_DECIBELS).slice(0, 1);
    if (pro.length > 0) list.push(`For ${lower(top.name)}: ${pro.map(said).join('; ')}.`);
    if (con.length > 0) list.push(`Against it: ${con.map(said).join('; ')}.`);
  }
  if (isWork(chosen)) {
    list.push(
      `Expected cost ${words.money(chosen.cost.total)}: labour ${words.money(chosen.cost.labour)}, parts ${words.money(chosen.cost.parts)}, consumables ${words.money(chosen.cost.consumables)}, comebacks ${words.money(chosen.cost.comeback)}.`,
    );
    if (!ownStock && chosen.floor !== null && chosen.ceiling !== null)
      list.push(
        `A price from ${words.money(chosen.floor)} (covers the shop) to ${words.money(chosen.ceiling)} (the owner is no worse off) suits both, paid only if the card works (${words.ofHundred(chosen.works)})${fee > 0 ? `; ${words.money(fee)} if it does not` : ': no fix, no fee'}.`,
      );
  }
  const rival = rivalOf(situation);
  if (rival) list.push(`Next best is ${lower(rival.name)}: ${words.money(net(chosen) - net(rival))} less.`);
  return list;
}

/** What a return must be likely to be right for to be worth naming. */
const LEAST_SOUND = 0.1;

function rivalOf({ chosen, options, sound }: Situation): Option | undefined {
  return options
    .filter((option) => option.id !== chosen.id && !option.waitsFor && (option.justified || !isWork(option)))
    .filter((option) => option.verdict !== 'return' || sound >= LEAST_SOUND)
    .filter((option) => !isWork(option) || option.verdict !== chosen.verdict || option.steps[0] !== chosen.steps[0])
    .sort((a, b) => net(b) - net(a))[0];
}

function net(option: Option): number {
  return option.surplus - option.margin;
}

export function isWork(option: Option): boolean {
  return option.verdict !== 'return' && option.verdict !== 'scrap';
}

export function lower(text: string): string {
  const second = text.charAt(1);
  // an abbreviation such as PCIe or BGA keeps its capital
  return second !== '' && second === second.toUpperCase() && second !== second.toLowerCase()
    ? text
    : `${text.charAt(0).toLowerCase()}${text.slice(1)}`;
}
