import type { SurveyAssessment } from '../../src/survey/assessment.ts';
import { takeOver } from '../../src/survey/log/handOver.ts';
import type { Survey } from '../../src/survey/survey.ts';
import type { FileRead, KeptFile, LogAnswer, LogJob, LogProgress } from './logJobs.ts';

/** Thrown where a person stopped the work. */
export class Cancelled extends Error {
  constructor() {
    super('stopped');
  }
}

/** Work in a thread of its own, one job at a time. */
export class LogClient {
  #worker: Worker | undefined;
  #refuse: ((reason: Error) => void) | undefined;

  /** Reads a CSV file of any size. `given`: units by column, as "1/32 in". */
  async read(
    file: Blob,
    given: Readonly<Record<string, string>>,
    progress: (progress: LogProgress) => void,
  ): Promise<FileRead> {
    const answer = await this.#ask({ do: 'read', file, given }, progress);
    if (answer.is !== 'read') throw new Error('another answer came than was asked for');
    return answer.read;
  }

  /** Judges a survey whose logs stand in kept files. Files once read stay read while this lives. */
  async assess(
    survey: Survey,
    files: readonly KeptFile[],
    progress: (progress: LogProgress) => void,
  ): Promise<SurveyAssessment> {
    const answer = await this.#ask({ do: 'assess', survey, files }, progress);
    if (answer.is !== 'assessed') throw new Error('another answer came than was asked for');
    return takeOver(answer.assessment);
  }

  /** Ends the work at once; nothing of it is left. */
  stop(): void {
    this.#worker?.terminate();
    this.#worker = undefined;
    this.#refuse?.(new Cancelled());
    this.#refuse = undefined;
  }

  #ask(job: LogJob, progress: (progress: LogProgress) => void): Promise<LogAnswer> {
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
        else resolve(data);
      };
      worker.onerror = (event) => {
        settle();
        reject(new Error(event.message === '' ? 'the reader could not be started' : event.message));
      };
      worker.postMessage(job);
    });
  }
}
