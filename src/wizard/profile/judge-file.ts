/** One log after the other through a worker of its own, which is let go with its answer: stopping is ending it. */
import type { JudgedBy } from '../../assess/thermal-profile.ts';
import type { ProfileAnswer } from '../../knowledge/profile-answer.ts';
import type { FromProfileWorker, LogToJudge } from './profile-worker.ts';

export interface Judging {
  /** null: it broke off */
  readonly answer: Promise<ProfileAnswer | null>;
  stop(): void;
}

const hire = () => new Worker(new URL('./profile-worker.ts', import.meta.url), { type: 'module' });

export function judgeFile(
  file: Blob,
  by: JudgedBy,
  onProgress: (progress: { readonly lines: number; readonly share: number }) => void,
): Judging {
  const worker = hire();
  let end: (answer: ProfileAnswer | null) => void;
  const answer = new Promise<ProfileAnswer | null>((resolve) => {
    end = (found) => {
      worker.terminate();
      resolve(found);
    };
  });
  worker.addEventListener('message', ({ data }: MessageEvent<FromProfileWorker>) => {
    if (data.type === 'progress') onProgress(data);
    else end(data.type === 'answer' ? data.answer : null);
  });
  worker.addEventListener('error', () => end(null));
  worker.postMessage({ file, by } satisfies LogToJudge);
  return { answer, stop: () => end(null) };
}
