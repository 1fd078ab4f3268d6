import { describe, expect, it } from 'vitest';
import { servicesOf } from '../../src/learning/service-times.ts';
import type { Event } from '../../src/record/schema.ts';

const day = (days: number) => new Date(Date.UTC(2026, 0, 1) + days * 86_400_000).toISOString();
const arrived: Event = { type: 'arrived', at: day(0), facts: {} };
const treated = (at: number, worked: boolean | null = true, remedy = 'reflow-core'): Event => ({
  type: 'treated',
  at: day(at),
  remedy,
  worked,
});
const left = (at: number): Event => ({ type: 'handed-back', at: day(at) });
const works = (at: number): Event => ({ type: 'still-working', at: day(at) });
const back = (at: number, workedDays?: number | null): Event => ({
  type: 'came-back',
  at: day(at),
  ...(workedDays === undefined ? {} : { workedDays }),
});
const closed = (at: number): Event => ({ type: 'closed', at: day(at) });
const of = (timeline: Event[], silence?: Parameters<typeof servicesOf>[1]) =>
  servicesOf({ id: 'card', timeline: [arrived, ...timeline] }, silence);
const time = (timeline: Event[], silence?: Parameters<typeof servicesOf>[1]) => {
  const [first] = of(timeline, silence).times;
  return first && { days: first.days, ended: first.ended };
};

describe('a time in service', () => {
  it('runs from the day the card left to the day it came back', () =>
    expect(time([treated(1), left(3), back(24)])).toEqual({ days: 21, ended: 'came-back' }));

  it('is as long as the owner says it worked, where he says so', () =>
    expect(time([treated(1), left(3), back(60, 20)])).toEqual({ days: 20, ended: 'came-back' }));

  it('of a card that came back after nobody knows how long is half of the time away, and marked', () => {
    expect(of([treated(1), left(3), back(43, null)]).times[0]).toMatchObject({ days: 20, dayUnknown: true });
  });

  it('of such a card that was heard of as working is half way between that word and its return', () => {
    expect(of([treated(1), left(3), works(33), back(43, null)]).times[0]).toMatchObject({ days: 35, dayUnknown: true });
  });

  it('ends at the last word of a card that works: asked after, or closed', () => {
    expect(time([treated(1), left(3), works(33), works(93)])).toEqual({ days: 90, ended: 'still-working' });
    expect(time([treated(1), left(3), works(33), closed(183)])).toEqual({ days: 180, ended: 'closed' });
  });

  it('is no time at all where nothing was heard, unless silence is taken for a working card, within the warranty', () => {
    expect(time([treated(1), left(3)])).toEqual({ days: 0, ended: 'silent' });
    expect(time([treated(1), left(3), closed(3)])).toEqual({ days: 0, ended: 'silent' });
    const silence = { until: day(1000), warrantyDays: 90 };
    expect(time([treated(1), left(3)], silence)).toEqual({ days: 90, ended: 'silent' });
    expect(time([treated(1), left(3)], { ...silence, until: day(33) })).toEqual({ days: 30, ended: 'silent' });
    expect(time([treated(1), left(3), works(203)], silence)).toEqual({ days: 200, ended: 'still-working' });
  });

  it('does not begin with work after which the card did not work, or that was never handed back', () => {
    expect(of([treated(1, false), left(3)])).toEqual({
      work: [{ remedy: 'reflow-core', outcome: 'did-not-work' }],
      times: [],
    });
    expect(of([treated(1)]).work).toEqual([{ remedy: 'reflow-core', outcome: 'not-handed-back' }]);
    expect(of([treated(1, null), left(3)]).work).toEqual([{ remedy: 'reflow-core', outcome: 'not-known-to-work' }]);
  });

  it('begins with work that nobody tested where the owner later says that it had worked', () => {
    expect(time([treated(1, null), left(3), works(13)])).toEqual({ days: 10, ended: 'still-working' });
    expect(time([treated(1, null), left(3), back(40, 0)])).toBeUndefined();
  });

  it('belongs to the last work before the card left, and names what else was done in that stay', () => {
    const { work, times } = of([treated(1), treated(2, true, 'thermal-service'), left(3), back(13)]);
    expect(work.map(({ outcome }) => outcome)).toEqual(['not-handed-back', 'left-working']);
    expect(times).toHaveLength(1);
    expect(times[0]).toMatchObject({ remedy: 'thermal-service', stay: ['reflow-core', 'thermal-service'], days: 10 });
  });

  it('is counted once for each time the card went out, each with the record as it was then', () => {
    const { times } = of([treated(1), left(3), back(13), treated(15, true, 'replace-core'), left(20), works(120)]);
    expect(times.map(({ remedy, days, ended }) => [remedy, days, ended])).toEqual([
      ['reflow-core', 10, 'came-back'],
      ['replace-core', 100, 'still-working'],
    ]);
    expect(times[0]!.timeline.map(({ type }) => type)).toEqual(['arrived', 'treated', 'handed-back', 'came-back']);
    expect(times[1]!.stay).toEqual(['replace-core']);
  });

  it('keeps what was found when the card came back, and nothing from after it left again', () => {
    const seen: Event = { type: 'seen', at: day(14), finding: 'image', state: 'none', by: 'bench' };
    const [first] = of([treated(1), left(3), back(13), seen, left(20), works(90)]).times;
    expect(first!.timeline.map(({ type }) => type)).toEqual(['arrived', 'treated', 'handed-back', 'came-back', 'seen']);
  });
});
