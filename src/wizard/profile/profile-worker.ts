/** Reads and judges a thermocouple log away from the screens, however long it is, and says how far it has come. */
import { decodeLog, type JudgedBy, judgeLog } from '../../assess/thermal-profile.ts';
import type { ProfileAnswer } from '../../knowledge/profile-answer.ts';

export interface LogToJudge {
  readonly file: Blob;
  readonly by: JudgedBy;
}

export type FromProfileWorker =
  | { readonly type: 'progress'; readonly lines: number; readonly share: number }
  | { readonly type: 'answer'; readonly answer: ProfileAnswer }
  | { readonly type: 'failure'; readonly message: string };

const say = (message: FromProfileWorker) => self.postMessage(message);

async function* bytesOf(file: Blob): AsyncGenerator<Uint8Array> {
  const reader = file.stream().getReader();
  for (let part = await reader.read(); !part.done; part = await reader.read()) yield part.value;
}

self.addEventListener('message', async ({ data: { file, by } }: MessageEvent<LogToJudge>) => {
  try {
    const onProgress = ({ lines, characters }: { lines: number; characters: number }) =>
      say({ type: 'progress', lines, share: file.size > 0 ? Math.min(1, characters / file.size) : 1 });
    say({ type: 'answer', answer: await judgeLog(decodeLog(bytesOf(file)), by, { read: { onProgress } }) });
  } catch (error) {
    say({ type: 'failure', message: error instanceof Error ? error.message : String(error) });
  }
});
