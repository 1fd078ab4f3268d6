import { beforeAll, describe, expect, it } from 'vitest';
import { lifeline } from '../../../src/assess/timeline.ts';
import type { Lifeline } from '../../../src/lifeline.ts';
import { soundStrip, stripsOf } from '../../../src/wizard/came-back/life-strips.ts';
import { knowledgeAndShop, workedCase } from '../../assess/worked-cases.ts';

let life: Lifeline;
beforeAll(async () => {
  const { knowledge, shop } = await knowledgeAndShop();
  const told = await lifeline(knowledge, shop, workedCase('reflowed-and-back').record);
  if (told.kind !== 'lifeline') throw new Error(JSON.stringify(told));
  life = told;
});

describe('The strips of a life', () => {
  it('show what is likeliest now first, and what the work was done for', () => {
    const strips = stripsOf(life, 4);
    expect(strips).toHaveLength(4);
    expect(strips.map(({ now }) => now)).toEqual(strips.map(({ now }) => now).toSorted((a, b) => b - a));
    expect(strips.map(({ id }) => id)).toContain('core-joint-crack');
  });

  it('hold at every point what the life holds, asleep and awake', () => {
    for (const { id, active, masked } of stripsOf(life, 6)) {
      const at = life.faults.findIndex(({ fault }) => fault === id);
      expect(active).toEqual(life.points.map(({ chances }) => chances![at]));
      expect(masked).toEqual(life.points.map((point) => point.masked![at]));
    }
  });

  it('tell a card that works because a fault sleeps from one that is mended', () => {
    const { active, masked } = soundStrip(life, 'sound');
    for (const [at, { sound }] of life.points.entries()) expect(active[at]! + masked[at]!).toBeCloseTo(sound!, 12);
    const treated = life.points.findIndex(({ kind }) => kind === 'treated');
    expect(masked[treated]!).toBeGreaterThan(0.3);
  });

  it('leave out what was never likely since somebody looked', () => {
    expect(stripsOf(life, 100).length).toBeLessThan(12);
    expect(stripsOf({ ...life, faults: [], points: [] }, 5)).toEqual([]);
  });
});
