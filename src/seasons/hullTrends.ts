import { angleOver } from '../fit/movement.ts';
import type { Judgement } from '../fit/judge.ts';
import type { LineAssessment, SurveyAssessment } from '../survey/assessment.ts';
import type { Line } from '../survey/survey.ts';
import { LEAST_SHARE } from './compare.ts';
import { measureOf, portLessStarboard, type LineMeasure, type Sized } from './lineMeasure.ts';
import { matchLines, SAME_LINE_WITHIN } from './matchLines.ts';
import { portAndStarboard } from './portAndStarboard.ts';
import { touches, type Repair } from './repair.ts';
import { sameLines } from './sameLines.ts';
import { DAYS_A_YEAR, dayOf, daysOf } from './season.ts';
import { trendOf, type NoTrend, type SeasonFigure, type Trend } from './trendOf.ts';
import { standsInTheWay, type AlikeWhat, type Unlike } from './unlike.ts';
import { unlikeBetween } from './unlikeBetween.ts';

/** What is asked for; lengths in mm. */
export interface TrendOptions {
  readonly within?: number;
  /** Differences that are accepted knowingly: of every survey, or of each with the last one. */
  readonly accept?:
    | readonly AlikeWhat[]
    | ((survey: SurveyAssessment, last: SurveyAssessment) => readonly AlikeWhat[]);
  readonly repairs?: readonly Repair[];
  /** A smaller change over the time surveyed is laid to the measuring; a quarter of the last tolerance if absent. */
  readonly least?: number;
}

/** The time between two repairs of a line, or before the first, or since the last: a repair starts a new one, and the
 *  old one stays. */
export interface Baseline {
  readonly since?: Repair;
  readonly until?: Repair;
  readonly trends: readonly (Trend | NoTrend)[];
}

/** A line over the years, by the latest survey that has it, or two lines that stand alike port and starboard. */
export interface TrendSubject {
  readonly line: Line;
  /** Its partner to starboard; `line` is then the one to port. */
  readonly starboard?: Line;
  /** In order of time. */
  readonly baselines: readonly Baseline[];
}

/** A survey that a line's trend leaves out, since what differs from the last survey was not accepted. */
export interface LeftOut {
  readonly survey: SurveyAssessment;
  readonly line: Line;
  readonly unlike: readonly Unlike[];
}

export interface HullTrends {
  /** In order of time; each has a date. */
  readonly surveys: readonly SurveyAssessment[];
  /** Surveys without a date that can be read: they can be compared, and have no place in a trend. */
  readonly undated: readonly SurveyAssessment[];
  readonly lines: readonly TrendSubject[];
  readonly pairs: readonly TrendSubject[];
  readonly leftOut: readonly LeftOut[];
  /** mm. */
  readonly tolerance: number;
  readonly least: number;
}

interface Found {
  readonly day: string;
  readonly judgement: Judgement;
}

interface Followed {
  readonly line: Line;
  readonly found: readonly Found[];
}

const TAIL = 300;

/** How a hull's lines changed over its surveys, whatever order they come in. Only surveys that are alike with the last
 *  one, or whose difference is accepted, count. A line judged in parts has no single figure and counts in none. */
