import { beforeAll, describe, expect, it } from 'vitest';
import { saysLittle } from '../../src/assess/says-little.ts';
import type { Assessed, Option } from '../../src/assessment.ts';
import { proseOf } from '../../src/letter/prose.ts';
import { countText, readingLevel } from '../../src/letter/reading-level.ts';
import type { Choice, Letter } from '../../src/letter/schema.ts';
import { letterText } from '../../src/letter/text.ts';
import type { Record as CardRecord } from '../../src/record/schema.ts';
import type { Shop } from '../../src/shop/schema.ts';
import { type Bench, openBench, type Told } from './letters.ts';
import { HIGHEST_GRADE, JARGON, LOWEST_EASE } from './plain-words.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await openBench();
}, 240_000);

const optionOf = (assessed: Assessed, id: string): Option => assessed.options.find((option) => option.id === id)!;
const hundredths = (chance: number) => Math.round(100 * chance);
const likely = (amount: number | { readonly likely: number }) => (typeof amount === 'number' ? amount : amount.likely);

/** Every figure that may stand in the letter, worked out from the assessment, record and shop without the letter's own code. */
function figuresOf(assessed: Assessed, record: CardRecord, shop: Shop, letter: Letter): Set<string> {
  const chances: number[] = [];
  const amounts: number[] = [];
  for (const option of assessed.options) {
    chances.push(option.works, option.holds, option.works - option.holds, 1 - option.works);
    for (const range of [option.worksInterval, option.holdsInterval]) if (range) chances.push(range.low, range.high);
    amounts.push(option.floor ?? 0, option.ceiling ?? 0, option.cost.total, option.surplus);
  }
  for (const fault of assessed.ranking) {
    chances.push(fault.chance);
    if (fault.interval) chances.push(fault.interval.low, fault.interval.high);
  }
  if (assessed.sensitivity) chances.push(assessed.sensitivity.stands);
  const counts: number[] = [100, assessed.warrantyDays];
  for (const even of assessed.verdict.breakEvens) {
    if (even.what === 'chance-works') chances.push(even.now, even.at ?? even.now);
    else if (even.what === 'labour-minutes')
      // three hours and more are told in hours
      for (const minutes of [even.now, even.at ?? even.now])
        counts.push(Math.round(minutes < 180 ? minutes : minutes / 60));
    else amounts.push(even.now, even.at ?? even.now);
  }
  if (assessed.next.kind === 'check') {
    const next = assessed.next.check;
    const advice = assessed.checks.find(({ check }) => check === next)!;
    counts.push(Math.round(advice.minutes));
    amounts.push(advice.cost, advice.worth, assessed.certificate.value - assessed.certificate.now);
    const verdicts = new Set(advice.outcomes.map(({ verdict }) => verdict));
    const leads = [...verdicts]
      .map((kind) =>
        advice.outcomes.filter(({ verdict }) => verdict === kind).reduce((sum, { chance }) => sum + chance, 0),
      )
      .toSorted((a, b) => b - a);
    chances.push(...leads);
    // what the leads that are told leave of 100
    const told = letter.next?.leadsTo.length ?? 0;
    counts.push(100 - leads.slice(0, told).reduce((sum, chance) => sum + hundredths(chance), 0));
  }
  const money = record.money ?? shop.defaultMoney;
  amounts.push(likely(money.working), likely(money.asIs));
  // 100 cards, each counted once
  if (letter.outOf100) {
    const { works, holds } = optionOf(assessed, letter.outOf100.option);
    counts.push(hundredths(works) - hundredths(holds), 100 - hundredths(works));
  }
  const normal = assessed.evidence.filter(({ origin, state, states }) => origin !== 'owner' && state === states[0]);
  const shown = letter.found.items.filter(({ abnormal }) => !abnormal).length;
  counts.push(normal.length - shown);
  for (const event of record.timeline) {
    if (event.type !== 'arrived' && event.type !== 'came-back') continue;
    counts.push(Number(event.at.slice(0, 4)), Number(event.at.slice(8, 10)));
    if (event.type === 'arrived' && typeof event.facts['age-years'] === 'number') counts.push(event.facts['age-years']);
  }
  if (assessed.comeback) {
    counts.push(Math.floor(assessed.comeback.workedDays ?? 0));
    chances.push(...Object.values(assessed.comeback.attributions ?? {}));
    const { again, damage, paid } = assessed.comeback.second;
    chances.push(damage.onceMore, ...(again ? [again.option.works, again.option.holds] : []));
    amounts.push(paid.last ?? 0);
  }
  const texts = [
    ...counts.map(String),
    ...chances.map((chance) => String(hundredths(chance))),
    ...amounts.map((amount) => Math.round(Math.abs(amount)).toLocaleString('en')),
    // fewer than 1, more than 99
    '1',
    '99',
    // the offer's own figures are checked one by one below
    ...letter.choices.flatMap(({ price }) => (price.kind === 'asked' ? figuresIn([price.text]) : [])),
    ...gainOf(assessed, letter),
  ];
  return new Set(texts);
}

