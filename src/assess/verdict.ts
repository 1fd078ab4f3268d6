/** The chosen option as a verdict with its reasons, in a technician's words. */
import type { Option, RankedFault } from '../assessment.ts';
import { lower } from '../knowledge/sayings.ts';
import type { Words } from './words.ts';

export { lower } from '../knowledge/sayings.ts';

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
  const { say } = words;
  const top = ranking[0];
  if (chosen.verdict === 'return') {
    const host = ranking.find((fault) => fault.site === 'host');
    const sentences = [say('is-sound', { chance: words.percent(sound) })];
    if (host && host.chance > 0.25)
      sentences.push(say('host-likeliest', { host: host.name, chance: words.percent(host.chance) }));
    return sentences.join(' ');
  }
  if (chosen.verdict === 'scrap') {
    const { rescue: work, waiting } = situation;
    if (waiting?.waitsFor && isWork(waiting))
      return say('nothing-carries-but', {
        repair: waiting.name,
        checks: waiting.waitsFor.map((name) => inside(name, words)).join(', '),
      });
    if (!work)
      return say(situation.options.some((option) => option.waitsFor) ? 'nothing-carries-yet' : 'no-repair-open');
    return say('no-repair-pays', {
      repair: work.name,
      works: words.ofHundred(work.works),
      cost: words.money(work.cost.total),
      surplus: words.money(work.surplus),
      margin: words.money(work.margin),
    });
  }
  return say('works-and-holds', {
    cause: causePhrase(top, words),
    works: words.ofHundred(chosen.works),
    days: words.days(horizonDays),
    holds: words.ofHundred(chosen.holds),
  });
}

/** A name inside a sentence, where it is not put by the sentence itself. */
const inside = (name: string, { language }: Words): string => (language === undefined ? lower(name) : name);

function causePhrase(top: RankedFault | undefined, words: Words): string {
  if (!top) return words.say('no-cause-stands-out');
  const chance = words.percent(top.chance);
  return words.say(top.chance >= CLEAR ? 'cause-likely' : 'cause-leads', { cause: top.name, chance });
}

export function reasons(situation: Situation): string[] {
  const { chosen, ranking, ownStock, fee, origins, words } = situation;
  const { say } = words;
  const said = (item: RankedFault['evidence'][number]) =>
    say(origins.get(item.finding) === 'owner' ? 'found-by-owner' : 'found-so', {
      finding: item.name,
      state: item.stateName,
    });
  const list: string[] = [];
  const top = ranking[0];
  if (top) {
    const pro = top.evidence.filter((item) => item.decibels >= LEAST_DECIBELS).slice(0, EVIDENCE_NAMED);
    const con = top.evidence.filter((item) => item.decibels <= -LEAST_DECIBELS).slice(0, 1);
    if (pro.length > 0) list.push(say('speaks-for', { cause: top.name, findings: pro.map(said).join('; ') }));
    if (con.length > 0) list.push(say('speaks-against', { findings: con.map(said).join('; ') }));
  }
  if (isWork(chosen)) {
    const { total, labour, parts, consumables, comeback } = chosen.cost;
    list.push(
      say('expected-cost', {
        cost: words.money(total),
        labour: words.money(labour),
        parts: words.money(parts),
        consumables: words.money(consumables),
        comebacks: words.money(comeback),
      }),
    );
    if (!ownStock && chosen.floor !== null && chosen.ceiling !== null)
      list.push(
        say('price-suits', {
          floor: words.money(chosen.floor),
          ceiling: words.money(chosen.ceiling),
          works: words.ofHundred(chosen.works),
          otherwise: fee > 0 ? say('fee-if-not', { fee: words.money(fee) }) : say('no-fix-no-fee'),
        }),
      );
  }
  const rival = rivalOf(situation);
  if (rival) list.push(say('next-best', { option: rival.name, less: words.money(net(chosen) - net(rival)) }));
  return list;
}

/** What a return must be likely to be right for to be worth naming. */
export const LEAST_SOUND = 0.1;

function rivalOf({ chosen, options, sound }: Situation): Option | undefined {
  return options
    .filter((option) => option.id !== chosen.id && !option.waitsFor && !option.mendsTooLittle)
    .filter((option) => option.justified || !isWork(option))
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
