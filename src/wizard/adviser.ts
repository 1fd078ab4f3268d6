/**
 * Asks the workers about the open record. Only the answer to the newest question is shown. One worker says where it points and does
 * nothing else, so that nobody waits for a plan to see what an answer moved; the second assesses, with the next check; the
 * thorough one makes the parameter draws when the typing pauses.
 */
import { type ReadonlySignal, signal } from '@preact/signals';
import type { Points } from '../assess/points.ts';
import type { Assessed, Assessment } from '../assessment.ts';
import type { LifelineAnswer } from '../lifeline.ts';
import type { Record } from '../record/schema.ts';
import type { Shop } from '../shop/schema.ts';
import type { WorksheetAnswer } from '../work-order/schema.ts';
import type { Catalogue } from './catalogue.ts';
import type { FromWorker, ToWorker } from './exchange.ts';
import { rulesLanguage } from './language.ts';
import { createInterpreter, type Told } from './owner/interpreter.ts';

export interface Advice {
  readonly assessment: Assessment | null;
  /** findings that concern the open card, as last known; null: not yet */
  readonly applicable: ReadonlySet<string> | null;
  /** a newer question is being worked on */
  readonly pending: boolean;
  /** parameter draws behind the answer shown; 0: none yet */
  readonly draws: number;
  /** the worker broke down */
  readonly failure: string | null;
}

/** Where the newest question points, while its assessment is being worked on. */
export interface Ahead {
  /** null: the assessment is the newest there is */
  readonly points: Points | null;
  /** not even that is known yet */
  readonly pending: boolean;
}

export interface Adviser {
  readonly catalogue: ReadonlySignal<Catalogue | null>;
  readonly advice: ReadonlySignal<Advice>;
  readonly ahead: ReadonlySignal<Ahead>;
  ask(record: Record): void;
  /** now, or when the question being worked on has been answered */
  onceWeighed(act: () => void): void;
  /** one assessment outside the open record, for the list of cards */
  assessOnce(record: Record): Promise<Assessment | null>;
  /** the belief after every event of a record's timeline; null: a newer one was asked for, or it cannot be told */
  lifeOf(record: Record): Promise<LifelineAnswer | null>;
  /** the order of the work: of this remedy, else of what has begun, else of the verdict's; null: the worker broke down */
  orderFor(record: Record, assessed: Assessed, remedy: string | null): Promise<WorksheetAnswer | null>;
  /** the record's assessment for an owner who reads another language; null: a newer one was asked for, or it cannot be had */
  tellIn(record: Record, language: string, draws: number): Promise<Told | null>;
  /** the rules and every answer in this language from now on */
  speak(language: string): void;
  /** another record is opened: its predecessor's answer must not be shown */
  reset(): void;
}

export type Post = Pick<Worker, 'postMessage' | 'addEventListener'>;

const NOTHING: Advice = { assessment: null, applicable: null, pending: false, draws: 0, failure: null };
const NOTHING_AHEAD: Ahead = { points: null, pending: false };
const DRAWS = 1_000;
const PAUSE_MS = 600;

export interface Manners {
  /** of the rules and every answer, to begin with */
  readonly language?: string;
  /** acts when what was just shown is on the screen; the planner must not take the processor from whoever draws it */
  readonly oncePainted?: (act: () => void) => void;
}

