import type { MannKendall } from '../fit/mannKendall.ts';
import type { TheilSen } from '../fit/theilSen.ts';
import type { WeightedLine } from '../fit/weightedLine.ts';

/** What is followed over the years: of one line its counted hollow, hump and tail angle; of two lines that stand
 *  alike port and starboard, port less starboard of each. Lines are not tied to one another, so that what leans as a
 *  whole cannot be known: `twist` is what can, the difference of the tails' angles against the bottom ahead of each. */
export const MEASURES = [
  'hollow',
  'hump',
  'tail angle',
  'hollow, port less starboard',
  'hump, port less starboard',
  'twist',
] as const;

export type Measure = (typeof MEASURES)[number];

/** One survey's figure. `value` and `u` in mm, or degrees for tail angle and twist. */
export interface SeasonFigure {
  /** ISO day, and the same in years since 1970. */
  readonly day: string;
  readonly years: number;
  readonly value: number;
  readonly u: number;
}

/** When a measure will reach the tolerance, as the line says, if it goes on as it did. Days in ISO 8601. */
export type Reach =
  | { readonly when: 'no trend shown' }
  | { readonly when: 'beyond already'; readonly since?: string }
  | { readonly when: 'not on this course' }
  /** `latest` is absent where no last day can be given. */
  | { readonly when: 'between'; readonly earliest: string; readonly latest?: string };

/** Order by itself, without asking how large or how sure each figure is; from five surveys. */
export interface RankTrend {
  readonly theilSen: TheilSen;
  readonly mannKendall: MannKendall;
}

export interface Trend {
  readonly ok: true;
  readonly measure: Measure;
  readonly unit: 'mm' | '°';
  readonly figures: readonly SeasonFigure[];
  readonly line: WeightedLine;
  /** A year's change, its standard uncertainty, widened where the surveys stand farther off a line than they should,
   *  and the interval of 95 %. */
  readonly rate: {
    readonly perYear: number;
    readonly u: number;
    readonly interval: readonly [number, number];
  };
  /** Whether the surveys lie on a line within their uncertainties; absent where two cannot say. */
  readonly steady: boolean;
  /** Proven not to be level, and by more than the least change that counts over the time surveyed. */
  readonly shown: boolean;
  readonly ranks: RankTrend | { readonly needed: number };
  /** Only for a hollow or a hump: a tolerance speaks of nothing else. */
  readonly reach?: Reach;
}

/** Two surveys give a change, not a trend. */
export interface NoTrend {
  readonly ok: false;
  readonly measure: Measure;
  readonly reason: 'too few surveys' | 'one day only';
  readonly figures: readonly SeasonFigure[];
  readonly needed: number;
}
