/** The drawing of how long a repair lasts, held against a published example. */
import { describe, expect, test } from 'vitest';
import { de } from '../../src/lasting/messages/de.ts';
import { en } from '../../src/lasting/messages/en.ts';
import { drawSurvival, followedAt, lawAt } from '../../src/lasting/survival-drawing.ts';
import { lastingOf, type Served } from '../../src/learning/lasting.ts';
import { survivalAt } from '../../src/survival/product-limit.ts';

/**
 * Weeks in remission under 6-MP, 21 patients: Freireich et al., Blood 21 (1963) 699; as in tests/oracles/survival.test.ts, where the source of the
 * times and of each figure stands. Here a week is a day, and a patient a card.
 */
const REMISSION: readonly Served[] = [
  ...[6, 6, 6, 7, 10, 13, 16, 22, 23].map((days) => ({ days, failed: 1 })),
  ...[6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35].map((days) => ({ days, failed: 0 })),
];
/** Time, at risk, survival: Klein & Moeschberger, Survival Analysis, table 4.1 (digits from memory, redone in the oracle test). */
const PUBLISHED = [
  [6, 21, 0.857],
  [7, 17, 0.807],
  [10, 15, 0.753],
  [13, 12, 0.69],
  [16, 11, 0.627],
  [22, 7, 0.538],
  [23, 6, 0.448],
] as const;

const { curve, steps, law } = lastingOf(REMISSION);
const draw = (remedy: Parameters<typeof drawSurvival>[0]['remedy'], width = 640) =>
  drawSurvival({
    remedy,
    title: 'How long <it> lasted',
    description: 'After 6 days 86 of 100',
    words: en.figure,
    number: (value) => String(Math.round(value)),
    prefix: 'remission',
    width,
  });
const svg = draw({ steps, law });

/** Read back from the picture alone: the axes by their own labels, then every place by them. */
function scalesOf(drawn: string) {
  const days = [...drawn.matchAll(/class="lasting-day" x="([\d.]+)"[^>]*>(\d+)</g)].map(([, x, day]) => [+x!, +day!]);
  const levels = [...drawn.matchAll(/class="lasting-level" x="[\d.]+" y="([\d.]+)"[^>]*>(\d+)</g)].map(
    ([, y, level]) => [+y! - 4, +level! / 100],
  );
  const between =
    ([p0, v0]: number[], [p1, v1]: number[]) =>
    (place: number) =>
      v0! + ((place - p0!) * (v1! - v0!)) / (p1! - p0!);
  return {
    dayAt: between(days[0]!, days.at(-1)!),
    shareAt: between(levels[0]!, levels.at(-1)!),
  };
}

