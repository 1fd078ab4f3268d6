import { describe, expect, it } from 'vitest';
import { parseRecord } from '../../src/record/parse.ts';
import type { Record as CardRecord } from '../../src/record/schema.ts';
import { openWork } from '../../src/work-order/open-work.ts';
import { finishWork, recordStep } from '../../src/work-order/record-step.ts';
import { assessed, card, later, orderFor, recorded, workedUpTo } from './cards.ts';

const arrived = card('ball-crack-on-a-dear-card');
const order = await orderFor(arrived);

async function chances(record: CardRecord): Promise<(fault: string) => number> {
  const { ranking } = await assessed(record);
  return (fault) => ranking.find((ranked) => ranked.fault === fault)?.chance ?? 0;
}

describe('A hold point that is recorded', () => {
  it('as a preparation changes nothing of what is believed: the card was not touched', async () => {
    const prepared = workedUpTo(order, arrived, 'package-lifted');
    expect(prepared.timeline.at(-1)).toMatchObject({ type: 'prepared', remedy: 'reball-core-leaded' });
    expect(openWork(prepared)?.touched).toBe(false);
    expect((await assessed(prepared)).ranking).toEqual((await assessed(arrived)).ranking);
  });

  it('as the first that touches the card makes it treated, with all that was prepared', () => {
    const lifted = recorded(order, workedUpTo(order, arrived, 'package-lifted'), {
      step: 'package-lifted',
      outcome: 'passed',
      note: 'no pad came along',
    });
    const works = lifted.timeline.filter(({ type }) => type === 'treated' || type === 'prepared');
    expect(works).toHaveLength(1);
    expect(works[0]).toMatchObject({ type: 'treated', remedy: 'reball-core-leaded', worked: null });
    expect(openWork(lifted)?.process.steps.map(({ step }) => step)).toEqual([
      'before-recorded',
      'heat-agreed',
      'baked',
      'shielded',
      'profile-set',
      'package-lifted',
    ]);
    expect(openWork(lifted)?.process.alloy).toBe('Sn63Pb37');
    expect(parseRecord(JSON.parse(JSON.stringify(lifted))).ok).toBe(true);
  });

  it('keeps the order the same while it is worked off', async () => {
    const halfway = workedUpTo(order, arrived, 'resistances');
    const again = await orderFor(halfway);
    expect(again.steps).toEqual(order.steps);
    expect([again.remedy, again.solder, again.bake, again.heat]).toEqual([
      order.remedy,
      order.solder,
      order.bake,
      order.heat,
    ]);
    expect(again.state.next).toBe('resistances');
  });

  it('puts what was found there into the timeline once, beside the step and not in it', () => {
    const record = recorded(order, workedUpTo(order, arrived, 'rim-looked-at'), {
      step: 'rim-looked-at',
      outcome: 'passed',
      found: [{ finding: 'ball-grid', state: 'intact' }],
    });
    expect(record.timeline.at(-1)).toMatchObject({
      type: 'seen',
      finding: 'ball-grid',
      state: 'intact',
      by: 'bench',
      step: 'rim-looked-at',
    });
    expect(JSON.stringify(openWork(record)!.process)).not.toContain('ball-grid');
  });

  it.each([
    [
      'with a state that fails it',
      { step: 'rim-looked-at', outcome: 'passed', found: [{ finding: 'ball-grid', state: 'bridged' }] },
      'With "Ball grid under the microscope: bridged" this hold point has failed.',
    ],
    [
      'with a finding that is not looked for there',
      { step: 'rim-looked-at', outcome: 'passed', found: [{ finding: 'start-up', state: 'desktop' }] },
      '"start-up" is not looked for at "The rows seen from the side".',
    ],
    [
      'before its turn',
      { step: 'x-rayed', outcome: 'passed' },
      '"X-ray" is recorded before "The rows seen from the side".',
    ],
  ] as const)('is refused %s, and the record stays as it was', (_title, entry, wrong) => {
    const record = workedUpTo(order, arrived, 'rim-looked-at');
    const result = recordStep(order, record, { at: later(record, 5), ...entry });
    expect(result.ok ? '' : result.wrong).toBe(wrong);
    expect(result.ok ? '' : result.todo).not.toBe('');
  });

  it('is refused where its time is before the last event of the record', () => {
    const result = recordStep(order, arrived, {
      step: 'before-recorded',
      at: '2001-01-01T00:00:00Z',
      outcome: 'passed',
    });
    expect(result.ok ? '' : result.todo).toBe('Correct the time: the timeline runs forwards.');
  });

  it('is refused for other work while the card is being worked on', async () => {
    const record = workedUpTo(order, arrived, 'pads-flat');
    const other = await orderFor(record, { remedy: 'replace-fuse' });
    const result = recordStep(other, record, { step: 'before-recorded', at: later(record, 5), outcome: 'passed' });
    expect(result.ok ? '' : result.wrong).toContain(`other work has begun on the card: "${order.name}".`);
    // the name, not the id with blanks for hyphens
    expect(order.name).not.toBe(order.remedy.replaceAll('-', ' '));
  });
});

