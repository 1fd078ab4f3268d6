/** The worker's manners: one answer at a time, in turn, and none for a question that a newer one of its kind has overtaken. */
import type { Points } from '../assess/points.ts';
import type { Assessed, Assessment } from '../assessment.ts';
import type { RemediesAnswer } from '../learning/answer.ts';
import type { LifelineAnswer } from '../lifeline.ts';
import type { Record } from '../record/schema.ts';
import type { Shop } from '../shop/schema.ts';
import type { WorksheetAnswer } from '../work-order/schema.ts';
import type { Catalogue } from './catalogue.ts';
import type { FromWorker, ToWorker } from './exchange.ts';

export interface Opened {
  readonly catalogue: Catalogue;
  readonly assess: (record: unknown, draws: number, plan: boolean) => Promise<Assessment>;
  readonly point: (record: unknown) => Promise<Points | null>;
  readonly life: (record: unknown) => Promise<LifelineAnswer>;
  readonly remedies: (
    records: readonly Record[],
    silentUntil: string | null,
    onProgress: (weighed: number) => void,
  ) => Promise<RemediesAnswer>;
  readonly order: (record: Record, assessed: Assessed, remedy: string | null) => Promise<WorksheetAnswer>;
}

type Question = Exclude<ToWorker, { type: 'open' }>;

/** The open card's questions, of which only the newest of a kind matters; the list of cards asks for each of its own. */
function rankOf(question: Question): number {
  if (question.type === 'point') return 3;
  if (question.type === 'life') return 1;
  if (question.type === 'order' || question.type === 'remedies') return 0;
  return question.plan ? 2 : 0;
}

export function createClerk(
  open: (shop: Shop | null, language: string) => Promise<Opened>,
  say: (message: FromWorker) => void,
) {
  let opened: Promise<Opened | null> | null = null;
  let queue: Question[] = [];
  let busy = false;

  async function openOrSay(shop: Shop | null, language: string): Promise<Opened | null> {
    try {
      const knowledge = await open(shop, language);
      say({ type: 'catalogue', language, catalogue: knowledge.catalogue });
      return knowledge;
    } catch (error) {
      say({ type: 'failure', sequence: null, message: wordsOf(error) });
      return null;
    }
  }

  async function work(): Promise<void> {
    if (busy) return;
    busy = true;
    for (let question = queue.shift(); question !== undefined; question = queue.shift()) {
      const knowledge = await opened;
      if (knowledge !== null && knowledge !== undefined) await answer(knowledge, question);
      await breathe();
    }
    busy = false;
  }

  async function answer(knowledge: Opened, question: Question): Promise<void> {
    const { sequence } = question;
    try {
      if (question.type === 'remedies') {
        const { records, silentUntil } = question;
        const onProgress = (weighed: number) => say({ type: 'weighed', sequence, weighed });
        say({ type: 'remedies', sequence, remedies: await knowledge.remedies(records, silentUntil, onProgress) });
        return;
      }
      const { record } = question;
      if (question.type === 'point') {
        say({ type: 'points', sequence, points: await knowledge.point(record) });
        return;
      }
      if (question.type === 'life') {
        say({ type: 'life', sequence, life: await knowledge.life(record) });
        return;
      }
      if (question.type === 'order') {
        say({
          type: 'order',
          sequence,
          order: await knowledge.order(question.record, question.assessed, question.remedy),
        });
        return;
      }
      const { draws, plan } = question;
      const assessment = await knowledge.assess(record, draws, plan);
      say({ type: 'assessment', sequence, draws, assessment });
    } catch (error) {
      say({ type: 'failure', sequence, message: wordsOf(error) });
    }
  }

  return {
    hear(message: ToWorker): void {
      if (message.type === 'open') {
        opened = openOrSay(message.shop, message.language);
        return;
      }
      const rank = rankOf(message);
      if (rank > 0) queue = queue.filter((waiting) => rankOf(waiting) !== rank);
      queue.push(message);
      queue.sort((a, b) => rankOf(b) - rankOf(a));
      void work();
    },
  };
}

const wordsOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** Lets messages that arrived while computing be heard. */
const breathe = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));
