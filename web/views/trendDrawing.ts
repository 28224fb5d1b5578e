import { area, ticks } from 'd3';
import { weightedLineAt, widening } from '../../src/fit/weightedLine.ts';
import type { Baseline, TrendSubject } from '../../src/seasons/hullTrends.ts';
import { DAYS_A_YEAR, daysOf } from '../../src/seasons/season.ts';
import type { ToldTrends } from '../../src/seasons/told.ts';
import { MEASURES, type Measure, type NoTrend, type Trend } from '../../src/seasons/trendOf.ts';
import { trendWords } from '../../src/seasons/trendWords.ts';
import {
  showAngle,
  showLine,
  showMeasured,
  showTolerance,
  type WorkUnit,
} from '../../src/survey/figures.ts';
import { capital, listed } from '../../src/survey/sentence.ts';
import { showLength } from '../../src/survey/units.ts';
import { rounded, textSize, type DrawingSize } from './drawingSize.ts';
import type { Box } from './hatch.ts';
import type { Tick } from './profileTicks.ts';
import { inOrder } from './seasonsLines.ts';

/** One measure of a line, or of a pair of lines, against date. */
export interface TrendPicture {
  readonly key: string;
  readonly title: string;
  /** "P700", "P700 less S700". */
  readonly name: string;
  /** Of each baseline, the last first: its name, the word, and what is said. */
  readonly said: readonly {
    readonly period: string;
    readonly word: string;
    readonly findings: readonly string[];
  }[];
  /** Each figure with its date: the table beside the picture. */
  readonly rows: readonly {
    readonly day: string;
    readonly figure: string;
    readonly former: boolean;
  }[];
  readonly summary: string;
  readonly baselines: readonly {
    readonly trend: Trend | NoTrend;
    readonly former: boolean;
    /** The repair that begins it. */
    readonly since?: { readonly day: string };
  }[];
}

export interface TrendScale {
  readonly from: number;
  readonly to: number;
  readonly low: number;
  readonly high: number;
}

export interface TrendDrawing {
  readonly width: number;
  readonly height: number;
  readonly em: number;
  readonly plot: Box;
  readonly unit: string;
  readonly years: readonly Tick[];
  readonly values: readonly Tick[];
  readonly zero: number;
  readonly tolerance?: { readonly y: number; readonly label: string };
  readonly repairs: readonly { readonly x: number; readonly label: string }[];
  readonly points: readonly {
    readonly key: string;
    readonly x: number;
    readonly y: number;
    /** Ends of the bar: twice the standard uncertainty either way. */
    readonly high: number;
    readonly low: number;
    readonly former: boolean;
  }[];
  readonly lines: readonly {
    readonly key: string;
    readonly path: string;
    readonly band: string;
    readonly shown: boolean;
    readonly former: boolean;
  }[];
}

/** Measures that a hull's trends have, in the house's order. */
export function measuresIn({ pairs }: ToldTrends): readonly Measure[] {
  return MEASURES.filter((_, i) => i < 3 || pairs.length > 0);
}

/** Every line, or pair, of one measure. */
export function trendPictures(
  trends: ToldTrends,
  measure: Measure,
  unit: WorkUnit,
): readonly TrendPicture[] {
  const subjects = MEASURES.indexOf(measure) < 3 ? trends.lines : trends.pairs;
  return [...subjects]
    .sort((a, b) => inOrder(a.line, b.line))
    .map((subject) => pictureOf(subject, measure, trends.tolerance, unit));
}