const pathOf = (className: string, drawn = svg) => {
  const [, d] = new RegExp(`class="${className}"[^>]* d="([^"]*)"|$`).exec(drawn)!;
  return d ?? '';
};
const placesOf = (path: string) =>
  [...path.matchAll(/[ML]([-\d.]+),([-\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)] as const);
/** a hundredth of a pixel is drawn; the plot is 190 high */
const DRAWN = 0.02 / 190;

describe('The remission times of the 6-MP trial as a drawing (Freireich et al. 1963)', () => {
  const { dayAt, shareAt } = scalesOf(svg);

  test.each(PUBLISHED)('after %i weeks %i were at risk, and the curve falls to %f', (time, atRisk, survival) => {
    const after = placesOf(pathOf('lasting-curve')).findLast(([x]) => Math.abs(dayAt(x) - time) < 0.01)!;
    expect(Math.abs(shareAt(after[1]) - survival)).toBeLessThan(0.0005 + DRAWN);
    expect(followedAt(steps, time)).toBe(atRisk);
  });

  test('between two failures the curve is level, and at a failure upright: it is drawn as steps', () => {
    const places = placesOf(pathOf('lasting-curve'));
    for (const [at, [x, y]] of places.entries())
      if (at > 0) expect(x === places[at - 1]![0] || y === places[at - 1]![1]).toBe(true);
  });

  test('each time at which somebody was lost sight of has one stroke through the curve, as high as the curve is there', () => {
    const lost = [...svg.matchAll(/class="lasting-lost" data-days="([\d.]+)" d="M([\d.]+) ([\d.]+)v12"/g)];
    expect(lost.map(([, days]) => Number(days))).toEqual([6, 9, 10, 11, 17, 19, 20, 25, 32, 34, 35]);
    for (const [, days, x, y] of lost) {
      expect(dayAt(Number(x))).toBeCloseTo(Number(days), 1);
      const known = steps.find((step) => step.days === Number(days))!.survival;
      expect(Math.abs(shareAt(Number(y) + 6) - known)).toBeLessThan(DRAWN);
    }
  });

  test('the band holds the limits that the table tells of any day, and none is drawn beyond the last', () => {
    const places = placesOf(pathOf('lasting-band'));
    // the upper edge forwards, then the lower one back
    const upper = places.slice(0, places.length / 2);
    const lower = places.slice(places.length / 2).toReversed();
    for (const day of [3, 6.5, 8, 11.5, 12, 18, 22.5, 30, 34.5]) {
      const drawnAt = (edge: typeof places) => shareAt(edge.findLast(([x]) => dayAt(x) <= day)![1]);
      const { low, high } = survivalAt(curve, day);
      expect(Math.abs(drawnAt(upper) - high!), `high on day ${day}`).toBeLessThan(DRAWN);
      expect(Math.abs(drawnAt(lower) - low!), `low on day ${day}`).toBeLessThan(DRAWN);
    }
    expect(Math.max(...places.map(([x]) => dayAt(x)))).toBeCloseTo(35, 1);
  });

  test('the steps carry the limits of survivalAt, before the first failure too', () => {
    for (const [at, step] of steps.entries()) {
      const next = steps[at + 1];
      const { low, high, survival } = survivalAt(curve, next ? (step.days + next.days) / 2 : step.days);
      expect([step.survival, step.low, step.high]).toEqual([survival, low, high]);
    }
  });

  test('the law over it is the one an independent library fits (scipy 1.17.1, see the oracle test), as far as anybody was followed', () => {
    expect(law!.shape).toBeCloseTo(1.35373454, 6);
    expect(law!.scaleDays).toBeCloseTo(33.76515, 4);
    const places = placesOf(pathOf('lasting-law'));
    for (const [x, y] of places) expect(Math.abs(shareAt(y) - lawAt(law!, dayAt(x)))).toBeLessThan(0.001);
    expect(dayAt(places.at(-1)![0])).toBeCloseTo(35, 1);
  });

  test('below every day on the axis stands how many were still followed then', () => {
    const shown = [...svg.matchAll(/data-days="(\d+)" data-followed="(\d+)"[^>]*>(\d+)</g)];
    expect(shown.length).toBeGreaterThan(3);
    for (const [, day, followed, written] of shown) {
      const count = REMISSION.filter(({ days }) => days >= Number(day)).length;
      expect([Number(followed), Number(written)]).toEqual([count, count]);
    }
  });

  test('a screen reader hears its title and what it shows, and nothing in it can break out of the page', () => {
    expect(svg).toContain('role="img" aria-labelledby="remission-title remission-description"');
    expect(svg).toContain('<title id="remission-title">How long &lt;it&gt; lasted</title>');
    expect(svg).not.toContain('style=');
  });
});

describe('What cannot be drawn', () => {
  test('no law is drawn from two failures, and none where all failed on one day', () => {
    expect(
      lastingOf([...REMISSION.filter(({ failed }) => failed === 0), { days: 3, failed: 1 }, { days: 9, failed: 1 }])
        .law,
    ).toBeNull();
    expect(lastingOf([5, 5, 5, 5].map((days) => ({ days, failed: 1 }))).law).toBeNull();
  });

  test('a card that failed on the day it left is drawn at day 0, and the law takes it for half a day', () => {
    const cards = [...REMISSION, { days: 0, failed: 1 }];
    const { steps: fell, law: fitted } = lastingOf(cards);
    expect(fell[0]).toMatchObject({ days: 0, atRisk: 22, failed: 1 });
    expect(fitted).toEqual(lastingOf([...REMISSION, { days: 0.5, failed: 1 }]).law);
    expect(draw({ steps: fell, law: fitted })).toContain('class="lasting-failed" data-days="0"');
  });

  test('a comeback that is only in part the repair’s counts in part, and is no stroke of its own below half a card', () => {
    const { steps: parts } = lastingOf([...REMISSION, { days: 12, failed: 0.8 }, { days: 14, failed: 0.3 }]);
    expect(parts.find(({ days }) => days === 12)).toMatchObject({ failed: 0.8, lost: 1 - 0.8, atRisk: 14 });
    const drawn = draw({ steps: parts, law: null });
    expect(drawn).not.toContain('class="lasting-lost" data-days="12"');
    expect(drawn).toContain('class="lasting-lost" data-days="14"');
    expect(drawn).not.toContain('lasting-law');
  });
});

describe('The words beside it', () => {
  const keysOf = (catalogue: object, path = ''): string[] =>
    Object.entries(catalogue).flatMap(([key, value]) =>
      typeof value === 'object' && value !== null
        ? keysOf(value, `${path}.${key}`)
        : [`${path}.${key} ${typeof value}`],
    );

  test('are there in English and German, every one', () => {
    expect(keysOf(de).sort()).toEqual(keysOf(en).sort());
  });
});

test('names whole days, each once, however short the time', () => {
  for (const days of [0, 0.4, 1, 3, 9, 40]) {
    const short = lastingOf([{ days, failed: 1 }]);
    const named = [...draw({ steps: short.steps, law: short.law }).matchAll(/class="lasting-day"[^>]*>([^<]*)</g)].map(
      ([, day]) => day,
    );
    expect(named.length, `${days} days`).toBeGreaterThan(1);
    expect(new Set(named).size, `${days} days: ${named}`).toBe(named.length);
  }
});
