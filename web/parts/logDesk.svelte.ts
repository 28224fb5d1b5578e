import { keptLogsOf } from '../../src/survey/log/withSeries.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { Cancelled, LogClient } from '../store/logClient.ts';
import { logFilesOf } from '../store/logFiles.ts';
import type { HullStore } from '../store/hullStore.svelte.ts';
import { rememberAssessment } from '../views/assessOnce.ts';
import { reasonOf } from '../store/reasonOf.ts';

export type LogState =
  | { readonly is: 'reading'; readonly rows: number; readonly all: number }
  | { readonly is: 'ready' }
  | { readonly is: 'stopped' }
  | { readonly is: 'failed'; readonly reason: string };

/** Judges a survey whose logs stand in kept files, in a thread of its own; the page asks `assessOnce` for the verdict
 *  once the state is `ready`. The same survey in words is not judged twice. */
export class LogDesk {
  state = $state.raw<LogState>({ is: 'reading', rows: 0, all: 0 });

  readonly #hull: HullStore;
  readonly #client = new LogClient();
  #asked: string | undefined;

  constructor(hull: HullStore) {
    this.#hull = hull;
  }

  /** Whether a survey's verdict must come from here. */
  static needed(survey: Survey): boolean {
    return keptLogsOf(survey).length > 0;
  }

  async ask(survey: Survey): Promise<void> {
    const key = JSON.stringify(survey);
    if (key === this.#asked) return;
    this.#asked = key;
    const all = survey.lines
      .flatMap((line) => line.placements)
      .reduce((sum, { log }) => sum + (log === undefined ? 0 : log.count), 0);
    this.state = { is: 'reading', rows: 0, all };
    try {
      const files = await logFilesOf(survey, (entry, name) => this.#hull.file(entry, name));
      const assessment = await this.#client.assess(survey, files, ({ rows }) => {
        if (this.#asked === key) this.state = { is: 'reading', rows, all };
      });
      if (this.#asked !== key) return;
      rememberAssessment(survey, assessment);
      this.state = { is: 'ready' };
    } catch (error) {
      if (this.#asked !== key) return;
      this.state =
        error instanceof Cancelled ? { is: 'stopped' } : { is: 'failed', reason: reasonOf(error) };
    }
  }

  /** Tries again after it was stopped or failed. */
  again(survey: Survey): void {
    this.#asked = undefined;
    void this.ask(survey);
  }

  stop(): void {
    this.#client.stop();
  }

  /** The page is left. */
  close(): void {
    this.#asked = undefined;
    this.#client.stop();
  }
}
