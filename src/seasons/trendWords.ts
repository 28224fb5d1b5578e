import { measuredParts, showAngle, showTolerance, type WorkUnit } from '../survey/figures.ts';
import type { NoTrend, Trend } from './trendOf.ts';

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
  const way = rate.perYear > 0 ? 'Growing' : 'Lessening';
  const turning = rate.perYear > 0 ? 'Turning down' : 'Turning up';
  const word = !shown
    ? 'No trend shown'
    : trend.measure === 'tail angle'
      ? turning
      : trend.measure === 'hollow' || trend.measure === 'hump'
        ? way
        : 'Changing';
  const size = shown ? Math.abs(rate.perYear) : rate.perYear;
  const signed =
    trend.measure === 'hollow' || trend.measure === 'hump' || trend.measure === 'tail angle';
  const findings = [
    `By ${showRate(signed ? size : rate.perYear, rate.u, trend.unit, unit)} a year, from ${n} surveys.`,
  ];
  if (shown && !steady) {
    findings.push(
      'Not at a steady rate: the surveys stand farther off a line than their uncertainties allow, and the rate is the less sure for it.',
    );
  }
  findings.push(...rankWords(trend, unit), ...reachWords(trend, tolerance, unit));
  return { word, findings };
}

function showRate(value: number, u: number, of: Trend['unit'], unit: WorkUnit): string {
  if (of === '°') return showAngle(value, u);
  const { size, spread } = measuredParts(value, u, unit);
  return `${size} ${unit} ± ${spread} ${unit}`;
}

function rankWords({ ranks, unit: of }: Trend, unit: WorkUnit): readonly string[] {
  if (!ranks.ok) {
    if (ranks.reason === 'all alike') return ['All surveys show the same: no order to speak of.'];
    return [
      `By order alone nothing can be said: ${ranks.needed} surveys are needed for the Theil-Sen slope's interval and the Mann-Kendall test.`,
    ];
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
  const until =
    reach.latest === undefined ? 'with no last day that can be given' : `and ${reach.latest}`;
  const between =
    reach.latest === undefined
      ? `from ${reach.earliest} on, ${until}`
      : `between ${reach.earliest} ${until}`;
  return [`If it goes on like this it reaches ${shown} ${between}.`];
}
