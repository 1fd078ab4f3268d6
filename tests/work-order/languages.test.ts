import { describe, expect, it } from 'vitest';
import { assess } from '../../src/assess.ts';
import { bakeNeeded, type Exposure, MOISTURE_LEVELS } from '../../src/joints/bake.ts';
import { inLanguage } from '../../src/knowledge/load.ts';
import type { Record as CardRecord } from '../../src/record/schema.ts';
import { sayReason } from '../../src/work-order/bake-line.ts';
import { de } from '../../src/work-order/messages/de.ts';
import { en } from '../../src/work-order/messages/en.ts';
import { openWork } from '../../src/work-order/open-work.ts';
import { recordStep } from '../../src/work-order/record-step.ts';
import { keepNote, readNote, sayNote } from '../../src/work-order/say-note.ts';
import type { WorkOrder } from '../../src/work-order/schema.ts';
import { sheetHtml } from '../../src/work-order/sheet-html.ts';
import { sheetText } from '../../src/work-order/sheet-text.ts';
import { type OrderChoices, workOrder } from '../../src/work-order/work-order.ts';
import { card, knowledge, later, orderFor, shop, workedUpTo } from './cards.ts';

const german = await inLanguage(knowledge, 'de');

async function germanOrder(record: CardRecord, choices: OrderChoices = {}): Promise<WorkOrder> {
  const assessment = await assess(german, shop, record, { draws: 0 });
  if (assessment.kind !== 'assessed') throw new Error(JSON.stringify(assessment));
  const order = workOrder(german, shop, record, assessment, choices);
  if (order.kind !== 'order') throw new Error(`${order.because} ${order.todo}`);
  return order;
}

/** Words that an English sentence can hardly do without and a German one never has. */
const ENGLISH = /\b(the|and|with|of|is|are|when|from|than|this|that|which|not|no|for|by)\b/i;
const englishIn = (said: readonly string[]) => said.filter((text) => ENGLISH.test(text));

/** Kept for the program, or typed by somebody. */
const UNREAD = new Set(['title', 'shop', 'recordAs', 'recorded', 'cited']);
const isId = (text: string) => /^[a-z0-9-]+$/.test(text);

/** Everything a person reads of an order. */
function wordsOf(value: unknown): string[] {
  if (typeof value === 'string') return isId(value) ? [] : [value];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, one]) => (UNREAD.has(key) ? [] : wordsOf(one)));
}

const arrived = card('ball-crack-on-a-dear-card');
const cards = [arrived, card('chipped-die'), card('bumps-after-the-oven'), card('one-memory-chip')];

describe('A work order in German', () => {
  it('says nothing in English for any remedy, whatever the card has behind it', async () => {
    const left: string[] = [];
    for (const record of cards)
      for (const { id: remedy } of knowledge.remedies) {
        const order = await germanOrder(record, { remedy });
        left.push(...englishIn(wordsOf(order)));
      }
    expect([...new Set(left)]).toEqual([]);
  });

  it('has the same hold points, cautions and figures as the English one', async () => {
    for (const record of cards) {
      const [english, spoken] = [
        await orderFor(record, { remedy: 'reball-core-leaded' }),
        await germanOrder(record, { remedy: 'reball-core-leaded' }),
      ];
      expect(spoken.steps.map(({ id }) => id)).toEqual(english.steps.map(({ id }) => id));
      expect(spoken.cautions.map(({ id }) => id)).toEqual(english.cautions.map(({ id }) => id));
      const figures = (text: string) => text.replaceAll(/(\d),(\d)/g, '$1.$2').match(/\d+(\.\d+)?/g) ?? [];
      const told = ({ bake, heat, targets }: WorkOrder) =>
        figures(
          [
            ...bake.words,
            ...bake.assumed,
            ...(heat?.words ?? []),
            ...(targets?.rows.map(({ limit }) => limit) ?? []),
          ].join(' '),
        );
      expect(told(spoken)).toEqual(told(english));
      expect(spoken.steps.map(({ recordAs }) => recordAs)).toEqual(english.steps.map(({ record: blanks }) => blanks));
    }
  });

  it('is printed in German, as text and as a page that says so', async () => {
    const order = await germanOrder(arrived);
    const page = sheetHtml(order);
    expect(page).toContain('<html lang="de">');
    expect(page).toContain('Die Karte läuft');
    const printed = [sheetText(order), page.replaceAll(/<style>.*?<\/style>/gs, '').replaceAll(/<[^>]*>/g, '\n')];
    for (const sheet of printed) {
      const lines = sheet.replaceAll(order.title, '').replaceAll(order.shop, '').split('\n');
      expect(englishIn(lines).filter((line) => !line.includes(`[${order.remedy}]`))).toEqual([]);
    }
  });

  it('refuses in German what does not follow it', async () => {
    const order = await germanOrder(arrived);
    const refused = recordStep(order, arrived, { step: 'first-image', at: later(arrived, 5), outcome: 'passed' });
    expect(refused).toMatchObject({
      ok: false,
      wrong: '„Zuletzt das Bild“ ist vor „Die Karte, wie sie ist, in der Akte“ festgehalten.',
    });
  });

  it('leaves no word of its catalogue untranslated', () => {
    const said = (words: object): Map<string, string> =>
      new Map(
        Object.entries(words).flatMap(([key, value]) =>
          typeof value === 'object'
            ? [...said(value)].map(([inner, text]): [string, string] => [`${key}.${inner}`, text])
            : [[key, typeof value === 'function' ? String(value(71, 72, 73, 74)) : String(value)]],
        ),
      );
    const english = said(en);
    expect([...said(de)].filter(([key, text]) => english.get(key) === text)).toEqual([]);
  });
});

