import type { SurfaceAnswer, SurfaceAsked } from './surfaceJobs.ts';

/** A bottom as one surface, worked out in a thread of its own that lives as long as the page. */
export class SurfaceClient {
  readonly #worker: Worker;
  #ask = 0;

  constructor(answered: (answer: SurfaceAnswer) => void) {
    this.#worker = new Worker(new URL('./surfaceWorker.ts', import.meta.url), { type: 'module' });
    this.#worker.onmessage = ({ data }: MessageEvent<SurfaceAnswer>) => answered(data);
    this.#worker.onerror = ({ message }) => {
      const reason = message === '' ? 'it could not be started' : message;
      answered({ is: 'failed', ask: this.#ask, reason });
    };
  }

  post(asked: SurfaceAsked): void {
    this.#ask = asked.ask;
    this.#worker.postMessage(asked);
  }

  close(): void {
    this.#worker.terminate();
  }
}