function pictureOf(
  { line, starboard, baselines }: TrendSubject,
  measure: Measure,
  tolerance: number,
  unit: WorkUnit,
): TrendPicture {
  const where = showLine(line.side, line.offset, unit);
  const title =
    starboard === undefined
      ? `${line.name} · ${line.side.toUpperCase()}`
      : `${line.name} · PORT less ${starboard.name} · STARBOARD`;
  const named =
    starboard === undefined ? `${line.name}, ${where}` : `${line.name} less ${starboard.name}`;
  const parts = baselines.flatMap((baseline, i) => {
    const trend = baseline.trends.find((each) => each.measure === measure);
    return trend === undefined ? [] : [{ baseline, trend, former: i < baselines.length - 1 }];
  });
  const said = [...parts].reverse().map(({ baseline, trend }) => ({
    period: periodWords(baseline),
    ...trendWords(trend, tolerance, unit),
  }));
  return {
    key: `${line.id}/${starboard?.id ?? ''}`,
    title,
    name: starboard === undefined ? line.name : `${line.name} less ${starboard.name}`,
    said,
    rows: parts.flatMap(({ trend, former }) =>
      trend.figures.map(({ day, value, u }) => ({
        day,
        former,
        figure: isAngle(measure) ? showAngle(value, u) : showMeasured(value, u, unit),
      })),
    ),
    summary: `${capital(measure)} of ${named} against date. ${said
      .map(({ period, word, findings }) =>
        [period, `${word}.`, ...findings].filter(Boolean).join(' '),
      )
      .join(' ')}`,
    baselines: parts.map(({ baseline, trend, former }) => ({
      trend,
      former,
      ...(baseline.since && { since: { day: baseline.since.date } }),
    })),
  };
}

/** "Since the repair of 2026-03-14 (filled)." Empty where there was none. */
function periodWords({ since, until }: Baseline): string {
  const parts = [
    ...(since ? [`since the repair of ${since.date} (${since.what})`] : []),
    ...(until ? [`before the repair of ${until.date} (${until.what})`] : []),
  ];
  return parts.length === 0 ? '' : `${capital(parts.join(' and '))}:`;
}

/** What the pictures show in a sentence or two, of the time since the last repair of each. */
export function trendSummary(pictures: readonly TrendPicture[], measure: Measure): string {
  const words = new Map<string, string[]>();
  for (const { name, said } of pictures) {
    const word = said[0]?.word ?? 'No trend';
    words.set(word, [...(words.get(word) ?? []), name]);
  }
  const last = (word: string) => Number(word.startsWith('No trend'));
  return `${capital(measure)}. ${[...words]
    .sort(([a], [b]) => last(a) - last(b))
    .map(([word, names]) => `${word}: ${listed(names)}.`)
    .join(' ')}`;
}

/** One scale for all pictures of a measure. `tolerance`: mm, where the measure has one. */
export function trendScale(pictures: readonly TrendPicture[], tolerance?: number): TrendScale {
  const figures = pictures.flatMap(({ baselines }) =>
    baselines.flatMap(({ trend }) => trend.figures),
  );
  const repairs = pictures.flatMap(({ baselines }) =>
    baselines.flatMap(({ since }) => (since ? [yearsOf(since.day)] : [])),
  );
  const years = [...figures.map((f) => f.years), ...repairs];
  const ends = figures.flatMap(({ value, u }) => [value - 2 * u, value + 2 * u]);
  const low = Math.min(0, ...ends);
  const high = Math.max(0, ...ends, ...(tolerance === undefined ? [] : [1.1 * tolerance]));
  const span = high - low > 0 ? high - low : 1;
  const [from, to] = years.length === 0 ? [0, 1] : [Math.min(...years), Math.max(...years)];
  const margin = Math.max(0.12, 0.06 * (to - from));
  return { from: from - margin, to: to + margin, low: low - 0.06 * span, high: high + 0.08 * span };
}

