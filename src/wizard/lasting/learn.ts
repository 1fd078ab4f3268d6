/** The records' times in service through a worker of their own, which is let go with its answer: stopping is ending it. */
import type { RemediesAnswer } from '../../learning/answer.ts';
import type { Record } from '../../record/schema.ts';
import type { Shop } from '../../shop/schema.ts';
import type { FromWorker, ToWorker } from '../exchange.ts';

export interface Learning {
  /** null: it broke off */
  readonly answer: Promise<RemediesAnswer | null>;
  stop(): void;
}

export interface LearnFrom {
  readonly records: readonly Record[];
  readonly silentUntil: string | null;
  readonly shop: Shop;
  readonly language: string;
  readonly onProgress: (weighed: number) => void;
}

const hire = () => new Worker(new URL('../worker.ts', import.meta.url), { type: 'module' });

export function learnFrom({ records, silentUntil, shop, language, onProgress }: LearnFrom): Learning {
  const worker = hire();
  let end: (answer: RemediesAnswer | null) => void;
  const answer = new Promise<RemediesAnswer | null>((resolve) => {
    end = (found) => {
      worker.terminate();
      resolve(found);
    };
  });
  worker.addEventListener('message', ({ data }: MessageEvent<FromWorker>) => {
    if (data.type === 'weighed') onProgress(data.weighed);
    else if (data.type === 'remedies') end(data.remedies);
    else if (data.type === 'failure') end(null);
  });
  worker.addEventListener('error', () => end(null));
  const send = (message: ToWorker): void => worker.postMessage(message);
  send({ type: 'open', shop, language });
  send({ type: 'remedies', sequence: 1, records, silentUntil });
  return { answer, stop: () => end(null) };
}