describe('What is recorded at a hold point', () => {
  const written = [
    { place: 0, said: 'Ordner 12' },
    { place: 1, said: 'alle, Messgerät 2' },
  ];

  it('is the same in the record whatever language the bench works in, and is shown in the language of the order', async () => {
    const [english, spoken] = [await orderFor(arrived), await germanOrder(arrived)];
    const at = later(arrived, 5);
    const [one, other] = [english, spoken].map((order) =>
      recordStep(order, arrived, {
        step: 'before-recorded',
        at,
        outcome: 'passed',
        note: keepNote(order.steps[0]!, written),
      }),
    );
    expect(other).toEqual(one);
    const kept = keepNote(spoken.steps[0]!, written);
    expect(kept).toBe('where the photographs are: Ordner 12; rails taken, with meter and leads: alle, Messgerät 2');
    expect(sayNote(english.steps[0]!, kept)).toBe(kept);
    expect(sayNote(spoken.steps[0]!, kept)).toBe(
      'wo die Fotos sind: Ordner 12; gemessene Spannungen, mit Messgerät und Leitungen: alle, Messgerät 2',
    );
  });

  it('is found again blank by blank after the language has changed in the middle of the work', async () => {
    const english = await orderFor(arrived);
    const half = workedUpTo(english, arrived, 'joined');
    const spoken = await germanOrder(half);
    expect(spoken.recorded).toEqual(openWork(half)!.process.steps);
    expect(spoken.state.next).toBe('joined');
    const step = spoken.steps.find(({ id }) => id === 'joined')!;
    const going = recordStep(spoken, half, {
      step: 'joined',
      at: later(half, 5),
      outcome: 'passed',
      note: keepNote(step, [{ place: 1, said: '241, 188, 150' }]),
    });
    if (!going.ok) throw new Error(going.wrong);
    const back = (await orderFor(going.record)).recorded.at(-1)!;
    expect(readNote(english.steps.find(({ id }) => id === 'joined')!, back.note!)).toEqual([
      { place: 1, said: '241, 188, 150' },
    ]);
  });

  it('keeps a remark that stands under no blank, and a semicolon inside one', async () => {
    const [step] = (await germanOrder(arrived)).steps;
    for (const note of ['nur so', 'nur so; und noch etwas', 'where the photographs are: a; b', '']) {
      expect(keepNote(step!, readNote(step!, note))).toBe(note);
    }
  });
});

describe('Why a package is baked', () => {
  it('is said from its reason as the table says it, for every level, thickness, time and room', () => {
    for (const level of MOISTURE_LEVELS)
      for (const bodyMillimetres of [1.2, 1.8, 3, 5])
        for (const hours of ['unknown', 0, 100, 170, 400, 9000] as const)
          for (const room of ['within', 'worse', 'unknown'] as const)
            for (const gridMillimetres of [10, 40]) {
              const asked: Exposure = { level, bodyMillimetres, hours, room, gridMillimetres };
              const need = bakeNeeded(asked);
              expect(sayReason(knowledge, need.reason, asked)).toBe(need.because);
            }
  });
});
