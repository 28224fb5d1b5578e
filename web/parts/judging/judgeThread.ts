import { WorkerThread } from '../../store/workerThread.ts';
import type { JudgeAsked, JudgeSaid } from './jobs.ts';

export interface JudgeThread {
  post(asked: JudgeAsked): void;
  close(): void;
}

/** Begins a thread; `broken` is called when it breaks down, or never begins. */
export type BeginThread = (
  said: (said: JudgeSaid) => void,
  broken: (reason: string) => void,
) => JudgeThread;

export const judgeThread: BeginThread = (said, broken) => {
  const worker = new Worker(new URL('./judgeWorker.ts', import.meta.url), { type: 'module' });
  return new WorkerThread<JudgeAsked, JudgeSaid | { readonly broken: string }>(
    worker,
    (answer) => ('broken' in answer ? broken(answer.broken) : said(answer)),
    (reason) => ({ broken: reason }),
  );
};
