import { area, line, scaleLinear, ticks } from 'd3';
import type { Stability } from '../../src/running/planing/porpoising.ts';
import { SPEED_UNITS, showSpeed, type SpeedUnit } from '../../src/running/speedUnits.ts';
import type { CaseAtSpeed, CaseFigures } from '../../src/running/whatIf/whatIf.ts';
import { beginsWords, caseTitle } from '../../src/running/whatIf/whatIfWords.ts';
import { rounded, textSize, type DrawingSize } from './drawingSize.ts';
import { hatchPath, type Box } from './hatch.ts';
import type { Tick } from './profileTicks.ts';

/** One scale for the pictures that stand side by side. */
export interface RunningScale {
  /** m/s */
  readonly from: number;
  readonly to: number;
  /** Degrees. */
  readonly low: number;
  readonly high: number;
}

export interface RunningPlot {
  readonly width: number;
  readonly height: number;
  readonly em: number;
  readonly plot: Box;
  readonly title: string;
  readonly summary: string;
  readonly speeds: readonly Tick[];
  readonly speedUnit: string;
  readonly trims: readonly Tick[];
  /** Between the two accounts of the limit: the outline that hatching is cut to, and the hatching. */
  readonly band: string;
  readonly bandHatch: string;
  readonly beyond: string;
  readonly beyondHatch: string;
  readonly figure18: string;
  readonly celano: string;
  /** Of the boat as now, thin, where another case is drawn. */
  readonly asNow?: string;
  readonly spread: string;
  readonly trim: string;
  readonly marks: readonly {
    readonly key: string;
    readonly x: number;
    readonly y: number;
    readonly is: Stability;
  }[];
  /** Speeds of which nothing is told, at the foot. */
  readonly blanks: readonly number[];
  readonly at: { readonly x: number; readonly label: string; readonly anchor: 'start' | 'end' };
  readonly words: readonly { readonly x: number; readonly y: number; readonly text: string }[];
}

/** A scale on which every case fits. */
export function runningScale(cases: readonly CaseFigures[]): RunningScale {
  const all = cases.flatMap(({ curve }) => curve);
  const speeds = all.map(({ speed }) => speed);
  const degrees = all.flatMap(({ runs, limit, spread }) => [
    ...(runs.ok ? [runs.trim] : []),
    ...(limit.ok ? [limit.low, limit.high] : []),
    ...(spread ? [spread.low, spread.high] : []),
  ]);
  if (degrees.length === 0) degrees.push(2, 10);
  return {
    from: Math.min(...speeds),
    to: Math.max(...speeds),
    low: Math.max(0, Math.floor(Math.min(...degrees) - 0.5)),
    high: Math.ceil(Math.max(...degrees) + 0.3),
  };
}

