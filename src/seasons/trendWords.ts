import { measuredParts, showAngle, showTolerance, type WorkUnit } from '../survey/figures.ts';
import { SURVEYS_FOR_RANKS } from '../fit/mannKendall.ts';
import type { Measure, NoTrend, Trend } from './trendOf.ts';

/** A trend in words: what, how fast, how sure, and when it reaches the tolerance. */
export interface TrendWords {
  readonly word: string;
  readonly findings: readonly string[];
}

/** `tolerance`: mm, as the trend was asked with. */
export function trendWords(trend: Trend | NoTrend, tolerance: number, unit: WorkUnit): TrendWords {
  const n = trend.figures.length;
  if (!trend.ok) {
    const two =
      n === 2 ? 'Two surveys give a change, not a trend' : `${n} survey${n === 1 ? '' : 's'}`;
    const why =
      trend.reason === 'one day only'
        ? 'All surveys are of one day.'
        : `${two}: ${trend.needed} are needed.`;
    return { word: 'No trend', findings: [why] };
  }
  const { rate, shown, steady } = trend;
  const word = shown ? WORDS[trend.measure][rate.perYear > 0 ? 0 : 1] : 'No trend shown';
  // The word says which way it goes; a difference between the sides, and what is not shown, keep their sign.
  const perYear = shown && word !== 'Changing' ? Math.abs(rate.perYear) : rate.perYear;
  const findings = [`By ${showRate(perYear, rate.u, trend.unit, unit)} a year, from ${n} surveys.`];
  if (shown && !steady) {
    findings.push(
      'Not at a steady rate: the surveys stand farther off a line than their uncertainties allow, and the rate is the less sure for it.',
    );
  }
  findings.push(...rankWords(trend, unit), ...reachWords(trend, tolerance, unit));
  return { word, findings };
}

/** Of a measure that grows, and of one that lessens. */
const WORDS: Readonly<Record<Measure, readonly [string, string]>> = {
  hollow: ['Growing', 'Lessening'],
  hump: ['Growing', 'Lessening'],
  'tail angle': ['Turning down', 'Turning up'],
  'hollow, port less starboard': ['Changing', 'Changing'],
  'hump, port less starboard': ['Changing', 'Changing'],
  twist: ['Changing', 'Changing'],
};

/** What is said once where too few surveys stand for ranks. */
export const RANKS_WAIT = `By order alone nothing can be said: ${SURVEYS_FOR_RANKS} surveys are needed for the interval of a Theil-Sen slope and for the Mann-Kendall test.`;

function showRate(value: number, u: number, of: Trend['unit'], unit: WorkUnit): string {
  if (of === '°') return showAngle(value, u);
  const { size, spread } = measuredParts(value, u, unit);
  return `${size} ${unit} ± ${spread} ${unit}`;
}

function rankWords({ ranks, unit: of }: Trend, unit: WorkUnit): readonly string[] {
  if (!ranks.ok) {
    return ranks.reason === 'all alike' ? ['All surveys show the same: no order to speak of.'] : [];
  }
  const { theilSen, mannKendall } = ranks;
  const chance = mannKendall.twoSided;
  const shown = chance < 0.001 ? 'less than 0.001' : chance.toFixed(3);
  const rate = (value: number) =>
    of === '°'
      ? `${value.toFixed(2)}°`
      : unit === 'mm'
        ? `${value.toFixed(2)} mm`
        : `${(value / 25.4).toFixed(3)} in`;
  const between =
    theilSen.interval === undefined
      ? ''
      : `, between ${rate(theilSen.interval[0])} and ${rate(theilSen.interval[1])}`;
  return [
    `By order alone: ${rate(theilSen.slope)} a year${between} (Theil-Sen); without a trend such an order has a probability of ${shown} (Mann-Kendall).`,
  ];
}

function reachWords({ reach }: Trend, tolerance: number, unit: WorkUnit): readonly string[] {
  if (reach === undefined) return [];
  const shown = showTolerance(tolerance, unit);
  if (reach.when === 'beyond already') return [`Beyond the tolerance of ${shown} already.`];
  if (reach.when === 'not on this course') return [`On this course it does not reach ${shown}.`];
  if (reach.when === 'no trend shown') return [];
  const when =
    reach.latest === undefined
      ? `from ${reach.earliest} on, with no last day that can be given`
      : `between ${reach.earliest} and ${reach.latest}`;
  return [`If it goes on like this it reaches ${shown} ${when}.`];
}
