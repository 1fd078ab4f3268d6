import { describe, expect, it } from 'vitest';
import type { Record } from '../../../src/record/schema.ts';
import type { FromWorker, ToWorker } from '../../../src/wizard/exchange.ts';
import { createInterpreter } from '../../../src/wizard/owner/interpreter.ts';
import { sampleAssessment } from '../sample-assessment.ts';

const card = (title: string): Record => ({ format: 1, id: 'card', title, timeline: [] });
const words = (language: string) => ({ language, findings: {}, checks: {}, remedies: {}, cautions: {}, reasons: {} });

/** A worker that says what it was opened with; `slow` answers only when told to. */
function office({ slow = false, broken = false } = {}) {
  const hired: string[] = [];
  const held: (() => void)[] = [];
  const hire = () => {
    let language = '';
    let hear: (event: { data: FromWorker }) => void = () => {};
    const say = (data: FromWorker) => hear({ data });
    return {
      addEventListener: (type: string, listener: unknown) => {
        if (type === 'message') hear = listener as typeof hear;
      },
      postMessage: (message: ToWorker) => {
        if (message.type === 'open') {
          language = message.language;
          hired.push(language);
          if (broken) queueMicrotask(() => say({ type: 'failure', sequence: null, message: 'no rules' }));
          else say({ type: 'catalogue', language, catalogue: { owner: words(language) } as never });
        }
        if (message.type !== 'assess' || broken) return;
        const { sequence, draws, record } = message;
        const title = `${(record as Record).title}, ${language}, ${draws} draws`;
        const answer = () =>
          say({ type: 'assessment', sequence, draws, assessment: { ...sampleAssessment, title } as never });
        if (slow) held.push(answer);
        else answer();
      },
    } as never;
  };
  return { hire, hired, release: () => held.splice(0).forEach((answer) => void answer()) };
}

describe('The open card told in the language of its owner', () => {
  it('is the assessment and the wordings of that language, from one worker however often it is asked', async () => {
    const { hire, hired } = office();
    const interpreter = createInterpreter(hire, null);
    expect(hired, 'nobody is hired before somebody asks').toEqual([]);
    expect(await interpreter.tell(card('a'), 'de', 0)).toMatchObject({
      assessment: { title: 'a, de, 0 draws' },
      words: { language: 'de' },
    });
    expect(await interpreter.tell(card('a'), 'de', 1_000)).toMatchObject({
      assessment: { title: 'a, de, 1000 draws' },
    });
    expect(hired).toEqual(['de']);
  });

  it('is never an older card: a question overtaken by a newer one is answered with nothing', async () => {
    const { hire, release } = office({ slow: true });
    const interpreter = createInterpreter(hire, null);
    const older = interpreter.tell(card('a'), 'de', 0);
    const newer = interpreter.tell(card('b'), 'de', 0);
    release();
    expect(await older).toBeNull();
    expect(await newer).toMatchObject({ assessment: { title: 'b, de, 0 draws' } });
  });

  it('is nothing where the rules of that language cannot be opened, and a new worker is tried the next time', async () => {
    const { hire, hired } = office({ broken: true });
    const interpreter = createInterpreter(hire, null);
    expect(await interpreter.tell(card('a'), 'de', 0)).toBeNull();
    expect(await interpreter.tell(card('a'), 'de', 0)).toBeNull();
    expect(hired).toEqual(['de', 'de']);
  });
});
