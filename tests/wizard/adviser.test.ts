import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Record } from '../../src/record/schema.ts';
import { createAdviser, type Post } from '../../src/wizard/adviser.ts';
import { createClerk } from '../../src/wizard/clerk.ts';
import type { FromWorker, ToWorker } from '../../src/wizard/exchange.ts';
import { sampleAssessment } from './sample-assessment.ts';

const card = (title: string): Record => ({ format: 1, id: 'card', title, timeline: [] });
type Assess = (record: Record, draws: number) => Promise<typeof sampleAssessment>;

/** A worker that is none: the same clerk, on this thread. */
function hireWith(assess: Assess, asked: string[] = []): () => Post {
  return () => {
    const heard: ((event: { data: FromWorker }) => void)[] = [];
    const open = async () => ({
      catalogue: {} as never,
      assess: (record: unknown, draws: number) => {
        asked.push(`${(record as Record).title} ${draws}`);
        return assess(record as Record, draws);
      },
    });
    const clerk = createClerk(open, (data) => void setTimeout(() => heard.map((hear) => hear({ data })), 0));
    return {
      postMessage: (message: ToWorker) => void setTimeout(() => clerk.hear(message), 0),
      addEventListener: (type: string, hear: unknown) => void (type === 'message' && heard.push(hear as never)),
    } as Post;
  };
}

const after = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
const titled: Assess = async (record, draws) => {
  await after(draws > 0 ? 1_000 : 20);
  return { ...sampleAssessment, title: `${record.title} ${draws}` };
};

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

describe('advice on the open card', () => {
  it('comes at once without parameter draws, and with them when the typing pauses', async () => {
    const adviser = createAdviser(hireWith(titled), null);
    adviser.ask(card('a'));
    expect(adviser.advice.value).toMatchObject({ pending: true, assessment: null });
    await vi.advanceTimersByTimeAsync(100);
    expect(adviser.advice.value).toMatchObject({ pending: false, draws: 0, assessment: { title: 'a 0' } });
    await vi.advanceTimersByTimeAsync(3_000);
    expect(adviser.advice.value).toMatchObject({ pending: false, draws: 1_000, assessment: { title: 'a 1000' } });
  });

  it('is never that of an older question, and skips the questions overtaken while it was thinking', async () => {
    const asked: string[] = [];
    const adviser = createAdviser(hireWith(titled, asked), null);
    const seen: string[] = [];
    adviser.advice.subscribe(({ assessment }) => {
      if (assessment?.kind === 'assessed') seen.push(assessment.title);
    });
    for (const title of ['a', 'b', 'c', 'd']) {
      adviser.ask(card(title));
      await vi.advanceTimersByTimeAsync(5);
    }
    await vi.advanceTimersByTimeAsync(300);
    expect(seen).toEqual(['d 0']);
    expect(asked).toEqual(['a 0', 'd 0']);
  });

  it('answers a new question at once although the draws for the old one are still being made', async () => {
    const adviser = createAdviser(hireWith(titled), null);
    adviser.ask(card('a'));
    await vi.advanceTimersByTimeAsync(900);
    adviser.ask(card('b'));
    await vi.advanceTimersByTimeAsync(100);
    expect(adviser.advice.value).toMatchObject({ pending: false, assessment: { title: 'b 0' } });
    await vi.advanceTimersByTimeAsync(900);
    expect(adviser.advice.value).toMatchObject({ assessment: { title: 'b 0' } });
  });

  it('says so when the assessment breaks down, and recovers with the next answer', async () => {
    const broken: Assess = async (record, draws) => {
      if (record.title === 'bad') throw new Error('division by zero');
      return titled(record, draws);
    };
    const adviser = createAdviser(hireWith(broken), null);
    adviser.ask(card('bad'));
    await vi.advanceTimersByTimeAsync(100);
    expect(adviser.advice.value).toMatchObject({ pending: false, failure: 'division by zero' });
    adviser.ask(card('good'));
    await vi.advanceTimersByTimeAsync(100);
    expect(adviser.advice.value).toMatchObject({ failure: null, assessment: { title: 'good 0' } });
  });

  it('for the list of cards waits behind the open card and does not replace its answer', async () => {
    const asked: string[] = [];
    const adviser = createAdviser(hireWith(titled, asked), null);
    const listed = [adviser.assessOnce(card('one')), adviser.assessOnce(card('two'))];
    await vi.advanceTimersByTimeAsync(10);
    adviser.ask(card('open'));
    await vi.advanceTimersByTimeAsync(500);
    expect(asked).toEqual(['one 0', 'open 0', 'two 0']);
    expect((await Promise.all(listed)).map((found) => found?.kind === 'assessed' && found.title)).toEqual([
      'one 0',
      'two 0',
    ]);
    expect(adviser.advice.value).toMatchObject({ assessment: { title: 'open 0' } });
  });
});
