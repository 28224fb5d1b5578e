import type { Repair } from '../seasons/repair.ts';
import type { HullTrends, TrendSubject } from '../seasons/hullTrends.ts';
import type { NoTrend, Trend } from '../seasons/trendOf.ts';
import { rounded } from './rounded.ts';

/** Trends as one plain object: mm and degrees, a year each; days in ISO 8601. */
export function trendsJson({ surveys, undated, lines, pairs, leftOut, ...asked }: HullTrends) {
  return {
    tolerance: rounded(asked.tolerance, 4),
    least: rounded(asked.least, 4),
    surveys: surveys.map(({ survey }) => survey.date),
    undated: undated.length,
    leftOut: leftOut.map(({ survey, line, unlike }) => ({
      date: survey.survey.date,
      line: line.name,
      unlike: unlike.map(({ what }) => what),
    })),
    lines: lines.map(subjectJson),
    pairs: pairs.map(subjectJson),
  };
}

function subjectJson({ line, starboard, baselines }: TrendSubject) {
  return {
    ...(starboard === undefined
      ? { line: line.name }
      : { port: line.name, starboard: starboard.name }),
    offset: rounded(line.offset, 3),
    baselines: baselines.map(({ since, until, trends }) => ({
      ...(since && { since: repairJson(since) }),
      ...(until && { until: repairJson(until) }),
      trends: trends.map(trendJson),
    })),
  };
}

function repairJson({ date, what }: Repair) {
  return { date, what };
}

function trendJson(trend: Trend | NoTrend) {
  const figures = trend.figures.map(({ day, value, u }) => ({
    day,
    value: rounded(value, 4),
    u: rounded(u, 4),
  }));
  if (!trend.ok) {
    const { measure, reason, needed } = trend;
    return { measure, trend: 'none', reason, needed, figures };
  }
  const { measure, unit, rate, shown, steady, ranks, reach } = trend;
  return {
    measure,
    trend: shown ? 'shown' : 'not shown',
    unit,
    perYear: rounded(rate.perYear, 4),
    u: rounded(rate.u, 4),
    interval: rate.interval.map((end) => rounded(end, 4)),
    steady,
    ranks: ranks.ok
      ? {
          slope: rounded(ranks.theilSen.slope, 4),
          ...(ranks.theilSen.interval && {
            interval: ranks.theilSen.interval.map((end) => rounded(end, 4)),
          }),
          s: ranks.mannKendall.s,
          probability: rounded(ranks.mannKendall.twoSided, 6),
        }
      : { reason: ranks.reason, needed: ranks.needed },
    ...(reach && { reach }),
    figures,
  };
}
