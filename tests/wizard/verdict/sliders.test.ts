import { beforeAll, describe, expect, it } from 'vitest';
import { thinkOtherwise } from '../../../src/assess/what-if.ts';
import { assess } from '../../../src/assess.ts';
import type { Assessed, WhatIf } from '../../../src/assessment.ts';
import { bandsOf, changeAt, changesOf, shareAlong, slidersFor } from '../../../src/wizard/verdict/sliders.ts';
import { knowledgeAndShop, workedCase } from '../../assess/worked-cases.ts';

const IDS = ['ball-crack-on-a-dear-card', 'ball-crack-on-a-cheap-card', 'card-is-fine-host-is-not', 'one-memory-chip'];

describe('Figures tried otherwise', () => {
  const cases: { readonly assessed: Assessed; readonly whatIf: WhatIf }[] = [];
  beforeAll(async () => {
    const { knowledge, shop } = await knowledgeAndShop();
    for (const id of IDS) {
      const assessed = await assess(knowledge, shop, workedCase(id).record, { plan: false });
      if (assessed.kind !== 'assessed' || assessed.whatIf === undefined) throw new Error(`${id} was not assessed`);
      cases.push({ assessed, whatIf: assessed.whatIf });
    }
  }, 120_000);

  it('start where the card was assessed: every slider left alone gives the verdict of the assessment', () => {
    for (const { assessed, whatIf } of cases) {
      for (const slider of slidersFor(whatIf)) {
        const { advised } = thinkOtherwise(whatIf, changeAt(slider, slider.now));
        expect(advised.id, slider.axis).toBe(assessed.verdict.option);
        expect(slider.now).toBeGreaterThanOrEqual(slider.from);
        expect(slider.now).toBeLessThanOrEqual(slider.to);
      }
    }
  });

  it('reach the break-evens that the assessment states in words, and turn the verdict exactly there', () => {
    const axes = { 'working-value': 'working', parts: 'partsTimes', 'labour-minutes': 'workMinutesTimes' } as const;
    let met = 0;
    for (const { assessed, whatIf } of cases) {
      for (const { what, at, becomes } of assessed.verdict.breakEvens) {
        if (!(what in axes) || at === null) continue;
        const slider = slidersFor(whatIf).find(({ axis }) => axis === axes[what as keyof typeof axes])!;
        const bands = bandsOf(whatIf, {}, slider);
        const turn = bands.find(({ from, to }) => Math.abs(from - at) < 1e-6 || Math.abs(to - at) < 1e-6);
        expect(turn, `${assessed.record}: ${what} at ${at}`).toBeDefined();
        expect(bands.some(({ verdict }) => verdict === becomes)).toBe(true);
        met++;
      }
    }
    expect(met).toBeGreaterThanOrEqual(4);
  });

  it('lay their bands from end to end, and name the verdict that the hand would find there', () => {
    for (const { whatIf } of cases) {
      for (const slider of slidersFor(whatIf)) {
        const bands = bandsOf(whatIf, {}, slider);
        expect(shareAlong(slider, bands[0]!.from)).toBeCloseTo(0, 9);
        expect(shareAlong(slider, bands.at(-1)!.to)).toBeCloseTo(100, 9);
        for (const { from, to, verdict } of bands) {
          const { advised } = thinkOtherwise(whatIf, changeAt(slider, (from + to) / 2));
          expect(advised.verdict, `${slider.axis} at ${(from + to) / 2}`).toBe(verdict);
        }
      }
    }
  });

  it('offer no parts, minutes or rate where there is nothing to repair', () => {
    const sound = cases[IDS.indexOf('card-is-fine-host-is-not')]!;
    expect(sound.assessed.verdict.kind).toBe('return');
    expect(slidersFor(sound.whatIf).map(({ axis }) => axis)).toEqual(['working', 'asIs', 'worksTimes']);
  });

  it('add up: two figures tried together are both in the verdict', () => {
    const { whatIf } = cases[0]!;
    const sliders = slidersFor(whatIf);
    const changes = changesOf(
      sliders,
      new Map([
        ['working', 1000],
        ['partsTimes', 2 * sliders.find(({ axis }) => axis === 'partsTimes')!.now],
      ] as const),
    );
    expect(changes).toEqual({ working: 1000, partsTimes: 2 });
  });
});