describe('The record of the work as evidence', () => {
  const cleaning = workedUpTo(order, arrived, 'grid-after-cleaning');

  it('a ball that came off in cleaning makes open joints likelier after the work, a whole grid less likely', async () => {
    const look = (outcome: 'passed' | 'failed', state: string) =>
      chances(
        recorded(order, cleaning, {
          step: 'grid-after-cleaning',
          outcome,
          found: [{ finding: 'ball-grid', state }],
        }),
      );
    const unseen = await chances(cleaning);
    const [off, whole] = await Promise.all([look('failed', 'missing-balls'), look('passed', 'intact')]);
    expect(off('rework-open-joint')).toBeGreaterThan(4 * unseen('rework-open-joint'));
    expect(off('rework-pad-lifted')).toBeGreaterThan(4 * unseen('rework-pad-lifted'));
    expect(whole('rework-open-joint')).toBeLessThan(unseen('rework-open-joint'));
  });

  it('and a ball put back counts as the grid looks now: it was mended in between, which is no fault that comes and goes', async () => {
    const off = recorded(order, cleaning, {
      step: 'grid-after-cleaning',
      outcome: 'failed',
      found: [{ finding: 'ball-grid', state: 'missing-balls' }],
    });
    const back = recorded(order, off, { step: 'balls-wetted', outcome: 'passed' });
    const whole = recorded(order, back, {
      step: 'grid-after-cleaning',
      outcome: 'passed',
      found: [{ finding: 'ball-grid', state: 'intact' }],
    });
    const { evidence } = await assessed(whole);
    const items = evidence.filter(({ finding }) => finding === 'ball-grid');
    expect(items).toHaveLength(1);
    expect(items[0]).toMatchObject({ state: 'intact' });
    expect(items[0]).not.toHaveProperty('contradicts');
    // looked at afresh with no work to it, the same two answers do contradict each other
    const byItself: CardRecord = {
      ...whole,
      timeline: [
        ...whole.timeline,
        { type: 'seen', at: later(whole, 5), finding: 'ball-grid', state: 'missing-balls', by: 'bench' },
      ],
    };
    expect((await assessed(byItself)).evidence.find(({ finding }) => finding === 'ball-grid')).toMatchObject({
      state: 'missing-balls',
      contradicts: 'intact',
    });
  });

  it('a pad that tore when the part came off makes a lifted pad likely, and one that was put right does not', async () => {
    const bare = workedUpTo(order, arrived, 'pads-flat');
    const torn = recorded(order, bare, {
      step: 'pads-flat',
      outcome: 'failed',
      found: [{ finding: 'pads-bare', state: 'torn-off' }],
    });
    const mended = recorded(order, torn, {
      step: 'pads-flat',
      outcome: 'passed',
      found: [{ finding: 'pads-bare', state: 'in-place' }],
    });
    const [unseen, seen, after] = await Promise.all([bare, torn, mended].map(chances));
    expect(seen!('rework-pad-lifted')).toBeGreaterThan(10 * unseen!('rework-pad-lifted'));
    expect(after!('rework-pad-lifted')).toBeLessThan(unseen!('rework-pad-lifted'));
  });

  it('a curve outside its window makes what bad heat does likelier, one inside less likely, by the weights of the log', async () => {
    const joined = workedUpTo(order, arrived, 'curve-kept');
    const curve = (inside: number) =>
      chances(
        recorded(order, joined, {
          step: 'curve-kept',
          outcome: 'passed',
          found: [
            { finding: 'profile-record', state: null, weights: { 'in-window': inside, 'out-of-window': 1 - inside } },
          ],
        }),
      );
    const unread = await chances(joined);
    const [bad, unclear, good] = await Promise.all([curve(0.02), curve(0.5), curve(0.98)]);
    for (const fault of ['rework-open-joint', 'rework-voids', 'rework-moisture-damage']) {
      expect(bad(fault), fault).toBeGreaterThan(unread(fault));
      expect(good(fault), fault).toBeLessThan(unread(fault));
      expect(unclear(fault), fault).toBeCloseTo(unread(fault), 10);
    }
  });

  it('outcomes alone, without a finding, move nothing: only what was seen is evidence', async () => {
    const withSteps = finishWork(workedUpTo(order, arrived, 'first-image'), false);
    if (!withSteps.ok) throw new Error(withSteps.wrong);
    const bare: CardRecord = {
      ...withSteps.record,
      timeline: withSteps.record.timeline.map((event) => {
        if (event.type !== 'treated') return event;
        const { process: _process, ...rest } = event;
        return rest;
      }),
    };
    expect((await assessed(withSteps.record)).ranking).toEqual((await assessed(bare)).ranking);
  });

  it('closes with whether the card works, which nothing can say of a card that was not touched', () => {
    const finished = finishWork(workedUpTo(order, arrived, 'first-image'), false);
    expect(finished.ok && openWork(finished.record)).toBeNull();
    expect(finished.ok && finished.record.timeline.find(({ type }) => type === 'treated')).toMatchObject({
      worked: false,
    });
    const early = finishWork(workedUpTo(order, arrived, 'package-lifted'), true);
    expect(early.ok ? '' : early.wrong).toBe('No work has touched this card yet, so nothing can be said of it.');
  });
});