/** What the owner gains on average at the price asked, from the plan's own chance that the price is kept. */
function gainOf(assessed: Assessed, letter: Letter): string[] {
  const advised = letter.choices.find(({ advised }) => advised);
  if (advised?.price.kind !== 'asked') return [];
  const option = optionOf(assessed, advised.option);
  const kept = assessed.whatIf!.plans.find(({ id }) => id === option.id)!.kept;
  return [Math.round(kept * (option.ceiling! - advised.price.price.amount)).toLocaleString('en')];
}

/** Numbers as printed; figures that are part of a name in the rules (12 volt, 1.8 volt, half an hour) are not facts of this card. */
function figuresIn(texts: readonly string[]): string[] {
  return texts.flatMap((text) =>
    (text.replace(/\d+(\.\d)?[ -]volts?/g, '').match(/\d[\d,.]*/g) ?? []).map((figure) => figure.replace(/[.,]$/, '')),
  );
}

/** German writes 1.234,5 for 1,234.5; names of the rules stay English. */
const swapMarks = (text: string) =>
  text
    .replaceAll(/\d+\.\d volts?/g, '')
    .replaceAll(/\d[\d.,]*\d/g, (figure) => figure.replaceAll(/[.,]/g, (mark) => (mark === '.' ? ',' : '.')));

