import { SURVEYS_FOR_RANKS } from '../fit/mannKendall.ts';
import { listed } from '../survey/sentence.ts';
import type { Baseline, HullTrends, TrendSubject } from '../seasons/hullTrends.ts';
import { RANKS_WAIT, trendWords } from '../seasons/trendWords.ts';
import { showLine, showTolerance, type WorkUnit } from '../survey/figures.ts';

/** Trends for people: which surveys count, then each line and each pair of lines in words. */
export function trendsText(all: HullTrends, unit: WorkUnit): string {
  const { surveys, undated, lines, pairs, leftOut, tolerance } = all;
  const hull = surveys.at(-1)?.survey.hull;
  const dates = surveys.map(({ survey }) => String(survey.date));
  const head = [
    `${hull === undefined ? '' : `${hull}: `}${dates.length} dated survey${dates.length === 1 ? '' : 's'}${dates.length === 0 ? '' : `, ${listed(dates)}`}`,
    `Tolerance ${showTolerance(tolerance, unit)}. What follows a ± is what the figure may be out by (about 95 %).`,
    ...(surveys.length < SURVEYS_FOR_RANKS ? [RANKS_WAIT] : []),
    ...(undated.length > 0
      ? [`Left out, without a date that can be read: ${undated.length} of the surveys.`]
      : []),
    ...leftOut.map(
      ({ survey, line, unlike }) =>
        `Left out of ${line.name}: ${survey.survey.date ?? ''}, since it differs from the last survey in ${listed(unlike.map(({ what }) => what))}.`,
    ),
  ];
  const said = lines.flatMap((subject) => subjectText(subject, tolerance, unit));
  const between = pairs.flatMap((subject) => subjectText(subject, tolerance, unit));
  const untied =
    'Lines are not tied to one another: a bottom that leans as a whole cannot be seen, and twist is the difference of the tails’ angles against the bottom ahead of each.';
  return [
    head.join('\n'),
    ...said,
    ...(between.length > 0 ? [`Port against starboard. ${untied}`, ...between] : []),
  ].join('\n\n');
}

function subjectText(
  { line, starboard, baselines }: TrendSubject,
  tolerance: number,
  unit: WorkUnit,
): readonly string[] {
  const name =
    starboard === undefined
      ? `${line.name} (${showLine(line.side, line.offset, unit)})`
      : `${line.name} and ${starboard.name}`;
  return baselines.map((baseline) => {
    const said = baseline.trends.map((trend) => {
      const { word, findings } = trendWords(trend, tolerance, unit);
      const measure = trend.measure.charAt(0).toUpperCase() + trend.measure.slice(1);
      return `  ${measure}: ${word}. ${findings.join(' ')}`;
    });
    return [`${name}${periodWords(baseline)}`, ...said].join('\n');
  });
}

function periodWords({ since, until }: Baseline): string {
  const parts = [
    ...(since ? [`since the repair of ${since.date} (${since.what})`] : []),
    ...(until ? [`before the repair of ${until.date} (${until.what})`] : []),
  ];
  return parts.length === 0 ? '' : `, ${parts.join(' and ')}`;
}
