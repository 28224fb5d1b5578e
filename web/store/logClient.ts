import { Cancelled } from './cancelled.ts';
import type { FileRead, LogAnswer, LogJob, LogProgress } from './logJobs.ts';

/** Work in a thread of its own, one job at a time. */
export class LogClient {
  #worker: Worker | undefined;
  #refuse: ((reason: Error) => void) | undefined;

  /** Reads a CSV file of any size. `given`: units by column, as "1/32 in". */
  read(
    file: Blob,
    given: Readonly<Record<string, string>>,
    progress: (progress: LogProgress) => void,
  ): Promise<FileRead> {
    return this.#ask({ file, given }, progress);
  }

  /** Ends the work at once; nothing of it is left. */
  stop(): void {
    this.#worker?.terminate();
    this.#worker = undefined;
    this.#refuse?.(new Cancelled());
    this.#refuse = undefined;
  }

  #ask(job: LogJob, progress: (progress: LogProgress) => void): Promise<FileRead> {
    if (this.#refuse !== undefined) this.stop();
    this.#worker ??= new Worker(new URL('./logWorker.ts', import.meta.url), { type: 'module' });
    const worker = this.#worker;
    return new Promise((resolve, reject) => {
      this.#refuse = reject;
      const settle = (): void => {
        this.#refuse = undefined;
      };
      worker.onmessage = ({ data }: MessageEvent<LogAnswer>) => {
        if (data.is === 'progress') {
          progress(data.progress);
          return;
        }
        settle();
        if (data.is === 'failed') reject(new Error(data.reason));
        else resolve(data.read);
      };
      worker.onerror = (event) => {
        settle();
        reject(new Error(event.message === '' ? 'the reader could not be started' : event.message));
      };
      worker.postMessage(job);
    });
  }
}
