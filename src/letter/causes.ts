/** What came in, what was found and what is likely wrong, in the owner's words. */
import { saysLittle } from '../assess/says-little.ts';
import type { Assessed, EvidenceItem, RankedFault } from '../assessment.ts';
import type { Record as CardRecord, FactAnswers } from '../record/schema.ts';
import type { Messages } from './messages/messages.ts';
import type { OwnerWordings } from './owner-wordings.ts';
import type { Say } from './say.ts';
import type { Cause, Letter } from './schema.ts';

const FOUND_SHOWN = 5;
/** A normal result this telling, in decibels for or against any cause, is worth a line of its own. */
const TELLING_DECIBELS = 3;
const CAUSES_SHOWN = 3;
/** A cause less likely than this is left to the count of others. */
const LEAST_CHANCE_SHOWN = 0.05;

/** From how likely on a word is used, most certain first. */
const SURE = [
  ['certain', 0.95],
  ['very', 0.8],
  ['likely', 0.5],
  ['possible', 0.15],
] as const;
const POSSIBLE_FROM = SURE[3][1];

export function cameInOf(
  record: CardRecord | undefined,
  evidence: readonly EvidenceItem[],
  words: OwnerWordings,
  messages: Messages,
  say: Say,
): string[] {
  const say1 = messages.cameIn;
  if (!record) {
    const told = evidence.filter(({ origin }) => origin === 'owner').map((item) => foundOf(item, words));
    const texts = told.flatMap((item) => (item ? [`${item.what.text}: ${item.state.text}`] : []));
    return texts.length > 0 ? [say1.told(texts.join('; '))] : [say1.nothing];
  }
  const arrived = record.timeline.filter((event) => event.type === 'arrived');
  const facts: FactAnswers = Object.assign({}, ...arrived.map((event) => event.facts));
  const sentences: string[] = [];
  const first = arrived[0];
  if (first) sentences.push(say1.arrived(say.date(first.at.slice(0, 10)).text));
  const back = record.timeline.filter((event) => event.type === 'came-back');
  if (back.length > 0) sentences.push(say1.cameBack(say.list(back.map(({ at }) => say.date(at.slice(0, 10)).text))));
  const told = phrases(facts, ['owner-words', 'onset-manner', 'works-elsewhere'], messages);
  if (told.length > 0) sentences.push(say1.told(told.join('; ')));
  const age = facts['age-years'];
  if (typeof age === 'number') sentences.push(say1.age(say1.years(age, say.years(age))));
  const rest = Object.keys(messages.facts).filter(
    (fact) => !['owner-words', 'onset-manner', 'works-elsewhere'].includes(fact),
  );
  const known = phrases(facts, rest, messages);
  if (known.length > 0) sentences.push(say1.known(known.join('; ')));
  if (told.length === 0 && known.length === 0) sentences.push(say1.nothing);
  return sentences;
}

function phrases(facts: FactAnswers, ids: readonly string[], messages: Messages): string[] {
  const catalogue: Readonly<Record<string, Readonly<Record<string, string | null>>>> = messages.facts;
  return ids.flatMap((id) => {
    const answer = facts[id];
    const values = Array.isArray(answer) ? answer : answer === undefined || answer === null ? [] : [String(answer)];
    return values.flatMap((value) => catalogue[id]?.[value] ?? []);
  });
}

/** One finding in the owner's words; null where the rules have none for it. */
export function foundOf(item: EvidenceItem, words: OwnerWordings): Letter['found']['items'][number] | null {
  const finding = words.findings[item.finding];
  const state = finding?.states[item.state];
  if (!finding?.what || state === undefined) return null;
  return {
    finding: item.finding,
    what: { text: finding.what, language: words.language },
    state: { text: state, language: words.language },
    abnormal: item.state !== item.states[0],
  };
}