export function createAdviser(
  hire: () => Post,
  shop: Shop | null,
  { language: first = 'en', oncePainted = (act) => void setTimeout(act, 0) }: Manners = {},
): Adviser {
  const catalogue = signal<Catalogue | null>(null);
  const advice = signal<Advice>(NOTHING);
  const ahead = signal<Ahead>(NOTHING_AHEAD);
  const waiting = new Map<number, (assessment: Assessment | null) => void>();
  let telling: { readonly sequence: number; readonly answer: (life: LifelineAnswer | null) => void } | null = null;
  const ordering = new Map<number, (order: WorksheetAnswer | null) => void>();
  let language = first;
  /** the open record */
  let asked: Record | null = null;
  let sequence = 0;
  let newest = 0;
  /** the language of the catalogue at hand */
  let spoken: string | null = null;
  let thorough: Post | null = null;
  let pause: ReturnType<typeof setTimeout> | undefined;
  /** the newest question, until the assessing worker has been told */
  let untold: { readonly sequence: number; readonly record: Record } | null = null;
  const workers: Post[] = [];
  const assessing = start();
  const pointing = start();
  const interpreter = createInterpreter(hire, shop);

  function start(): Post {
    const worker = hire();
    worker.addEventListener('message', (event: MessageEvent<FromWorker>) => hear(event.data));
    worker.addEventListener('error', (event: ErrorEvent) =>
      hear({ type: 'failure', sequence: null, message: event.message || 'the worker could not be loaded' }),
    );
    workers.push(worker);
    tell(worker, { type: 'open', shop, language });
    return worker;
  }

  function tell(worker: Post, message: ToWorker): void {
    worker.postMessage(message);
  }

  function hear(message: FromWorker): void {
    if (message.type === 'catalogue') {
      // every worker has the same to say
      if (message.language === language && spoken !== language) {
        spoken = language;
        catalogue.value = message.catalogue;
        rulesLanguage.value = message.catalogue.language;
      }
      return;
    }
    if (message.type === 'points') {
      if (message.sequence !== newest) return;
      if (message.points === null) tellAssessing();
      else {
        ahead.value = { points: message.points, pending: false };
        oncePainted(tellAssessing);
      }
      return;
    }
    if (telling !== null && (message.sequence === telling.sequence || message.sequence === null)) {
      telling.answer(message.type === 'life' ? message.life : null);
      telling = null;
      if (message.sequence !== null) return;
    }
    // the page on the shop's repairs has a worker of its own
    if (message.type === 'life' || message.type === 'remedies' || message.type === 'weighed') return;
    if (message.type === 'order' || (message.type === 'failure' && ordering.has(message.sequence ?? 0))) {
      const answer = ordering.get(message.sequence!);
      ordering.delete(message.sequence!);
      answer?.(message.type === 'order' ? message.order : null);
      return;
    }
    const answered = message.sequence === null ? undefined : waiting.get(message.sequence);
    if (answered !== undefined) {
      waiting.delete(message.sequence!);
      answered(message.type === 'assessment' ? message.assessment : null);
      return;
    }
    if (message.sequence === null) {
      for (const giveUp of [...waiting.values(), ...ordering.values()]) giveUp(null);
      waiting.clear();
      ordering.clear();
    } else if (message.sequence !== newest) return;
    if (message.type === 'failure') {
      // the worker that only points may break where the assessment says what is wrong
      if (untold !== null && message.sequence !== null) {
        tellAssessing();
        return;
      }
      ahead.value = NOTHING_AHEAD;
      advice.value = { ...advice.value, pending: false, failure: message.message };
      return;
    }
    const { assessment, draws } = message;
    if (draws < advice.value.draws && !advice.value.pending) return;
    advice.value = {
      assessment,
      applicable: assessment.kind === 'bad-record' ? advice.value.applicable : new Set(assessment.applicable),
      pending: false,
      draws,
      failure: null,
    };
    ahead.value = NOTHING_AHEAD;
  }

  /** Once it is known where the question points: two workers at once would share one processor. */
  function tellAssessing(): void {
    if (untold === null) return;
    tell(assessing, { type: 'assess', ...untold, draws: 0, plan: true });
    untold = null;
  }

  function ask(record: Record): void {
    asked = record;
    newest = ++sequence;
    const number = newest;
    advice.value = { ...advice.value, pending: true };
    ahead.value = { points: ahead.value.points, pending: true };
    untold = { sequence: number, record };
    tell(pointing, { type: 'point', sequence: number, record });
    clearTimeout(pause);
    pause = setTimeout(() => {
      thorough ??= start();
      tell(thorough, { type: 'assess', sequence: number, record, draws: DRAWS, plan: true });
    }, PAUSE_MS);
  }

  return {
    catalogue,
    advice,
    ahead,
    ask,
    onceWeighed(act) {
      const stop = advice.subscribe(({ pending }) => {
        if (pending) return;
        // the first call comes before there is anything to stop
        queueMicrotask(() => stop());
        act();
      });
    },
    assessOnce(record) {
      const asked = ++sequence;
      return new Promise((resolve) => {
        waiting.set(asked, resolve);
        tell(assessing, { type: 'assess', sequence: asked, record, draws: 0, plan: false });
      });
    },
    orderFor(record, assessed, remedy) {
      const number = ++sequence;
      return new Promise((answer) => {
        ordering.set(number, answer);
        tell(assessing, { type: 'order', sequence: number, record, assessed, remedy });
      });
    },
    lifeOf(record) {
      telling?.answer(null);
      const asked = ++sequence;
      return new Promise((answer) => {
        telling = { sequence: asked, answer };
        tell(assessing, { type: 'life', sequence: asked, record });
      });
    },
    tellIn: interpreter.tell,
    speak(next) {
      if (next === language) return;
      language = next;
      for (const worker of workers) tell(worker, { type: 'open', shop, language });
      if (asked !== null) ask(asked);
    },
    reset() {
      asked = null;
      clearTimeout(pause);
      newest = ++sequence;
      untold = null;
      advice.value = NOTHING;
      ahead.value = NOTHING_AHEAD;
    },
  };
}
