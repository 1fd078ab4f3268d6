import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { StepRecord } from '../../src/record/schema.ts';
import { orderState } from '../../src/work-order/order-state.ts';
import { card, orderFor } from './cards.ts';

const reball = await orderFor(card('ball-crack-on-a-dear-card'));
const ids = reball.steps.map(({ id }) => id);
const at = (minute: number) => new Date(Date.UTC(2026, 4, 1, 9, minute)).toISOString();
const passed = (...steps: string[]): StepRecord[] =>
  steps.map((step, i) => ({ step, at: at(i), outcome: 'passed' as const }));
const upTo = (step: string) => passed(...ids.slice(0, ids.indexOf(step)));
const entry = (step: string, outcome: StepRecord['outcome'], note?: string): StepRecord => ({
  step,
  at: at(59),
  outcome,
  ...(note === undefined ? {} : { note }),
});

describe('A work order', () => {
  it('opens one hold point after the other, and only that one', () => {
    for (let n = 0; n < ids.length; n++) {
      const state = orderState(reball, passed(...ids.slice(0, n)));
      expect([state.kind, state.next]).toEqual(['open', ids[n]]);
      expect(state.steps.filter(({ standing }) => standing === 'open').map(({ step }) => step)).toEqual([ids[n]]);
    }
    const done = orderState(reball, passed(...ids));
    expect([done.kind, done.next]).toEqual(['finished', null]);
  });

  it('says in words what came too early, and does not count it', () => {
    const state = orderState(reball, [...upTo('apertures-filled'), entry('balls-wetted', 'passed')]);
    expect(state.kind).toBe('out-of-order');
    expect(state.next).toBeNull();
    expect(state.sentence).toBe(
      '"Every ball wetted and in line" is recorded before "Every aperture filled, before heat". Each hold point opens only when the one before it is recorded: record "Every aperture filled, before heat" first.',
    );
    expect(state.steps.find(({ step }) => step === 'balls-wetted')?.tries).toBe(0);
  });

  it('never lets the image come before the voltage, nor the voltage before the resistance', () => {
    for (const power of ['rails-limited', 'first-image', 'load-held']) {
      const early = orderState(reball, [...upTo('resistances'), entry(power, 'passed')]);
      expect(early.kind).toBe('out-of-order');
    }
    expect(orderState(reball, [...upTo('rails-limited'), entry('first-image', 'passed')]).kind).toBe('out-of-order');
  });

  it('stops at a hold point that failed, says what comes now, and takes the same one again', () => {
    const failed = [...upTo('pads-flat'), entry('pads-flat', 'failed', 'two pads dull')];
    const state = orderState(reball, failed);
    expect([state.kind, state.next]).toEqual(['stopped', 'pads-flat']);
    expect(state.sentence).toContain('flux, wick and clean again');
    expect(orderState(reball, [...failed, entry('apertures-filled', 'passed')]).kind).toBe('out-of-order');
    const again = orderState(reball, [...failed, entry('pads-flat', 'passed')]);
    expect([again.kind, again.next]).toEqual(['open', 'apertures-filled']);
    expect(again.steps.find(({ step }) => step === 'pads-flat')).toMatchObject({ standing: 'passed', tries: 2 });
  });

  it('leads back from a ball that came off in cleaning to the wetting, and everything from there once more', () => {
    const cameOff = [...upTo('grid-after-cleaning'), entry('grid-after-cleaning', 'failed', 'one ball, row C')];
    const state = orderState(reball, cameOff);
    expect([state.kind, state.next]).toEqual(['stopped', 'balls-wetted']);
    expect(state.sentence).toContain('It goes on at "Every ball wetted and in line".');
    expect(orderState(reball, [...cameOff, entry('seated', 'passed')]).kind).toBe('out-of-order');
    const again = [...cameOff, entry('balls-wetted', 'passed'), entry('grid-after-cleaning', 'passed')];
    expect(orderState(reball, again).next).toBe('seated');
  });

  it('ends where a failure ends the work, and takes nothing after it', () => {
    const dark = [...upTo('first-image'), entry('first-image', 'failed')];
    const state = orderState(reball, dark);
    expect([state.kind, state.next]).toEqual(['over', null]);
    expect(state.sentence).toContain('record that the card does not work');
    expect(orderState(reball, [...dark, entry('load-held', 'passed')]).problems[0]?.wrong).toMatch(
      /"Holds under load" is recorded after the work ended at "Last the image"/,
    );
  });

  it('lets only some hold points be left out, and those only with the reason', () => {
    const before = upTo('x-rayed');
    expect(orderState(reball, [...before, entry('x-rayed', 'left-out')]).problems[0]?.wrong).toBe(
      '"X-ray" is left out without a reason.',
    );
    expect(orderState(reball, [...before, entry('x-rayed', 'left-out', 'no X-ray near')]).next).toBe('resistances');
    expect(
      orderState(reball, [...upTo('resistances'), entry('resistances', 'left-out', 'in a hurry')]).problems[0]?.wrong,
    ).toBe('"Resistance first: every rail to ground" may not be left out.');
  });

  it('refuses a hold point of other work, and a clock that runs backwards', () => {
    expect(orderState(reball, passed('fan-or-drive')).problems[0]?.wrong).toBe(
      '"fan-or-drive" is no hold point of this work.',
    );
    const backwards = orderState(reball, [
      { ...passed(ids[0]!)[0]!, at: at(30) },
      { ...passed(ids[1]!)[0]!, at: at(10) },
    ]);
    expect(backwards.problems[0]?.todo).toBe('Correct the time: the order runs forwards.');
  });

  it('comes to the same state whatever was tried on the way: what waits is always the first that is not passed since', () => {
    const outcomes = fc.array(fc.constantFrom<'passed' | 'failed'>('passed', 'failed'), { maxLength: 60 });
    fc.assert(
      fc.property(outcomes, (tries) => {
        const log: StepRecord[] = [];
        for (const outcome of tries) {
          const before = orderState(reball, log);
          if (before.next === null) break;
          log.push({ step: before.next, at: at(0), outcome });
          const now = orderState(reball, log);
          expect(now.problems).toEqual([]);
          if (now.next === null) continue;
          const place = ids.indexOf(now.next);
          expect(now.steps.slice(0, place).every(({ standing }) => standing === 'passed')).toBe(true);
          expect(
            now.steps.slice(place + 1).every(({ standing }) => standing === 'closed' || standing === 'failed'),
          ).toBe(true);
        }
      }),
      { numRuns: 200 },
    );
  });
});
