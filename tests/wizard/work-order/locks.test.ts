import { describe, expect, it } from 'vitest';
import { cellsOf } from '../../../src/wizard/work-order/heat-drawing.tsx';
import { lockOf, proofsOf } from '../../../src/wizard/work-order/locks.ts';
import { openWork } from '../../../src/work-order/open-work.ts';
import { orderState } from '../../../src/work-order/order-state.ts';
import { card, knowledge, orderFor, recorded, workedUpTo } from '../../work-order/cards.ts';

const arrived = card('ball-crack-on-a-dear-card');
const order = await orderFor(arrived);
const { steps } = order;
const place = (id: string) => steps.findIndex((step) => step.id === id);
const stateUpTo = (id: string) => orderState(order, openWork(workedUpTo(order, arrived, id))?.process.steps ?? []);

describe('A hold point that is locked', () => {
  it('says which one opens it: the one before', () => {
    const state = orderState(order, []);
    expect(lockOf({ steps, state }, 0)).toBeNull();
    for (let at = 1; at < steps.length; at++) {
      if (steps[at]!.power !== null) continue;
      expect(lockOf({ steps, state }, at)).toEqual({ kind: 'next', opens: steps[at - 1] });
    }
  });

  it('says of power that no resistance was taken, and of the image that no voltage was', () => {
    const before = stateUpTo('resistances');
    const lock = (id: string, state = before) => lockOf({ steps, state }, place(id));
    expect(lock('rails-limited')).toMatchObject({ kind: 'power' });
    expect(lock('first-image')).toMatchObject({ kind: 'image', opens: { id: 'rails-limited' } });
    expect(lock('load-held')).toMatchObject({ kind: 'image' });
    const powered = stateUpTo('cooler-on');
    expect(lock('rails-limited', powered)).toBeNull();
    expect(lock('first-image', powered)).toMatchObject({ kind: 'next', opens: { id: 'cooler-on' } });
  });

  it('stays so when the work has ended', () => {
    const record = recorded(order, workedUpTo(order, arrived, 'package-lifted'), {
      step: 'package-lifted',
      outcome: 'failed',
    });
    const state = orderState(order, openWork(record)!.process.steps);
    expect(state.kind).toBe('over');
    expect(lockOf({ steps, state }, place('first-image'))).toEqual({ kind: 'over' });
  });

  it('keeps power behind resistance and the image behind voltage in every work the rules know', async () => {
    const wrong: string[] = [];
    for (const { id } of knowledge.remedies) {
      const made = await orderFor(arrived, { remedy: id });
      const state = orderState(made, []);
      made.steps.forEach((step, at) => {
        if (step.power === null || at === 0) return;
        const lock = lockOf({ steps: made.steps, state }, at);
        const expected = step.power === 'limited' ? ['power'] : ['image', 'power'];
        if (lock === null || !expected.includes(lock.kind)) wrong.push(`${id}, ${step.id}: ${lock?.kind ?? 'open'}`);
      });
    }
    expect(wrong).toEqual([]);
  });
});

describe('The three proofs', () => {
  it('open one after the other', () => {
    const standings = (id: string) =>
      proofsOf({ steps, state: stateUpTo(id) }).map(({ kind, standing }) => `${kind} ${standing}`);
    expect(standings('seated')).toEqual(['resistance closed', 'voltage closed', 'image closed']);
    expect(standings('resistances')).toEqual(['resistance open', 'voltage closed', 'image closed']);
    expect(standings('rails-limited')).toEqual(['resistance passed', 'voltage open', 'image closed']);
    expect(standings('first-image')).toEqual(['resistance passed', 'voltage passed', 'image open']);
  });
});

describe('The heat that is left, drawn', () => {
  it('has a cell for every pass, and those beyond what is tested stand after the last one allowed', () => {
    expect(cellsOf({ most: 3, spent: 2, takes: 4 })).toEqual(['spent', 'spent', 'takes', 'beyond', 'beyond', 'beyond']);
    expect(cellsOf({ most: 6, spent: 2, takes: 2 })).toEqual(['spent', 'spent', 'takes', 'takes', 'free', 'free']);
    expect(cellsOf({ most: 1, spent: 2, takes: 0 })).toEqual(['spent', 'beyond']);
    expect(cellsOf({ most: 1, spent: 0, takes: 1 })).toEqual(['takes']);
  });
});
