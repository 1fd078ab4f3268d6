import { beforeAll, describe, expect, it } from 'vitest';
import type { Assessed, Assessment } from '../../src/assessment.ts';
import { loadKnowledge, loadShop } from '../../src/knowledge/load.ts';
import type { Record } from '../../src/record/schema.ts';
import { createCardBook, versionOf } from '../../src/wizard/bench/card-book.ts';
import { arrange, type Row, rowOf } from '../../src/wizard/bench/rows.ts';
import { daysWaiting, stageOf } from '../../src/wizard/bench/stage.ts';
import { type Catalogue, makeCatalogue } from '../../src/wizard/catalogue.ts';
import { answerFact, answerFinding, typeReading } from '../../src/wizard/desk.ts';
import type { Listed } from '../../src/wizard/keeper.ts';
import { quotePrice, withdrawQuote } from '../../src/wizard/owner/quote.ts';
import { finishWork } from '../../src/work-order/record-step.ts';
import { card, orderFor, workedUpTo } from '../work-order/cards.ts';
import { sampleAssessment } from './sample-assessment.ts';

const AT = '2026-11-24T09:00:00Z';
const arrived: Record = { format: 1, id: 'card', title: 'Card', timeline: [{ type: 'arrived', at: AT, facts: {} }] };
const listed = (id: string, more: Partial<Listed> = {}): Listed => ({
  id,
  title: id,
  changed: AT,
  invented: false,
  unsaved: false,
  revision: 1,
  archived: false,
  ...more,
});
let catalogue: Catalogue;

beforeAll(async () => {
  const [knowledge, shop] = await Promise.all([loadKnowledge(), loadShop()]);
  if (!knowledge.ok || !shop.ok) throw new Error('the knowledge in rules/ does not parse: run the audit');
  catalogue = makeCatalogue(knowledge.knowledge, shop.shop);
});

describe('how far a card has come', () => {
  it('is read off what is on its record, the furthest of it', () => {
    const described = answerFact(arrived, 'mined', true, AT);
    const told = answerFinding(described, 'start-up', 'not-detected', 'owner', AT);
    const looked = answerFinding(told, 'look-board', 'clean', 'bench', AT);
    const measured = typeReading(looked, 'resistance-core', '0.3', AT);
    const tested = answerFinding(measured, 'start-up', 'desktop', 'bench', AT);
    const worked: Record = {
      ...tested,
      timeline: [...tested.timeline, { type: 'treated', at: AT, remedy: 'reflow-core', worked: true }],
    };
    const stages = [arrived, described, told, looked, measured, tested, worked].map((one) =>
      stageOf(one, null, catalogue),
    );
    expect(stages).toEqual(['arrived', 'described', 'described', 'looked-over', 'measured', 'tested', 'worked-on']);
  });

  it('is a decision as soon as no check is worth its minutes, but never for a card of which nothing is known', () => {
    const act = { ...sampleAssessment, next: { kind: 'act', option: 'reflow-core', because: 'x' } } as Assessment;
    expect(stageOf(answerFact(arrived, 'mined', true, AT), act, catalogue)).toBe('decided');
    expect(stageOf(arrived, act, catalogue)).toBe('arrived');
  });

  it('is waiting for the owner once a price was quoted, until the card is worked on', () => {
    const described = answerFact(arrived, 'mined', true, AT);
    const offered = { option: 'reflow-core', price: 120, today: '2026-11-24' };
    const quoted = quotePrice(described, offered, catalogue.shop, AT);
    expect(stageOf(quoted, null, catalogue)).toBe('quoted');
    expect(quoted.timeline.at(-1)).toEqual({
      type: 'quoted',
      at: AT,
      option: 'reflow-core',
      price: 120,
      validUntil: '2026-12-08',
    });
    expect(stageOf(withdrawQuote(quoted), null, catalogue)).toBe('described');
    const worked: Record = {
      ...quoted,
      timeline: [...quoted.timeline, { type: 'treated', at: AT, remedy: 'reflow-core', worked: true }],
    };
    expect(stageOf(worked, null, catalogue)).toBe('worked-on');
    expect(withdrawQuote(worked), 'a price the work was done for is not taken off').toBe(worked);
  });

  it('quotes after what is on the record, even with a clock that runs behind', () => {
    const offered = { option: 'reflow-core', price: 120, today: '2026-11-24' };
    const quoted = quotePrice(arrived, offered, catalogue.shop, '2026-11-20T09:00:00Z');
    expect(quoted.timeline.at(-1)?.at).toBe(AT);
  });

  it('counts whole days since it came in', () => {
    expect(daysWaiting(arrived, new Date('2026-11-24T23:00:00Z'))).toBe(0);
    expect(daysWaiting(arrived, new Date('2026-11-27T10:00:00Z'))).toBe(3);
    expect(daysWaiting(arrived, new Date('2026-11-20T10:00:00Z')), 'a clock that runs behind').toBe(0);
    expect(daysWaiting({ ...arrived, timeline: [] }, new Date(AT))).toBeNull();
  });
});

