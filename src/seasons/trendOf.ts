import { mannKendall, SURVEYS_FOR_RANKS, type MannKendall } from '../fit/mannKendall.ts';
import { theilSen, type TheilSen } from '../fit/theilSen.ts';
import { fitWeightedLine, reaches, widening, type WeightedLine } from '../fit/weightedLine.ts';
import { DAYS_A_YEAR, showDay } from './season.ts';

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

/** When a hollow or hump will reach the tolerance, if it goes on as it did; days in ISO 8601, with 95 % between the
 *  earliest and the latest. */
export type Reach =
  | { readonly when: 'no trend shown' }
  | { readonly when: 'beyond already' }
  /** It lessens, or stands still as far as is known. */
  | { readonly when: 'not on this course' }
  /** `latest` is absent where the calendar ends before it. */
  | { readonly when: 'between'; readonly earliest: string; readonly latest?: string };

/** Order by itself, without asking how large or how sure each figure is. */
export interface RankTrend {
  readonly ok: true;
  readonly theilSen: TheilSen;
  readonly mannKendall: MannKendall;
}

export interface NoRankTrend {
  readonly ok: false;
  readonly reason: 'too few surveys' | 'all alike';
  /** Surveys that are needed for an order to be out of the ordinary at 95 %. */
  readonly needed: number;
}

export interface Trend {
  readonly ok: true;
  readonly measure: Measure;
  readonly unit: 'mm' | '°';
  readonly figures: readonly SeasonFigure[];
  /** Against years since 1970. */
  readonly line: WeightedLine;
  /** A year's change, its standard uncertainty, widened where the surveys stand farther off a line than they should,
   *  and the interval of 95 %. */
  readonly rate: {
    readonly perYear: number;
    readonly u: number;
    readonly interval: readonly [number, number];
  };
  /** Whether the surveys lie on a line within their uncertainties. */
  readonly steady: boolean;
  /** Proven not to be level, and by more than the least change that counts over the time surveyed. */
  readonly shown: boolean;
  readonly ranks: RankTrend | NoRankTrend;
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

/** Surveys that a trend needs. */
export const SURVEYS_FOR_TREND = 3;

const K95 = 1.96;

/** The trend of one measure over surveys, in any order. `least`: the change over the time surveyed that counts, in the
 *  measure's unit. `tolerance`: the size that must not be passed, mm; where absent nothing is said of reaching it.
 *  Weighted line through figures of known uncertainty; Theil-Sen slope and Mann-Kendall test from five surveys. */
export function trendOf(
  measure: Measure,
  figures: readonly SeasonFigure[],
  { least, tolerance }: { readonly least: number; readonly tolerance?: number },
): Trend | NoTrend {
  const ordered = [...figures].sort((a, b) => a.years - b.years);
  const refuse = (reason: NoTrend['reason']): NoTrend => ({
    ok: false,
    measure,
    reason,
    figures: ordered,
    needed: SURVEYS_FOR_TREND,
  });
  if (ordered.length < SURVEYS_FOR_TREND) return refuse('too few surveys');
  const years = ordered.map((f) => f.years);
  const values = ordered.map((f) => f.value);
  const line = fitWeightedLine(
    years,
    values,
    ordered.map((f) => f.u),
  );
  if (!line.ok) return refuse('one day only');
  const u = line.slopeUncertainty * widening(line);
  const perYear = line.slope;
  const span = line.domain[1] - line.domain[0];
  const shown = Math.abs(perYear) > K95 * u && Math.abs(perYear) * span > least;
  return {
    ok: true,
    measure,
    unit: measure === 'tail angle' || measure === 'twist' ? '°' : 'mm',
    figures: ordered,
    line,
    rate: { perYear, u, interval: [perYear - K95 * u, perYear + K95 * u] },
    steady: line.chiSquare <= chiSquare95(line.dof),
    shown,
    ranks: ranksOf(years, values),
    ...(tolerance !== undefined && { reach: reachOf(line, shown, tolerance, values) }),
  };
}

function ranksOf(years: readonly number[], values: readonly number[]): Trend['ranks'] {
  if (values.length < SURVEYS_FOR_RANKS) {
    return { ok: false, reason: 'too few surveys', needed: SURVEYS_FOR_RANKS };
  }
  const [slope, order] = [theilSen(years, values), mannKendall(years, values)];
  if (!slope.ok || !order.ok) {
    return { ok: false, reason: 'all alike', needed: SURVEYS_FOR_RANKS };
  }
  return { ok: true, theilSen: slope, mannKendall: order };
}

function reachOf(
  line: WeightedLine,
  shown: boolean,
  tolerance: number,
  values: readonly number[],
): Reach {
  if (values[values.length - 1] > tolerance) return { when: 'beyond already' };
  if (!shown) return { when: 'no trend shown' };
  if (line.slope < 0) return { when: 'not on this course' };
  const stretch = reaches(line, tolerance, K95 * widening(line));
  if (!stretch.ok) return { when: 'no trend shown' };
  const from = Math.max(stretch.from, line.domain[1]);
  const earliest = showDay(from * DAYS_A_YEAR);
  if (earliest === undefined) return { when: 'not on this course' };
  const latest = showDay(Math.max(from, stretch.to) * DAYS_A_YEAR);
  return { when: 'between', earliest, ...(latest !== undefined && { latest }) };
}

/** What χ² stays below 95 times of 100. Source: Wilson and Hilferty (1931), Proc. Natl. Acad. Sci. 17, 684; within
 *  3 % from one degree of freedom up. */
function chiSquare95(dof: number): number {
  const part = 2 / (9 * dof);
  return dof * (1 - part + 1.6449 * Math.sqrt(part)) ** 3;
}
