import { Cancelled } from './cancelled.ts';
import type { PhotoAnswer, PhotoJob, Refused, ScaledPicture } from './photoJobs.ts';

const ANOTHER = 'another answer came than was asked for';

/** Scales pictures down, and checks kept ones, in a thread of its own, one at a time. */
export class PhotoClient {
  #worker: Worker | undefined;
  #refuse: ((reason: Error) => void) | undefined;

  /** A picture as it will be kept, or why it cannot be. Rejects with `Cancelled` where it was stopped, and where the
   *  browser has not what it takes. */
  async scale(file: File): Promise<ScaledPicture | Refused> {
    const answer = await this.#ask({ do: 'scale', file });
    if (answer.is === 'scaled') return answer.picture;
    if (answer.is === 'refused') return answer;
    throw new Error(answer.is === 'failed' ? answer.reason : ANOTHER);
  }

  /** How a kept picture differs from what its entry says; undefined where it does not. Rejects as `scale` does. */
  async check(data: Blob, kept: ScaledPicture['kept']): Promise<Refused | undefined> {
    const answer = await this.#ask({ do: 'check', data, kept });
    if (answer.is === 'as it was') return undefined;
    if (answer.is === 'refused') return answer;
    throw new Error(answer.is === 'failed' ? answer.reason : ANOTHER);
  }

  /** Ends the work at once; nothing of it is left. */
  stop(): void {
    this.#worker?.terminate();
    this.#worker = undefined;
    this.#refuse?.(new Cancelled());
    this.#refuse = undefined;
  }

  #ask(job: PhotoJob): Promise<PhotoAnswer> {
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
      worker.postMessage(job);
    });
  }
}
