import type { SeasonsAnswer, SeasonsJob } from './seasonsJobs.ts';

/** Surveys of one hull, judged and compared in a thread of its own that lives as long as the screen. */
export class SeasonsClient {
  readonly #worker: Worker;

  constructor(answered: (answer: SeasonsAnswer) => void) {
    this.#worker = new Worker(new URL('./seasonsWorker.ts', import.meta.url), { type: 'module' });
    this.#worker.onmessage = ({ data }: MessageEvent<SeasonsAnswer>) => answered(data);
    this.#worker.onerror = ({ message }) => {
      answered({ is: 'failed', reason: message === '' ? 'it could not be started' : message });
    };
  }

  post(job: SeasonsJob): void {
    this.#worker.postMessage(job);
  }

  close(): void {
    this.#worker.terminate();
  }
}