describe('The owner is told the same facts as the technician', () => {
  it('in every figure of every letter: none that the assessment does not hold', () => {
    const strange = bench.told.flatMap(({ id, assessed, letter, record }) => {
      const known = figuresOf(assessed, record, bench.shop, letter);
      return figuresIn(proseOf(letter))
        .filter((figure) => !known.has(figure))
        .map((figure) => `${id}: ${figure}`);
    });
    expect(strange).toEqual([]);
  });

  it('and a figure that is not in the assessment would be found', () => {
    const { assessed, letter, record } = bench.of('one-memory-chip');
    const known = figuresOf(assessed, record, bench.shop, letter);
    expect(figuresIn(['We ask €1,234.50 in 3.2 of 100 cases.']).filter((figure) => !known.has(figure))).toEqual([
      '1,234.50',
      '3.2',
    ]);
  });

  it('in the verdict: what is advised is the option the technician sees advised', () => {
    for (const { assessed, letter } of bench.told) {
      const advised = letter.choices.filter((choice) => choice.advised);
      expect(advised.map(({ option }) => option)).toEqual([assessed.verdict.option]);
      expect(advised[0]!.verdict).toBe(assessed.verdict.kind);
      expect(letter.choices[0]).toBe(advised[0]);
      const expected =
        assessed.next.kind === 'check'
          ? 'check-first'
          : assessed.verdict.kind === 'scrap'
            ? 'leave'
            : assessed.verdict.kind === 'return'
              ? 'return'
              : 'repair';
      expect(letter.outcome).toBe(expected);
      expect(letter.next?.check ?? null).toBe(assessed.next.kind === 'check' ? assessed.next.check : null);
    }
  });

  it('in the chances of every choice, to the last digit', () => {
    for (const { assessed, letter } of bench.told) {
      for (const choice of letter.choices) {
        const option = optionOf(assessed, choice.option);
        expect(choice.worthIt).toBe(option.justified);
        if (choice.kind === 'leave') expect([choice.works, choice.holds]).toEqual([null, null]);
        else {
          expect(choice.works!.chance).toBe(option.works);
          expect(choice.holds!.chance).toBe(option.holds);
          expect(choice.works!.of100).toBe(hundredths(option.works));
        }
      }
      for (const [at, cause] of letter.causes.entries()) {
        const ranked = assessed.ranking[at]!;
        expect([cause.fault, cause.count.chance]).toEqual([ranked.fault, ranked.chance]);
        expect(cause.range && [cause.range.low.chance, cause.range.high.chance]).toEqual([
          ranked.interval!.low,
          ranked.interval!.high,
        ]);
      }
      expect(letter.sites).toEqual(assessed.sites);
    }
  });

  it('in how well a figure is known: a range as wide as that is called hardly known to both, and its figure about so much', () => {
    let wide = 0;
    for (const { assessed, letter, german } of bench.told)
      for (const [at, { range, count, sure }] of letter.causes.entries()) {
        const { interval } = assessed.ranking[at]!;
        if (interval === undefined || range === null) continue;
        const says = interval.high - interval.low < 0.8;
        expect(range.saysLittle, letter.record).toBe(!says);
        expect(saysLittle(interval)).toBe(!says);
        const told = says ? `${hundredths(interval.low)} to ${hundredths(interval.high)}` : /little is known/;
        expect(range.text).toMatch(told);
        expect(count.text.startsWith('about ')).toBe(!says);
        if (says) continue;
        wide++;
        expect(sure).not.toMatch(/certain|Very likely/);
        expect(letter.causesNote.join(' ')).toContain('few have counted');
        expect(german.causes[at]!.range!.text).toContain('wenig bekannt');
      }
    expect(wide).toBeGreaterThan(3);
  });

  it('in the list of causes: where its figures add up to more than 100, it says why they can', () => {
    for (const { letter } of bench.told) {
      const sum = letter.causes.reduce((all, { count }) => all + count.of100, 0);
      expect(
        letter.causesNote.some((note) => note.includes('more than one fault')),
        letter.record,
      ).toBe(sum > 100);
    }
  });

  it('and speaks of changes in a repair only where that repair is among the choices', () => {
    let left = 0;
    for (const { letter } of bench.told) {
      if (letter.choices.some(({ kind }) => kind !== 'leave')) continue;
      left++;
      expect(letter.changes.join(' '), letter.record).not.toMatch(/If it worked|the parts cost|the work took/);
    }
    expect(left).toBeGreaterThan(3);
  });

  it('and no two reasons of one letter say that a power line is shorted', () => {
    let said = 0;
    for (const { letter } of bench.told) {
      const shorts = letter.ruledOut.filter(({ reason }) => /power line/.test(reason.text));
      expect(shorts.length, letter.record).toBeLessThan(2);
      said += shorts.length;
    }
    expect(said).toBeGreaterThan(2);
  });

  it('in the prices: inside the band where there is one, and its two edges where there is none', () => {
    const kinds = new Set<string>();
    for (const { assessed, letter } of bench.told) {
      for (const choice of letter.choices) {
        kinds.add(choice.price.kind);
        priceHolds(choice, optionOf(assessed, choice.option), assessed);
      }
    }
    expect([...kinds].sort()).toEqual(['asked', 'none-fits', 'nothing', 'own-stock']);
  });

  function priceHolds(choice: Choice, option: Option, assessed: Assessed) {
    const { price } = choice;
    if (assessed.ownStock) return expect(price.kind).toBe('own-stock');
    if (choice.kind !== 'repair') return expect(price.kind).toBe('nothing');
    if (price.kind === 'asked') {
      expect(option.justified).toBe(true);
      expect(price.price.amount).toBeGreaterThanOrEqual(option.floor!);
      expect(price.price.amount).toBeLessThanOrEqual(option.ceiling!);
    } else if (price.kind === 'none-fits') {
      expect(option.justified).toBe(false);
      expect([price.needed.amount, price.worth.amount]).toEqual([option.floor, option.ceiling]);
    } else expect.fail(`a repair of no card of ours is ${price.kind}`);
    return undefined;
  }

  it('in what would change it: every break-even told is one the technician sees, with its two figures', () => {
    for (const { assessed, letter } of bench.told) {
      const edges = assessed.verdict.breakEvens.flatMap(({ at, now }) => (at === null ? [] : [at, now]));
      // three hours and more are told in hours
      const hours = assessed.verdict.breakEvens.flatMap(({ what, at, now }) =>
        what === 'labour-minutes' ? [at ?? now, now].filter((minutes) => minutes >= 180).map((long) => long / 60) : [],
      );
      const allowed = new Set([
        ...hours.map((long) => String(Math.round(long))),
        ...edges.flatMap((edge) => [Math.round(Math.abs(edge)).toLocaleString('en'), String(hundredths(edge))]),
        ...edges.flatMap((edge) => (edge > 0.995 && edge < 1 ? ['99'] : edge > 0 && edge < 0.005 ? ['1'] : [])),
      ]);
      for (const sentence of letter.changes)
        for (const figure of figuresIn([sentence.replace(/ of 100/g, '')]))
          expect(allowed.has(figure), `${letter.record}: ${sentence}`).toBe(true);
    }
  });

  it('in what is not offered: for every repair that is closed, the reason, in the words of the same rule', () => {
    let told = 0;
    for (const { assessed, letter } of bench.told) {
      for (const { id, reasons } of assessed.closedRemedies) {
        for (const reason of reasons) {
          const rule = bench.knowledge.rules.gates.find(
            ({ event }) => event.type === 'close' && event.params.reason === reason,
          );
          if (rule?.event.type !== 'close' || rule.event.params.owner === undefined) continue;
          const { owner } = rule.event.params;
          told += 1;
          expect(letter.ruledOut.find((item) => item.reason.text === owner)?.remedies).toContain(id);
        }
      }
    }
    expect(told).toBeGreaterThan(10);
  });

  it('and of repairs that are closed for want of a tool, that something is wanting', () => {
    const { assessed, record } = bench.of('one-memory-chip');
    const reasons = ['This bench has no core rework station (shop profile).'];
    const letter = bench.write(
      { ...assessed, closedRemedies: [{ id: 'reflow-core', name: 'Reflow', reasons }] },
      { record },
    );
    expect(letter.ruledOut).toEqual([
      {
        remedies: ['reflow-core'],
        reason: { text: 'We lack a tool or a part price for some repairs.', language: 'en' },
      },
    ]);
  });

  it('in why a card failed again: as often as the assessment attributes it, and for how long it worked', () => {
    const back = bench.told.filter(({ assessed }) => assessed.comeback);
    expect(back.length).toBeGreaterThan(3);
    for (const { assessed, letter } of back) {
      const { attributions, lastRemedy } = assessed.comeback!;
      expect(letter.afterWork?.remedy).toBe(lastRemedy);
      for (const { kind, count } of letter.afterWork!.reasons) expect(count.chance).toBe(attributions![kind]);
      const told = letter.afterWork!.reasons.reduce((sum, { count }) => sum + count.chance, 0);
      expect(told).toBeGreaterThan(attributions ? 0.8 : -1);
    }
    expect(bench.of('back-after-three-weeks').letter.afterWork!.sentences).toEqual([
      'The card worked for 21 days and failed again.',
      'That is within the 90 days of warranty: you get your money back for that repair.',
    ]);
    expect(bench.of('paste-renewed-and-still-working').letter.title).toBe('The card works: there is nothing to do');
  });

  it('in the dates: today, and as many days of validity as the shop gives', () => {
    const { assessed, record } = bench.of('one-memory-chip');
    expect(bench.of('one-memory-chip').letter.date.iso).toBe('2026-04-20');
    expect(bench.of('one-memory-chip').letter.validUntil?.iso).toBe('2026-05-04');
    const shop = { ...bench.shop, quoteDays: 30 };
    const letter = bench.write(assessed, { record, shop });
    expect(letter.validUntil).toEqual({ iso: '2026-05-20', text: '20 May 2026' });
  });

  it('in the small cards: 100 of them, as many of each kind as the chances say', () => {
    for (const { assessed, letter } of bench.told) {
      if (!letter.outOf100) continue;
      const { holds, failsAgain, fails, option } = letter.outOf100;
      expect(holds + failsAgain + fails).toBe(100);
      expect(holds).toBe(hundredths(optionOf(assessed, option).holds));
      expect(100 - fails).toBe(hundredths(optionOf(assessed, option).works));
      expect(failsAgain).toBeGreaterThanOrEqual(0);
    }
  });

  it('in the German letter, figure for figure', () => {
    const figures = (letter: Letter) =>
      figuresIn(proseOf(letter).map((part) => (letter.language === 'de' ? swapMarks(part) : part)))
        .filter((figure) => !/^20\d\d$/.test(figure))
        .sort();
    const differ = (told: Told) => figures(told.german).join(' ') !== figures(told.letter).join(' ');
    expect(bench.told.filter(differ).map(({ id }) => id)).toEqual([]);
  });

  it('in plain text as on the page: every sentence of the letter is there', () => {
    for (const { letter } of bench.told) {
      const text = letterText(letter).replaceAll(/\s+/g, ' ');
      const missing = proseOf(letter)
        .filter(
          (part) =>
            !letter.outOf100 || ![letter.outOf100.title, ...Object.values(letter.outOf100.legend)].includes(part),
        )
        .filter((part) => !text.includes(part.split(': ').at(-1)!));
      expect(missing, letter.record).toEqual([]);
    }
  });
});