/** Trim against speed of one case, with its limit; `now`: the boat as now, for comparison. */
export function runningPlot(
  one: CaseFigures,
  {
    size,
    scale,
    unit,
    at,
    now,
  }: {
    readonly size: DrawingSize;
    readonly scale: RunningScale;
    readonly unit: SpeedUnit;
    readonly at: number;
    readonly now?: CaseFigures | undefined;
  },
): RunningPlot {
  const em = textSize(size);
  const plot: Box = {
    x: rounded(3 * em),
    y: rounded(3 * em),
    width: rounded(size.width - 4.2 * em),
    height: rounded(size.height - 6 * em),
  };
  const margin = 0.02 * (scale.to - scale.from || 1);
  const across = scaleLinear(
    [scale.from - margin, scale.to + margin],
    [plot.x, plot.x + plot.width],
  );
  const up = scaleLinear([scale.low, scale.high], [plot.y + plot.height, plot.y]);
  const x = (speed: number) => rounded(across(speed));
  const y = (degrees: number) => rounded(up(degrees));
  const drawn = (curve: readonly CaseAtSpeed[], of: (p: CaseAtSpeed) => number | undefined) =>
    line<CaseAtSpeed>(
      ({ speed }) => x(speed),
      (p) => y(of(p) as number),
    ).defined((p) => of(p) !== undefined)(curve) ?? '';
  const filled = (
    low: (p: CaseAtSpeed) => number | undefined,
    high: (p: CaseAtSpeed) => number | undefined,
  ) =>
    area<CaseAtSpeed>(
      ({ speed }) => x(speed),
      (p) => y(low(p) as number),
      (p) => y(high(p) as number),
    ).defined((p) => low(p) !== undefined && high(p) !== undefined)(one.curve) ?? '';
  const trimOf = (p: CaseAtSpeed) => (p.runs.ok ? p.runs.trim : undefined);
  const lowOf = (p: CaseAtSpeed) => (p.limit.ok ? p.limit.low : undefined);
  const highOf = (p: CaseAtSpeed) => (p.limit.ok ? p.limit.high : undefined);
  const size1 = SPEED_UNITS[unit];
  return {
    width: size.width,
    height: size.height,
    em,
    plot,
    title: caseTitle(one.name),
    summary: plotSummary(one, unit),
    speeds: ticks(scale.from / size1, scale.to / size1, plot.width / em > 26 ? 8 : 5).map(
      (value) => ({ at: x(value * size1), label: String(value) }),
    ),
    speedUnit: unit,
    trims: ticks(scale.low, scale.high, 6)
      .filter(Number.isInteger)
      .map((value) => ({ at: y(value), label: `${value}°` })),
    band: filled(lowOf, highOf),
    bandHatch: hatchPath(plot, 0.45 * em, 'rising'),
    beyond: filled(highOf, (p) => (p.limit.ok ? scale.high : undefined)),
    beyondHatch: hatchPath(plot, 1.2 * em, 'falling'),
    figure18: drawn(one.curve, ({ limit }) => (limit.ok ? limit.figure18 : undefined)),
    celano: drawn(one.curve, ({ limit }) => (limit.ok ? limit.celano : undefined)),
    ...(now && { asNow: drawn(now.curve, trimOf) }),
    spread: filled(
      ({ spread }) => spread?.low,
      ({ spread }) => spread?.high,
    ),
    trim: drawn(one.curve, trimOf),
    marks: one.curve.flatMap(({ speed, runs, stability }) =>
      runs.ok ? [{ key: String(speed), x: x(speed), y: y(runs.trim), is: stability }] : [],
    ),
    blanks: one.curve.flatMap(({ speed, runs }) => (runs.ok ? [] : [x(speed)])),
    at: {
      x: x(at),
      label: showSpeed(at, unit),
      anchor: x(at) > plot.x + plot.width / 2 ? 'end' : 'start',
    },
    words: wordsIn(one.curve, scale, x, y, em),
  };
}

/** "beyond it" and "stable" where there is room for them. */
function wordsIn(
  curve: readonly CaseAtSpeed[],
  scale: RunningScale,
  x: (speed: number) => number,
  y: (degrees: number) => number,
  em: number,
) {
  const told = curve.filter(({ limit }) => limit.ok);
  const [first, last] = [told.at(0), told.at(-1)];
  if (!first?.limit.ok || !last?.limit.ok) return [];
  const room = (from: number, to: number) => Math.abs(y(from) - y(to)) > 2.6 * em;
  return [
    ...(room(last.limit.high, scale.high)
      ? [{ x: x(last.speed), y: y(scale.high) + 1.4 * em, text: 'beyond it', anchor: 'end' }]
      : []),
    ...(room(first.limit.low, scale.low)
      ? [{ x: x(first.speed), y: y(scale.low) - 0.7 * em, text: 'stable', anchor: 'start' }]
      : []),
    ...(x(scale.to) - x(last.speed) > 3 * em
      ? [
          {
            x: x(last.speed),
            y: y((last.limit.low + last.limit.high) / 2) + 1.6 * em,
            text: 'limit',
            anchor: 'start',
          },
        ]
      : []),
  ].map(({ anchor, ...rest }) => ({
    ...rest,
    x: anchor === 'end' ? rest.x - 5.2 * em : rest.x + 0.4 * em,
  }));
}

/** What the picture shows, to be read aloud. */
export function plotSummary(one: CaseFigures, unit: SpeedUnit): string {
  const told = one.curve.filter(({ runs }) => runs.ok);
  const [first, last] = [told.at(0), told.at(-1)];
  if (!first?.runs.ok || !last?.runs.ok) {
    return `Trim against speed, ${one.name}: not told at any of these speeds.`;
  }
  const stretches: { is: Stability; from: number; to: number }[] = [];
  for (const { speed, stability } of told) {
    const open = stretches.at(-1);
    if (open?.is === stability) open.to = speed;
    else stretches.push({ is: stability, from: speed, to: speed });
  }
  const parts = stretches.map(({ is, from, to }) => {
    const name = is === 'not told' ? 'limit not told' : is;
    return from === to
      ? `${name} at ${showSpeed(from, unit)}`
      : `${name} from ${showSpeed(from, unit)} to ${showSpeed(to, unit)}`;
  });
  return `Trim against speed, ${one.name}: from ${first.runs.trim.toFixed(1)}° at ${showSpeed(first.speed, unit)} to ${last.runs.trim.toFixed(1)}° at ${showSpeed(last.speed, unit)}; ${parts.join(', ')}. Porpoises: ${beginsWords(one.begins, unit)}.`;
}
