import { describe, expect, it } from 'vitest';
import { checkRecord, parseRecord } from '../../src/record/parse.ts';
import type { Record as CardRecord, Event, Process } from '../../src/record/schema.ts';
import { card, knowledge, orderFor, recorded, workedUpTo } from '../work-order/cards.ts';

const arrived = card('ball-crack-on-a-dear-card');
const at = arrived.timeline.at(-1)!.at;

function recordWith(...events: Event[]): CardRecord {
  return { ...arrived, timeline: [...arrived.timeline, ...events] };
}
const treated = (process?: Process): Event => ({
  type: 'treated',
  at,
  remedy: 'reball-core-leaded',
  worked: null,
  ...(process ? { process } : {}),
});

describe('The process record of the work', () => {
  it('may be missing: records written before there was one stay as valid as they were', () => {
    expect(parseRecord(recordWith(treated())).ok).toBe(true);
    expect(checkRecord(recordWith(treated()), knowledge)).toEqual([]);
  });

  it('is valid as the work order writes it, preparations and findings and all', async () => {
    const order = await orderFor(arrived);
    for (const upTo of ['package-lifted', 'rim-looked-at']) {
      const record = workedUpTo(order, arrived, upTo);
      expect(parseRecord(JSON.parse(JSON.stringify(record))).ok).toBe(true);
      expect(checkRecord(record, knowledge)).toEqual([]);
    }
    const found = recorded(order, workedUpTo(order, arrived, 'rim-looked-at'), {
      step: 'rim-looked-at',
      outcome: 'passed',
      found: [{ finding: 'ball-grid', state: 'intact' }],
    });
    expect(checkRecord(found, knowledge)).toEqual([]);
  });

  it('names a hold point the procedure does not have, with the nearest that it has', () => {
    const record = recordWith(treated({ steps: [{ step: 'pads-flt', at, outcome: 'passed' }] }));
    expect(checkRecord(record, knowledge)[0]).toMatchObject({
      path: expect.stringMatching(/process\.steps\.0\.step$/),
      wrong: '"pads-flt" is not a hold point of reball-core-leaded that is known here.',
      todo: expect.stringContaining('pads-flat'),
    });
  });

  it('runs forwards', () => {
    const earlier = new Date(Date.parse(at) - 60_000).toISOString();
    const steps: Process['steps'] = [
      { step: 'before-recorded', at, outcome: 'passed' },
      { step: 'heat-agreed', at: earlier, outcome: 'passed' },
    ];
    expect(checkRecord(recordWith(treated({ steps })), knowledge)[0]?.wrong).toContain('the work runs backwards');
  });

  it('holds the hold point that a finding names', () => {
    const seen: Event = { type: 'seen', at, finding: 'ball-grid', state: 'intact', by: 'bench', step: 'rim-looked-at' };
    expect(checkRecord(recordWith(treated(), seen), knowledge)[0]?.wrong).toBe(
      'No work before this finding has recorded the hold point "rim-looked-at".',
    );
  });

  it('takes no outcome but passed, failed and left out', () => {
    const record = recordWith(treated({ steps: [{ step: 'shielded', at, outcome: 'skipped' as 'passed' }] }));
    const parsed = parseRecord(record);
    expect(parsed.ok ? [] : parsed.issues.map(({ path }) => path)).toEqual([
      expect.stringMatching(/process\.steps\.0\.outcome$/),
    ]);
  });
});
