import type { SeasonsAnswer, SeasonsJob } from './seasonsJobs.ts';
import { WorkerThread } from './workerThread.ts';

/** Surveys of one hull, judged and compared. */
export function seasonsThread(
  answered: (answer: SeasonsAnswer) => void,
): WorkerThread<SeasonsJob, SeasonsAnswer> {
  const worker = new Worker(new URL('./seasonsWorker.ts', import.meta.url), { type: 'module' });
  return new WorkerThread(worker, answered, (reason) => ({ is: 'failed', reason }));
}
