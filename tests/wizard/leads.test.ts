import { describe, expect, it } from 'vitest';
import type { Record } from '../../src/record/schema.ts';
import { typeReading } from '../../src/wizard/desk.ts';
import { findingOfIssue, issuesOf } from '../../src/wizard/issues.ts';
import { leadsOf, setLeads } from '../../src/wizard/leads.ts';

const AT = '2026-11-24T09:00:00Z';
const empty: Record = { format: 1, id: 'card', title: 'Card', timeline: [{ type: 'arrived', at: AT, facts: {} }] };
const two = typeReading(typeReading(empty, 'resistance-core', '0.35', AT), 'resistance-memory', '22', AT);

describe('the leads of the meter', () => {
  it('are set once for all resistances and leave voltages alone', () => {
    const record = setLeads(typeReading(two, 'voltage-core', '0.9', AT), { leads: '0.15' });
    const leads = record.timeline.map((event) => (event.type === 'measured' ? event.leads : null));
    expect(leads).toEqual([null, '0.15', '0.15', undefined]);
    expect(leadsOf(record, new Map())).toEqual({ leads: '0.15' });
  });

  it('are no longer taken off once the readings are four-wire', () => {
    const record = setLeads(setLeads(two, { leads: '0.15' }), { fourWire: true });
    expect(record.timeline[1]).toEqual({
      type: 'measured',
      at: AT,
      finding: 'resistance-core',
      typed: '0.35',
      fourWire: true,
    });
  });

  it('wait for the first reading where they were typed before it', () => {
    expect(leadsOf(empty, new Map([['leads', '0.2']]))).toEqual({ leads: '0.2' });
    expect(leadsOf(two, new Map([['leads', '0.2']]))).toEqual({});
  });

  it('of readings before the last work stay as they were', () => {
    const treated: Record = {
      ...two,
      timeline: [...two.timeline, { type: 'treated', at: AT, remedy: 'reflow-core', worked: null }],
    };
    expect(setLeads(treated, { leads: '1' }).timeline).toEqual(treated.timeline);
  });
});

describe('an issue with a reading', () => {
  const issue = {
    path: 'timeline.1.typed',
    wrong: 'The leads measure more than the reading does.',
    todo: 'Measure again.',
  };

  it('is shown beside the reading it came from', () => {
    expect(findingOfIssue('timeline.1.typed', two)).toBe('resistance-core');
    expect(findingOfIssue('timeline[2].leads', two)).toBe('resistance-memory');
    expect(issuesOf({ kind: 'bad-record', format: 1, issues: [issue] }, two, 'resistance-core')).toEqual([issue]);
    expect(issuesOf({ kind: 'bad-record', format: 1, issues: [issue] }, two, 'resistance-memory')).toEqual([]);
  });

  it('with anything else is left to the panel', () => {
    expect(findingOfIssue('timeline.0.facts', two)).toBeNull();
    expect(findingOfIssue('money.working', two)).toBeNull();
    expect(findingOfIssue('timeline.99.typed', two)).toBeNull();
  });
});
