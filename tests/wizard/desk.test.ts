import { describe, expect, it } from 'vitest';
import { Record } from '../../src/record/schema.ts';
import {
  answerFact,
  answerFinding,
  change,
  clearFact,
  clearFinding,
  factAnswer,
  findingAnswer,
  openDesk,
  redo,
  typeReading,
  undo,
} from '../../src/wizard/desk.ts';

const AT = '2026-11-24T09:00:00Z';
const LATER = '2026-11-24T10:00:00Z';
const empty: Record = { format: 1, id: 'card', title: 'Card', timeline: [{ type: 'arrived', at: AT, facts: {} }] };

describe('answers on a card', () => {
  it('keeps "can\'t tell" apart from "not asked"', () => {
    const told = answerFact(empty, 'mined', null, AT);
    expect(factAnswer(told, 'mined')).toBeNull();
    expect(factAnswer(empty, 'mined')).toBeUndefined();
    expect(factAnswer(clearFact(told, 'mined', AT), 'mined')).toBeUndefined();
  });

  it('gives a record that never arrived its arrival with the first fact', () => {
    const record = answerFact({ ...empty, timeline: [] }, 'mined', true, LATER);
    expect(record.timeline).toEqual([{ type: 'arrived', at: LATER, facts: { mined: true } }]);
  });

  it('lets an early answer be changed without losing a later one or moving it', () => {
    const first = answerFinding(empty, 'look-board', 'clean', 'bench', AT);
    const second = typeReading(first, 'resistance-core', '0.19', AT);
    const third = answerFinding(second, 'link', 'none', 'bench', AT);
    const changed = answerFinding(third, 'look-board', 'burnt', 'bench', LATER);
    expect(changed.timeline.map((event) => ('finding' in event ? event.finding : event.type))).toEqual([
      'arrived',
      'look-board',
      'resistance-core',
      'link',
    ]);
    expect(changed.timeline[1]).toEqual({
      type: 'seen',
      at: AT,
      finding: 'look-board',
      state: 'burnt',
      by: 'bench',
    });
    expect(changed.timeline.slice(2)).toEqual(third.timeline.slice(2));
  });

  it('never lets the timeline run backwards: not by a late change of an early answer, not by a slow clock', () => {
    const inOrder = ({ timeline }: Record) => timeline.every(({ at }, i) => i === 0 || at >= timeline[i - 1]!.at);
    const looked = answerFinding(empty, 'look-board', 'clean', 'bench', LATER);
    const read = typeReading(looked, 'resistance-core', '0.19', '2026-11-24T11:00:00Z');
    expect(inOrder(answerFinding(read, 'look-board', 'burnt', 'bench', '2026-11-24T12:00:00Z'))).toBe(true);
    expect(inOrder(answerFinding(read, 'start-up', 'desktop', 'owner', '2026-11-24T12:00:00Z'))).toBe(true);
    expect(inOrder(answerFinding(read, 'link', 'none', 'bench', '2026-01-01T00:00:00Z'))).toBe(true);
    expect(inOrder(typeReading(read, 'resistance-core', '0.2', '2026-01-01T00:00:00Z'))).toBe(true);
    const unarrived = { ...read, timeline: read.timeline.slice(1) };
    expect(inOrder(answerFact(unarrived, 'mined', true, '2026-11-24T12:00:00Z'))).toBe(true);
  });

  it('keeps what the owner told beside what the bench saw itself, the owner first', () => {
    const bench = answerFinding(empty, 'start-up', 'desktop', 'bench', AT);
    const both = answerFinding(bench, 'start-up', 'detected-no-image', 'owner', LATER);
    expect(both.timeline.map((event) => (event.type === 'seen' ? event.by : event.type))).toEqual([
      'arrived',
      'owner',
      'bench',
    ]);
    expect(findingAnswer(clearFinding(both, 'start-up', 'owner'), 'start-up', 'bench')).toMatchObject({
      state: 'desktop',
    });
  });

  it('keeps an owner report given after a reading before that reading, as it came with the card', () => {
    const read = typeReading(empty, 'resistance-core', '0.19', AT);
    const told = answerFinding(read, 'start-up', 'not-detected', 'owner', LATER);
    expect(told.timeline.map((event) => event.type)).toEqual(['arrived', 'seen', 'measured']);
  });

  it('keeps what was typed as typed, and how it was taken when the number is corrected', () => {
    const first = typeReading(empty, 'resistance-core', '0,19 ', AT, { knownGood: '0.21', fourWire: true });
    const second = typeReading(first, 'resistance-core', '0,17', LATER);
    expect(findingAnswer(second, 'resistance-core', 'bench')).toEqual({
      type: 'measured',
      at: LATER,
      finding: 'resistance-core',
      typed: '0,17',
      knownGood: '0.21',
      fourWire: true,
    });
  });

  it('takes a known-good reading away when its field is emptied', () => {
    const first = typeReading(empty, 'resistance-core', '0.19', AT, { knownGood: '0.21' });
    const second = typeReading(first, 'resistance-core', '0.19', AT, { knownGood: '' });
    expect(findingAnswer(second, 'resistance-core', 'bench')).not.toHaveProperty('knownGood');
  });

  it('lets a state that is picked take the place of the number, and back', () => {
    const read = typeReading(empty, 'resistance-core', '0.19', AT);
    const picked = answerFinding(read, 'resistance-core', 'low', 'bench', AT);
    expect(picked.timeline).toHaveLength(2);
    expect(typeReading(picked, 'resistance-core', '0.2', AT).timeline).toHaveLength(2);
  });

  it('leaves what was found before a repair on record and answers anew after it', () => {
    const before = answerFinding(empty, 'link', 'none', 'bench', AT);
    const treated: Record = {
      ...before,
      timeline: [...before.timeline, { type: 'treated', at: LATER, remedy: 'reflow-core', worked: true }],
    };
    expect(findingAnswer(treated, 'link', 'bench')).toBeUndefined();
    const after = answerFinding(treated, 'link', 'full', 'bench', LATER);
    expect(after.timeline.map((event) => event.type)).toEqual(['arrived', 'seen', 'treated', 'seen']);
    expect(clearFinding(after, 'link', 'bench').timeline).toEqual(treated.timeline);
  });

  it('makes records that the record format accepts', () => {
    const record = answerFact(
      typeReading(answerFinding(empty, 'link', null, 'bench', AT), 'resistance-core', 'OL', AT),
      'mined',
      null,
      AT,
    );
    expect(Record.parse(record)).toEqual(record);
  });
});

