import type { RunningAnswer, RunningAsked } from './runningJobs.ts';

/** How a boat runs, worked out in a thread of its own that lives as long as the screen. */
export class RunningClient {
  readonly #worker: Worker;
  #ask = 0;

  constructor(answered: (answer: RunningAnswer) => void) {
    this.#worker = new Worker(new URL('./runningWorker.ts', import.meta.url), { type: 'module' });
    this.#worker.onmessage = ({ data }: MessageEvent<RunningAnswer>) => answered(data);
    this.#worker.onerror = ({ message }) => {
      const reason = message === '' ? 'it could not be started' : message;
      answered({ is: 'failed', ask: this.#ask, reason });
    };
  }

  post(asked: RunningAsked): void {
    this.#ask = asked.ask;
    this.#worker.postMessage(asked);
  }

  close(): void {
    this.#worker.terminate();
  }
}
