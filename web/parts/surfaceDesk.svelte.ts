import { keptLogsOf } from '../../src/survey/log/withSeries.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { SurfaceClient } from '../store/surfaceClient.ts';
import type { SurfaceAnswer } from '../store/surfaceJobs.ts';
import type { SurfaceFound } from '../../src/survey/panels/surfaceFrom.ts';

/** The surface of one survey as far as it is worked out. */
export class SurfaceDesk {
  found = $state.raw<SurfaceFound | undefined>();
  working = $state.raw(false);
  failed = $state.raw('');

  readonly #client: SurfaceClient;
  readonly #file: (entry: string, name: string) => Promise<Blob>;
  #asked: Survey | undefined;
  #ask = 0;

  /** `file`: a kept file of the hull, by the entry that keeps it and its name. */
  constructor(file: (entry: string, name: string) => Promise<Blob>) {
    this.#file = file;
    this.#client = new SurfaceClient((answer) => this.#answered(answer));
  }

  async ask(survey: Survey, unit: Survey['workUnit']): Promise<void> {
    if (survey === this.#asked) return;
    this.#asked = survey;
    const ask = (this.#ask += 1);
    this.failed = '';
    this.working = true;
    try {
      // A file that holds several lines is one entry, and one file.
      const all = keptLogsOf(survey);
      const logs = all.filter(
        ({ entry }, at) => all.findIndex((each) => each.entry === entry) === at,
      );
      const files = await Promise.all(
        logs.map(async ({ entry, name, sha256, given }) => ({
          entry,
          sha256,
          given,
          data: await this.#file(entry, name),
        })),
      );
      if (ask === this.#ask) this.#client.post({ ask, survey, unit, files });
    } catch (error) {
      const reason = error instanceof Error ? error.message : String(error);
      this.#answered({ is: 'failed', ask, reason });
    }
  }

  close(): void {
    this.#client.close();
  }

  #answered(answer: SurfaceAnswer): void {
    if (answer.ask !== this.#ask) return;
    this.working = false;
    if (answer.is === 'found') this.found = answer.found;
    else this.failed = answer.reason;
  }
}