describe('undo', () => {
  const a = answerFact(empty, 'mined', true, AT);
  const b = answerFact(a, 'liquid', true, AT);

  it('takes back one answer a step and gives it back again', () => {
    const desk = change(change(openDesk(empty), a), b);
    expect(undo(desk).record).toBe(a);
    expect(undo(undo(desk)).record).toBe(empty);
    expect(undo(undo(undo(desk))).record).toBe(empty);
    expect(redo(redo(undo(undo(desk)))).record).toBe(b);
  });

  it('counts the keystrokes in one field as one step', () => {
    const typed = ['0', '0.', '0.1', '0.19'].map((text) => typeReading(a, 'resistance-core', text, AT));
    const desk = typed.reduce(
      (now, record) => change(now, record, 'reading-resistance-core'),
      change(openDesk(empty), a),
    );
    expect(desk.record).toBe(typed.at(-1));
    expect(undo(desk).record).toBe(a);
  });

  it('forgets what was taken back once another answer is given', () => {
    const desk = change(undo(change(openDesk(empty), a)), b);
    expect(redo(desk)).toBe(desk);
  });

  it('does not count an answer that changes nothing', () => {
    const desk = openDesk(a);
    expect(change(desk, clearFact(a, 'liquid', AT))).toBe(desk);
    expect(change(desk, clearFinding(a, 'link', 'bench'))).toBe(desk);
  });
});
