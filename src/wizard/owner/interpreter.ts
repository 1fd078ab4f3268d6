/** The open card's assessment in another language than the interface's, for an owner who reads that one. */
import type { Tellable } from '../../letter/letter.ts';
import type { OwnerWordings } from '../../letter/owner-wordings.ts';
import type { Record } from '../../record/schema.ts';
import type { Shop } from '../../shop/schema.ts';
import type { FromWorker, ToWorker } from '../exchange.ts';

/** What a page is written from: both in one language. */
export interface Told {
  readonly assessment: Tellable;
  readonly words: OwnerWordings;
}

export interface Interpreter {
  /** null: a newer one was asked for, or it cannot be told in that language */
  tell(record: Record, language: string, draws: number): Promise<Told | null>;
}

/** One worker for each language somebody asks for: the interface's own go on answering meanwhile. */
export function createInterpreter(
  hire: () => Pick<Worker, 'postMessage' | 'addEventListener'>,
  shop: Shop | null,
): Interpreter {
  const speakers = new Map<string, Interpreter['tell']>();
  return {
    tell(record, language, draws) {
      const speaker = speakers.get(language) ?? speakerOf(language);
      speakers.set(language, speaker);
      return speaker(record, language, draws);
    },
  };

  function speakerOf(language: string): Interpreter['tell'] {
    const worker = hire();
    const send = (message: ToWorker): void => worker.postMessage(message);
    let words: OwnerWordings | null = null;
    let sequence = 0;
    let answer: (told: Told | null) => void = () => {};
    worker.addEventListener('message', (event: MessageEvent<FromWorker>) => hear(event.data));
    worker.addEventListener('error', () => giveUp());
    send({ type: 'open', shop, language });

    function hear(message: FromWorker): void {
      if (message.type === 'catalogue') {
        words = message.catalogue.owner;
        return;
      }
      if (message.type === 'failure') {
        if (message.sequence === null) giveUp();
        else if (message.sequence === sequence) answer(null);
        return;
      }
      if (message.type !== 'assessment' || message.sequence !== sequence) return;
      const { assessment } = message;
      answer(words === null || assessment.kind === 'bad-record' ? null : { assessment, words });
    }

    /** A worker that never came up is hired anew when the page is next asked for. */
    function giveUp(): void {
      speakers.delete(language);
      answer(null);
    }

    return (record, _, draws) => {
      answer(null);
      const asked = ++sequence;
      return new Promise((resolve) => {
        answer = resolve;
        send({ type: 'assess', sequence: asked, record, draws, plan: true });
      });
    };
  }
}