describe('a card that lies open in its work', () => {
  it('is on the bench at the hold point that waits, and waits for nothing else', async () => {
    const { record, order } = await halfway();
    const book = createCardBook({
      keeper: { peek: async () => record },
      adviser: { assessOnce: async () => sampleAssessment, orderFor: async () => order },
    });
    book.follow([listed('card')]);
    await settled();
    const { number, name } = order.steps.find(({ id }) => id === 'seated')!;
    expect(rowOf(listed('card'), book, catalogue, new Date(AT))).toMatchObject({
      stage: 'on-the-bench',
      atWork: { step: { number, name }, of: order.steps.length },
      waitsFor: name,
    });
  });

  it('is on the bench from its first preparation until somebody says whether it works', async () => {
    const { record } = await halfway();
    expect(stageOf(workedUpTo(made, open, 'heat-agreed'), null, catalogue)).toBe('on-the-bench');
    expect(stageOf(record, null, catalogue)).toBe('on-the-bench');
    const done = finishWork(record, false);
    expect(done.ok && stageOf(done.record, null, catalogue)).toBe('worked-on');
  });
});

const open = card('ball-crack-on-a-dear-card');
const made = await orderFor(open);
async function halfway() {
  const record = workedUpTo(made, open, 'seated');
  return { record, order: await orderFor(record) };
}

describe('the list of cards', () => {
  const row = (title: string, more: Partial<Row> = {}): Row => ({
    card: listed(title.toLowerCase().replace(/\W+/g, '-'), { title }),
    stage: null,
    days: null,
    atWork: null,
    assessed: null,
    trouble: 'weighing',
    waitsFor: null,
    ...more,
  });
  const titles = (rows: readonly Row[]) => rows.map(({ card }) => card.title);
  const words = ({ card, waitsFor }: Row) => `${card.title} ${waitsFor ?? ''}`;

  it('finds a card by every word, whatever the case and the accents', () => {
    const rows = [row('Réné, large die', { waitsFor: 'Boot test' }), row('Rene, small die')];
    expect(titles(arrange(rows, { query: 'RENE boot', sort: 'title', words }))).toEqual(['Réné, large die']);
    expect(arrange(rows, { query: 'rene', sort: 'title', words })).toHaveLength(2);
    expect(arrange(rows, { query: '  ', sort: 'title', words })).toHaveLength(2);
  });

  it('puts first the card that waits longest, the one that has come furthest, or the names as people count', () => {
    const rows = [
      row('Card 10', { days: 2, stage: 'measured' }),
      row('Card 9', { days: 12, stage: 'described' }),
      row('Card 11'),
    ];
    expect(titles(arrange(rows, { query: '', sort: 'waiting', words }))).toEqual(['Card 9', 'Card 10', 'Card 11']);
    expect(titles(arrange(rows, { query: '', sort: 'stage', words }))).toEqual(['Card 10', 'Card 9', 'Card 11']);
    expect(titles(arrange(rows, { query: '', sort: 'title', words }))).toEqual(['Card 9', 'Card 10', 'Card 11']);
  });

  it('says which check a card waits for, and nothing before it has been weighed', async () => {
    const { checks, ...rest } = sampleAssessment as Assessed;
    const [first] = checks;
    const named = { ...first!, check: 'pressure-test', name: 'Pressure test' };
    const waiting: Assessment = { ...rest, checks: [first!, named] };
    const book = createCardBook({
      keeper: { peek: async () => answerFact(arrived, 'mined', true, AT) },
      adviser: { assessOnce: async () => waiting, orderFor: async () => null },
    });
    expect(rowOf(listed('card'), book, catalogue, new Date(AT))).toMatchObject({ stage: null, trouble: 'weighing' });
    book.follow([listed('card')]);
    await settled();
    expect(rowOf(listed('card'), book, catalogue, new Date(AT))).toMatchObject({
      stage: 'described',
      days: 0,
      waitsFor: 'Pressure test',
    });
  });
});

describe('the verdicts of listed cards', () => {
  function bookOf(record: Record | null) {
    const asked: string[] = [];
    const book = createCardBook({
      keeper: { peek: async (id) => record && { ...record, id } },
      adviser: {
        assessOnce: async ({ id }) => {
          asked.push(id);
          return sampleAssessment;
        },
        orderFor: async () => null,
      },
    });
    return { book, asked };
  }
  const known = answerFact(arrived, 'mined', true, AT);

  it('are made once a version: again only when the card has changed', async () => {
    const { book, asked } = bookOf(known);
    for (const revision of [1, 1, 2]) {
      book.follow([listed('one', { revision }), listed('two')]);
      await settled();
    }
    expect(asked).toEqual(['one', 'two', 'one']);
    expect(versionOf(listed('one', { unsaved: true, changed: AT }))).not.toBe(
      versionOf(listed('one', { unsaved: true, changed: '2026-11-24T09:00:01Z' })),
    );
  });

  it('are not made when the list is left, for a blank card, or for one that cannot be had', async () => {
    const left = bookOf(known);
    left.book.follow([listed('one'), listed('two'), listed('three')])();
    await settled();
    expect(left.asked).toEqual(['one']);
    const blank = bookOf(arrived);
    blank.book.follow([listed('one')]);
    await settled();
    expect(blank.asked).toEqual([]);
    expect(rowOf(listed('one'), blank.book, catalogue, new Date(AT)).trouble).toBe('nothing-known');
    const gone = bookOf(null);
    gone.book.follow([listed('one')]);
    await settled();
    expect(gone.book.entries.value.size, 'it is asked for again next time').toBe(0);
  });
});

const settled = () => new Promise((resolve) => setTimeout(resolve, 5));
