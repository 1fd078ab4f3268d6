import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseRecord } from '../../../src/record/parse.ts';
import type { Record } from '../../../src/record/schema.ts';
import {
  dayOf,
  outAgain,
  putOn,
  serviceOf,
  setPaid,
  setWorkedDays,
  shownBefore,
  takeOut,
} from '../../../src/wizard/came-back/service.ts';
import { findingAnswer } from '../../../src/wizard/desk.ts';

const NOW = '2026-06-30T15:00:00Z';
const worked: Record = {
  format: 1,
  id: 'card',
  title: 'Card',
  timeline: [
    { type: 'arrived', at: '2026-03-01T09:00:00Z', facts: {} },
    { type: 'seen', at: '2026-03-01T10:00:00Z', finding: 'start-up', state: 'no-power', by: 'owner' },
    { type: 'seen', at: '2026-03-01T10:10:00Z', finding: 'start-up', state: 'detected-no-image', by: 'bench' },
    { type: 'treated', at: '2026-03-02T16:00:00Z', remedy: 'reball-core-leaded', worked: true },
    { type: 'seen', at: '2026-03-02T17:00:00Z', finding: 'profile-record', state: 'in-window', by: 'bench' },
  ],
};

function put(record: Record, kind: 'handed-back' | 'still-working' | 'came-back', day: string): Record {
  const placed = putOn(record, kind, day, NOW);
  if (!placed.ok) throw new Error(`${kind} on ${day}: ${placed.why}`);
  return placed.record;
}

const whole = () =>
  put(put(put(worked, 'handed-back', '2026-03-04'), 'still-working', '2026-04-01'), 'came-back', '2026-04-20');

describe('What became of a card after the work', () => {
  it('is written down in the order it happened, whichever is told first', () => {
    const other = put(
      put(put(worked, 'came-back', '2026-04-20'), 'still-working', '2026-04-01'),
      'handed-back',
      '2026-03-04',
    );
    expect(other).toEqual(whole());
    expect(
      whole()
        .timeline.map(({ type }) => type)
        .slice(-4),
    ).toEqual(['seen', 'handed-back', 'still-working', 'came-back']);
    expect(serviceOf(whole())).toMatchObject({ handedBack: { type: 'handed-back' }, cameBack: { type: 'came-back' } });
    expect(parseRecord(whole()).ok).toBe(true);
  });

  it('can be moved to another day and keeps what was said of it', () => {
    const paid = setPaid(setWorkedDays(whole(), 30), 180);
    const moved = put(put(paid, 'handed-back', '2026-03-06'), 'came-back', '2026-05-01');
    expect(serviceOf(moved)).toMatchObject({ handedBack: { paid: 180 }, cameBack: { workedDays: 30 } });
    expect(dayOf(serviceOf(moved)!.handedBack!.at)).toBe('2026-03-06');
    expect(moved.timeline).toHaveLength(paid.timeline.length);
  });

  it('cannot happen before what came before, after what came after, or tomorrow; and says so', () => {
    expect(putOn(whole(), 'handed-back', '2026-03-01', NOW)).toMatchObject({
      ok: false,
      why: 'before',
      than: { type: 'treated' },
    });
    expect(putOn(whole(), 'handed-back', '2026-04-02', NOW)).toMatchObject({
      ok: false,
      why: 'after',
      than: { type: 'still-working' },
    });
    expect(putOn(whole(), 'came-back', '2026-07-02', NOW)).toMatchObject({ ok: false, why: 'future' });
    expect(putOn(whole(), 'came-back', 'soon', NOW)).toMatchObject({ ok: false, why: 'no-day' });
  });

  it('leaves what was found where its own day puts it: with the work, or with the return', () => {
    const found = {
      type: 'seen',
      at: '2026-04-20T08:00:00Z',
      finding: 'start-up',
      state: 'no-power',
      by: 'bench',
    } as const;
    const looked = { ...worked, timeline: [...worked.timeline, found] };
    const back = put(put(looked, 'handed-back', '2026-03-04'), 'came-back', '2026-04-20');
    expect(back.timeline.slice(-4).map(({ type }) => type)).toEqual(['seen', 'handed-back', 'came-back', 'seen']);
    expect(findingAnswer(back, 'start-up', 'bench')).toEqual(found);
    const sooner = put(back, 'came-back', '2026-04-22');
    expect(sooner.timeline.at(-1)).toMatchObject({ type: 'came-back' });
  });

  it('may all be on one day: the hours then follow each other', () => {
    const day = put(put(worked, 'handed-back', '2026-03-02'), 'came-back', '2026-03-02');
    const hours = day.timeline.map(({ at }) => Date.parse(at));
    expect(hours).toEqual(hours.toSorted((a, b) => a - b));
  });

  it('never makes a timeline that runs backwards', () => {
    const kinds = fc.constantFrom('handed-back' as const, 'still-working' as const, 'came-back' as const);
    const days = fc
      .integer({ min: 0, max: 130 })
      .map((day) => dayOf(new Date(Date.parse('2026-02-25T12:00:00Z') + day * 86_400_000).toISOString()));
    fc.assert(
      fc.property(fc.array(fc.tuple(kinds, days), { maxLength: 12 }), (steps) => {
        let record = worked;
        for (const [kind, day] of steps) {
          const placed = putOn(record, kind, day, NOW);
          if (placed.ok) record = placed.record;
        }
        const at = record.timeline.map((event) => Date.parse(event.at));
        expect(at).toEqual(at.toSorted((a, b) => a - b));
        expect(record.timeline.filter(({ type }) => type === 'came-back').length).toBeLessThanOrEqual(1);
        expect(record.timeline.slice(0, 4)).toEqual(worked.timeline.slice(0, 4));
      }),
    );
  });

  it('can be taken out again', () => {
    expect(takeOut(takeOut(takeOut(whole(), 'came-back'), 'still-working'), 'handed-back')).toEqual(worked);
    expect(takeOut(worked, 'came-back')).toBe(worked);
  });

  it('knows how long it worked, that nobody can tell, or leaves it to the dates', () => {
    expect(serviceOf(setWorkedDays(whole(), 12))!.cameBack).toMatchObject({ workedDays: 12 });
    expect(serviceOf(setWorkedDays(whole(), null))!.cameBack).toMatchObject({ workedDays: null });
    expect(serviceOf(setWorkedDays(setWorkedDays(whole(), 12), undefined))!.cameBack).not.toHaveProperty('workedDays');
  });

  it('has nothing to it where no work is recorded', () => {
    expect(serviceOf({ ...worked, timeline: worked.timeline.slice(0, 3) })).toBeNull();
  });
});

