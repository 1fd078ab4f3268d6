import { beforeAll, describe, expect, it } from 'vitest';
import { letterHtml } from '../../src/letter/html.ts';
import { proseOf } from '../../src/letter/prose.ts';
import { readingLevel } from '../../src/letter/reading-level.ts';
import type { Letter } from '../../src/letter/schema.ts';
import { letterText } from '../../src/letter/text.ts';
import type { Record as CardRecord } from '../../src/record/schema.ts';
import { type Bench, openBench } from './letters.ts';
import { HIGHEST_GRADE, JARGON } from './plain-words.ts';

let bench: Bench;
beforeAll(async () => {
  bench = await openBench();
}, 180_000);

const DAY = 86_400_000;

/** A card whose clock part was changed, paid for, and which came back with the same signs: the repair is worth doing again. */
function clockAgain(paid: number, workedDays: number): CardRecord {
  const { record } = bench.of('clock-does-not-run');
  const last = Date.parse(record.timeline.at(-1)!.at);
  const on = (day: number, minute = 0) => new Date(last + day * DAY + minute * 60_000).toISOString();
  return {
    ...record,
    timeline: [
      ...record.timeline,
      { type: 'treated', at: on(1), remedy: 'replace-clock', worked: true },
      { type: 'handed-back', at: on(2), paid },
      { type: 'came-back', at: on(workedDays + 2), workedDays },
      ...record.timeline
        .filter((event) => event.type === 'seen' || event.type === 'measured')
        .map((event, at) => ({ ...event, at: on(workedDays + 2, at + 1) })),
    ],
  };
}

describe('The second page of a card that failed after three weeks', () => {
  it('says why, points at the main chip and not at its solder, and advises against the same repair', () => {
    const { letter, german } = bench.of('back-after-three-weeks');
    expect(letter.title).toBe('Another repair is not worth it');
    expect(letterText(letter)).toContain('Why your card failed again, and what we advise');
    expect(letter.causes[0]!.fault).toBe('core-bump-fracture');
    const { plainly, again, reasons } = letter.afterWork!;
    expect(reasons[0]!.kind).toBe('relapsed');
    expect(plainly).toContain('no proof');
    expect(again.at(-1)).toBe('We advise against it.');
    expect(german.title).toBe('Eine weitere Reparatur lohnt sich nicht');
    expect(german.afterWork!.again.at(-1)).toBe('Wir raten davon ab.');
  });

  it('begins with why it failed, and only then says what came in', () => {
    const { letter } = bench.of('back-after-three-weeks');
    for (const page of [letterText(letter).toLowerCase(), letterHtml(letter).toLowerCase()])
      expect(page.indexOf('why it failed again')).toBeLessThan(page.indexOf('what came in'));
    const first = letterText(bench.of('ball-crack-on-a-dear-card').letter);
    expect(first).toContain('Report and offer for your graphics card');
    expect(first).not.toContain('WHY IT FAILED');
  });
});

describe('The second page of a card with a bridge in the picture', () => {
  it('points at the repair and does not hide whose fault it was', () => {
    const { letter, german } = bench.of('bridge-in-the-picture');
    expect(letterText(letter)).toContain('Why the repair failed, and what we advise');
    expect(letter.causes[0]!.fault).toBe('rework-bridge');
    const { plainly, sentences, reasons } = letter.afterWork!;
    expect(reasons[0]!.kind).toBe('damaged');
    expect(plainly).toBe('Most likely our own repair did this harm. It is our fault, and we are sorry.');
    expect(sentences).toContain('You pay nothing for that repair.');
    expect(german.afterWork!.plainly).toContain('unsere Schuld');
  });

  it('promises nothing on payment where the shop takes a fee', () => {
    const { assessed, record } = bench.of('bridge-in-the-picture');
    const shop = { ...bench.shop, policy: { kind: 'diagnostic-fee', fee: 25 } } as const;
    expect(bench.write(assessed, { record, shop }).afterWork!.sentences).not.toContain(
      'You pay nothing for that repair.',
    );
  });
});

