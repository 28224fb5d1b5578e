import type { SurveyTail } from '../../src/running/tailOfSurvey.ts';
import type { NoLoad } from '../../src/running/weights/loads.ts';
import type { WhatIf } from '../../src/running/whatIf/whatIf.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { logFilesOf } from '../store/logFiles.ts';
import type { RunningAnswer, RunningAsked } from '../store/runningJobs.ts';
import { runningThread } from '../store/runningThread.ts';
import { reasonOf } from '../store/reasonOf.ts';

export type RunningQuestion = Omit<RunningAsked, 'ask' | 'survey'> & {
  readonly survey?: { readonly key: string; readonly survey: Survey };
};

/** How a hull runs as far as it is worked out. What was asked in the same words is not asked again. */
export class RunningDesk {
  found = $state.raw<WhatIf | NoLoad | undefined>();
  tail = $state.raw<SurveyTail | undefined>();
  /** What is shown is not yet the answer to what was asked last. */
  working = $state.raw(false);
  failed = $state.raw('');

  readonly #thread = runningThread((answer) => this.#answered(answer));
  readonly #file: (entry: string, name: string) => Promise<Blob>;
  #asked = '';
  #ask = 0;

  /** `file`: a kept file of the hull, by the entry that keeps it and its name. */
  constructor(file: (entry: string, name: string) => Promise<Blob>) {
    this.#file = file;
  }

  async ask({ survey, ...question }: RunningQuestion): Promise<void> {
    const text = JSON.stringify([question, survey]);
    if (text === this.#asked) return;
    this.#asked = text;
    const ask = (this.#ask += 1);
    this.failed = '';
    this.working = question.boat !== undefined;
    if (question.boat === undefined) this.found = undefined;
    if (survey === undefined) this.tail = undefined;
    try {
      const given = survey && { ...survey, files: await logFilesOf(survey.survey, this.#file) };
      if (ask === this.#ask) {
        this.#thread.post({ ask, ...question, ...(given && { survey: given }) });
      }
    } catch (error) {
      const reason = reasonOf(error);
      this.#answered({ is: 'failed', ask, reason });
    }
  }

  close(): void {
    this.#thread.close();
  }

  #answered(answer: RunningAnswer): void {
    if (answer.ask !== this.#ask) return;
    if (answer.is === 'tail') {
      this.tail = answer.tail;
      return;
    }
    this.working = false;
    if (answer.is === 'found') this.found = answer.found;
    else this.failed = answer.reason;
  }
}
