/** A thread of its own that answers one question after another, for as long as who asks lives. */
export class WorkerThread<Asked, Answer> {
  readonly #worker: Worker;
  #last: Asked | undefined;

  /** `failed`: the answer that stands for a thread that broke down, or never began. */
  constructor(
    worker: Worker,
    answered: (answer: Answer) => void,
    failed: (reason: string, last: Asked | undefined) => Answer,
  ) {
    this.#worker = worker;
    worker.onmessage = ({ data }: MessageEvent<Answer>) => answered(data);
    worker.onerror = ({ message }) => {
      answered(failed(message === '' ? 'it could not be started' : message, this.#last));
    };
  }

  post(asked: Asked): void {
    this.#last = asked;
    this.#worker.postMessage(asked);
  }

  close(): void {
    this.#worker.terminate();
  }
}
