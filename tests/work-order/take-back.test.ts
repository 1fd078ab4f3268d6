import { describe, expect, it } from 'vitest';
import { openWork } from '../../src/work-order/open-work.ts';
import { finishWork } from '../../src/work-order/record-step.ts';
import { takeBackStep, takeBackWord } from '../../src/work-order/take-back.ts';
import { card, later, orderFor, recorded, workedUpTo } from './cards.ts';

const arrived = card('ball-crack-on-a-dear-card');
const order = await orderFor(arrived);

describe('A hold point that is taken back', () => {
  it('leaves the record as it was before, from the first preparation to the last proof', () => {
    let record = arrived;
    for (const { id, finds } of order.steps) {
      const [first] = finds.filter(({ measured }) => !measured);
      const found = first?.passes[0] ? [{ finding: first.finding, state: first.passes[0].id }] : [];
      const next = recorded(order, record, { step: id, outcome: 'passed', found });
      const back = takeBackStep(order, next);
      expect(back?.step.step).toBe(id);
      expect(back?.found).toHaveLength(found.length);
      expect(back?.record).toEqual(record);
      record = next;
    }
  });

  it('takes out the failed one and the finding that failed it, and not the same finding from before', () => {
    const before = recorded(order, workedUpTo(order, arrived, 'balls-wetted'), {
      step: 'balls-wetted',
      outcome: 'passed',
      found: [{ finding: 'ball-grid', state: 'intact' }],
    });
    const failed = recorded(order, before, {
      step: 'grid-after-cleaning',
      outcome: 'failed',
      found: [{ finding: 'ball-grid', state: 'missing-balls' }],
    });
    const back = takeBackStep(order, failed);
    expect(back?.record).toEqual(before);
    expect(back?.found).toMatchObject([{ finding: 'ball-grid', state: 'missing-balls' }]);
  });

  it('goes back one at a time, until nothing of the work is left and nothing can be taken back', () => {
    let record = workedUpTo(order, arrived, 'seated');
    for (let back = takeBackStep(order, record); back !== null; back = takeBackStep(order, record))
      record = back.record;
    expect(record).toEqual(arrived);
    expect(takeBackStep(order, record)).toBeNull();
  });

  it('tells the touch from the next hold point also where a slow clock has dated both alike', () => {
    const at = later(arrived, 5);
    const { steps } = order;
    const upTo = (count: number) =>
      steps
        .slice(0, count)
        .reduce((sofar, { id }) => recorded(order, sofar, { step: id, outcome: 'passed', at }), arrived);
    const touched = steps.findIndex(({ stage }) => stage !== 'prepare');
    expect(takeBackStep(order, upTo(touched + 2))?.record).toEqual(upTo(touched + 1));
    expect(takeBackStep(order, upTo(touched + 1))?.record).toEqual(upTo(touched));
  });

  it('stays before what was written down since its preparations', () => {
    const prepared = workedUpTo(order, arrived, 'package-lifted');
    const noted = {
      ...prepared,
      timeline: [...prepared.timeline, { type: 'note' as const, at: later(prepared, 60), text: 'the owner agreed' }],
    };
    const lifted = recorded(order, noted, { step: 'package-lifted', outcome: 'passed' });
    expect(takeBackStep(order, lifted)?.record).toEqual(noted);
  });
});

describe('The word whether the card works', () => {
  it('can be taken back while the card lies on the bench, and not once it was handed back', () => {
    const done = workedUpTo(order, arrived, 'marked-leaded');
    const finished = finishWork(done, true);
    if (!finished.ok) throw new Error(finished.wrong);
    expect(openWork(finished.record)).toBeNull();
    expect(takeBackWord(finished.record)).toEqual(done);
    const handed = {
      ...finished.record,
      timeline: [...finished.record.timeline, { type: 'handed-back' as const, at: later(finished.record, 60) }],
    };
    expect(takeBackWord(handed)).toBeNull();
    expect(takeBackWord(arrived)).toBeNull();
  });
});