describe('The second page of a card that came back twice', () => {
  /** Out again with nothing done to it, and back. */
  function backAgain(times: number): CardRecord {
    const { record } = bench.of('back-after-three-weeks');
    const back = Date.parse(record.timeline.findLast(({ type }) => type === 'came-back')!.at);
    const on = (day: number) => new Date(back + day * DAY).toISOString();
    const more = Array.from({ length: times - 1 }, (_, at): CardRecord['timeline'] => [
      { type: 'handed-back', at: on(10 * at + 2) },
      { type: 'came-back', at: on(10 * at + 9), workedDays: 5 },
    ]);
    return { ...record, timeline: [...record.timeline, ...more.flat()] };
  }

  it('says when the work was done, on which days the card came back, and that nothing was done in between', async () => {
    const twice = backAgain(2);
    const { afterWork, cameIn } = await bench.letterOf(twice, { record: twice });
    expect(afterWork!.on?.text).toBe('11 March 2026');
    expect(afterWork!.sentences.slice(0, 3)).toEqual([
      'The card worked for 21 days and failed again.',
      'It has come back twice: on 2 April 2026 and 11 April 2026.',
      'In between it went out as it was. So we take it for the same fault.',
    ]);
    expect(cameIn).toContain('It came back on 2 April 2026 and 11 April 2026.');
    const thrice = backAgain(3);
    const third = await bench.letterOf(thrice, { record: thrice });
    expect(third.afterWork!.sentences).toContain(
      'It has come back 3 times: on 2 April 2026, 11 April 2026 and 21 April 2026.',
    );
  });

  it('and says nothing of it where it came back once', () => {
    const { letter } = bench.of('back-after-three-weeks');
    expect(letter.afterWork!.sentences.join(' ')).not.toMatch(/come back|In between/);
    expect(letterText(letter)).toContain('We did this last, on ');
  });
});

describe('The second page under warranty', () => {
  it('offers to try again at no new price where that suits both, with the money back as the other box', async () => {
    const letter = await bench.letterOf(clockAgain(100, 40));
    expect(letter.title).toBe('Another repair is worth it');
    expect(letter.afterWork!.sentences.slice(1)).toEqual([
      'You paid €100 for it.',
      'That is within the 90 days of warranty: you can have your money back. We advise you to let us try again at no new price.',
    ]);
    expect(letter.choices[0]).toMatchObject({ advised: true, price: { kind: 'nothing', text: 'nothing new' } });
    expect(letter.consent.boxes).toEqual([
      'Please try the repair again at no new price.',
      'Please give me my money back, and the card as it is.',
    ]);
  });

  it('gives the money back and makes a new offer where what was paid lies outside the band', async () => {
    const letter = await bench.letterOf(clockAgain(20, 40));
    expect(letter.afterWork!.sentences).toContain(
      'That is within the 90 days of warranty: you get your money back for that repair.',
    );
    expect(letter.choices[0]!.price.kind).toBe('asked');
    expect(letter.consent.boxes).toContain('Please give me my money back, and the card as it is.');
    expect(letter.consent.boxes).not.toContain('Please hand the card back as it is.');
  });

  it('says after the warranty that what was paid is past', async () => {
    const { afterWork } = await bench.letterOf(clockAgain(100, 120));
    expect(afterWork!.sentences).toContain(
      'You paid €100 for it. That is past, so our advice looks at what comes next.',
    );
    expect(afterWork!.sentences).toContain('That is after the 90 days of warranty.');
  });
});

describe('Every second page', () => {
  it('keeps to the level and the words of the first, in what it says of the repair, too', async () => {
    const letters: Letter[] = [
      ...bench.told.filter(({ assessed }) => assessed.comeback?.attributions).map(({ letter }) => letter),
      await bench.letterOf(clockAgain(100, 40)),
      await bench.letterOf(clockAgain(20, 40)),
      await bench.letterOf(clockAgain(100, 120)),
    ];
    expect(letters.length).toBeGreaterThan(8);
    for (const letter of letters) {
      expect(readingLevel(proseOf(letter))!.grade, letter.record).toBeLessThanOrEqual(HIGHEST_GRADE);
      expect(proseOf(letter).filter((part) => JARGON.test(part))).toEqual([]);
      const { sentences, plainly, again } = letter.afterWork!;
      const own = readingLevel([...sentences, ...(plainly ? [plainly] : []), ...again])!;
      expect(own.grade, `${letter.record}, of the repair`).toBeLessThanOrEqual(HIGHEST_GRADE);
    }
  });
});