export function hullTrends(
  surveys: readonly SurveyAssessment[],
  options: TrendOptions = {},
): HullTrends {
  const within = options.within ?? SAME_LINE_WITHIN;
  const repairs = [...(options.repairs ?? [])].sort((a, b) => (a.date < b.date ? -1 : 1));
  const dated = surveys
    .flatMap((survey) => {
      const day = dayOf(survey.survey.date);
      return day === undefined ? [] : [{ day, survey }];
    })
    .sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0));
  const undated = surveys.filter(({ survey }) => dayOf(survey.date) === undefined);
  const last = dated.at(-1)?.survey ?? surveys.at(-1);
  if (last === undefined) throw new RangeError('one survey or more expected, got none');
  const tolerance = last.tolerance.gap;
  const least = options.least ?? LEAST_SHARE * tolerance;
  if (!(least > 0)) throw new RangeError(`least: a positive length expected, got ${least}`);
  const { accept = [] } = options;
  const leftOut: LeftOut[] = [];
  const followed = follow(dated, within, (line, survey) => {
    const { matched } = matchLines(survey.survey.lines, last.survey.lines, within);
    const unlike = unlikeBetween(survey.survey, last.survey, {
      matched,
      repairs: [],
      accept: typeof accept === 'function' ? accept(survey, last) : accept,
    }).filter((each) => standsInTheWay(each, line.name));
    if (unlike.length > 0) leftOut.push({ survey, line, unlike });
    return unlike.length === 0;
  });
  const size = { least, tolerance };
  const angle = { least: angleOver(least, TAIL) };
  return {
    surveys: dated.map(({ survey }) => survey),
    undated,
    lines: followed.map(({ line, found }) => ({
      line,
      baselines: baselinesOf(found, repairs, [line], (part) => [
        trendOf('hollow', figures(part, ownOf('hollow')), size),
        trendOf('hump', figures(part, ownOf('hump')), size),
        trendOf('tail angle', figures(part, ownOf('tail angle')), angle),
      ]),
    })),
    pairs: pairsOf(followed, within).map(([port, starboard]) => {
      const both = port.found.flatMap(({ day, judgement }) => {
        const other = starboard.found.find((each) => each.day === day);
        return other === undefined ? [] : [{ day, judgement, other: other.judgement }];
      });
      return {
        line: port.line,
        starboard: starboard.line,
        baselines: baselinesOf(both, repairs, [port.line, starboard.line], (part) => [
          trendOf('hollow, port less starboard', figures(part, lessOf('hollow')), { least }),
          trendOf('hump, port less starboard', figures(part, lessOf('hump')), { least }),
          trendOf('twist', figures(part, lessOf('tail angle')), angle),
        ]),
      };
    }),
    leftOut,
    tolerance,
    least,
  };
}

/** Every line by its latest survey, with its judgement in each survey that has it. */
function follow(
  dated: readonly { readonly day: string; readonly survey: SurveyAssessment }[],
  within: number,
  counts: (line: Line, survey: SurveyAssessment) => boolean,
): readonly Followed[] {
  const lines = dated.map(({ survey }) => survey.survey.lines);
  return sameLines(lines, within).map(({ line, seen }) => ({
    line,
    found: seen.flatMap(({ survey: at, line: here }): readonly Found[] => {
      const { day, survey } = dated[at];
      const judgement = onlyJudgement(survey.lines.filter((each) => each.line === here));
      return judgement === undefined || !counts(here, survey) ? [] : [{ day, judgement }];
    }),
  }));
}

function onlyJudgement(parts: readonly LineAssessment[]): Judgement | undefined {
  const outcome = parts.length === 1 ? parts[0].outcome : undefined;
  return outcome?.ok ? outcome.judgement : undefined;
}

function pairsOf(
  followed: readonly Followed[],
  within: number,
): readonly (readonly [Followed, Followed])[] {
  const lines = followed.map(({ line }) => line);
  return portAndStarboard(lines, within).map(
    ([port, starboard]) =>
      [followed[lines.indexOf(port)], followed[lines.indexOf(starboard)]] as const,
  );
}

function baselinesOf<F extends Found>(
  found: readonly F[],
  repairs: readonly Repair[],
  lines: readonly Line[],
  trends: (part: readonly F[]) => Baseline['trends'],
): readonly Baseline[] {
  const own = repairs.filter(
    (repair) => dayOf(repair.date) !== undefined && lines.some((line) => touches(repair, line)),
  );
  return Array.from({ length: own.length + 1 }, (_, i): Baseline => {
    const since = i > 0 ? own[i - 1] : undefined;
    const until = i < own.length ? own[i] : undefined;
    const part = found.filter(
      ({ day }) =>
        (since === undefined || day >= String(dayOf(since.date))) &&
        (until === undefined || day < String(dayOf(until.date))),
    );
    return {
      ...(since !== undefined && { since }),
      ...(until !== undefined && { until }),
      trends: trends(part),
    };
  });
}

function figures<F extends Found>(
  found: readonly F[],
  of: (found: F) => Sized | undefined,
): readonly SeasonFigure[] {
  return found.flatMap((each) => {
    const sized = of(each);
    if (sized === undefined) return [];
    return [{ day: each.day, years: daysOf(each.day) / DAYS_A_YEAR, ...sized }];
  });
}

function ownOf(measure: LineMeasure): (found: Found) => Sized | undefined {
  return ({ judgement }) => measureOf(judgement, measure);
}

function lessOf(
  measure: LineMeasure,
): (found: Found & { readonly other: Judgement }) => Sized | undefined {
  return ({ judgement, other }) => portLessStarboard(judgement, other, measure);
}
