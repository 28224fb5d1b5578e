import { max, min, ticks } from 'd3';
import { heightOn } from '../../src/fairing/straightReference.ts';
import type { FairingTarget } from '../../src/fairing/target.ts';
import type { LineAssessment } from '../../src/survey/assessment.ts';
import type { WorkUnit } from '../../src/survey/figures.ts';
import { UNITS, showLength } from '../../src/survey/units.ts';
import { sectionMarks, type SectionMark } from './sheetSections.ts';

/** A line's profile as it is drawn on the worksheet. All lengths are mm on paper unless said otherwise; the reference
 *  lies level, TRANSOM left, forward right, the water side down. */
export interface ProfileDrawing {
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  /** Height of the reference line. */
  readonly level: number;
  readonly fit: string;
  readonly band: readonly [string, string];
  readonly tolerance: { readonly y: readonly [number, number]; readonly label: string };
  readonly readings: readonly {
    readonly x: number;
    readonly y: number;
    readonly low: number;
    readonly high: number;
    readonly judged: boolean;
  }[];
  /** Upright strokes from the reference to the surface. */
  readonly strokes: readonly {
    readonly x: number;
    readonly to: number;
    readonly is: 'fill' | 'proud';
  }[];
  readonly sections: readonly SectionMark[];
  readonly along: readonly { readonly x: number; readonly label: string }[];
  readonly across: readonly { readonly y: number; readonly label: string }[];
  /** Where judging ends, where the drawing goes on. */
  readonly limit?: number;
  /** Readings ahead of the limit that would lie off the paper. */
  readonly offPaper: number;
  readonly times: number;
}

/** One scale for all lines of a survey, so that their figures compare by eye. */
export interface SheetScale {
  /** mm on paper a mm along the hull. */
  readonly along: number;
  /** Exaggeration across, as printed. */
  readonly times: number;
  /** Farthest forward that is drawn, mm on the hull. */
  readonly end: number;
}

interface LineDrawn {
  readonly line: LineAssessment;
  readonly target: FairingTarget;
}

const TIMES = [1, 2, 5, 10, 20, 25, 40, 50, 75, 100] as const;
const TALLEST = 36;
const ROOM = { left: 18, right: 16, top: 7, bottom: 17 } as const;

export function sheetScale(lines: readonly LineDrawn[], width: number): SheetScale {
  const end = max([1, ...lines.flatMap(({ line }) => line.points.map((p) => p.station))]) as number;
  const along = (width - ROOM.left - ROOM.right) / end;
  const extents = lines.flatMap((drawn) => {
    const [low, high] = extentOf(drawn);
    return [high - low];
  });
  const most = max([0.5, ...extents]) as number;
  const fitting = TIMES.filter((times) => most * along * times <= TALLEST);
  return { along, end, times: fitting[fitting.length - 1] ?? 1 };
}

