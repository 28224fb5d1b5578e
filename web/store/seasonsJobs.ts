import type { AlikeWhat } from '../../src/seasons/unlike.ts';
import type { CompareOptions } from '../../src/seasons/compare.ts';
import type { TrendOptions } from '../../src/seasons/hullTrends.ts';
import type { ToldComparison, ToldProfile, ToldTrends } from '../../src/seasons/told.ts';
import type { WorkUnit } from '../../src/survey/figures.ts';
import type { Survey } from '../../src/survey/survey.ts';
import type { KeptFile } from './logJobs.ts';

/** A survey that is to be judged, with the kept files of its logs. */
export interface SeasonGiven {
  readonly key: string;
  readonly survey: Survey;
  readonly files: readonly KeptFile[];
}

export interface CompareAsked {
  readonly ask: number;
  readonly pair: readonly [first: string, second: string];
  readonly options: CompareOptions;
  readonly unit: WorkUnit;
}

export interface TrendsAsked {
  readonly ask: number;
  readonly options: Omit<TrendOptions, 'accept'>;
  /** What is accepted of each survey with the last one, by key. */
  readonly accept: Readonly<Record<string, readonly AlikeWhat[]>>;
}

export interface FiguresAsked {
  readonly ask: number;
  readonly within: number;
}

/** `order`: the keys of all surveys there are, in order of time; `given`: those that are new or say something else. */
export type SeasonsJob =
  | {
      readonly do: 'judge';
      readonly order: readonly string[];
      readonly given: readonly SeasonGiven[];
    }
  | ({ readonly do: 'compare' } & CompareAsked)
  | ({ readonly do: 'trends' } & TrendsAsked)
  | ({ readonly do: 'figures' } & FiguresAsked);

export type SeasonsAnswer =
  | { readonly is: 'judged'; readonly key: string; readonly profiles: readonly ToldProfile[] }
  | { readonly is: 'not judged'; readonly key: string; readonly reason: string }
  | { readonly is: 'compared'; readonly ask: number; readonly comparison: ToldComparison }
  | { readonly is: 'trends'; readonly ask: number; readonly trends: ToldTrends }
  | { readonly is: 'figures'; readonly ask: number; readonly csv: string }
  | { readonly is: 'failed'; readonly reason: string };
