/* eslint-disable svelte/prefer-svelte-reactivity -- state here is replaced, never changed in place */
import type { CompareOptions } from '../../src/seasons/compare.ts';
import type { ToldComparison, ToldProfile, ToldTrends } from '../../src/seasons/told.ts';
import { keptLogsOf } from '../../src/survey/log/withSeries.ts';
import type { Survey } from '../../src/survey/survey.ts';
import { logFilesOf } from '../store/logFiles.ts';
import type { CompareAsked, SeasonsAnswer, TrendsAsked } from '../store/seasonsJobs.ts';
import { seasonsThread } from '../store/seasonsThread.ts';
import { reasonOf } from '../store/reasonOf.ts';

export interface Season {
  readonly key: string;
  readonly survey: Survey;
}

/** What is known so far of a hull's seasons, worked out in another thread as it is asked for. What was asked in the
 *  same words is not asked again. */
export class SeasonsDesk {
  /** By the survey's key; absent while it is being judged. */
  profiles = $state.raw<ReadonlyMap<string, readonly ToldProfile[]>>(new Map());
  /** Why a survey could not be judged, by key. */
  notJudged = $state.raw<ReadonlyMap<string, string>>(new Map());
  comparison = $state.raw<ToldComparison | undefined>();
  /** The comparison shown is not yet the one that was asked for last. */
  comparing = $state.raw(true);
  trends = $state.raw<ToldTrends | undefined>();
  failed = $state.raw('');

  readonly #thread = seasonsThread((answer) => this.#answered(answer));
  readonly #file: (entry: string, name: string) => Promise<Blob>;
  readonly #known = new Map<string, string>();
  #asked = { order: '', compare: '', trends: '' };
  #pair = '';
  #ask = { compare: 0, trends: 0, figures: 0 };
  #figures: ((csv: string) => void) | undefined;

  /** `file`: a kept file of the hull, by the entry that keeps it and its name. */
  constructor(file: (entry: string, name: string) => Promise<Blob>) {
    this.#file = file;
  }

  /** All surveys of the hull, in order of time. */
  async judge(seasons: readonly Season[]): Promise<void> {
    const fresh = seasons.filter(({ key, survey }) => {
      const text = JSON.stringify(survey);
      if (this.#known.get(key) === text) return false;
      this.#known.set(key, text);
      return true;
    });
    const order = seasons.map(({ key }) => key);
    if (fresh.length === 0 && order.join() === this.#asked.order) return;
    this.#asked = { ...this.#asked, order: order.join() };
    const plain = fresh.filter(({ survey }) => keptLogsOf(survey).length === 0);
    this.#thread.post({
      do: 'judge',
      order,
      given: plain.map((season) => ({ ...season, files: [] })),
    });
    for (const season of fresh) {
      if (plain.includes(season)) continue;
      try {
        const given = { ...season, files: await logFilesOf(season.survey, this.#file) };
        this.#thread.post({ do: 'judge', order, given: [given] });
      } catch (error) {
        const reason = reasonOf(error);
        this.notJudged = new Map([...this.notJudged, [season.key, reason]]);
      }
    }
  }

  compare(asked: Omit<CompareAsked, 'ask'> & { readonly options: CompareOptions }): void {
    const text = JSON.stringify(asked);
    if (text === this.#asked.compare) return;
    this.#asked = { ...this.#asked, compare: text };
    // Another pair's figures would be taken for this one's.
    if (asked.pair.join() !== this.#pair) this.comparison = undefined;
    this.#pair = asked.pair.join();
    this.comparing = true;
    const ask = (this.#ask.compare += 1);
    this.#thread.post({ do: 'compare', ask, ...asked });
  }

  follow(asked: Omit<TrendsAsked, 'ask'>): void {
    const text = JSON.stringify(asked);
    if (text === this.#asked.trends) return;
    this.#asked = { ...this.#asked, trends: text };
    const ask = (this.#ask.trends += 1);
    this.#thread.post({ do: 'trends', ask, ...asked });
  }

  /** Every figure as CSV, once all surveys are judged. */
  figures(within: number): Promise<string> {
    const ask = (this.#ask.figures += 1);
    return new Promise((resolve) => {
      this.#figures = resolve;
      this.#thread.post({ do: 'figures', ask, within });
    });
  }

  close(): void {
    this.#thread.close();
  }

  #answered(answer: SeasonsAnswer): void {
    if (answer.is === 'judged') {
      this.profiles = new Map([...this.profiles, [answer.key, answer.profiles]]);
    } else if (answer.is === 'not judged') {
      this.notJudged = new Map([...this.notJudged, [answer.key, answer.reason]]);
    } else if (answer.is === 'failed') {
      this.failed = answer.reason;
      this.comparing = false;
    } else if (answer.is === 'compared' && answer.ask === this.#ask.compare) {
      this.comparison = answer.comparison;
      this.comparing = false;
    } else if (answer.is === 'trends' && answer.ask === this.#ask.trends) {
      this.trends = answer.trends;
    } else if (answer.is === 'figures' && answer.ask === this.#ask.figures) {
      this.#figures?.(answer.csv);
    }
  }
}
