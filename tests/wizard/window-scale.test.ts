import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { scaleOfWindow } from '../../src/wizard/window-scale.ts';

const CORE = { edges: [0.1, 0.6, 30], bands: ['short', 'low', 'normal', 'high'] };
/** A supply of 1.35 V within 3 %: next to the whole axis of volts the window is a hair. */
const SUPPLY = { edges: [0.14, 1.3095, 1.3905, 2], bands: ['absent', 'low', 'in-tolerance', 'high', 'far-above'] };

describe('the little axis beside a reading', () => {
  it('is logarithmic: from 0.1 to 1 ohm is as far as from 1 to 10', () => {
    const { place } = scaleOfWindow(CORE, 'normal');
    expect(place(1).at - place(0.1).at).toBeCloseTo(place(10).at - place(1).at, 12);
  });

  it('leaves a narrow window room to be seen, and says of a reading far outside on which side it lies', () => {
    const scale = scaleOfWindow(SUPPLY, 'in-tolerance');
    const normal = scale.bands.find(({ band }) => band === 'in-tolerance')!;
    expect(normal.to - normal.from).toBeCloseTo(0.3, 12);
    expect(scale.place(0.02)).toEqual({ at: 0, beyond: 'below' });
    expect(scale.place(12)).toEqual({ at: 1, beyond: 'above' });
    expect(scale.place(1.35).beyond).toBeNull();
  });

  it('takes a dead short and an open circuit as readings beyond its ends', () => {
    const { place } = scaleOfWindow(CORE, 'normal');
    expect(place(0)).toEqual({ at: 0, beyond: 'below' });
    expect(place(Number.POSITIVE_INFINITY)).toEqual({ at: 1, beyond: 'above' });
  });

  it('is filled by its bands without a gap, puts every reading into the band it belongs to, and keeps their order', () => {
    const edges = fc
      .uniqueArray(fc.double({ min: 1e-3, max: 1e6, noNaN: true }), { minLength: 1, maxLength: 4 })
      .map((all) => all.toSorted((a, b) => a - b))
      .filter((all) => all.every((edge, i) => i === 0 || edge > 1.001 * all[i - 1]!));
    const value = fc.double({ min: 1e-4, max: 1e7, noNaN: true });
    fc.assert(
      fc.property(edges, fc.nat(), value, (at, pick, reading) => {
        const bands = Array.from({ length: at.length + 1 }, (_, i) => `band-${i}`);
        const { bands: placed, place } = scaleOfWindow({ edges: at, bands }, bands[pick % bands.length]!);
        expect(placed[0]!.from).toBe(0);
        expect(placed.at(-1)!.to).toBe(1);
        for (let i = 1; i < placed.length; i++) expect(placed[i]!.from).toBe(placed[i - 1]!.to);
        const { at: where, beyond } = place(reading);
        const own = bands[at.filter((edge) => edge <= reading).length];
        const band = placed.find((one) => one.band === own);
        if (beyond === null && band !== undefined) {
          expect(where).toBeGreaterThanOrEqual(band.from - 1e-9);
          expect(where).toBeLessThanOrEqual(band.to + 1e-9);
        } else expect([0, 1]).toContain(where);
      }),
      { seed: 5 },
    );
  });

  it('is straight where an edge lies at zero or below', () => {
    const { place } = scaleOfWindow({ edges: [0, 10], bands: ['a', 'b', 'c'] }, 'b');
    expect(place(7.5).at - place(5).at).toBeCloseTo(place(5).at - place(2.5).at, 12);
  });
});
