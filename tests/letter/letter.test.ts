import { beforeAll, describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import type { Assessment } from '../../src/assessment.ts';
import type { Knowledge } from '../../src/knowledge/knowledge.ts';
import { type LetterOptions, type Tellable, writeLetter } from '../../src/letter/letter.ts';
import { type OwnerWordings, ownerWordings } from '../../src/letter/owner-wordings.ts';
import { Letter } from '../../src/letter/schema.ts';
import { letterText } from '../../src/letter/text.ts';
import type { Shop } from '../../src/shop/schema.ts';
import { knowledgeAndShop, workedCase } from '../assess/worked-cases.ts';

let knowledge: Knowledge;
let shop: Shop;
let words: OwnerWordings;
beforeAll(async () => {
  ({ knowledge, shop } = await knowledgeAndShop());
  words = ownerWordings(knowledge);
});

const assessed = async (record: unknown, at: Shop = shop): Promise<Tellable> => {
  const assessment: Assessment = await assess(knowledge, at, record);
  if (assessment.kind === 'bad-record') throw new Error(JSON.stringify(assessment.issues));
  return assessment;
};
const tell = async (id: string, more: Partial<LetterOptions> = {}): Promise<Letter> => {
  const { record } = workedCase(id);
  const assessment = await assessed(record, more.shop ?? shop);
  return writeLetter(assessment, { shop, words, record, today: '2026-04-20', ...more });
};

describe('A letter', () => {
  it('for a repair that is worth it names the work, the chances, the price and what failing costs', async () => {
    const letter = await tell('one-memory-chip');
    expect(letter.outcome).toBe('repair');
    expect(letter.advised?.text).toMatch(/memory chip/);
    const price = letter.choices[0]!.price;
    if (price.kind !== 'asked') expect.fail('there is a price');
    expect(letter.lead.join(' ')).toContain(price.text);
    expect(letter.lead.join(' ')).toContain('If the card does not work when you get it back, you pay nothing.');
    expect(letter.lead.join(' ')).toContain('within 90 days, you get your money back');
    expect(letter.consent.boxes[0]).toContain(price.text);
    expect(letter.choices.map(({ kind }) => kind)).toEqual(expect.arrayContaining(['repair', 'leave']));
    expect(letter.warnings).toEqual([]);
  });

  it('for a card not worth it shows the repair that might have rescued it, and the price that would not suit', async () => {
    const letter = await tell('ball-crack-on-a-cheap-card');
    expect(letter.outcome).toBe('leave');
    const rescue = letter.choices.find(({ kind }) => kind === 'repair')!;
    expect(rescue.price.kind).toBe('none-fits');
    expect(rescue.works!.of100).toBeGreaterThan(0);
    expect(letter.outOf100?.option).toBe(rescue.option);
    expect(letter.why.join(' ')).toContain('would rather tell you so');
    expect(letter.consent.boxes).toEqual([
      'Please hand the card back as it is.',
      'You may keep the card for parts or recycling.',
    ]);
  });

  it('for a sound card asks for no money and says where to look next', async () => {
    const letter = await tell('card-is-fine-host-is-not');
    expect(letter.outcome).toBe('return');
    expect(letter.title).toBe('We found nothing wrong with the card');
    expect(letter.causes.length).toBeGreaterThan(1);
    for (const { site } of letter.causes) expect(site).toBe('host');
    for (const { price } of letter.choices) expect(price.kind).toBe('nothing');
    expect(letter.validUntil).toBeNull();
  });

  it('says "most likely" of a card that may well not be sound', async () => {
    const base = await assessed(workedCase('card-is-fine-host-is-not').record);
    if (base.kind !== 'assessed') throw new Error('assessed');
    const options = base.options.map((option) => (option.verdict === 'return' ? { ...option, works: 0.7 } : option));
    const letter = writeLetter({ ...base, options }, { shop, words, today: '2026-04-20' });
    expect(letter.title).toBe('Most likely nothing is wrong with the card');
  });

  it('says so in its title where the advice hardly outlasts other estimates, and nothing of it where it does', async () => {
    const base = await assessed(workedCase('ball-crack-on-a-dear-card').record);
    if (base.kind !== 'assessed') throw new Error('assessed');
    const tried = (stands: number) =>
      writeLetter(
        { ...base, sensitivity: { stands } as NonNullable<typeof base.sensitivity> },
        { shop, words, today: '2026-04-20' },
      );
    const close = tried(0.48);
    expect(close.outcome).toBe('repair');
    expect(close.title).toBe('The repair is only just worth it');
    expect(close.lead.join(' ')).toContain('a close call');
    expect(close.rests.join(' ')).toContain('stayed the same in 48 of 100 tries');
    const firm = tried(0.9);
    expect(firm.title).toBe('The repair is worth it');
    expect(firm.lead.join(' ')).not.toContain('close call');
  });

  it('does not call its advice firm while it advises another step first', async () => {
    const base = await assessed(workedCase('only-the-owners-words').record);
    if (base.kind !== 'assessed') throw new Error('assessed');
    const letter = writeLetter(
      { ...base, sensitivity: { stands: 1 } as NonNullable<typeof base.sensitivity> },
      { shop, words, today: '2026-04-20' },
    );
    expect(letter.rests.join(' ')).toContain('What we would advise today stayed the same in 100 of 100 tries');
    expect(letter.rests.join(' ')).not.toContain('The advice stayed');
  });

  it('calls nothing almost certain that may as well be likely only', async () => {
    const base = await assessed(workedCase('ball-crack-on-a-dear-card').record);
    if (base.kind !== 'assessed') throw new Error('assessed');
    const [first, ...others] = base.ranking;
    const sureOf = (low: number | null) => {
      const interval = low === null ? {} : { interval: { low, high: 1 } };
      const ranking = [{ ...first!, chance: 0.97, ...interval }, ...others];
      return writeLetter({ ...base, ranking }, { shop, words, today: '2026-04-20' }).causes[0]!.sure;
    };
    expect(sureOf(0.52)).toBe('Very likely');
    expect(sureOf(0.9)).toBe('Almost certain');
    expect(sureOf(null)).toBe('Almost certain');
  });

  it('tells long work in hours, as people count it', async () => {
    const base = await assessed(workedCase('ball-crack-on-a-dear-card').record);
    if (base.kind !== 'assessed') throw new Error('assessed');
    const even = { what: 'labour-minutes', now: 101, at: 868, becomes: 'scrap', sentence: '' } as const;
    const letter = writeLetter(
      { ...base, verdict: { ...base.verdict, breakEvens: [even] } },
      { shop, words, today: '2026-04-20' },
    );
    expect(letter.changes).toEqual([
      'If the work took more than 14 hours, we would advise no repair. We expect 101 minutes.',
    ]);
  });

  it('for a card of which too little is known asks for the next step, with its cost and what it may lead to', async () => {
    const letter = await tell('only-the-owners-words');
    expect(letter.outcome).toBe('check-first');
    expect(letter.next!.what.text.length).toBeGreaterThan(10);
    expect(letter.next!.sentences.join(' ')).toMatch(
      /It takes us about \d+ minutes and costs us .\d+\. You do not pay for it\./,
    );
    expect(letter.next!.leadsTo.length).toBeGreaterThan(0);
    const { leadsTo, rest } = letter.next!;
    const counted = [...leadsTo, ...(rest === null ? [] : [rest])].map(({ count }) => count.of100);
    expect(counted.reduce((sum, of100) => sum + of100, 0)).toBe(100);
    expect(letter.consent.boxes).toEqual([
      'Please take the next step and write to me again.',
      'Please hand the card back as it is.',
    ]);
    expect(letter.outOf100).toBeNull();
  });

  it('for the shop’s own card talks of no price and needs no signature', async () => {
    const letter = await tell('own-stock-ball-crack');
    expect(letter.ownStock).toBe(true);
    for (const { price } of letter.choices) expect(price.kind).toBe('own-stock');
    expect(letter.consent).toEqual({
      intro: 'This is our own card. No price is set, and nobody outside has to sign.',
      boxes: [],
      sign: false,
    });
    expect(letterText(letter)).not.toContain('Your price');
    expect(letterText(letter)).not.toMatch(/^ +Price:/m);
  });

  it('for findings that exclude each other names both, advises nothing and asks for no signature', async () => {
    const contradiction: Exclude<Tellable, { kind: 'assessed' }> = {
      kind: 'contradiction',
      format: 1,
      record: 'odd-card',
      title: 'Two findings that cannot both be true',
      finding: 'start-up',
      against: ['resistance-memory'],
      sentence: 'They exclude each other.',
      windows: [],
      applicable: [],
      evidence: ['start-up', 'resistance-memory'].map((id) => {
        const finding = knowledge.findings.find((known) => known.id === id)!;
        const state = finding.states[id === 'start-up' ? 0 : 3]!;
        return {
          finding: id,
          name: finding.name,
          origin: 'seen',
          state: state.id,
          stateName: state.name,
          states: finding.states.map((known) => known.id),
          weights: finding.states.map((known) => (known.id === state.id ? 1 : 0)),
        };
      }),
    };
    const letter = writeLetter(contradiction, { shop, words, today: '2026-04-20' });
    expect(letter.outcome).toBe('contradiction');
    expect(letter.why).toEqual([
      'This does not fit: How the card starts: it works. It cannot go with: The power line of the memory: shorted.',
    ]);
    expect(letter.choices).toEqual([]);
    expect(letter.consent).toEqual({ intro: 'There is nothing to sign yet.', boxes: [], sign: false });
    expect(Letter.parse(JSON.parse(JSON.stringify(letter)))).toEqual(letter);
    const alone = writeLetter({ ...contradiction, against: [] }, { shop, words, today: '2026-04-20' });
    expect(alone.why).toEqual(['This fits no fault we know: How the card starts: it works.']);
    const timeline = writeLetter(
      { ...contradiction, finding: null, against: [] },
      { shop, words, today: '2026-04-20' },
    );
    expect(timeline.why.join()).toContain('cannot go with what was written down about the work on it');
  });

  it('says what is paid for work that failed where the shop takes a fee, and what a warranty of none means', async () => {
    const strict: Shop = { ...shop, policy: { kind: 'diagnostic-fee', fee: 25 }, warrantyDays: 0 };
    const letter = await tell('one-memory-chip', { shop: strict });
    expect(letter.lead.join(' ')).toContain('you pay only €25 for our work');
    expect(letter.lead.join(' ')).toContain('If it fails again later, you do not get your money back.');
    expect(letter.choices.find(({ kind }) => kind === 'repair')!.ifItFails).toBe('You pay €25 for our work.');
  });

  it('keeps to its schema, and carries the mark of an invented card', async () => {
    for (const id of ['one-memory-chip', 'reflowed-and-back']) {
      const letter = await tell(id);
      expect(Letter.parse(JSON.parse(JSON.stringify(letter)))).toEqual(letter);
      expect(letter.invented).toBe(true);
      expect(letterText(letter)).toContain('Invented example: no real card, owner or price.');
    }
  });

  it('says what the owner told without the record, too', async () => {
    const letter = writeLetter(await assessed(workedCase('only-the-owners-words').record), {
      shop,
      words,
      today: '2026-04-20',
    });
    expect(letter.cameIn.join(' ')).toContain('How the card starts');
    expect(letter.rests.join(' ')).not.toContain('We took a working card');
  });

  it('is set for the paper and the writing of figures of the shop’s region', async () => {
    const american = await tell('one-memory-chip', { shop: { ...shop, locale: 'en-US' } });
    expect(american.paper).toBe('letter');
    expect(american.date.text).toBe('April 20, 2026');
    const german = await tell('one-memory-chip', { language: 'de' });
    expect([german.paper, german.locale, german.date.text]).toEqual(['a4', 'de-IE', '20. April 2026']);
  });
});

describe('The technician’s price', () => {
  it('stands on the page where it lies inside the band', async () => {
    const letter = await tell('one-memory-chip', { price: 150 });
    expect(letter.warnings).toEqual([]);
    expect(letter.choices[0]!.price).toEqual({ kind: 'asked', price: { amount: 150, text: '€150' }, text: '€150' });
    expect(letter.lead.join(' ')).toContain('Your price is €150.');
  });

  it('is the one quoted on the record, and valid as long as it was quoted for, until another is tried', async () => {
    const { record } = workedCase('one-memory-chip');
    const assessment = await assessed(record);
    const letter = await tell('one-memory-chip');
    const advised = (one: Letter) => one.choices.find((choice) => choice.advised)!;
    const usual = advised(letter).price;
    if (usual.kind !== 'asked') throw new Error('no price is asked in this case');
    const other = usual.price.amount + 1;
    const asked = (option: string, price?: number) => {
      const quoted = {
        type: 'quoted',
        at: record.timeline[0]!.at,
        option,
        price: other,
        validUntil: '2027-01-31',
      } as const;
      const timeline = [...record.timeline, quoted];
      const told = writeLetter(assessment, {
        shop,
        words,
        record: { ...record, timeline },
        today: '2026-04-20',
        price,
      });
      const put = advised(told).price;
      return [put.kind === 'asked' && put.price.amount, told.validUntil?.iso];
    };
    const { option } = advised(letter);
    expect(asked(option)).toEqual([other, '2027-01-31']);
    expect(asked(option, other + 1)).toEqual([other + 1, letter.validUntil!.iso]);
    expect(asked('another-repair'), 'what was quoted for another repair').toEqual([
      usual.price.amount,
      letter.validUntil!.iso,
    ]);
  });

  it('below the band is warned of as the shop’s loss, above it as the owner’s, with the edge and the reason', async () => {
    const low = await tell('one-memory-chip', { price: 50 });
    expect(low.warnings.map(({ kind, loses }) => [kind, loses])).toEqual([['below-floor', 'shop']]);
    expect(low.warnings[0]!.sentence).toMatch(/^At €50 the shop loses\. Its cost, risk and margin need €[\d.]+\./);
    const high = await tell('one-memory-chip', { price: 400 });
    expect(high.warnings.map(({ kind, loses }) => [kind, loses])).toEqual([['above-ceiling', 'owner']]);
    expect(high.why[0]).toMatch(/worse off than leaving the card/);
    // the page itself stays free of what is between the technician and the tool
    expect(letterText(high)).not.toContain(high.warnings[0]!.sentence);
  });

  it('for a card not worth it is warned of on both sides, and the owner may still choose the repair', async () => {
    const fitting = await tell('ball-crack-on-a-cheap-card');
    const rescue = fitting.choices.find(({ kind }) => kind === 'repair')!;
    if (rescue.price.kind !== 'none-fits') expect.fail('no price fits');
    const between = Math.round((Math.max(0, rescue.price.worth.amount) + rescue.price.needed.amount) / 2);
    const letter = await tell('ball-crack-on-a-cheap-card', { price: between });
    expect(letter.warnings.map(({ kind }) => kind)).toEqual(['below-floor', 'above-ceiling', 'no-band']);
    expect(letter.consent.boxes.at(-1)).toMatch(/^I know that it is not worth it\./);
  });

  it('is not used where nothing is sold, and that is said', async () => {
    for (const id of ['own-stock-ball-crack', 'card-is-fine-host-is-not']) {
      const letter = await tell(id, { price: 99 });
      expect(letter.warnings.map(({ kind }) => kind)).toEqual(['no-price-asked']);
      expect(letter.choices.every(({ price }) => price.kind !== 'asked')).toBe(true);
    }
  });
});
