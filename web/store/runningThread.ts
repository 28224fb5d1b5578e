import type { RunningAnswer, RunningAsked } from './runningJobs.ts';
import { WorkerThread } from './workerThread.ts';

/** How a boat runs, worked out. */
export function runningThread(
  answered: (answer: RunningAnswer) => void,
): WorkerThread<RunningAsked, RunningAnswer> {
  const worker = new Worker(new URL('./runningWorker.ts', import.meta.url), { type: 'module' });
  return new WorkerThread(worker, answered, (reason, last) => ({
    is: 'failed',
    ask: last === undefined ? 0 : last.ask,
    reason,
  }));
}