describe('Every letter over the worked cases', () => {
  it(`reads at grade ${HIGHEST_GRADE} or lower, and fairly easily`, () => {
    const hard = bench.told.flatMap(({ id, letter }) => {
      const level = readingLevel(proseOf(letter))!;
      return level.grade <= HIGHEST_GRADE && level.ease >= LOWEST_EASE
        ? []
        : [`${id}: grade ${level.grade.toFixed(1)}, ease ${level.ease.toFixed(1)}`];
    });
    expect(hard).toEqual([]);
  });

  it('keeps to that level in the reasons alone, which are whole sentences', () => {
    const hard = bench.told.flatMap(({ id, letter }) => {
      const level = readingLevel([...letter.lead, ...letter.why, ...letter.changes, ...letter.rests])!;
      return level.grade <= HIGHEST_GRADE ? [] : [`${id}: grade ${level.grade.toFixed(1)}`];
    });
    expect(hard).toEqual([]);
  });

  it('has no sentence of more than 30 words', () => {
    const long = bench.told.flatMap(({ letter }) =>
      proseOf(letter)
        .flatMap((part) => part.split(/(?<=[.!?])\s+|; /))
        .filter((sentence) => countText(sentence).words > 30),
    );
    expect([...new Set(long)]).toEqual([]);
  });

  it('is free of the words of the trade and of the tool', () => {
    const found = bench.told.flatMap(({ letter }) => proseOf(letter).filter((part) => JARGON.test(part)));
    expect([...new Set(found)]).toEqual([]);
    expect('The core rail is short').toMatch(JARGON);
    expect('11 dB for a cracked bump').toMatch(JARGON);
  });
});