export function trendDrawing(
  { baselines }: TrendPicture,
  {
    size,
    scale,
    measure,
    unit,
    tolerance,
  }: {
    readonly size: DrawingSize;
    readonly scale: TrendScale;
    readonly measure: Measure;
    readonly unit: WorkUnit;
    readonly tolerance?: number | undefined;
  },
): TrendDrawing {
  const em = textSize(size);
  const plot: Box = {
    x: rounded(4.2 * em),
    y: rounded(2.6 * em),
    width: rounded(size.width - 5.4 * em),
    height: rounded(size.height - 5 * em),
  };
  const x = (years: number) =>
    rounded(plot.x + ((years - scale.from) / (scale.to - scale.from)) * plot.width);
  const y = (value: number) =>
    rounded(plot.y + plot.height - ((value - scale.low) / (scale.high - scale.low)) * plot.height);
  const angle = isAngle(measure);
  return {
    width: size.width,
    height: size.height,
    em,
    plot,
    unit: angle ? 'degrees' : unit,
    years: yearTicks(scale, plot.width / em).map((tick) => ({ ...tick, at: x(tick.at) })),
    values: valueTicks(scale, angle ? '°' : unit).map((tick) => ({ ...tick, at: y(tick.at) })),
    zero: y(0),
    ...(tolerance !== undefined && {
      tolerance: { y: y(tolerance), label: `tolerance ${showTolerance(tolerance, unit)}` },
    }),
    repairs: baselines.flatMap(({ since }) =>
      since ? [{ x: x(yearsOf(since.day)), label: `repair ${since.day}` }] : [],
    ),
    points: baselines.flatMap(({ trend, former }, i) =>
      trend.figures.map(({ day, years, value, u }, k) => ({
        key: `${i}/${k}/${day}`,
        x: x(years),
        y: y(value),
        high: y(value + 2 * u),
        low: y(value - 2 * u),
        former,
      })),
    ),
    lines: baselines.flatMap(({ trend, former }, i) =>
      trend.ok ? [{ key: String(i), former, shown: trend.shown, ...drawnLine(trend, x, y) }] : [],
    ),
  };
}

/** The weighted line over the time surveyed, with its interval of 95 %, widened where the surveys stand too far off. */
function drawnLine({ line }: Trend, x: (years: number) => number, y: (value: number) => number) {
  const [from, to] = line.domain;
  const k = 1.96 * widening(line);
  const at = Array.from({ length: 25 }, (_, i) => {
    const years = from + ((to - from) * i) / 24;
    return { years, ...weightedLineAt(line, years) };
  });
  const band = area<(typeof at)[number]>(
    (p) => x(p.years),
    (p) => y(p.y - k * p.u),
    (p) => y(p.y + k * p.u),
  )(at);
  const [first, last] = [at[0], at[at.length - 1]];
  return {
    path: `M${x(first.years)},${y(first.y)}L${x(last.years)},${y(last.y)}`,
    band: band as string,
  };
}

function yearTicks({ from, to }: TrendScale, ems: number): readonly Tick[] {
  const first = Math.ceil(from + 1970);
  const last = Math.floor(to + 1970);
  const step = Math.max(1, Math.ceil(((last - first + 1) * 3.4) / ems));
  const all = Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => first + i);
  return all
    .filter((year) => (year - first) % step === 0)
    .map((year) => ({ at: yearsOf(`${year}-01-01`), label: String(year) }));
}

function valueTicks({ low, high }: TrendScale, unit: WorkUnit | '°'): readonly Tick[] {
  if (unit === 'in') {
    const step =
      [1 / 32, 1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2].find(
        (each) => (high - low) / (each * 25.4) <= 7,
      ) ?? 4;
    const mm = step * 25.4;
    const first = Math.ceil(low / mm);
    return Array.from({ length: Math.floor(high / mm) - first + 1 }, (_, i) => ({
      at: (first + i) * mm,
      label: `${first + i < 0 ? '−' : ''}${showLength(Math.abs((first + i) * mm), { unit, denominator: 32 })}`,
    }));
  }
  return ticks(low, high, 5).map((value) => ({
    at: value,
    label: String(Number(value.toFixed(3))).replace('-', '−'),
  }));
}

function yearsOf(day: string): number {
  return daysOf(day) / DAYS_A_YEAR;
}

export function isAngle(measure: Measure): boolean {
  return measure === 'tail angle' || measure === 'twist';
}

/** Only of a hollow or a hump does a tolerance speak. */
export function toleranceOf(measure: Measure, tolerance: number): number | undefined {
  return measure === 'hollow' || measure === 'hump' ? tolerance : undefined;
}

/** Heads of the table of all figures, and a row a survey. */
export function trendTable(pictures: readonly TrendPicture[]): {
  readonly heads: readonly string[];
  readonly rows: readonly { readonly day: string; readonly cells: readonly string[] }[];
} {
  const days = [...new Set(pictures.flatMap(({ rows }) => rows.map(({ day }) => day)))].sort();
  return {
    heads: pictures.map(({ title }) => title),
    rows: days.map((day) => ({
      day,
      cells: pictures.map(({ rows }) =>
        rows
          .filter((row) => row.day === day)
          .map(({ figure }) => figure)
          .join('; '),
      ),
    })),
  };
}
