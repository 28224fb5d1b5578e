import { Cancelled } from '../../store/cancelled.ts';
import type { LogProgress } from '../../store/logJobs.ts';
import { reasonOf } from '../../store/reasonOf.ts';
import {
  isAhead,
  type JudgeAnswer,
  type JudgeAnswers,
  type JudgeJob,
  type JudgeSaid,
} from './jobs.ts';
import type { Judging } from './judging.ts';
import { judgeThread, type BeginThread, type JudgeThread } from './judgeThread.ts';

interface Waiting {
  readonly ask: number;
  readonly job: JudgeJob;
  readonly progress: (progress: LogProgress) => void;
  readonly resolve: (answer: JudgeAnswer) => void;
  readonly reject: (reason: Error) => void;
}

/** Asks questions of surveys in a thread of their own, which begins with the first of them; one is answered after
 *  another. Where no thread can be had, or it broke down, the page's own thread answers; only logs, which it could not
 *  hold without standing still, are then refused. */
export class JudgeClient {
  readonly #begin: BeginThread;
  #thread: JudgeThread | undefined;
  /** Answers on the page, once there is no thread. */
  #here: Judging | undefined;
  #alone = false;
  #asks = 0;
  /** The first is being answered. */
  #waiting: Waiting[] = [];

  constructor(begin: BeginThread = judgeThread) {
    this.#begin = begin;
  }

  /** Rejects with `Cancelled` when it is stopped, and with the reason where it cannot be answered. */
  ask<Job extends JudgeJob>(
    job: Job,
    progress: (progress: LogProgress) => void = () => undefined,
  ): Promise<JudgeAnswers[Job['do']]> {
    const ask = (this.#asks += 1);
    const answered = new Promise<JudgeAnswer>((resolve, reject) => {
      this.#waiting.push({ ask, job, progress, resolve, reject });
    });
    if (this.#waiting.length === 1) this.#next();
    return answered as Promise<JudgeAnswers[Job['do']]>;
  }

  /** Ends the work at once; nothing of it is left. */
  stop(): void {
    this.#thread?.close();
    this.#thread = undefined;
    for (const { reject } of this.#waiting.splice(0)) reject(new Cancelled());
  }

  #next(): void {
    const now = this.#waiting.at(0);
    if (now === undefined) return;
    if (this.#alone) {
      void this.#answerHere(now);
      return;
    }
    try {
      this.#thread ??= this.#begin(
        (said) => this.#said(said),
        (reason) => this.#broken(reason),
      );
      this.#thread.post({ ask: now.ask, job: now.job });
    } catch (error) {
      this.#broken(reasonOf(error));
    }
  }

  #said(said: JudgeSaid): void {
    const now = this.#waiting.at(0);
    if (now?.ask !== said.ask) return;
    if (said.is === 'progress') {
      now.progress(said.progress);
      return;
    }
    this.#waiting.shift();
    if (said.is === 'answer') now.resolve(said.answer);
    else now.reject(new Error(said.reason));
    this.#next();
  }

  #broken(reason: string): void {
    this.#thread?.close();
    this.#thread = undefined;
    this.#alone = true;
    const [now] = this.#waiting;
    if (now !== undefined && hasLog(now.job)) {
      this.#waiting.shift();
      now.reject(new Error(reason));
    }
    this.#next();
  }

  async #answerHere({ ask, job, progress }: Waiting): Promise<void> {
    try {
      if (hasLog(job)) throw new Error('no thread can be had for a log');
      if (this.#here === undefined) {
        const { Judging } = await import('./judging.ts');
        this.#here = new Judging();
      }
      const answer = await this.#here.answer(job, progress);
      this.#said({ ask, is: 'answer', answer });
    } catch (error) {
      this.#said({ ask, is: 'failed', reason: reasonOf(error) });
    }
  }
}

function hasLog(job: JudgeJob): boolean {
  if (isAhead(job)) return false;
  const surveys = job.do === 'sheet' && job.before !== undefined ? [job, job.before] : [job];
  return surveys.some(({ files }) => files.length > 0);
}