describe('After a return', () => {
  it('the questions are asked afresh, and what was found before stays on record', () => {
    expect(findingAnswer(whole(), 'start-up', 'bench')).toBeUndefined();
    expect(whole().timeline.filter((event) => event.type === 'seen')).toHaveLength(3);
  });

  it("what it showed before is the bench's word, else the owner's", () => {
    expect(shownBefore(whole(), 'start-up')).toBe('detected-no-image');
    const told = { ...whole(), timeline: whole().timeline.toSpliced(2, 1) };
    expect(shownBefore(told, 'start-up')).toBe('no-power');
    expect(shownBefore(whole(), 'onset')).toBeNull();
  });
});

describe('A card that comes back, goes out with nothing done to it, and comes back again', () => {
  const again = () => put(outAgain(setWorkedDays(whole(), 30), '2026-04-22T10:00:00Z'), 'came-back', '2026-05-02');

  it('is written down whole: both times in service, the first one said and the second one to be changed', () => {
    expect(parseRecord(again()).ok).toBe(true);
    expect(
      again()
        .timeline.map(({ type }) => type)
        .slice(-5),
    ).toEqual(['handed-back', 'still-working', 'came-back', 'handed-back', 'came-back']);
    const service = serviceOf(again())!;
    expect(service.earlier).toHaveLength(1);
    expect(service.earlier[0]!.cameBack).toMatchObject({ workedDays: 30 });
    expect(dayOf(service.handedBack!.at)).toBe('2026-04-22');
    expect(service.stillWorking).toBeNull();
    expect(dayOf(service.cameBack!.at)).toBe('2026-05-02');
  });

  it('lets only the last time in service be moved, and within its bounds', () => {
    const moved = put(put(again(), 'handed-back', '2026-04-25'), 'came-back', '2026-05-10');
    expect(serviceOf(moved)).toMatchObject({ earlier: [{ cameBack: { workedDays: 30 } }] });
    expect(dayOf(serviceOf(moved)!.handedBack!.at)).toBe('2026-04-25');
    expect(putOn(again(), 'handed-back', '2026-04-10', NOW)).toMatchObject({ ok: false, why: 'before' });
    expect(putOn(again(), 'handed-back', '2026-05-05', NOW)).toMatchObject({ ok: false, why: 'after' });
  });

  it('is taken back step by step', () => {
    const once = takeOut(takeOut(again(), 'came-back'), 'handed-back');
    expect(once).toEqual(setWorkedDays(whole(), 30));
  });

  it('keeps what was found at the first return as the answer: nothing has changed the card', () => {
    const found = outAgain(
      {
        ...whole(),
        timeline: [
          ...whole().timeline,
          { type: 'seen', at: '2026-04-21T09:00:00Z', finding: 'start-up', state: 'detected-no-image', by: 'bench' },
        ],
      },
      '2026-04-22T10:00:00Z',
    );
    expect(findingAnswer(put(found, 'came-back', '2026-05-02'), 'start-up', 'bench')).toMatchObject({
      state: 'detected-no-image',
    });
  });

  it('cannot go out again before it came back', () => {
    expect(outAgain(worked, NOW)).toBe(worked);
  });
});
