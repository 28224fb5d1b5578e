import { Cancelled } from './logClient.ts';
import type { PhotoAnswer, Refused, ScaledPicture } from './photoJobs.ts';

/** Scales pictures down in a thread of its own, one at a time. */
export class PhotoClient {
  #worker: Worker | undefined;
  #refuse: ((reason: Error) => void) | undefined;

  /** A picture as it will be kept, or why it cannot be. Rejects with `Cancelled` where it was stopped, and where the
   *  browser has not what it takes. */
  async scale(file: File): Promise<ScaledPicture | Refused> {
    const answer = await this.#ask(file);
    if (answer.is === 'failed') throw new Error(answer.reason);
    return answer.is === 'scaled' ? answer.picture : answer;
  }

  /** Ends the work at once; nothing of it is left. */
  stop(): void {
    this.#worker?.terminate();
    this.#worker = undefined;
    this.#refuse?.(new Cancelled());
    this.#refuse = undefined;
  }

  #ask(file: File): Promise<PhotoAnswer> {
    if (this.#refuse !== undefined) this.stop();
    this.#worker ??= new Worker(new URL('./photoWorker.ts', import.meta.url), { type: 'module' });
    const worker = this.#worker;
    return new Promise((resolve, reject) => {
      this.#refuse = reject;
      worker.onmessage = ({ data }: MessageEvent<PhotoAnswer>) => {
        this.#refuse = undefined;
        resolve(data);
      };
      worker.onerror = (event) => {
        this.#refuse = undefined;
        const none = 'the part that scales pictures could not be started';
        reject(new Error(event.message === '' ? none : event.message));
      };
      worker.postMessage(file);
    });
  }
}
