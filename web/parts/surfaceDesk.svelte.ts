import type { Survey } from '../../src/survey/survey.ts';
import { logFilesOf } from '../store/logFiles.ts';
import type { SurfaceAnswer, SurfaceAsked } from '../store/surfaceJobs.ts';
import { surfaceThread } from '../store/surfaceThread.ts';
import type { SurfaceFound } from '../../src/survey/panels/surfaceFrom.ts';
import { reasonOf } from '../store/reasonOf.ts';

/** The surface of one survey as far as it is worked out. */
export class SurfaceDesk {
  found = $state.raw<SurfaceFound | undefined>();
  working = $state.raw(false);
  failed = $state.raw('');

  readonly #thread = surfaceThread((answer) => this.#answered(answer));
  readonly #file: (entry: string, name: string) => Promise<Blob>;
  #asked: Pick<SurfaceAsked, 'survey' | 'unit'> | undefined;
  #ask = 0;

  /** `file`: a kept file of the hull, by the entry that keeps it and its name. */
  constructor(file: (entry: string, name: string) => Promise<Blob>) {
    this.#file = file;
  }

  async ask(survey: Survey, unit: Survey['workUnit']): Promise<void> {
    if (survey === this.#asked?.survey && unit === this.#asked.unit) return;
    this.#asked = { survey, unit };
    const ask = (this.#ask += 1);
    this.failed = '';
    this.working = true;
    try {
      const files = await logFilesOf(survey, this.#file);
      if (ask === this.#ask) this.#thread.post({ ask, survey, unit, files });
    } catch (error) {
      const reason = reasonOf(error);
      this.#answered({ is: 'failed', ask, reason });
    }
  }

  close(): void {
    this.#thread.close();
  }

  #answered(answer: SurfaceAnswer): void {
    if (answer.ask !== this.#ask) return;
    this.working = false;
    if (answer.is === 'found') this.found = answer.found;
    else this.failed = answer.reason;
  }
}
