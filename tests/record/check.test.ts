/** A well-formed record against the knowledge. */
import { describe, expect, test } from 'vitest';
import { nearest } from '../../src/record/nearest.ts';
import { checkRecord } from '../../src/record/parse.ts';
import type { Event } from '../../src/record/schema.ts';
import { arrived, measured, record, seen, THREE_RAILS, treated } from '../evidence/three-rails.ts';

const check = (...timeline: Event[]) => checkRecord(record(...timeline), THREE_RAILS);

describe('a record against the knowledge', () => {
  test('one that fits has no issues', () => {
    expect(
      check(
        arrived({
          'die-size': 'large',
          'second-core-rail': true,
          'age-years': 4.5,
          'memory-chips': 8,
          'owner-words': [],
          mined: null,
        }),
        seen('start-up', null),
        measured('resistance-core', '0.31'),
        treated('replace-fans'),
      ),
    ).toEqual([]);
  });

  test('names what it does not know, and the nearest that it does', () => {
    expect(check(seen('startup', 'desktop'))).toEqual([
      {
        path: 'timeline.0.finding',
        wrong: '"startup" is not a finding that is known here.',
        todo: expect.stringContaining('start-up'),
        told: {
          id: 'unknown-of-few',
          about: { id: 'startup', kind: 'finding', of: '', ids: expect.stringContaining('start-up') },
        },
        typed: 'startup',
      },
    ]);
    expect(check(seen('start-up', 'dektop'))).toEqual([
      {
        path: 'timeline.0.state',
        wrong: '"dektop" is not a state of "The start-up" that is known here.',
        todo: 'Choose one of desktop, no-image, rails-missing.',
        told: {
          id: 'unknown-of-few',
          about: { id: 'dektop', kind: 'state', of: '"The start-up"', ids: 'desktop, no-image, rails-missing' },
        },
        typed: 'dektop',
      },
    ]);
    expect(check(treated('reflow'))[0]).toMatchObject({ path: 'timeline.0.remedy', typed: 'reflow' });
    expect(check(measured('resistance-cora', '1'))[0]).toMatchObject({ path: 'timeline.0.finding' });
  });

  test.each([
    ['die-size', 'huge', 'Choose one of small, medium, large'],
    ['die-size', 3, 'Choose one of'],
    ['mined', 'yes', 'Answer true or false'],
    ['age-years', 25, 'Give a number from 0 to 20 years'],
    ['age-years', -1, 'Give a number from 0 to 20 years'],
    ['age-years', '4', 'Give a number from'],
    ['memory-chips', 6.5, 'Give a whole number from 0 to 32.'],
    ['owner-words', 'smell', 'Give a list of any of no-display, artifacts, smell'],
    ['owner-words', ['smell', 'fire'], 'Give a list of any of'],
  ])('an answer out of the type of %s keeps what was typed: %j', (fact, answer, todo) => {
    const [issue] = check(arrived({ [fact]: answer }));
    expect(issue?.path).toBe(`timeline.0.facts.${fact}`);
    expect(issue?.todo).toContain(todo);
    expect(issue?.typed).toBe(typeof answer === 'string' ? answer : JSON.stringify(answer));
  });

  test('what is derived from the record cannot be answered', () => {
    expect(check(arrived({ 'seen-look-core': 'clean' }))[0]).toMatchObject({ path: 'timeline.0.facts.seen-look-core' });
  });

  test('weights name states of the finding, and at least one of them must be possible', () => {
    const spread = (weights: { [state: string]: number }): Event => ({
      ...(seen('look-core', null) as Extract<Event, { type: 'seen' }>),
      weights,
    });
    expect(check(spread({ clean: 1, oldflux: 0.5 }))[0]).toMatchObject({
      path: 'timeline.0.weights.oldflux',
      typed: 'oldflux',
    });
    expect(check(spread({ clean: 0 }))[0]?.wrong).toContain('No state of "The look-core" has any weight');
    expect(check(spread({}))).toHaveLength(1);
    expect(check(spread({ clean: 0.2 }))).toEqual([]);
  });

  test('a state that its own weights contradict is refused, whichever of the two was meant', () => {
    const both = (state: string | null, weights: { [state: string]: number }): Event => ({
      ...(seen('look-core', state) as Extract<Event, { type: 'seen' }>),
      weights,
    });
    expect(check(both('clean', { 'old-flux': 1, clean: 0.4 }))[0]).toMatchObject({
      path: 'timeline.0.state',
      typed: 'clean',
    });
    expect(check(both('clean', { 'old-flux': 1 }))).toHaveLength(1);
    expect(check(both('old-flux', { 'old-flux': 1, clean: 0.4 }))).toEqual([]);
    expect(check(both('clean', { 'old-flux': 0.5, clean: 0.5 }))).toEqual([]);
    expect(check(both(null, { 'old-flux': 1, clean: 0.4 }))).toEqual([]);
  });

  test('a card cannot have worked for longer than it was away', () => {
    const back = (at: string, workedDays?: number | null): Event => ({
      type: 'came-back',
      at,
      ...(workedDays === undefined ? {} : { workedDays }),
    });
    const backAfter = (at: string, days?: number | null) => check(treated('replace-fans'), back(at, days));
    expect(backAfter('2025-03-04T09:00:00Z', 400)).toEqual([
      {
        path: 'timeline.1.workedDays',
        wrong: 'It worked for 400 days, more than passed between the work and its coming back (1).',
        todo: 'Correct the days or the dates, or put null where nobody can tell how long it worked.',
        typed: '400',
      },
    ]);
    expect(backAfter('2025-03-04T09:00:00Z', 2)).toEqual([]);
    expect(backAfter('2025-03-13T09:00:00Z', 10)).toEqual([]);
    for (const days of [null, undefined]) expect(backAfter('2025-03-04T09:00:00Z', days)).toEqual([]);
  });

  test('a card cannot have failed before the day on which its owner says that it still works', () => {
    const word: Event = { type: 'still-working', at: '2025-03-21T09:00:00Z' };
    const out: Event = { type: 'handed-back', at: '2025-03-03T09:00:00Z' };
    const backAfter = (workedDays: number | null) =>
      check(treated('replace-fans'), out, word, { type: 'came-back', at: '2025-03-25T09:00:00Z', workedDays });
    expect(backAfter(5)).toMatchObject([
      {
        path: 'timeline.3.workedDays',
        wrong: 'It worked for 5 days, less than the 18 days after which it still worked, as written above.',
        told: { id: 'worked-longer-already', about: { days: '5', heard: '18' } },
      },
    ]);
    for (const days of [17, 18, 22, null]) expect(backAfter(days)).toEqual([]);
    // a word from before it went out once more says nothing of the second time
    expect(
      check(
        treated('replace-fans'),
        out,
        word,
        { type: 'came-back', at: '2025-03-25T09:00:00Z' },
        { type: 'handed-back', at: '2025-03-26T09:00:00Z' },
        { type: 'came-back', at: '2025-03-30T09:00:00Z', workedDays: 2 },
      ),
    ).toEqual([]);
  });

  test('time runs forward, across time zones too', () => {
    const at = (when: string): Event => ({ type: 'note', at: when, text: 'x' });
    expect(check(at('2025-03-03T10:00:00+01:00'), at('2025-03-03T09:00:00Z'), at('2025-03-03T09:00:01Z'))).toEqual([]);
    expect(check(at('2025-03-03T10:00:00Z'), at('2025-03-03T10:30:00+01:00'))).toEqual([
      {
        path: 'timeline.1.at',
        wrong:
          '2025-03-03T10:30:00+01:00 is before 2025-03-03T10:00:00Z, the event above it: the timeline runs backwards.',
        todo: 'Put events in the order they happened, or correct the date.',
        told: {
          id: 'timeline-backwards',
          about: { at: '2025-03-03T10:30:00+01:00', before: '2025-03-03T10:00:00Z' },
        },
        typed: '2025-03-03T10:30:00+01:00',
      },
    ]);
  });

  test('all of it at once', () => {
    expect(check(arrived({ mind: true, mined: 'no' }), seen('strt', 'x'), treated('y'))).toHaveLength(4);
  });
});

test('the nearest spelling takes the fewest letters changed (Levenshtein; kitten to sitting is 3)', () => {
  expect(nearest('kitten', ['sitting', 'mitten', 'kitchen', 'kit'], 4)).toEqual([
    'mitten',
    'kitchen',
    'sitting',
    'kit',
  ]);
});
