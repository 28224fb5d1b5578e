import type { SurfaceAnswer, SurfaceAsked } from './surfaceJobs.ts';
import { WorkerThread } from './workerThread.ts';

/** A bottom as one surface, worked out. */
export function surfaceThread(
  answered: (answer: SurfaceAnswer) => void,
): WorkerThread<SurfaceAsked, SurfaceAnswer> {
  const worker = new Worker(new URL('./surfaceWorker.ts', import.meta.url), { type: 'module' });
  return new WorkerThread(worker, answered, (reason, last) => ({
    is: 'failed',
    ask: last === undefined ? 0 : last.ask,
    reason,
  }));
}
