import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Points } from '../../src/assess/points.ts';
import type { LifelineAnswer } from '../../src/lifeline.ts';
import type { Record } from '../../src/record/schema.ts';
import { createAdviser, type Post } from '../../src/wizard/adviser.ts';
import { createClerk } from '../../src/wizard/clerk.ts';
import type { FromWorker, ToWorker } from '../../src/wizard/exchange.ts';
import type { WorksheetAnswer } from '../../src/work-order/schema.ts';
import { sampleAssessment } from './sample-assessment.ts';

const card = (title: string): Record => ({ format: 1, id: 'card', title, timeline: [] });
type Assess = (record: Record, draws: number) => Promise<typeof sampleAssessment>;

/** A worker that is none: the same clerk, on this thread. */
function hireWith(
  assess: Assess,
  asked: string[] = [],
  point: (record: Record) => Promise<Points | null> = async () => null,
): () => Post {
  return () => {
    const heard: ((event: { data: FromWorker }) => void)[] = [];
    const open = async () => ({
      catalogue: {} as never,
      assess: (record: unknown, draws: number) => {
        asked.push(`${(record as Record).title} ${draws}`);
        return assess(record as Record, draws);
      },
      point: (record: unknown) => point(record as Record),
      order: async ({ title }: Record): Promise<WorksheetAnswer> => {
        if (title === 'broken') throw new Error('no such procedure');
        return { kind: 'no-order', format: 1, because: title, todo: 'Choose.' };
      },
      life: async (record: unknown): Promise<LifelineAnswer> => {
        const { title } = record as Record;
        if (title === 'broken') throw new Error('no such event');
        await wait(20);
        return {
          kind: 'lifeline',
          format: 1,
          knowledge: '',
          record: 'card',
          title,
          invented: false,
          faults: [],
          points: [],
        };
      },
      async remedies() {
        throw new Error('asked of a worker of its own');
      },
    });
    const clerk = createClerk(open, (data) => void setTimeout(() => heard.map((hear) => hear({ data })), 0));
    return {
      postMessage: (message: ToWorker) => void setTimeout(() => clerk.hear(message), 0),
      addEventListener: (type: string, hear: unknown) => void (type === 'message' && heard.push(hear as never)),
    } as Post;
  };
}

const wait = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
const titled: Assess = async (record, draws) => {
  await wait(draws > 0 ? 1_000 : 20);
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

  it('shows where the newest answer points before the assessment is there, and no older one', async () => {
    const points = (sound: number): Points => ({ ranking: [], sites: [], sound });
    const point = async ({ title }: Record) => {
      await wait(5);
      return points(title === 'b' ? 0.25 : 0.5);
    };
    const slow: Assess = async (record) => {
      await wait(200);
      return { ...sampleAssessment, title: record.title };
    };
    const asked: string[] = [];
    const adviser = createAdviser(hireWith(slow, asked, point), null);
    const seen: (number | null)[] = [];
    adviser.ahead.subscribe(({ points: found }) => seen.push(found?.sound ?? null));
    adviser.ask(card('a'));
    await vi.advanceTimersByTimeAsync(2);
    adviser.ask(card('b'));
    await vi.advanceTimersByTimeAsync(50);
    expect(adviser.ahead.value).toEqual({ points: points(0.25), pending: false });
    expect(adviser.advice.value).toMatchObject({ pending: true, assessment: null });
    expect(seen).not.toContain(0.5);
    await vi.advanceTimersByTimeAsync(400);
    expect(asked).toEqual(['b 0']);
    expect(adviser.advice.value).toMatchObject({ pending: false, assessment: { title: 'b' } });
    expect(adviser.ahead.value).toEqual({ points: null, pending: false });
  });

  it('is assessed in full although the worker that only points breaks down on it', async () => {
    const broken = async () => {
      throw new Error('no such finding');
    };
    const adviser = createAdviser(hireWith(titled, [], broken), null);
    adviser.ask(card('a'));
    await vi.advanceTimersByTimeAsync(100);
    expect(adviser.advice.value).toMatchObject({ failure: null, assessment: { title: 'a 0' } });
  });
});

describe('the life of a card', () => {
  it('is told to whoever asked last; who asked before gets nothing, and the open card keeps its advice', async () => {
    const adviser = createAdviser(hireWith(titled), null);
    adviser.ask(card('a'));
    const told: (string | null)[] = [];
    const ask = (title: string) =>
      void adviser.lifeOf(card(title)).then((life) => told.push(life?.kind === 'lifeline' ? life.title : null));
    ask('first');
    ask('second');
    await vi.advanceTimersByTimeAsync(200);
    expect(told).toEqual([null, 'second']);
    expect(adviser.advice.value).toMatchObject({ pending: false, failure: null, assessment: { title: 'a 0' } });
  });

  it('is nothing where the worker cannot tell it, and no failure of the assessment', async () => {
    const adviser = createAdviser(hireWith(titled), null);
    adviser.ask(card('a'));
    const life = adviser.lifeOf(card('broken'));
    await vi.advanceTimersByTimeAsync(200);
    expect(await life).toBeNull();
    expect(adviser.advice.value).toMatchObject({ failure: null, assessment: { title: 'a 0' } });
  });
});

describe('the order of the work', () => {
  it('comes to everyone who asked for one, and the open card keeps its advice', async () => {
    const adviser = createAdviser(hireWith(titled), null);
    adviser.ask(card('a'));
    const orders = ['first', 'second'].map((title) => adviser.orderFor(card(title), sampleAssessment, null));
    await vi.advanceTimersByTimeAsync(200);
    expect(await Promise.all(orders)).toMatchObject([{ because: 'first' }, { because: 'second' }]);
    expect(adviser.advice.value).toMatchObject({ pending: false, failure: null, assessment: { title: 'a 0' } });
  });

  it('is nothing where the worker breaks down on it, and no failure of the assessment', async () => {
    const adviser = createAdviser(hireWith(titled), null);
    adviser.ask(card('a'));
    const order = adviser.orderFor(card('broken'), sampleAssessment, null);
    await vi.advanceTimersByTimeAsync(200);
    expect(await order).toBeNull();
    expect(adviser.advice.value).toMatchObject({ failure: null, assessment: { title: 'a 0' } });
  });
});