/** What the bench found: the unusual first, then normal results that tell much; the rest is counted. */
export function foundIn(assessed: Assessed, words: OwnerWordings, messages: Messages): Letter['found'] {
  const bench = assessed.evidence.filter(({ origin }) => origin !== 'owner');
  if (bench.length === 0)
    return { items: [], others: assessed.comeback ? messages.found.nothingSince : messages.found.nothing };
  const tellingOf = (item: EvidenceItem) =>
    Math.max(
      0,
      ...assessed.ranking.map((fault) =>
        Math.abs(fault.evidence.find(({ finding }) => finding === item.finding)?.decibels ?? 0),
      ),
    );
  const items = bench
    .map((item) => ({ item: foundOf(item, words), telling: tellingOf(item) }))
    .flatMap(({ item, telling }) => (item && (item.abnormal || telling >= TELLING_DECIBELS) ? [{ item, telling }] : []))
    .sort((a, b) => Number(b.item.abnormal) - Number(a.item.abnormal) || b.telling - a.telling)
    .slice(0, FOUND_SHOWN)
    .map(({ item }) => item);
  const shown = new Set(items.map(({ finding }) => finding));
  const normal = bench.filter((item) => !shown.has(item.finding) && item.state === item.states[0]).length;
  const others =
    normal === 0 ? null : items.length > 0 ? messages.found.others(normal) : messages.found.allNormal(normal);
  return { items, others };
}

export function causesIn(ranking: readonly RankedFault[], words: OwnerWordings, messages: Messages, say: Say): Cause[] {
  return ranking
    .filter(({ chance }, at) => at === 0 || chance >= LEAST_CHANCE_SHOWN)
    .slice(0, CAUSES_SHOWN)
    .map((fault) => ({
      fault: fault.fault,
      site: fault.site,
      what: { text: withoutStop(fault.owner), language: words.language },
      sure: sureness(fault, messages),
      count: countOf(fault, messages, say),
      range: rangeOf(fault, messages, say),
    }));
}

/** Where a figure is as good as unknown it is called "about". */
function countOf({ chance, interval }: RankedFault, messages: Messages, say: Say): Cause['count'] {
  const count = say.count(chance);
  return interval && saysLittle(interval) ? { ...count, text: messages.cause.about(count.text) } : count;
}

/** What must be known to read the list: that the figures may add up to more than 100, and which of them are hardly known. */
export function causesNoteOf(causes: readonly Cause[], { cause }: Messages): string[] {
  const [first] = causes;
  if (first === undefined) return [];
  const sum = causes.reduce((all, { count }) => all + count.of100, 0);
  return [
    ...(first.count.chance < POSSIBLE_FROM ? [cause.noneStandsOut] : []),
    ...(sum > 100 ? [cause.several] : []),
    ...(causes.some(({ range }) => range?.saysLittle) ? [cause.littleKnownWhy] : []),
  ];
}

function rangeOf({ interval }: RankedFault, messages: Messages, say: Say): Cause['range'] {
  if (!interval) return null;
  const low = say.count(interval.low);
  const high = say.count(interval.high);
  const little = saysLittle(interval);
  const text = little
    ? messages.cause.littleKnown
    : messages.cause.range(say.number(low.of100), say.number(high.of100));
  return { low, high, saysLittle: little, text };
}

/** Nothing is called almost certain whose own range reaches below this. */
const CERTAIN_FROM = 0.8;

export function sureness({ chance, interval }: Pick<RankedFault, 'chance' | 'interval'>, messages: Messages): string {
  const doubtful = interval !== undefined && interval.low < CERTAIN_FROM;
  // what may as well not be so is likely at most
  const open = interval !== undefined && saysLittle(interval);
  const [word] = SURE.find(
    ([word, least]) => chance >= least && !(word === 'certain' && doubtful) && !(word === 'very' && open),
  ) ?? ['slight'];
  return messages.sure[word as keyof Messages['sure']];
}

/** Wordings stand in lists and after colons, where a full stop of their own would be one too many. */
export function withoutStop(text: string): string {
  return text.replace(/\.$/, '');
}
