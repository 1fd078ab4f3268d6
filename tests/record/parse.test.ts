/** Records from data of any kind: every issue at once, in sentences, and nothing typed is lost. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { RecordIssue } from '../../src/evidence/evidence.ts';
import { parseRecord } from '../../src/record/parse.ts';

const AT = '2025-03-03T09:00:00+01:00';
const GOOD = {
  format: 1,
  id: 'card-7',
  title: 'An invented card',
  money: { working: 300, asIs: { low: 20, likely: 30, high: 50 }, partsAfterWork: 15 },
  timeline: [
    { type: 'arrived', at: AT, facts: { 'die-size': 'large', mined: null, 'owner-words': ['no-display'] } },
    { type: 'measured', at: AT, finding: 'resistance-core', typed: '0.31', leads: '0.2' },
    { type: 'seen', at: AT, finding: 'start-up', state: null, by: 'owner' },
    { type: 'quoted', at: AT, option: 'reflow-core', price: 120, validUntil: '2025-03-17' },
    { type: 'treated', at: AT, remedy: 'reflow-core', worked: null },
    { type: 'note', at: AT, text: 'smells of smoke' },
  ],
};
const issues = (value: unknown): readonly RecordIssue[] => {
  const parsed = parseRecord(value);
  if (parsed.ok) throw new Error('it parsed');
  for (const { wrong, todo } of parsed.issues) {
    expect(wrong).toMatch(/\.$/);
    expect(todo).toMatch(/\.$/);
  }
  return parsed.issues;
};
const only = (value: unknown): RecordIssue => {
  const list = issues(value);
  expect(list).toHaveLength(1);
  return list[0]!;
};
const withEvent = (event: unknown) => ({ ...GOOD, timeline: [event] });

test('a well-formed record comes through unchanged', () => {
  expect(parseRecord(GOOD)).toEqual({ ok: true, record: GOOD });
});

describe('its format', () => {
  test('must be said', () => {
    const { format: _, ...unsaid } = GOOD;
    expect(only(unsaid)).toEqual({
      path: 'format',
      wrong: 'The record does not say which format it is in.',
      todo: 'Add "format": 1.',
      told: { id: 'no-format', about: { format: 1 } },
    });
    expect(only({ ...GOOD, format: '1' })).toMatchObject({ path: 'format', typed: '1' });
  });

  test('may not be newer than this version, nor one that never was', () => {
    expect(only({ ...GOOD, format: 2 })).toMatchObject({
      path: 'format',
      typed: '2',
      todo: 'Open it with the newer version that wrote it.',
    });
    expect(only({ ...GOOD, format: 0 }).wrong).toBe('There was never a format 0.');
    expect(only({ ...GOOD, format: -3 }).wrong).toBe('There was never a format -3.');
  });

  test('of something that is no record at all', () => {
    for (const value of [null, 3, 'card', [GOOD], undefined])
      expect(only(value).wrong).toMatch(/^A record is an object with fields, not /);
  });
});

describe('everything wrong at once', () => {
  test('with its path, what to do and what was typed', () => {
    const list = issues({
      ...GOOD,
      id: 'Card 7',
      title: '',
      money: { ...GOOD.money, working: -5 },
      colour: 'green',
      timeline: [
        { type: 'arrived', at: 'yesterday', facts: {} },
        { type: 'measured', at: AT, finding: 'resistance-core', typed: 0.31 },
        { type: 'seen', at: AT, finding: 'start-up', state: 'desktop', by: 'neighbour' },
        { type: 'seem', at: AT },
        { type: 'treated', at: AT, remedy: 'reflow-core' },
        { type: 'note', at: AT, text: 'x', colour: 'red' },
      ],
    });
    expect(list.map(({ path, typed }) => [path, typed])).toEqual([
      ['id', 'Card 7'],
      ['title', ''],
      ['money.working', '-5'],
      ['timeline.0.at', 'yesterday'],
      ['timeline.1.typed', '0.31'],
      ['timeline.2.by', 'neighbour'],
      ['timeline.3.type', 'seem'],
      ['timeline.4.worked', undefined],
      ['timeline.5.colour', 'red'],
      ['colour', 'green'],
    ]);
  });

  test('says it in words for each kind of mistake', () => {
    expect(only({ ...GOOD, id: 'Card 7' })).toMatchObject({
      wrong: '"id" is "Card 7", which is no id.',
      todo: 'Write it as lower-case words joined by hyphens.',
    });
    const meter = { percent: 1, digits: 2, resolution: 0 };
    expect(
      only(withEvent({ type: 'measured', at: AT, finding: 'resistance-core', typed: '1', instrument: meter })).todo,
    ).toBe('Give more than 0.');
    expect(only({ ...GOOD, title: '' })).toMatchObject({ wrong: '"title" is empty.', todo: 'Type something.' });
    expect(only(withEvent({ type: 'arrived', at: '2025-03-03', facts: {} })).todo).toContain(
      '2025-03-01T09:30:00+01:00',
    );
    expect(only(withEvent({ type: 'seem', at: AT })).todo).toBe(
      'Set its "type" to one of arrived, seen, measured, quoted, prepared, treated, handed-back, still-working, came-back, closed, note.',
    );
    expect(only(withEvent({ at: AT }))).toMatchObject({ path: 'timeline.0.type' });
    expect(only(withEvent({ type: 'seen', at: AT, finding: 'start-up', state: 'desktop', by: 'me' })).todo).toBe(
      'Give one of bench, owner.',
    );
    expect(only(withEvent({ type: 'measured', at: AT, finding: 'resistance-core' }))).toEqual({
      path: 'timeline.0.typed',
      wrong: '"typed" is missing.',
      todo: 'Add it: text.',
      told: { id: 'missing', about: { field: 'typed', kind: 'text' } },
    });
    expect(
      only(withEvent({ type: 'measured', at: AT, finding: 'resistance-core', typed: '1', temperature: 400 })),
    ).toMatchObject({ path: 'timeline.0.temperature', typed: '400', todo: 'Give at most 150.' });
    expect(only({ ...GOOD, timeline: {} })).toMatchObject({ wrong: '"timeline" is an object.', todo: 'Give a list.' });
    expect(only(withEvent(null)).path).toBe('timeline.0');
  });

  test('takes an amount as one figure or as a range that does not fall', () => {
    const money = (working: unknown) => ({ ...GOOD, money: { ...GOOD.money, working } });
    expect(only(money('much'))).toMatchObject({
      path: 'money.working',
      typed: 'much',
      todo: 'Give one amount, or its range as low, likely and high.',
    });
    expect(only(money({ low: 3, likely: 2, high: 4 }))).toMatchObject({
      path: 'money.working',
      wrong: expect.stringContaining('must not fall'),
    });
    expect(only(money({ low: 1, likely: 2 }))).toMatchObject({
      path: 'money.working.high',
      wrong: '"high" is missing.',
    });
  });

  test('takes as a fact only what can be an answer', () => {
    expect(only(withEvent({ type: 'arrived', at: AT, facts: { mined: { yes: 1 } } }))).toMatchObject({
      path: 'timeline.0.facts.mined',
      typed: '{"yes":1}',
    });
    expect(only(withEvent({ type: 'arrived', at: AT, facts: { 'Die Size': 'large' } })).path).toBe(
      'timeline.0.facts.Die Size',
    );
  });
});

test('whatever it is given, it answers in sentences', () => {
  fc.assert(
    fc.property(fc.jsonValue(), fc.constantFrom('timeline', 'money', 'id', 'title', 'invented'), (value, field) => {
      for (const whole of [value, { ...GOOD, [field]: value }, withEvent(value)]) {
        const parsed = parseRecord(whole);
        if (!parsed.ok) expect(parsed.issues.length).toBeGreaterThan(0);
      }
    }),
    { seed: 3, numRuns: 500 },
  );
});