/** Undefined where the line could not be fitted: there is nothing to draw against. */
export function sheetProfile(
  drawn: LineDrawn,
  scale: SheetScale,
  {
    width,
    tolerance,
    unit,
  }: { width: number; tolerance: { gap: number; label: string }; unit: WorkUnit },
): ProfileDrawing | undefined {
  const { line, target } = drawn;
  if (!target.ok || !line.outcome.ok) return undefined;
  const { profile, sections, judged } = line.outcome.judgement;
  const [low, high] = extentOf(drawn);
  const across = scale.along * scale.times;
  const x = (mm: number) => round(ROOM.left + mm * scale.along);
  const roomy = Math.max(0, 12 - (high - low) * across) / 2;
  const top = ROOM.top;
  const y = (d: number) => round(top + roomy + (d - low) * across);
  const bottom = round(y(high) + roomy);
  const departures = profile.map(({ x: at, z, u }) => ({
    at,
    d: z - heightOn(target.line, at),
    u,
  }));
  const path = (of: (p: (typeof departures)[number]) => number) =>
    `M${departures.map((p) => `${x(p.at)},${y(of(p))}`).join('L')}`;
  const step = UNITS[unit].mm;
  const readings = line.points.flatMap(({ station, z, u, judged: counts }) => {
    if (z === undefined) return [];
    const d = z - heightOn(target.line, station);
    return [{ x: x(station), y: y(d), low: y(d - 2 * u), high: y(d + 2 * u), judged: counts }];
  });
  const onPaper = readings.filter((r) => r.judged || (r.y >= top - 3 && r.y <= bottom + 3));
  const strokes = departures.flatMap(({ at, d }, i) => {
    const is = d < 0 ? ('fill' as const) : ('proud' as const);
    const every = is === 'fill' ? 2 : 1;
    const far = Math.abs(d) * across > 0.4;
    return far && i % every === 0 ? [{ x: x(at), to: y(d), is }] : [];
  });
  return {
    width,
    height: round(bottom + ROOM.bottom),
    left: ROOM.left,
    right: round(width - ROOM.right),
    top,
    bottom,
    level: y(0),
    fit: path((p) => p.d),
    band: [path((p) => p.d - 2 * p.u), path((p) => p.d + 2 * p.u)],
    tolerance: { y: [y(0), y(-tolerance.gap)], label: tolerance.label },
    readings: onPaper,
    strokes,
    sections: sectionMarks(sections, x),
    along: alongTicks(scale.end, unit).map((mm) => ({
      x: x(mm),
      label: String(Math.round(mm / step)),
    })),
    across: acrossTicks(low, high, across, unit).map((d) => ({
      y: y(d),
      label: depthLabel(d, unit),
    })),
    ...(judged[1] < scale.end - 1 && { limit: x(judged[1]) }),
    offPaper: readings.length - onPaper.length,
    times: scale.times,
  };
}

/** Hollowest and proudest that is drawn of a line, mm on the hull against the reference. */
function extentOf({ line, target }: LineDrawn): readonly [number, number] {
  if (!target.ok || !line.outcome.ok) return [0, 0];
  const { profile } = line.outcome.judgement;
  const reference = target.line;
  const places = [
    ...profile.map(({ x, z, u }) => ({ d: z - heightOn(reference, x), u })),
    ...line.points.flatMap(({ station, z, u, judged }) =>
      z === undefined || !judged ? [] : [{ d: z - heightOn(reference, station), u }],
    ),
  ];
  return [
    min([0, ...places.map(({ d, u }) => d - 2 * u)]) as number,
    max([0, ...places.map(({ d, u }) => d + 2 * u)]) as number,
  ];
}

function alongTicks(end: number, unit: WorkUnit): readonly number[] {
  const { mm } = UNITS[unit];
  if (unit === 'mm') return ticks(0, end, 8);
  const step = [6, 12, 24, 48].find((each) => end / mm / each <= 11) ?? 96;
  return Array.from({ length: Math.floor(end / mm / step + 1e-9) + 1 }, (_, i) => i * step * mm);
}

/** A few depths either side of the reference, no closer on paper than their labels are tall. */
function acrossTicks(low: number, high: number, across: number, unit: WorkUnit): readonly number[] {
  const steps =
    unit === 'mm'
      ? [0.5, 1, 2, 5, 10, 20, 50]
      : [1 / 32, 1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2].map((part) => part * 25.4);
  const step = steps.find((each) => each * across >= 5) ?? steps[steps.length - 1];
  const from = Math.ceil(low / step);
  const to = Math.floor(high / step);
  return Array.from({ length: to - from + 1 }, (_, i) => (from + i) * step);
}

/** Unsigned: which side of the reference it lies on says whether it is hollow or proud. */
function depthLabel(d: number, unit: WorkUnit): string {
  const size = Math.abs(d);
  return unit === 'mm'
    ? String(Number(size.toFixed(2)))
    : showLength(size, { unit, denominator: 32 });
}

function round(mm: number): number {
  return Math.round(mm * 100) / 100;
}
